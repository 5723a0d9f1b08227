"""Our own Python per question, for every example of every calculation, in microseconds of the machine of the goals.

The whole is reading, working out and writing, msgspec's own work included. Goals are for the whole; where only the working out keeps one, that is said.
"""

import json
from collections.abc import Iterator
from typing import Any

from _yardstick import best, slowness

from kneewall.calculations.water_loop_flow.examples import DOWNSTAIRS, OPEN_LOOP, UPSTAIRS, WELL_PIPES
from kneewall.catalogue import all_calculations
from kneewall.kernel.calculation import Calculation
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
    "water-loop-flow: six-branches": 1000.0,
}
"""Microseconds, by calculation or by one of its examples."""


def measure() -> Iterator[Line]:
    """Microseconds per question, with the goal where there is one."""
    yield "this machine is slower than that of the goals", slowness(), "times", "at this moment; every figure below is measured beside the yardstick"
    for calculation in all_calculations().values():
        for example in calculation.examples:
            yield _line(calculation, example.name, example.question)
    yield _line(all_calculations()["water-loop-flow"], "six-branches", six_branches())


def six_branches() -> dict[str, Any]:
    """The sample house's two units three times over, on one main behind one valve, each floor's feed and return joining the next."""
    main, riser, up_return, down_feed, down_return, leaving = WELL_PIPES
    units, pipes = [], [{**main, "to": "split 0"}, {**leaving, "from": "join 0", "nominal_size": "2 in"}]
    for number in range(6):
        unit, feed, back = (UPSTAIRS, riser, up_return) if number % 2 == 0 else (DOWNSTAIRS, down_feed, down_return)
        units.append({**unit, "id": f"unit {number}", "from": f"in {number}", "to": f"out {number}"})
        pipes.append({**feed, "id": f"feed {number}", "from": f"split {number}", "to": f"in {number}"})
        pipes.append({**back, "id": f"back {number}", "from": f"out {number}", "to": f"join {number}"})
        if number:
            header = {**main, "fittings": {}, "valves": [], "length": "10 ft", "rise": "0 ft"}
            pipes.append({**header, "id": f"header {number}", "from": f"split {number - 1}", "to": f"split {number}"})
            pipes.append({**header, "id": f"return header {number}", "from": f"join {number}", "to": f"join {number - 1}"})
    valve, supply = {**OPEN_LOOP["control_valve"], "cv": 25}, {**OPEN_LOOP["supply"], "tank_volume": "320 gal", "pump_flow": "60 gpm"}
    return {**OPEN_LOOP, "units": units, "pipes": pipes, "control_valve": valve, "supply": supply}


def _line(calculation: Calculation[Any, Any], example: str, asked: dict[str, Any]) -> Line:
    body = json.dumps(asked).encode()
    question = calculation.reader.json(body)
    answer = calculation.answer(question)
    parts = [best(calculation.reader.json, body), best(calculation.answer, question), best(write_json["ip"], answer)]
    name = f"{calculation.name}: {example}"
    return name, sum(parts), "us", _remark(parts, GOALS.get(name) or GOALS.get(calculation.name))


def _remark(parts: list[float], goal: float | None) -> str:
    split = f"read {parts[0]:.1f}, work out {parts[1]:.1f}, write {parts[2]:.1f}"
    if goal is None:
        return split
    if sum(parts) <= goal:
        return f"met: goal {goal:.0f}; {split}"
    return f"MISSED{' (working out alone keeps it)' if parts[1] <= goal else ''}: goal {goal:.0f}; {split}"
