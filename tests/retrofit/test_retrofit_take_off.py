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
