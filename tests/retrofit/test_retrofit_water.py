"""The hung unit on its water loop: its heat reaches the loop, and its name is one that the loop has."""

from typing import Any

import pytest

from kneewall.kernel.refusal import Refusal
from kneewall.retrofit.scenario import MENDED
from tests.asking import answer, value
from tests.retrofit.test_retrofit_check import changed, conflict


def test_the_heat_of_the_hung_unit_reaches_the_loop() -> None:
    """By hand: 34,000 Btu/h and 2,150 W x 3.4121 = 41,336 Btu/h go into the water; a gallon a minute of water carries 500.6 Btu/h a degree near 60 degF
    (8.345 lb/gal x 60 x 0.9995), so 15 degF of rise take 41,336/(500.6 x 15) = 5.50 gpm. From the water go 38,000 - 9,895 = 28,105 Btu/h."""
    loop = answer("retrofit-check", MENDED)["result"]["parts"]["water-loop-flow"]
    need = next(need for need in loop["result"]["required"] if need["unit"] == "upstairs")
    assert need["governed_by"] == "heat-rejected"
    assert value(need["flow"], "gpm") == pytest.approx(5.50, abs=0.02)
    upstairs = next(unit for unit in loop["result"]["units"] if unit["id"] == "upstairs")
    assert value(upstairs["heat_rejected"], "Btu/h") == pytest.approx(41336, abs=2)
    assert value(upstairs["heat_absorbed"], "Btu/h") == pytest.approx(28105, abs=2)
    assert {"rise in upstairs", "leaving water of upstairs"} <= {check["check"] for check in loop["checks"]}


def test_cold_water_fails_although_the_least_flow_of_the_maker_runs() -> None:
    """At 44 degF the water may fall 6 degF to 38: 28,105/(501 x 6) = 9.3 gpm, and a regulator holds 7."""
    found = answer("retrofit-check", changed(MENDED, "water_loop_flow", "entering_water", to="44 degF"))["result"]
    assert found["verdict"] == "fails"
    assert any(finding["says"].startswith("upstairs gets 7.041 gpm but needs 9.3") for finding in found["first"])


def test_the_duty_of_the_shared_facts_is_enough_without_a_least_flow() -> None:
    units = [{name: given for name, given in unit.items() if name != "minimum_flow"} for unit in MENDED["water_loop_flow"]["units"]]
    found = answer("retrofit-check", changed(MENDED, "water_loop_flow", "units", to=units))["result"]
    assert found["verdict"] == "refer"


def test_a_duty_stated_on_the_loop_is_never_replaced() -> None:
    stated = changed(MENDED, "water_loop_flow", "units", 0, "cooling", to={"capacity": "30 MBH", "power": "2000 W"})
    unit = answer("retrofit-check", stated)["result"]["questions"]["water-loop-flow"]["units"][0]
    assert value(unit["cooling"]["capacity"], "Btu/h") == pytest.approx(30000)


def test_a_unit_that_the_loop_does_not_have_is_refused_at_its_field() -> None:
    with pytest.raises(Refusal) as refused:
        answer("retrofit-check", changed(MENDED, "unit", "loop_unit", to="upstair"))
    assert [fault.pointer for fault in refused.value.faults] == ["/unit/loop_unit"]


PACKAGED = changed(changed(MENDED, "unit", "loop_water", to=True), "condensate_drain", "auxiliary_pan", "leak_shutoff", to=True)
"""The sample as if the water coil hung in the attic, with a leak sensor in the pan."""


def test_a_valve_behind_the_unit_does_not_stop_a_broken_hose() -> None:
    """Shut on the leaving side, the break stays on the supply's pressure; on the main, before the units, nothing feeds it."""
    leaving = conflict(PACKAGED, "pan and loop leak")
    assert leaving["verdict"] == "fails" and "runs on" in leaving["says"]
    on_main = changed(
        changed(PACKAGED, "water_loop_flow", "control_valve", "on", to="main"), "water_loop_flow", "control_valve", "rests", to="closed"
    )
    found = conflict(on_main, "pan and loop leak")
    assert found["verdict"] == "meets" and "passes more" in found["says"]


@pytest.mark.parametrize(
    ("rests", "verdict", "words"),
    [("open", "fails", "does not count (main)"), (None, "watch", "not said how that valve stands"), ("closed", "meets", "try that it closes")],
)
def test_a_valve_that_is_open_without_power_does_not_close(rests: str | None, verdict: str, words: str) -> None:
    """What a valve does without power is what its kind says: normally open, or normally closed."""
    on_main = changed(PACKAGED, "water_loop_flow", "control_valve", "on", to="main")
    found = conflict(on_main if rests is None else changed(on_main, "water_loop_flow", "control_valve", "rests", to=rests), "pan and loop leak")
    assert found["verdict"] == verdict and words in found["says"]


