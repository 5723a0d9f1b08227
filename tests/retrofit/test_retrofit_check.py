"""The whole job: every part as its own endpoint answers it, every clash provoked and settled, the take-off by hand."""

import copy
from typing import Any

import pytest

from kneewall.catalogue import all_calculations
from kneewall.kernel.refusal import Refusal
from kneewall.kernel.wire import write_json
from kneewall.retrofit.parts import CALCULATIONS
from kneewall.retrofit.scenario import FIRST, MENDED, PROVED
from tests.asking import answer, value

JOB = all_calculations()["retrofit-check"]


def changed(job: dict[str, Any], *path: Any, to: Any) -> dict[str, Any]:
    """A job with one thing changed."""
    new = copy.deepcopy(job)
    inside = new
    for step in path[:-1]:
        inside = inside[step]
    inside[path[-1]] = to
    return new


def conflict(job: dict[str, Any], name: str) -> dict[str, Any]:
    found = [one for one in answer("retrofit-check", job)["result"]["conflicts"] if one["conflict"] == name]
    assert found, name
    return found[0]  # type: ignore[no-any-return]


@pytest.mark.parametrize("part", CALCULATIONS)
def test_a_part_is_what_its_own_endpoint_answers(part: str) -> None:
    """The full question that the job made of a part, sent alone, gives the same bytes as inside the job."""
    for job in (FIRST, PROVED):
        found = JOB.answer(JOB.reader.plain(job))
        name = CALCULATIONS[part].name
        if job is FIRST and part in ("commissioning_check", "static_pressure_budget"):
            assert name not in found.result.questions
            continue
        alone = CALCULATIONS[part].answer(found.result.questions[name])
        assert write_json["ip"](alone) == write_json["ip"](getattr(found.result.parts, part))


@pytest.mark.parametrize("part", CALCULATIONS)
def test_the_printed_question_of_a_part_can_be_sent_as_it_stands(part: str) -> None:
    """Through JSON and back, as a client would: the same verdicts and sentences."""
    found = answer("retrofit-check", PROVED)["result"]
    name = CALCULATIONS[part].name
    again = answer(name, found["questions"][name])
    assert [(check["check"], check["verdict"]) for check in again["checks"]] == [
        (check["check"], check["verdict"]) for check in found["parts"][name]["checks"]
    ]


def test_the_first_plan_fails_in_several_places_and_the_mended_one_nowhere() -> None:
    first, mended = answer("retrofit-check", FIRST)["result"], answer("retrofit-check", MENDED)["result"]
    assert first["verdict"] == "fails"
    assert len({finding["part"] for finding in first["first"]}) >= 3
    assert sum(one["verdict"] == "fails" for one in first["conflicts"]) >= 3
    assert mended["first"] == []
    assert {one["verdict"] for one in mended["conflicts"]} == {"meets"}
    assert mended["verdict"] == "refer"
    assert "fails" not in {check["verdict"] for part in mended["parts"].values() for check in part["checks"]}


def test_the_top_says_in_plain_words_what_fails_and_what_to_do_first() -> None:
    found = answer("retrofit-check", FIRST)["result"]
    assert list(found)[:3] == ["verdict", "says", "first"]
    assert found["first"][0]["says"] in found["says"]


def test_nothing_is_asked_twice() -> None:
    """Every figure that the shared facts or another part give is missing from the parts of the sample, and is there in their full questions."""
    drain = answer("retrofit-check", MENDED)["result"]["questions"]["condensate-drain"]
    assert "pan_static_pressure" not in MENDED["condensate_drain"] and value(drain["pan_static_pressure"], "inH2O") > 0.1
    assert "cooling_capacity" not in MENDED["condensate_drain"] and value(drain["cooling_capacity"], "Btu/h") == 34000
    assert "pan_outlet" not in MENDED["condensate_drain"]["elevations"]
    assert value(drain["elevations"]["pan_outlet"], "ft") == pytest.approx(18.75 + 1.25 / 12)


def test_the_pan_feels_ducts_coil_and_dirty_filter_before_the_fan() -> None:
    """By hand: what the return ducts take, twice what the clean filter takes at the flow that settles, and the coil's 0.24 in. w.c.; no supply side."""
    found = answer("retrofit-check", MENDED)["result"]
    pressures = found["parts"]["duct-system"]["result"]["external_static_pressure"]
    expected = value(pressures["return"], "inH2O") + 2 * value(pressures["components"], "inH2O") + 0.24
    assert value(found["questions"]["condensate-drain"]["pan_static_pressure"], "inH2O") == pytest.approx(expected, rel=1e-6)


