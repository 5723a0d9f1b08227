"""Requests per second of duct sizing on one core, against bare Litestar routes with the same messages and a bare ASGI callable, all in one run."""

import multiprocessing
import os
import socket
import statistics
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import _floors
import _load
import uvicorn

from kneewall.http.connection import Connection

Line = tuple[str, float, str, str]
GOAL = 2.0
ROUNDS, SECONDS = 3, 2.0
SAYS = {
    "service": "the service, speed lane",
    "ordinary": "the service, by the router only",
    "litestar": "bare Litestar route, same messages, nothing worked out",
    "working": "bare Litestar route that works the answer out",
    "asgi": "bare ASGI callable, same messages, nothing worked out",
}


def measure() -> Iterator[Line]:
    """Requests per second that one core would answer: requests over the server's own processor time, so that a busy machine disturbs it less."""
    rates: dict[str, list[float]] = {name: [] for name in SAYS}
    for _ in range(ROUNDS):
        for name, found in rates.items():
            found.append(_rate(name))
    middle = {name: statistics.median(found) for name, found in rates.items()}
    for name, says in SAYS.items():
        yield says, middle[name], "requests/s", f"rounds {[round(one) for one in rates[name]]}"
    for name in ("litestar", "working", "asgi"):
        ratios = [one / other for one, other in zip(rates["service"], rates[name], strict=True)]
        goal = f"{'met' if statistics.median(ratios) >= GOAL else 'MISSED'}: goal {GOAL}; " if name != "asgi" else ""
        yield f"speed lane / {SAYS[name]}", statistics.median(ratios), "", f"{goal}rounds {[round(one, 2) for one in ratios]}"


def _rate(name: str) -> float:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    process = multiprocessing.get_context("spawn").Process(target=_serve, args=(name, port), daemon=True)
    process.start()
    try:
        _wait(port)
        _load.run(port, _floors.BODY, 0.5)
        before = _processor_seconds(process.pid)
        return _load.run(port, _floors.BODY, SECONDS) * SECONDS / (_processor_seconds(process.pid) - before)
    finally:
        process.terminate()
        process.join(10)


def _processor_seconds(pid: int | None) -> float:
    used = Path(f"/proc/{pid}/stat").read_text("ascii").rpartition(")")[2].split()
    return (int(used[11]) + int(used[12])) / os.sysconf("SC_CLK_TCK")


def _serve(name: str, port: int) -> None:
    factory: Any = {
        "service": "kneewall.app:create_application",
        "ordinary": "kneewall.app:create_application",
        "litestar": "_floors:bare_litestar",
        "working": "_floors:working_litestar",
        "asgi": "_floors:bare_asgi",
    }[name]
    os.environ["KNEEWALL_SPEED_LANE"] = str(name == "service").lower()
    http: Any = Connection if name in ("service", "ordinary") else "httptools"
    sys.stderr = open(os.devnull, "w")  # noqa: SIM115
    uvicorn.run(factory, factory=True, host="127.0.0.1", port=port, access_log=False, log_level="error", http=http)


def _wait(port: int) -> None:
    until = time.monotonic() + 30
    while time.monotonic() < until:
        try:
            socket.create_connection(("127.0.0.1", port), 0.2).close()
            return
        except OSError:
            time.sleep(0.05)
    raise TimeoutError("the server under measurement did not start")