def test_the_drain_learns_from_the_loop_where_the_leak_valve_stands() -> None:
    on_main = changed(
        changed(PACKAGED, "water_loop_flow", "control_valve", "on", to="main"), "water_loop_flow", "control_valve", "rests", to="closed"
    )
    for job, valve in ((PACKAGED, "leaving-side"), (on_main, "supply-side")):
        assert answer("retrofit-check", job)["result"]["questions"]["condensate-drain"]["auxiliary_pan"]["leak_valve"] == valve
    stated = changed(on_main, "condensate_drain", "auxiliary_pan", "leak_valve", to="leaving-side")
    assert conflict(stated, "pan and loop leak")["verdict"] == "fails"


def test_a_break_is_fed_backward_through_the_other_unit_unless_a_check_valve_holds() -> None:
    """A valve in the unit's own feed alone: water still comes by way of the unit downstairs and the common return."""
    feed = changed(PACKAGED, "water_loop_flow", "pipes", 1, "valves", to=[{"kind": "motorized", "cv": 30, "rests": "closed"}])
    assert conflict(feed, "pan and loop leak")["verdict"] == "fails"
    held = changed(feed, "water_loop_flow", "pipes", 2, "valves", to=[{"kind": "check", "cv": 30}, {"kind": "flow-regulator", "flow": "7 gpm"}])
    assert conflict(held, "pan and loop leak")["verdict"] == "meets"


def test_no_loop_water_is_blamed_where_none_can_reach_the_pan() -> None:
    """The sample's water coil stands in the crawl space; and a job without a loop has no leak of one."""
    without = {name: part for name, part in PACKAGED.items() if name != "water_loop_flow"}
    for job in (MENDED, without):
        assert "pan and loop leak" not in {one["conflict"] for one in answer("retrofit-check", job)["result"]["conflicts"]}


PUMP = {"rated_lift": "12 ft", "stops_unit": True, "sump_depth": "6 in"}


def test_a_pump_that_lifts_high_enough_and_stops_the_unit_stands_in_for_height() -> None:
    """It must lift the missing fall and its sump's 6 in: with 3.98 in missing that is 9.98 in."""
    low = changed(MENDED, "elevations", "unit_base", to="18 ft")
    for pump, verdict in (
        (PUMP, "meets"),
        ({**PUMP, "rated_lift": "0.8 ft"}, "fails"),
        ({**PUMP, "stops_unit": False}, "fails"),
        ({"stops_unit": True}, "watch"),
    ):
        assert conflict(changed(low, "condensate_drain", "pump", to=pump), "hanging height and drain")["verdict"] == verdict


def test_a_planned_line_that_will_not_do_names_the_one_that_does() -> None:
    found = conflict(changed(MENDED, "refrigerant_line_sizing", "vapor_line", "size", to="1/2 in"), "one line, two modes")
    assert found["verdict"] == "fails" and "No single" not in found["says"]
    assert found["settle"] == "Run 5/8 in instead."


def short_of_water(length: str, **supply: str) -> dict[str, Any]:
    """The sample with thin, long branches to the hung unit's coil and without its control valve: only pipe or pressure helps."""
    job = MENDED
    for at in (1, 2):
        job = changed(changed(job, "water_loop_flow", "pipes", at, "nominal_size", to="1/2 in"), "water_loop_flow", "pipes", at, "length", to=length)
    job = changed(job, "water_loop_flow", "supply", to={**job["water_loop_flow"]["supply"], **supply})
    del job["water_loop_flow"]["control_valve"]
    return job


@pytest.mark.parametrize(("job", "begins", "words"), [
    (short_of_water("100 ft"), "About 48.77", "the plates of upstairs, downstairs, the tank must allow 68.77"),
    (short_of_water("300 ft"), "Larger pipe", "too much for the loop: Shut off, the highest pressure in the loop is 16"),
    (short_of_water("100 ft", cut_in="24 psig", cut_out="30 psig"), "About 50.86", "must allow 56.86"),
    (short_of_water("100 ft", cut_in="24 psig", cut_out="30 psig", rated_pressure="40 psig"), "Larger pipe", "above its rating of 40 psig"),
    (short_of_water("300 ft", cut_in="30 psig", cut_out="36 psig"), "Larger pipe", "more than any such loop is made for"),
    (short_of_water("100 ft", pump_flow="8 gpm"), "A pump that delivers more than 8 gpm", "larger pipe"),
])  # fmt: skip
def test_more_pressure_is_advised_only_where_the_loop_bears_it(job: dict[str, Any], begins: str, words: str) -> None:
    """By hand for the first: (5.504/4.959)^1.9 x 40 psig = 48.77 psig, and 20 psi of the switch more at cut-out: 68.77, below the 80 psi of IRC 2024 P2903.3.1
    (read in a summary). For the second: (5.504/2.784)^1.9 x 40 = 146 psig, 166 at cut-out. A question may state a cut-in up to 150 psig.
    """
    found = conflict(job, "water and supply")
    gets, needs = float(found["says"].split()[6]), float(found["says"].split()[2])
    if begins == "About 48.77":
        assert 40 * (needs / gets) ** 1.9 == pytest.approx(48.77, abs=0.02)
    assert found["verdict"] == "fails" and found["settle"].startswith(begins) and words in found["settle"]