def test_a_coil_that_nobody_states_is_said_to_be_missing_from_the_pressure_at_the_pan() -> None:
    without = changed(MENDED, "unit", "coil_pressure_drop", to=None)
    assert "coil at the pan" in {one["what"] for one in answer("retrofit-check", without)["result"]["not_checked"]}
    assert "coil at the pan" not in {one["what"] for one in answer("retrofit-check", MENDED)["result"]["not_checked"]}


def test_pan_and_channel_must_fit_under_the_unit() -> None:
    """2 in of pan and 1-5/8 in of channel are 3.625 in; the underside at 18.75 ft over a floor at 18.70 ft leaves 0.6 in, so 3.025 in are missing."""
    low = conflict(changed(MENDED, "elevations", "attic_floor", to="18.70 ft"), "room below")
    assert low["verdict"] == "fails" and value(low["by"], "in") == pytest.approx(3.025, abs=1e-3)


def test_measured_figures_are_held_against_the_parts_that_were_designed() -> None:
    """Design airflow, water flow, condensate and static pressure are not stated in the measured part; they come from the shared facts and the other parts."""
    found = answer("retrofit-check", PROVED)["result"]
    design = found["questions"]["commissioning-check"]["design"]
    assert value(design["airflow"], "cfm") == 1150
    upstairs = next(unit for unit in found["parts"]["water-loop-flow"]["result"]["units"] if unit["id"] == "upstairs")
    assert design["water_flow"] == upstairs["flow"]
    assert design["condensate_flow"] == found["parts"]["condensate-drain"]["result"]["condensate"]["volume_flow"]
    pressures = found["parts"]["duct-system"]["result"]["external_static_pressure"]
    clean = value(pressures["return"], "inH2O") + value(pressures["components"], "inH2O")
    assert value(design["external_static_pressure"]["return"], "inH2O") == pytest.approx(clean, rel=1e-6)


def test_a_part_may_state_what_it_would_else_be_given() -> None:
    stated = changed(MENDED, "condensate_drain", "pan_static_pressure", to="0.9 inH2O")
    assert value(answer("retrofit-check", stated)["result"]["questions"]["condensate-drain"]["pan_static_pressure"], "inH2O") == 0.9


def test_what_is_left_out_is_said() -> None:
    found = answer("retrofit-check", {"job": {"name": "Only ducts"}, "duct_system": MENDED["duct_system"]})["result"]
    assert {one["what"] for one in found["not_checked"]} >= {"condensate-drain", "water-loop-flow", "headroom", "clear space"}
    assert set(found["parts"]) == {"duct-system", "support-spacing"}


def test_a_part_that_lacks_a_figure_is_refused_at_its_field() -> None:
    with pytest.raises(Refusal) as refused:
        answer("retrofit-check", {"job": {"name": "Drain alone"}, "condensate_drain": MENDED["condensate_drain"]})
    assert {"/condensate_drain/pan_static_pressure", "/condensate_drain/cooling_capacity"} <= {fault.pointer for fault in refused.value.faults}


def test_a_part_that_cannot_be_answered_does_not_lose_the_others() -> None:
    """A filter that takes more than the blower has: no budget, but water, lines and hanging are answered, and the job fails and says why."""
    dense = changed(MENDED, "duct_system", "components", 0, "pressure_drop", to="1.2 inH2O")
    found = answer("retrofit-check", dense)["result"]
    assert {"water-loop-flow", "equipment-hanging", "refrigerant-line-sizing"} <= set(found["parts"])
    assert {"duct-system", "static-pressure-budget", "condensate-drain"} <= {finding["part"] for finding in found["first"]}


PROVOKED = [
    ("ducts and blower", ("duct_system", "components", 0, "pressure_drop"), "0.55 inH2O"),
    ("water and supply", ("water_loop_flow", "control_valve"), {"on": "leaving", "cv": 1.2, "body": "motorized", "closing_time": "8 s"}),
    ("hanging height and drain", ("elevations", "unit_base"), "18 ft"),
    ("room below", ("elevations", "unit_base"), "17.8 ft"),
    ("headroom", ("elevations", "rafter_underside"), "20 ft"),
    ("sheet metal and clear space", ("elevations", "rafter_underside"), "19.2 ft"),
    ("one line, two modes", ("refrigerant_line_sizing", "vapor_line"), {"length": "180 ft", "fittings": {"long-radius-ell": 40}, "size": "3/8 in"}),
    ("pan and loop leak", ("unit", "loop_water"), True),
    ("access and what hangs there", ("service_access", "service_space"), {"length": "31 in", "width": "31 in", "sides": "all-sides"}),
]


