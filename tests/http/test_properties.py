"""What holds for every calculation: in other units, in other forms, in the direction it declares, and far from its examples."""

import copy
import random
from collections import Counter
from typing import Any

import msgspec
import pytest

from kneewall.catalogue import all_calculations, all_rules
from kneewall.kernel.calculation import AnyCalculation, Example
from kneewall.kernel.quantity import Quantity, kinds
from kneewall.kernel.refusal import Refusal
from kneewall.kernel.wire import write_json, write_msgpack
from tests.http.quantities import Place, places, put, varied

CASES = [
    pytest.param(calculation, example, id=f"{calculation.name}: {example.name}")
    for calculation in all_calculations().values()
    for example in calculation.examples
]
CALCULATIONS = [pytest.param(calculation, id=calculation.name) for calculation in all_calculations().values()]


def ask(calculation: AnyCalculation, question: dict[str, Any]) -> dict[str, Any]:
    return msgspec.json.decode(write_json["si"](calculation.answer(calculation.reader.plain(question))))  # type: ignore[no-any-return]


def assert_same(one: Any, other: Any, where: str = "") -> None:
    """Equal but for the last digits of numbers."""
    if isinstance(one, dict):
        assert one.keys() == other.keys(), where
        for key in one:
            assert_same(one[key], other[key], f"{where}/{key}")
    elif isinstance(one, list):
        assert len(one) == len(other), where
        for index, (left, right) in enumerate(zip(one, other, strict=True)):
            assert_same(left, right, f"{where}/{index}")
    elif isinstance(one, float | int) and not isinstance(one, bool):
        assert one == pytest.approx(other, rel=2e-6, abs=1e-9), where
    elif not where.endswith(("/says", "/step", "/substituted")):
        assert one == other, where


@pytest.mark.parametrize(("calculation", "example"), CASES)
def test_the_same_question_in_other_units_gets_the_same_answer(calculation: AnyCalculation, example: Example) -> None:
    expected = ask(calculation, example.question)
    every = places(calculation.question, example.question)
    assert every, "an example without quantities proves nothing"
    for turn in range(6):
        question = copy.deepcopy(example.question)
        chance = random.Random(turn)
        for place in every:
            unit = chance.choice(list(place.kind.table.units))
            put(question, place.path, {"value": place.kind.read(place.given).to(unit), "unit": unit})
        assert_same(expected, ask(calculation, question))


@pytest.mark.parametrize(("calculation", "example"), CASES)
def test_the_same_question_gives_the_same_bytes_and_messagepack_the_same_answer(calculation: AnyCalculation, example: Example) -> None:
    question = calculation.reader.plain(example.question)
    body = write_json["ip"](calculation.answer(question, working=True))
    assert write_json["ip"](calculation.answer(calculation.reader.json(msgspec.json.encode(example.question)), working=True)) == body
    packed = msgspec.msgpack.decode(
        write_msgpack["ip"](calculation.answer(calculation.reader.msgpack(msgspec.msgpack.encode(example.question)), working=True))
    )
    assert_same(packed, msgspec.json.decode(body))


@pytest.mark.parametrize(("calculation", "example"), CASES)
def test_every_figure_leads_to_a_rule(calculation: AnyCalculation, example: Example) -> None:
    """Every rule that a check, caution or line of working names is known, and those of the checks come with the answer."""
    answer = msgspec.json.decode(write_json["ip"](calculation.answer(calculation.reader.plain(example.question), working=True)))
    known = all_rules()
    applied = {rule["id"] for rule in answer["rules"]}
    assert applied and applied <= known.keys()
    assert {check["rule"] for check in answer["checks"]} <= applied
    assert {line["rule"] for line in answer["working"] if "rule" in line} <= known.keys()
    assert answer["checks"] and answer["cautions"] and answer["working"]
    assert b":null" not in write_json["ip"](calculation.answer(calculation.reader.plain(example.question), working=True))


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_it_rises_and_falls_as_declared(calculation: AnyCalculation) -> None:
    """Where a calculation declares a direction, growing that field alone never moves the result the other way; each declaration is exercised."""
    hits: Counter[str] = Counter()
    for example in calculation.examples:
        for place in places(calculation.question, example.question):
            for field, direction in calculation.monotone.get(place.path.strip("/"), {}).items():
                before: float | None = None
                for factor in (1.0, 1.01, 1.05, 1.2, 1.5, 2.0):
                    found = _figure(calculation, example, place, factor, field)
                    if found is None:
                        continue
                    if before is not None:
                        hits[f"{place.path} {field}"] += 1
                        slack = 1e-6 * abs(before)
                        assert found >= before - slack if direction == "rises" else found <= before + slack, (example.name, place.path, field, factor)
                    before = found
    declared = {f"/{path} {field}" for path, fields in calculation.monotone.items() for field in fields}
    assert declared == set(hits), "a declaration that no example exercises"


def _figure(calculation: AnyCalculation, example: Example, place: Place, factor: float, field: str) -> float | None:
    question = copy.deepcopy(example.question)
    unit = place.kind.table.si.label
    put(question, place.path, {"value": place.kind.read(place.given).to(unit) * factor, "unit": unit})
    try:
        found: Any = ask(calculation, question)["result"]
    except Refusal:
        return None
    for step in field.split("/"):
        found = found[int(step)] if isinstance(found, list) else found.get(step)
        if found is None:
            return None
    return float(found["value"]) if isinstance(found, dict) else float(found)


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_far_from_its_examples_it_answers_or_says_why_not(calculation: AnyCalculation) -> None:
    """Three hundred questions varied from the examples: quantities stretched, options dropped, choices changed. None fails, and enough are answered."""
    chance = random.Random(calculation.name)
    outcome: Counter[str] = Counter()
    for turn in range(300):
        question = varied(calculation.question, chance.choice(calculation.examples).question, chance, reach=1.3 if turn % 2 else 6.0)
        try:
            answer = calculation.answer(calculation.reader.plain(question), working=True)
            body = write_json["ip"](answer)
            assert b":null" not in body, question
            assert not _with_more_digits(msgspec.json.decode(body)), question
            outcome["answered"] += 1
        except Refusal as refusal:
            assert refusal.faults, question
            assert all(fault.pointer == "" or fault.pointer.startswith("/") for fault in refusal.faults)
            outcome[refusal.kind] += 1
    assert outcome["answered"] >= 60, outcome


def test_every_kind_of_quantity_is_tried_in_every_unit() -> None:
    """Each unit reads back what it writes."""
    for kind in kinds():
        for unit in kind.table.units:
            assert isinstance(kind.of(3.25, unit), Quantity)
            assert kind.of(3.25, unit).to(unit) == pytest.approx(3.25)
            assert kind.read(f"3.25 {unit}") == kind.read({"value": 3.25, "unit": unit}) == kind.read(f"3-1/4 {unit}")


def _with_more_digits(found: Any, where: str = "") -> list[str]:
    """Where numbers stand that leave with more than seven digits."""
    if isinstance(found, dict):
        return [one for key, item in found.items() for one in _with_more_digits(item, f"{where}/{key}")]
    if isinstance(found, list):
        return [one for index, item in enumerate(found) for one in _with_more_digits(item, f"{where}/{index}")]
    return [f"{where} {found}"] if isinstance(found, float) and found != float(f"{found:.7g}") else []
