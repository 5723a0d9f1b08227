"""Heights and figures that the shared facts and a part both know: taken where the part is silent, held against each other where it is not."""

from typing import Any

import pytest

from kneewall.retrofit.scenario import MENDED
from tests.asking import answer, value
from tests.retrofit.test_retrofit_check import changed, conflict

HANGING = changed(changed(MENDED, "unit", "loop_water", to=True), "elevations", "loop_supply", to="0 ft")
"""The sample as if the water coil hung in the attic and the tank stood on the ground floor."""


def loop_of(job: dict[str, Any]) -> dict[str, Any]:
    return answer("retrofit-check", job)["result"]["parts"]["water-loop-flow"]["result"]  # type: ignore[no-any-return]


def conflicts_of(job: dict[str, Any]) -> set[str]:
    return {one["conflict"] for one in answer("retrofit-check", job)["result"]["conflicts"]}


def test_the_loop_takes_the_height_of_its_coil_from_the_job() -> None:
    """By hand: the coil hangs 18.75 ft above the tank, the column of water there takes 18.75 x 0.4333 psi/ft (52 °F) = 8.12 psi off its pressure at rest of 60 psig;
    the compressor in the crawl space stands as deep as the tank there.
    """
    job = changed(HANGING, "water_loop_flow", "control_valve", "on", to="leaving")
    nodes = {node["id"]: node for node in loop_of(job)["nodes"]}
    assert value(nodes["up in"]["elevation"], "ft") == pytest.approx(18.75)
    assert value(nodes["up in"]["pressure_shut"], "psig") == pytest.approx(60 - 8.12, abs=0.02)
    assert value({node["id"]: node for node in loop_of(MENDED)["nodes"]}["up in"]["elevation"], "ft") == 0


def test_the_outlet_s_height_is_taken_too() -> None:
    """-6 ft under a tank at -2 ft: 4 ft below it."""
    nodes = {node["id"]: node for node in loop_of(changed(MENDED, "elevations", "loop_discharge", to="-6 ft"))["nodes"]}
    assert value(nodes["discharge"]["elevation"], "ft") == pytest.approx(-4)


@pytest.mark.parametrize(("rise", "found"), [("18.75 ft", False), ("19.75 ft", False), ("19.8 ft", True), ("12 ft", True)])
def test_rises_that_the_loop_states_count_and_are_held_against_the_job(rise: str, found: bool) -> None:
    """18.75 ft by the elevations; a foot either way is where the coil sits in its unit."""
    job = changed(changed(HANGING, "water_loop_flow", "pipes", 0, "rise", to=rise), "water_loop_flow", "pipes", 1, "rise", to="0 ft")
    assert ("heights of the loop" in conflicts_of(job)) == found
    assert value({node["id"]: node for node in loop_of(job)["nodes"]}["up in"]["elevation"], "ft") == pytest.approx(float(rise.split()[0]))
    if found:
        one = conflict(job, "heights of the loop")
        assert one["verdict"] == "watch" and "upstairs" in one["says"]


def test_every_mixture_of_rises_and_elevations_is_answered() -> None:
    """Whatever of both is stated, nothing contradicts itself in what is filled in."""
    for at in range(6):
        job = changed(changed(HANGING, "water_loop_flow", "pipes", at, "rise", to="3 ft"), "elevations", "loop_discharge", to="5 ft")
        assert "nodes" in loop_of(job)
        assert "nodes" in loop_of(changed(job, "water_loop_flow", "discharge", to={"elevation": "2 ft"}))
        assert "nodes" in loop_of(changed(job, "water_loop_flow", "units", 0, "elevation", to="9 ft"))


def test_a_loop_that_is_taken_as_level_is_said_to_be() -> None:
    level = changed(MENDED, "elevations", "loop_supply", to=None)
    said = {one["what"]: one["says"] for one in answer("retrofit-check", level)["result"]["not_checked"]}
    assert "worked out as level" in said["heights of the loop"]
    assert "heights of the loop" not in {one["what"] for one in answer("retrofit-check", MENDED)["result"]["not_checked"]}


TWICE = [
    (("refrigerant_line_sizing", "indoor_above_outdoor"), "22.7 ft", False),  # 20.75 ft by the elevations, and 2 ft of unit
    (("refrigerant_line_sizing", "indoor_above_outdoor"), "10 ft", True),
    (("condensate_drain", "elevations", "receiver_rim"), "17.905 ft", False),  # 17.9 ft, and 1/8 in are 0.0104 ft
    (("condensate_drain", "elevations", "receiver_rim"), "17.92 ft", True),
    (("condensate_drain", "elevations", "pan_outlet"), "18.5 ft", True),
    (("condensate_drain", "cooling_capacity"), "35.5 MBH", False),  # 34 MBH, and 5 % of the larger
    (("condensate_drain", "cooling_capacity"), "36 MBH", True),
    (("condensate_drain", "pan_static_pressure"), "0.3 inH2O", True),
    (("equipment_hanging", "equipment", "weight"), "260 lb", True),
    (("refrigerant_line_sizing", "refrigerant"), "R-32", True),
    (("water_loop_flow", "units", 0, "cooling"), {"capacity": "30 MBH", "power": "2150 W"}, True),
    (("support_spacing",), {"code": "MSS-SP-58"}, False),
]


@pytest.mark.parametrize(("path", "to", "found"), TWICE)
def test_what_is_stated_twice_and_differs_is_said(path: tuple[Any, ...], to: Any, found: bool) -> None:
    job = changed(MENDED, *path, to=to)
    assert ("stated twice" in conflicts_of(job)) == found
    if found:
        one = conflict(job, "stated twice")
        assert one["verdict"] == "watch" and " /" not in one["says"] and "_" not in one["says"]


def test_the_figure_of_the_part_counts_and_both_are_named() -> None:
    one = conflict(changed(MENDED, "refrigerant_line_sizing", "indoor_above_outdoor", to="10 ft"), "stated twice")
    assert "indoor above outdoor is stated as 10 ft" in one["says"] and "it is 20.75 ft" in one["says"]