@pytest.mark.parametrize(("name", "path", "to"), PROVOKED, ids=[row[0] for row in PROVOKED])
def test_each_clash_is_found_says_by_how_much_and_what_settles_it(name: str, path: tuple[Any, ...], to: Any) -> None:
    """Provoked by one change to the mended job, in which it is settled."""
    provoked = conflict(changed(MENDED, *path, to=to), name)
    assert provoked["verdict"] in ("fails", "watch")
    assert provoked["settle"]
    assert all(one["verdict"] == "meets" for one in answer("retrofit-check", MENDED)["result"]["conflicts"])


def test_raising_the_unit_by_what_is_said_settles_the_drain() -> None:
    """The least change: a hair less does not."""
    low = changed(MENDED, "elevations", "unit_base", to="18 ft")
    by = value(conflict(low, "hanging height and drain")["by"], "in")
    for more, verdict in ((-0.01, "fails"), (0.001, "meets")):
        raised = changed(low, "elevations", "unit_base", to={"value": 18 * 12 + by + more, "unit": "in"})
        assert conflict(raised, "hanging height and drain")["verdict"] == verdict


def test_the_valve_that_is_said_lets_the_water_through() -> None:
    """The Cv that the answer names, rounded up a tenth, settles the clash."""
    tight = changed(MENDED, "water_loop_flow", "control_valve", to={"on": "leaving", "cv": 1.2, "body": "motorized", "closing_time": "8 s"})
    said = conflict(tight, "water and supply")["settle"]
    cv = float(said.split("Cv ")[1].split()[0])
    wider = changed(tight, "water_loop_flow", "control_valve", "cv", to=cv + 0.1)
    assert conflict(wider, "water and supply")["verdict"] == "meets"


SMALL: dict[str, Any] = {
    "job": {"name": "One duct"},
    "duct_system": {
        "task": "analyse",
        "sections": [
            {
                "id": "plenum", "side": "supply", "toward_unit": "unit", "kind": "plenum", "length": "3 ft",
                "size": {"shape": "rectangular", "width": "20 in", "height": "12 in"},
            },
            {
                "id": "run", "side": "supply", "toward_unit": "plenum", "length": "12 ft", "duct": {"material": "flexible", "stretch": 0.96},
                "size": {"shape": "round", "diameter": "8 in"}, "outlet": {"airflow": "150 cfm", "pressure_drop": "0.02 inH2O"},
            },
        ],
    },
}  # fmt: skip


def test_the_take_off_by_hand() -> None:
    """Flexible duct: 12 ft installed at 0.96 of its length is 12/0.96 = 12.5 ft, one box of 25 ft. Plenum sheet: skin 2 x (20 + 12) in x 3 ft = 16 ft2, one end
    20 x 12 in = 1.667 ft2, 15 % for seams: 1.15 x 17.667 = 20.317 ft2, one 4 x 8 sheet, 20.317 x 1.156 lb/ft2 = 23.49 lb. One collar with damper, one without."""
    lines = {(line["item"], line["size"]): line for line in answer("retrofit-check", SMALL)["result"]["materials"]}
    assert lines["flexible duct", "8 in"]["quantity"] == pytest.approx(12.5)
    assert lines["flexible duct", "8 in"]["order"] == "1 of 25 ft"
    assert lines["galvanized sheet", "24 gauge"]["quantity"] == pytest.approx(20.317, abs=1e-3)
    assert lines["galvanized sheet", "24 gauge"]["order"] == "1 sheet of 4 x 8 ft"
    assert lines["galvanized sheet, weight", "24 gauge"]["quantity"] == pytest.approx(23.49, abs=0.01)
    assert lines["collar with damper", "8 in"]["quantity"] == lines["collar", "8 in"]["quantity"] == 1


@pytest.mark.parametrize(
    ("quantity", "condition", "said", "verdict"),
    [
        (12.5, "good", "complete", "meets"),
        (12.4, "good", "short", "fails"),
        (25, "good", "over", "meets"),
        (12.5, "damaged", "damaged", "fails"),
        (0, "good", "missing", "fails"),
    ],
)
def test_what_came_against_what_is_needed(quantity: float, condition: str, said: str, verdict: str) -> None:
    """Just below, at and above the 12.5 ft that are needed; what is damaged does not count."""
    delivered = [{"item": "Flexible  Duct", "size": "8 in", "quantity": quantity, "condition": condition}, {"item": "paint", "quantity": 1}]
    lines = {line["item"]: line for line in answer("retrofit-check", {**SMALL, "delivered": delivered})["result"]["delivery"]}
    assert (lines["flexible duct"]["condition"], lines["flexible duct"]["verdict"]) == (said, verdict)
    assert lines["paint"]["condition"] == "not on the list"
    if verdict == "fails":
        assert lines["flexible duct"]["stops"] == "plenums, boxes and ducts"
