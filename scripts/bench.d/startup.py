"""From the command to the first answer, and the memory of one worker.

How fast this machine is at the moment is measured before and after each start, by the yardstick; the goal is kept or missed on the machine of the goals.
"""

import statistics
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from _yardstick import slowness

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.faults.service import Service

Line = tuple[str, float, str, str]
GOAL_SECONDS = 3.0
ROUNDS = 6


def measure() -> Iterator[Line]:
    """Seconds to the first answer after a first start that warms the disk, and resident megabytes."""
    starts = [_start() for _ in range(ROUNDS)]
    here, there, fresh, used = (statistics.median(figures) for figures in zip(*starts[1:], strict=True))
    yield "start to first answer, warm, on this machine", here, "s", f"all {[round(one[0], 2) for one in starts]}"
    remark = f"{'met' if there < GOAL_SECONDS else 'MISSED'}: goal {GOAL_SECONDS}; all {[round(one[1], 2) for one in starts]}"
    yield "start to first answer, warm, on the machine of the goals", there, "s", remark
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
