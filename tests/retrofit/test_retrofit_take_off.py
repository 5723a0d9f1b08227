"""The take-off: nothing twice, nothing that is not bought, nothing that is missing, and orders by a stated cutting rule."""

from typing import Any

import pytest

from kneewall.retrofit.materials import stock_lengths
from kneewall.retrofit.scenario import MENDED
from tests.asking import answer
from tests.retrofit.test_retrofit_check import SMALL, changed


def lines(job: dict[str, Any]) -> dict[tuple[str, str], dict[str, Any]]:
    return {(line["item"], line["size"]): line for line in answer("retrofit-check", job)["result"]["materials"]}


@pytest.mark.parametrize(
    ("pieces", "stock", "whole"),
    [
        ((21.6, 20.6, 14.4), 25, 3),
        ((12.4, 9.3, 8.2, 7.2), 25, 2),
        ((38.0,), 10, 4),
        ((3.25, 3.25, 3.25, 3.25), 10, 2),
        ((9.0, 9.0, 7.0, 7.0), 10, 4),
        ((10.0, 10.0), 10, 2),
        ((5.0, 5.0), 10, 1),
        ((25.0, 0.001), 25, 2),
    ],
)
def test_pieces_are_cut_longest_first_by_hand(pieces: tuple[float, ...], stock: float, whole: int) -> None:
    """By hand: three rods of 3.25 ft come out of 10 ft, the fourth out of the next; 38 ft are three whole lengths and 8 ft of a fourth."""
    assert stock_lengths(pieces, stock) == whole


def test_sheet_is_counted_once() -> None:
    """What is bent from the sheet stands in the list to be made, not to be bought beside it."""
    found = lines(MENDED)
    bent = [line for line in found.values() if line["item"] in ("plenum", "splitter-box", "galvanized-steel duct")]
    assert len(bent) == 7 and {line["order"] for line in bent} == {"made of the galvanized sheet"}
    assert found["galvanized sheet", "24 gauge"]["order"] == "11 sheets of 4 x 8 ft"


def test_ready_made_pieces_may_come_but_nobody_waits_for_them() -> None:
    plenum = ("plenum", "20 x 12 in, 3 ft long")
    for came, said in (([{"item": "paint", "quantity": 1}], None), ([{"item": plenum[0], "size": plenum[1], "quantity": 1}], "complete")):
        found = answer("retrofit-check", {**SMALL, "delivered": came})["result"]["delivery"]
        assert {line["condition"] for line in found if (line["item"], line["size"]) == plenum} == ({said} if said else set())


def test_a_flexible_duct_buys_no_bend_and_its_collar_is_its_take_off() -> None:
    items = {item for item, _ in lines(MENDED)}
    assert "elbow-flexible" not in items
    assert ("takeoff", "7 in") not in lines(MENDED) and lines(MENDED)["collar with damper", "7 in"]["quantity"] == 4


def test_pan_pan_drain_and_pump_are_on_the_list() -> None:
    drain = {"nominal_size": "3/4 in", "outlet": "18.2 ft", "length": "12 ft", "slope": "1/8 in/ft", "end": "9 ft"}
    job = changed(MENDED, "condensate_drain", "auxiliary_pan", "drain", to=drain)
    job = changed(job, "condensate_drain", "pump", to={"rated_lift": "15 ft", "stops_unit": True})
    found = lines(job)
    assert found["auxiliary pan", "60 x 27 x 2 in"]["part"] == "equipment-hanging"
    assert found["pan drain fitting", "3/4 in"]["quantity"] == 1
    assert found["pvc-schedule-40 pipe", "3/4 in"]["quantity"] == pytest.approx(lines(MENDED)["pvc-schedule-40 pipe", "3/4 in"]["quantity"] + 12)
    assert any(item.startswith("condensate pump") for item, _ in found)
    alone = {name: part for name, part in job.items() if name != "equipment_hanging"}
    assert lines(alone)["auxiliary pan", "60 x 27 x 2 in"]["part"] == "condensate-drain"


def test_arrester_valves_and_insulation_of_the_loop() -> None:
    """Two units have four ends: four flush valves and four ball valves, stated or not. Water of 52 degF sweats; of 80 degF it does not."""
    job = changed(MENDED, "water_loop_flow", "control_valve", "arrester", to=True)
    for at in (1, 2):
        job["water_loop_flow"]["pipes"][at]["valves"] = [{"kind": "flow-regulator", "flow": "7 gpm"}]
    found = lines(job)
    assert found["water-hammer arrester", "1-1/4 in"]["quantity"] == 1
    assert found["ball valve", "3/4 in"]["quantity"] == found["flush valve with hose end", "3/4 in"]["quantity"] == 4
    assert found["pipe insulation, closed cell", "1-1/4 in"]["quantity"] == 75
    own = changed(changed(MENDED, "water_loop_flow", "units", 0, "own_valve", to=True), "water_loop_flow", "units", 0, "own_arrester", to=True)
    assert lines(own)["water-hammer arrester", "3/4 in"]["quantity"] == 1
    assert not any(item.startswith("pipe insulation") for item, _ in lines(changed(MENDED, "water_loop_flow", "entering_water", to="80 degF")))


def test_both_tubes_of_a_double_riser() -> None:
    """A tall run with a low lowest stage: 38 ft of the large tube, and the small one, 3/8 in, over the height of 20.75 ft beside 38 ft of liquid line."""
    job = changed(MENDED, "refrigerant_line_sizing", "cooling", "minimum_capacity", to="4 MBH")
    job = changed(job, "refrigerant_line_sizing", "heating", "minimum_capacity", to="4 MBH")
    found = answer("retrofit-check", job)["result"]
    riser = found["parts"]["refrigerant-line-sizing"]["result"].get("double_riser")
    assert riser is not None
    tubes = {line["size"]: line["quantity"] for line in found["materials"] if line["item"].startswith("refrigerant tube")}
    assert tubes == {"5/8 in": 38, "3/8 in": 58.75}


