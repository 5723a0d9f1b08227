"""Our own Python per question, for every example of every calculation, in microseconds of the machine of the goals.

The whole is reading, working out and writing, msgspec's own work included. Goals are for the whole; where only the working out keeps one, that is said.
"""

import json
from collections.abc import Iterator

from _yardstick import best, slowness

from kneewall.catalogue import all_calculations
from kneewall.kernel.wire import write_json

Line = tuple[str, float, str, str]
GOALS = {
    "commissioning-check": 5000.0,
    "condensate-drain": 30.0,
    "duct-sizing": 30.0,
    "duct-system": 5000.0,
    "duct-system: size-the-upper-floor": 2000.0,
    "equipment-hanging": 30.0,
    "refrigerant-line-sizing": 150.0,
    "retrofit-check": 5000.0,
    "service-access": 30.0,
    "static-pressure-budget": 30.0,
    "support-spacing": 30.0,
    "water-loop-flow": 400.0,
}
"""Microseconds, by calculation or by one of its examples."""


def measure() -> Iterator[Line]:
    """Microseconds per question, with the goal where there is one."""
    yield "this machine is slower than that of the goals", slowness(), "times", "at this moment; every figure below is measured beside the yardstick"
    for calculation in all_calculations().values():
        for example in calculation.examples:
            body = json.dumps(example.question).encode()
            question = calculation.reader.json(body)
            answer = calculation.answer(question)
            parts = [best(calculation.reader.json, body), best(calculation.answer, question), best(write_json["ip"], answer)]
            name = f"{calculation.name}: {example.name}"
            yield name, sum(parts), "us", _remark(parts, GOALS.get(name) or GOALS.get(calculation.name))


def _remark(parts: list[float], goal: float | None) -> str:
    split = f"read {parts[0]:.1f}, work out {parts[1]:.1f}, write {parts[2]:.1f}"
    if goal is None:
        return split
    if sum(parts) <= goal:
        return f"met: goal {goal:.0f}; {split}"
    return f"MISSED{' (working out alone keeps it)' if parts[1] <= goal else ''}: goal {goal:.0f}; {split}"
