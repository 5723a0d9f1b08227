"""From the command to the first answer, the filling of the refrigerants' tables, and the memory of one worker.

How fast this machine is at the moment is measured before and after each, by the yardstick; a goal is kept or missed on the machine of the goals.
"""

import statistics
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from _yardstick import slowness

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.faults.service import Service

from kneewall.physics.by_coolprop.refrigerants import FLUIDS, build_tables

Line = tuple[str, float, str, str]
GOAL_SECONDS, GOAL_TABLES = 3.0, 1.5
ROUNDS = 6


def measure() -> Iterator[Line]:
    """Seconds to the first answer after a first start that warms the disk, and resident megabytes."""
    starts = [_start() for _ in range(ROUNDS)]
    here, there, fresh, used = (statistics.median(figures) for figures in zip(*starts[1:], strict=True))
    yield "start to first answer, warm, on this machine", here, "s", f"all {[round(one[0], 2) for one in starts]}"
    remark = f"{_judged(there, GOAL_SECONDS)}; all {[round(one[1], 2) for one in starts]}"
    yield "start to first answer, warm, on the machine of the goals", there, "s", remark
    tables = statistics.median(_tables() for _ in range(ROUNDS))
    yield "tables of all refrigerants, on the machine of the goals", tables, "s", _judged(tables, GOAL_TABLES)
    yield "memory of a worker after its first answer", fresh, "MB", ""
    yield "memory of a worker after 500 answers", used, "MB", ""


def _start() -> tuple[float, float, float, float]:
    """Seconds here, seconds on the machine of the goals, megabytes after the first answer and after 500."""
    before, started = slowness(), time.perf_counter()
    with Service(log="faults") as service:
        assert service.answers()
        seconds = time.perf_counter() - started
        fresh = service.memory() / 1e6
        assert all(service.answers() for _ in range(500))
        used = service.memory() / 1e6
    return seconds, seconds / statistics.mean([before, slowness()]), fresh, used


def _tables() -> float:
    """Seconds on the machine of the goals in which all refrigerants get their tables, CoolProp being loaded."""
    before, started = slowness(), time.perf_counter()
    for name in FLUIDS:
        build_tables(name)
    return (time.perf_counter() - started) / statistics.mean([before, slowness()])


def _judged(figure: float, goal: float) -> str:
    return f"{'met' if figure < goal else 'MISSED'}: goal {goal}"
