"""What leaves as a plain number has no more digits than a quantity, and what was asked stays as it was asked."""

from collections.abc import Iterator
from typing import Any

import pytest

from kneewall.catalogue import all_calculations
from kneewall.kernel.calculation import AnyCalculation
from kneewall.retrofit.scenario import MENDED
from tests.asking import answer, result

CALCULATIONS = [pytest.param(calculation, id=calculation.name) for calculation in all_calculations().values()]


def plain_numbers(found: Any, place: str = "") -> Iterator[tuple[str, float]]:
    if isinstance(found, dict):
        for name, value in found.items():
            if name != "questions" and found.keys() != {"value", "unit"}:
                yield from plain_numbers(value, f"{place}/{name}")
    elif isinstance(found, list):
        for number, value in enumerate(found):
            yield from plain_numbers(value, f"{place}/{number}")
    elif isinstance(found, float):
        yield place, found


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_plain_numbers_leave_with_seven_digits(calculation: AnyCalculation) -> None:
    for example in calculation.examples:
        found = answer(calculation.name, example.question, working=True)
        assert [(place, value) for place, value in plain_numbers(found) if value != float(f"{value:.7g}")] == []


def test_by_hand() -> None:
    """Rise over run by hand: a wall of 110 cfm in a 7 in duct: Re = V D/nu = 411.5942 fpm, 7 in, mu 0.0182 cP, 0.075 lb/ft3: 24540.05 to seven digits."""
    velocity, diameter = 411.5942 * 0.3048 / 60, 7 * 0.0254
    by_hand = velocity * diameter * 0.075 * 16.018463 / 0.0182e-3
    found = result("duct-sizing", {"airflow": "110 cfm", "friction_rate": "0.08 inH2O/100ft"})["reynolds_number"]
    assert found == pytest.approx(by_hand, rel=1e-6) and found == round(found, 2)


def test_what_was_asked_is_given_back_to_the_last_digit() -> None:
    job = {**MENDED, "equipment_hanging": {**MENDED["equipment_hanging"], "isolator": {"static_deflection": "1 in", "damping_ratio": 0.031234567891}}}
    assert result("retrofit-check", job)["questions"]["equipment-hanging"]["isolator"]["damping_ratio"] == 0.031234567891
