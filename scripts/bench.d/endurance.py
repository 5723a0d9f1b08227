"""Full load for a minute (KNEEWALL_SECONDS): every example of every calculation in turn, and a refusal. No error, and memory that stays."""

import asyncio
import itertools
import json
import os
import sys
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import uvloop

from kneewall.catalogue import all_calculations

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.faults.service import Service, request

Line = tuple[str, float, str, str]
CONNECTIONS = 16
MOST_GROWTH = 4.0
EXPECTED = {200, 422}
REQUESTS = [
    *(request(json.dumps(example.question).encode(), path=f"/v1/{one.name}") for one in all_calculations().values() for example in one.examples),
    request(b'{"airflow": "-1 cfm"}'),
]


class Client(asyncio.Protocol):
    """One connection that asks the next question as soon as the last is answered whole."""

    def __init__(self, seen: Counter[int], offset: int) -> None:
        self.seen, self.buffer, self.open = seen, bytearray(), True
        self.questions = itertools.islice(itertools.cycle(REQUESTS), offset, None)

    def connection_made(self, transport: Any) -> None:
        self.transport = transport
        transport.write(next(self.questions))

    def data_received(self, data: bytes) -> None:
        self.buffer += data
        head = self.buffer.find(b"\r\n\r\n")
        if head < 0:
            return
        start = self.buffer.lower().find(b"content-length:") + 15
        if len(self.buffer) - head - 4 >= int(self.buffer[start : self.buffer.find(b"\r\n", start)]):
            self.seen[int(self.buffer[9:12])] += 1
            self.buffer.clear()
            self.transport.write(next(self.questions))

    def connection_lost(self, error: Exception | None) -> None:
        if self.open:
            self.seen[0] += 1


async def _load(service: Service, seconds: float, seen: Counter[int]) -> list[tuple[float, int]]:
    loop = asyncio.get_running_loop()
    clients = [(await loop.create_connection(lambda at=at: Client(seen, at), "127.0.0.1", service.port))[1] for at in range(CONNECTIONS)]
    started, memory = time.monotonic(), []
    while (elapsed := time.monotonic() - started) < seconds:
        memory.append((elapsed, service.memory()))
        await asyncio.sleep(seconds / 40)
    for client in clients:
        client.open = False
        client.transport.abort()
    return memory


def measure() -> Iterator[Line]:
    """Requests, errors and the growth of memory from the first quarter of the run to the last."""
    seconds = float(os.environ.get("KNEEWALL_SECONDS", "60"))
    seen: Counter[int] = Counter()
    with Service() as service:
        memory = uvloop.run(_load(service, seconds, seen))
        traces = sum("trace" in line for line in service.lines())
    settled = [size for at, size in memory if seconds / 4 <= at < seconds / 2]
    last = [size for at, size in memory if at >= seconds * 3 / 4]
    growth = (sum(last) / len(last) - sum(settled) / len(settled)) / 1e6
    wrong = sum(count for status, count in seen.items() if status not in EXPECTED) + traces
    yield f"questions in {seconds:.0f} s over {CONNECTIONS} connections", seen.total(), "", f"{dict(sorted(seen.items()))}"
    yield "errors, closed connections and traces", wrong, "", "met: goal 0" if wrong == 0 and seen[200] else "MISSED: goal 0"
    yield "memory, last quarter less second quarter", growth, "MB", f"{'met' if growth < MOST_GROWTH else 'MISSED'}: goal {MOST_GROWTH:.0f}"
    yield "memory at the end", last[-1] / 1e6, "MB", ""
