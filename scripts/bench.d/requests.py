"""Requests per second of duct sizing on one core, against a bare Litestar route with the same messages and a bare ASGI callable, all in one run."""

import multiprocessing
import socket
import statistics
import time
from collections.abc import Iterator
from typing import Any

import _floors
import _load
import uvicorn

Line = tuple[str, float, str, str]
GOAL = 0.8
ROUNDS, SECONDS = 3, 3.0


def measure() -> Iterator[Line]:
    """Requests per second of each, the median of three rounds, and the ratios between them."""
    rates = {name: [] for name in ("service", "litestar", "asgi")}
    for _ in range(ROUNDS):
        for name in rates:
            rates[name].append(_rate(name))
    middle = {name: statistics.median(found) for name, found in rates.items()}
    yield "duct sizing over HTTP", middle["service"], "requests/s", f"rounds {[round(one) for one in rates['service']]}"
    yield "bare Litestar route, same messages", middle["litestar"], "requests/s", f"rounds {[round(one) for one in rates['litestar']]}"
    yield "bare ASGI callable, same messages", middle["asgi"], "requests/s", f"rounds {[round(one) for one in rates['asgi']]}"
    ratio = middle["service"] / middle["litestar"]
    yield "service / bare Litestar", ratio, "", f"{'met' if ratio >= GOAL else 'MISSED'}: goal {GOAL}"
    yield "service / bare ASGI", middle["service"] / middle["asgi"], "", ""


def _rate(name: str) -> float:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    process = multiprocessing.get_context("spawn").Process(target=_serve, args=(name, port), daemon=True)
    process.start()
    try:
        _wait(port)
        _load.run(port, _floors.BODY, 0.5)
        return _load.run(port, _floors.BODY, SECONDS)
    finally:
        process.terminate()
        process.join(10)


def _serve(name: str, port: int) -> None:
    factory: Any = {"service": "kneewall.app:create_application", "litestar": "_floors:bare_litestar", "asgi": "_floors:bare_asgi"}[name]
    uvicorn.run(factory, factory=True, host="127.0.0.1", port=port, access_log=False, log_level="error")


def _wait(port: int) -> None:
    until = time.monotonic() + 30
    while time.monotonic() < until:
        try:
            socket.create_connection(("127.0.0.1", port), 0.2).close()
            return
        except OSError:
            time.sleep(0.05)
    raise TimeoutError("the server under measurement did not start")
