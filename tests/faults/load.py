"""A load as careful clients make it: connections kept alive, and a question asked again where the connection closed without a whole answer."""

import asyncio
import time
from collections import Counter
from dataclasses import dataclass, field

from tests.faults.service import request

TRIES = 4


@dataclass
class Outcome:
    """What became of the questions."""

    statuses: Counter[int] = field(default_factory=Counter)
    again: int = 0
    cut: int = 0
    longest: float = 0.0
    gave_up: int = 0


async def ask_until(over: asyncio.Event, port: int, *, clients: int = 4, pause: float = 0.0) -> Outcome:
    """Ask from several clients until it is over, or until nobody listens any longer after four tries."""
    outcome = Outcome()
    await asyncio.gather(*(_client(port, over, outcome, pause) for _ in range(clients)))
    return outcome


async def _client(port: int, over: asyncio.Event, outcome: Outcome, pause: float) -> None:
    connection: tuple[asyncio.StreamReader, asyncio.StreamWriter] | None = None
    while not over.is_set():
        started = time.monotonic()
        for attempt in range(TRIES):
            try:
                connection = connection or await asyncio.open_connection("127.0.0.1", port)
                status = await _ask(*connection, outcome)
                outcome.statuses[status] += 1
                break
            except (ConnectionError, asyncio.IncompleteReadError):
                if connection:
                    connection[1].close()
                connection = None
                outcome.again += 1
                await asyncio.sleep(0.02 * (attempt + 1))
        else:
            outcome.gave_up += 1
            return
        outcome.longest = max(outcome.longest, time.monotonic() - started)
        await asyncio.sleep(pause)
    if connection:
        connection[1].close()


async def _ask(reader: asyncio.StreamReader, writer: asyncio.StreamWriter, outcome: Outcome) -> int:
    writer.write(request())
    head = await reader.readuntil(b"\r\n\r\n")
    length = int(head.lower().partition(b"content-length:")[2].split(b"\r\n", 1)[0])
    try:
        await reader.readexactly(length)
    except (ConnectionError, asyncio.IncompleteReadError):
        outcome.cut += 1
        raise
    return int(head[9:12])
