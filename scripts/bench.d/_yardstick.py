"""How long our own Python takes, in microseconds of the machine on which the goals were set.

Machines differ, and a shared one differs from minute to minute. So every figure is a ratio within one run: a round of the function, a round of
the yardstick beside it, both in processor time, and the middle of the ratios. The yardstick is a bare Litestar route called in process, which took 33.4 us on the machine
of the goals (Python 3.11, Litestar 2.25).
"""

import asyncio
import statistics
import timeit
from collections.abc import Callable
from functools import partial
from time import process_time
from typing import Annotated, Any

import msgspec
from litestar import Litestar, post
from litestar.types import Scope

REFERENCE = 33.4
"""Microseconds of the yardstick on the machine of the goals."""
ROUNDS, ROUND_SECONDS, CALLS = 9, 0.012, 120


class Asked(msgspec.Struct):
    """What the yardstick reads."""

    airflow: Annotated[float, msgspec.Meta(gt=0)]
    friction: Annotated[float, msgspec.Meta(gt=0)]


class Answered(msgspec.Struct):
    """What it writes."""

    diameter: float
    velocity: float


BODY = b'{"airflow":400.0,"friction":0.1}'


@post("/v1/yardstick", sync_to_thread=False)
def _route(data: Asked) -> Answered:
    return Answered(data.airflow * 2.0, data.friction * 3.0)


_bare = Litestar([_route], openapi_config=None, logging_config=None)


def slowness() -> float:
    """How many times longer this machine takes at this moment than the machine of the goals."""
    return asyncio.run(_rounds()) / REFERENCE


def best(function: Callable[[Any], object], given: object) -> float:
    """Microseconds of one call, on the machine of the goals."""
    work = partial(function, given)
    number = max(1, int(ROUND_SECONDS / max(min(timeit.repeat(work, number=1, repeat=5, timer=process_time)), 1e-7)))
    return statistics.median(min(timeit.repeat(work, number=number, repeat=2, timer=process_time)) / number * 1e6 / slowness() for _ in range(ROUNDS))


async def _rounds() -> float:
    return min([await _round(), await _round()])


async def _round() -> float:
    began = process_time()
    for _ in range(CALLS):
        await _bare(_scope(), _receive, _send)  # type: ignore[arg-type]
    return (process_time() - began) / CALLS * 1e6


def _scope() -> Scope:
    scope: Any = {
        "type": "http",
        "asgi": {"version": "3.0", "spec_version": "2.3"},
        "http_version": "1.1",
        "method": "POST",
        "path": "/v1/yardstick",
        "raw_path": b"/v1/yardstick",
        "root_path": "",
        "scheme": "http",
        "query_string": b"",
        "headers": [(b"host", b"127.0.0.1"), (b"content-type", b"application/json"), (b"content-length", str(len(BODY)).encode())],
        "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 2),
        "state": {},
    }
    return scope  # type: ignore[no-any-return]


async def _receive() -> dict[str, object]:
    return {"type": "http.request", "body": BODY, "more_body": False}


async def _send(message: object) -> None: ...
