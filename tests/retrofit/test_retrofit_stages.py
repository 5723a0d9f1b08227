"""The order of work, read as the person who does the job: common practice throughout, no source beside it."""

from typing import Any

import pytest

from kneewall.retrofit.scenario import FIRST, MENDED
from tests.asking import answer
from tests.retrofit.test_retrofit_check import changed


def stages(job: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {stage["stage"]: stage for stage in answer("retrofit-check", job)["result"]["order_of_work"]}


BEFORE = [
    ("make safe", "take out the old", "power, refrigerant and water are off before anything is cut"),
    ("access", "hang", "a floor to stand on before two people lift"),
    ("hang", "plenums, boxes and ducts", "framing and hanging before sheet metal"),
    ("drain", "plenums, boxes and ducts", "what must fall takes its way before what can bend"),
    ("drain", "wire and interlock", "the drain is tried with water before there is power"),
    ("drain", "start the air", "the pan is proved before the unit is live"),
    ("pressure test of the lines", "vacuum and charge", "nitrogen before vacuum before charge"),
    ("pressure test of the lines", "insulate", "no joint is covered before it is proved"),
    ("water loop", "flush the loop", "pipe holds before it is flushed"),
    ("flush the loop", "start the water", "clean before the coils are opened to it"),
    ("leakage test of the ducts", "insulate", "leakage before wrap covers the joints"),
    ("start the air", "start and prove", "airflow is measured before the charge is touched"),
    ("start the water", "start and prove", "water flows before a compressor runs"),
    ("start and prove", "hand over", "the walkway and the labels before leaving"),
]


@pytest.mark.parametrize(("first", "then", "because"), BEFORE, ids=[row[2] for row in BEFORE])
def test_what_has_to_come_before_what(first: str, then: str, because: str) -> None:
    order = list(stages(MENDED))
    assert order.index(first) < order.index(then), because


def test_only_the_stages_of_what_the_job_has() -> None:
    assert list(stages({"job": {"name": "Only ducts"}, "duct_system": MENDED["duct_system"]})) == [
        "make safe", "take out the old", "plenums, boxes and ducts", "leakage test of the ducts", "insulate", "start the air", "start and prove", "hand over",
    ]  # fmt: skip


def test_every_stage_says_what_proves_it_and_what_can_hurt_there() -> None:
    for job in (FIRST, MENDED):
        assert all(stage["proves"] and stage["hazards"] and stage["does"] for stage in stages(job).values())


def test_a_stage_names_the_figures_that_prove_it() -> None:
    """Heat to the water by hand: 34,000 + 2,150 W x 3.4121 = 41,336 Btu/h; the tank cuts out at 60 psig, which is what the loop stands at."""
    found = stages(MENDED)
    for stage, figure in {
        "water loop": "60 psig",
        "start the water": "upstairs: 7.041 gpm, at least 5.504 gpm.",
        "start and prove": "upstairs gives 41,336 Btu/h to the water in cooling.",
    }.items():
        assert any(figure in one for one in found[stage]["against"]), found[stage]["against"]
    proved = {stage for stage, one in found.items() if one.get("against")}
    assert proved >= {"access", "hang", "drain", "pressure test of the lines", "vacuum and charge", "flush the loop", "start the air", "hand over"}


@pytest.mark.parametrize(
    ("item", "size", "stops"),
    [
        ("strap", "1/2 in wide", "plenums, boxes and ducts"),
        ("hanger, pipe", "3/4 in", "drain"),
        ("hanger, refrigerant tube", "5/8 in", "refrigerant lines"),
    ],
)
def test_a_missing_support_stops_what_hangs_on_it(item: str, size: str, stops: str) -> None:
    lines = answer("retrofit-check", changed(MENDED, "delivered", to=[{"item": "paint", "quantity": 1}]))["result"]["delivery"]
    assert next(line["stops"] for line in lines if (line["item"], line["size"]) == (item, size)) == stops