def runs_hung(job: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {run["id"]: run for run in answer("retrofit-check", job)["result"]["parts"]["support-spacing"]["result"]["runs"]}


def test_refrigerant_risers_are_clamped_not_hung() -> None:
    """By hand: of 38 ft the units' difference of height, 18.75 + 2 = 20.75 ft, stands upright, held at most every 10 ft (common practice): 3 spans, 4 clamps;
    17.25 ft lie level, hung every 5 ft (a maker's manual, tube to 3/4 in): 4 spans, 5 hangers. Two tubes.
    """
    found, hung = lines(MENDED), runs_hung(MENDED)
    for name in ("refrigerant vapor", "refrigerant liquid"):
        assert hung[name]["supports"] == 5 and hung[f"{name}, riser"]["supports"] == 4
        assert hung[f"{name}, riser"]["governing_rule"] == "support-spacing.vertical-run"
    clamps = {size: line["quantity"] for (item, size), line in found.items() if item == "riser clamp, refrigerant tube"}
    hangers = {size: line["quantity"] for (item, size), line in found.items() if item == "hanger, refrigerant tube"}
    assert sum(clamps.values()) == 8 and sum(hangers.values()) == 10


def test_a_rising_pipe_of_the_loop_is_part_hanger_part_clamp() -> None:
    """By hand, IRC 2018 Table P2605.1 for copper tube of 1-1/4 in: 6 ft level, 10 ft upright. Of 40 ft 12 rise: 28 ft are 5 spans and 6 hangers,
    12 ft are 2 spans and 3 clamps. A rise of 1 ft is held beside its corners: 7 spans, 8 hangers.
    """
    for rise, hangers, clamps in (("12 ft", 6, 3), ("-12 ft", 6, 3), ("1 ft", 8, None), ("39 ft", None, 5)):
        job = changed(MENDED, "water_loop_flow", "pipes", 0, "rise", to=rise)
        hung = runs_hung(job)
        assert hung.get("loop main", {}).get("supports") == hangers
        assert hung.get("loop main, riser", {}).get("supports") == clamps
        assert lines(job).get(("riser clamp, pipe", "1-1/4 in"), {}).get("quantity") == clamps


def test_a_drain_that_drops_down_a_chase_and_the_pan_s_own_drain_are_held() -> None:
    """By hand, IRC 2018 Table P2605.1, PVC upright 10 ft with a guide in mid-story: 12 ft are 2 spans, 3 clamps, 2 guides; pipe as long as run and drop."""
    job = changed(MENDED, "condensate_drain", "run", "drop_at_fittings", to="144 in")
    job = changed(job, "condensate_drain", "elevations", "receiver_rim", to="5 ft")
    own = {"nominal_size": "3/4 in", "outlet": "18.2 ft", "length": "12 ft", "slope": "1/8 in/ft", "end": "9 ft"}
    job = changed(job, "condensate_drain", "auxiliary_pan", "drain", to=own)
    hung, found = runs_hung(job), lines(job)
    assert hung["condensate, riser"]["supports"] == 3 and hung["condensate, riser"]["guides"] == 2
    assert "pan drain" in hung
    assert found["riser clamp, pipe", "3/4 in"]["quantity"] == 3 and found["riser guide, pipe", "3/4 in"]["quantity"] == 2
    before = lines(MENDED)["pvc-schedule-40 pipe", "3/4 in"]["quantity"]
    assert found["pvc-schedule-40 pipe", "3/4 in"]["quantity"] == pytest.approx(before + 12 + 12)


def test_both_tubes_of_a_double_riser_are_held() -> None:
    job = changed(MENDED, "refrigerant_line_sizing", "cooling", "minimum_capacity", to="4 MBH")
    job = changed(job, "refrigerant_line_sizing", "heating", "minimum_capacity", to="4 MBH")
    hung = runs_hung(job)
    assert hung["refrigerant vapor, riser"]["supports"] == hung["refrigerant vapor, second riser"]["supports"] == 4
    assert hung["refrigerant vapor"]["supports"] == 5


def test_a_run_stated_under_its_name_counts_with_its_riser_and_long_names_are_kept() -> None:
    stated = {"id": "refrigerant vapor", "kind": "refrigerant-tube", "material": "copper-annealed", "nominal_size": "3/4 in", "length": "38 ft"}
    hung = runs_hung({**MENDED, "support_spacing": {"runs": [stated]}})
    assert "refrigerant vapor, riser" not in hung and "refrigerant liquid, riser" in hung
    name = "a pipe with a name of forty characters x"
    job = changed(MENDED, "water_loop_flow", "pipes", 0, "id", to=name)
    job = changed(job, "water_loop_flow", "pipes", 0, "rise", to="12 ft")
    assert f"loop {name}, riser" in runs_hung(job)


def test_very_short_and_very_long_pipes_of_the_loop_stop_no_job() -> None:
    """A stub of less than an inch is no run; a main of 2000 ft is one."""
    job = changed(MENDED, "water_loop_flow", "pipes", 1, "length", to="0.06 ft")
    job = changed(job, "water_loop_flow", "pipes", 0, "length", to="2000 ft")
    hung = runs_hung(job)
    assert "loop up feed" not in hung and hung["loop main"]["supports"] == 335
