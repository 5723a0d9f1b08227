"""From the command to the first answer, and the memory of one worker."""

import statistics
import sys
import time
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.faults.service import Service

Line = tuple[str, float, str, str]
GOAL_SECONDS = 3.0
ROUNDS = 4


def measure() -> Iterator[Line]:
    """Seconds to the first answer after a first start that warms the disk, and resident megabytes."""
    seconds, fresh, used = [], [], []
    for _ in range(ROUNDS):
        started = time.perf_counter()
        with Service(log="faults") as service:
            assert service.answers()
            seconds.append(time.perf_counter() - started)
            fresh.append(service.memory() / 1e6)
            assert all(service.answers() for _ in range(500))
            used.append(service.memory() / 1e6)
    warm = statistics.median(seconds[1:])
    remark = f"{'met' if warm < GOAL_SECONDS else 'MISSED'}: goal {GOAL_SECONDS}; all {[round(one, 2) for one in seconds]}"
    yield "start to first answer, warm", warm, "s", remark
    yield "memory of a worker after its first answer", statistics.median(fresh), "MB", ""
    yield "memory of a worker after 500 answers", statistics.median(used), "MB", ""
