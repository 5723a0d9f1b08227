"""Measures bulk: items per second and core against a plain loop, a file of a million rows, its memory, and how long others wait.

Rates per core are those of the machine of the goals: processor time, measured beside the yardstick. Wall clock and waits are those of this machine.

`measure()` gives rows of (what, figure, unit, remark). Run by itself it prints them; `--rows` changes the length of the file.
"""

import asyncio
import json
import os
import random
import socket
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.request
from argparse import ArgumentParser
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import msgspec
from _yardstick import slowness

from kneewall.bulk.chunk import Chunk, Job, run_chunk
from kneewall.bulk.endpoint import BulkReply
from kneewall.bulk.item import How
from kneewall.bulk.pool import WorkerPool, usable_cores
from kneewall.bulk.worker import answer_items
from kneewall.catalogue import all_calculations
from kneewall.http.ask import ask
from kneewall.http.media import NDJSON
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.wire import write_json
from kneewall.web.views import sheet_page

Figure = tuple[str, float, str, str]
MILLION = 1_000_000
ROWS_GOAL = 40_000
COLUMNS = "/result/size/diameter,/result/velocity,/result/friction_rate"
HEADING = ("/airflow [cfm]", "/friction_rate [inH2O/100ft]", "/place")
ROUNDS = 15
SCOPE: Any = {
    "type": "http",
    "query_string": b"",
    "headers": [(b"content-type", b"application/json")],
    "kneewall_request_id": "bench",
}


def measure(rows: int = MILLION) -> list[Figure]:
    """Every figure of bulk."""
    found: list[Figure] = []
    for calculation in all_calculations().values():
        found += calculation_figures(calculation)
    return [*found, *chunk_figures(), *file_figures(rows // 10), *file_figures(rows), *waiting_figures()]


def in_turn(ways: list[Callable[[], object]], count: int) -> list[list[float]]:
    """Seconds per item of several ways on the machine of the goals, `ROUNDS` runs each, in turn, so that a noisy moment strikes all of them."""
    took: list[list[float]] = [[] for _ in ways]
    for _ in range(ROUNDS):
        slower = slowness()
        for place, run in enumerate(ways):
            began = time.process_time()
            run()
            took[place].append((time.process_time() - began) / count / slower)
    return took


def judged(met: bool, goal: str) -> str:
    """Whether a goal was met."""
    return f"{'met' if met else 'MISSED'}: goal {goal}"


def calculation_figures(calculation: AnyCalculation) -> list[Figure]:
    """One calculation in one process: a plain loop, the questions one by one as its route answers them, and as a chunk of a bulk request."""
    examples = [msgspec.json.encode(example.question) for example in calculation.examples]
    questions = examples * (50 if max(map(len, examples)) < 5000 else 5)
    items = [msgspec.json.encode({"id": n, "calculation": calculation.name, "question": msgspec.Raw(q)}) for n, q in enumerate(questions)]
    read, function, write = calculation.reader.json, calculation.function, write_json["ip"]

    def plain() -> object:
        return [write(function(read(question))) for question in questions]

    def one_by_one() -> object:
        return [ask(calculation, SCOPE, question, sheet_page) for question in questions]

    ways = in_turn([plain, one_by_one, lambda: answer_items(items, How(), True)], len(questions))
    loop, single, bulk = map(statistics.median, ways)
    ratio = statistics.median(of_loop / of_bulk for of_loop, _, of_bulk in zip(*ways, strict=True))
    return [
        (f"{calculation.name}: plain loop", 1 / loop, "items/s per core", "read, calculate, write the examples; the ceiling"),
        (f"{calculation.name}: one by one", 1 / single, "items/s per core", "as its route answers, without the network"),
        (f"{calculation.name}: bulk", 1 / bulk, "items/s per core", "as a worker answers a chunk"),
        (f"{calculation.name}: bulk over plain loop", ratio, "ratio", f"{judged(ratio >= 0.9, '0.9')}; median of {ROUNDS} rounds"),
    ]


def row(source: random.Random) -> str:
    """One round duct sizing."""
    return f"{source.uniform(40, 2000):.1f},{source.choice(['0.06', '0.08', '0.1'])},{source.choice(['supply-branch', 'return-trunk', ''])}"


def chunk_figures() -> list[Figure]:
    """Round duct sizings by a file's worker, in processor time of one core."""
    source, count = random.Random(1), 10_000
    text = "\n".join(row(source) for _ in range(count)).encode()
    jobs = [Job("csv", "duct-sizing", HEADING, "csv", columns) for columns in (tuple(COLUMNS.split(",")), ())]
    few, every = map(statistics.median, in_turn([lambda job=job: run_chunk(job, Chunk(text, 2, 0, 0)) for job in jobs], count))  # type: ignore[misc]
    return [
        (
            "round duct sizings, file worker, three columns",
            1 / few,
            "rows/s per core",
            judged(1 / few >= ROWS_GOAL, f"{ROWS_GOAL:,}") + "; middle of the rounds",
        ),
        ("round duct sizings, file worker, every column", 1 / every, "rows/s per core", "middle of the rounds; 24 columns"),
        ("10,000 items through the endpoint", *endpoint_rate()),
    ]


def endpoint_rate() -> tuple[float, str, str]:
    """Whole answers through the streaming reply and its pool."""
    pool = WorkerPool()
    question = {"airflow": "400 cfm", "friction_rate": "0.1 inH2O/100ft"}
    items = [msgspec.json.encode({"id": number, "calculation": "duct-sizing", "question": question}) for number in range(10_000)]

    async def never() -> Any:
        await asyncio.Event().wait()

    async def send(message: Any) -> None: ...

    def once() -> float:
        began = time.perf_counter()
        asyncio.run(BulkReply(items, How(), NDJSON, pool)({}, never, send))  # type: ignore[arg-type]
        return time.perf_counter() - began

    once()
    best = min(once() for _ in range(5))
    pool.close()
    return len(items) / best, "items/s", f"wall clock, {pool.workers} workers, 3 kB an answer"


def file_figures(rows: int) -> list[Figure]:
    """The command on a generated file, start and end included, with the memory of all its processes together."""
    with tempfile.TemporaryDirectory() as folder:
        path, source = Path(folder) / "rows.csv", random.Random(1)
        with path.open("w") as file:
            file.write(",".join(HEADING) + "\n")
            file.writelines(row(source) + "\n" for _ in range(rows))
        given = ["bulk", str(path), "--calculation", "duct-sizing", "--columns", COLUMNS, "--out", str(Path(folder) / "out.parquet")]
        slower = slowness()
        began = time.perf_counter()
        process = subprocess.Popen([sys.executable, "-m", "kneewall", *given], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        peak, busy = watched(process)
        took = time.perf_counter() - began
        slower = (slower + slowness()) / 2
        if process.returncode != 0:
            raise RuntimeError(f"the command ended with {process.returncode}")
    cores = usable_cores()
    return [
        (f"file of {rows:,} rows, CSV to Parquet", rows / took, "rows/s", f"wall clock, {cores} processes, start and end included"),
        (
            f"file of {rows:,} rows, per core used",
            rows / busy * slower,
            "rows/s per core",
            "processor time of all processes, parent and start included",
        ),
        (f"file of {rows:,} rows, peak memory", peak / 1e6, "MB", "proportional share of all processes together"),
    ]


def watched(process: "subprocess.Popen[bytes]") -> tuple[int, float]:
    """The peak memory and the processor seconds of a process and all its descendants, until it ends."""
    peak, busy, tick = 0, dict[int, float](), os.sysconf("SC_CLK_TCK")
    while process.poll() is None:
        total = 0
        for pid in family(process.pid):
            try:
                total += next(
                    int(line.split()[1]) * 1024 for line in Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines() if line.startswith("Pss:")
                )
                times = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
                busy[pid] = (int(times[11]) + int(times[12])) / tick
            except (OSError, StopIteration):
                continue
        peak = max(peak, total)
        time.sleep(0.1)
    return peak, sum(busy.values())


def family(pid: int) -> Iterator[int]:
    """A process and its descendants."""
    yield pid
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    except OSError:
        return
    for child in children:
        yield from family(int(child))


def waiting_figures() -> list[Figure]:
    """How long single questions wait while a bulk request of ten thousand items runs, both over HTTP."""
    question = {"airflow": "400 cfm", "friction_rate": "0.1 inH2O/100ft"}
    items = json.dumps([{"id": number, "calculation": "duct-sizing", "question": question} for number in range(10_000)]).encode()
    with running_service() as address:

        def post(path: str, body: bytes) -> bytes:
            with urllib.request.urlopen(urllib.request.Request(address + path, body, {"content-type": "application/json"})) as reply:
                return bytes(reply.read())

        post("/v1/bulk", items)
        bulk = threading.Thread(target=post, args=("/v1/bulk", items))
        bulk.start()
        began, waits = time.perf_counter(), []
        while bulk.is_alive():
            asked = time.perf_counter()
            post("/v1/duct-sizing", json.dumps(question).encode())
            waits.append((time.perf_counter() - asked) * 1e3)
        took = time.perf_counter() - began
    middle = statistics.median(waits)
    return [
        (
            "others' median wait while 10,000 items run",
            middle,
            "ms",
            f"{judged(middle < 10, '10')}; {len(waits)} questions, each on a new connection",
        ),
        ("others' longest wait meanwhile", max(waits), "ms", "the client shares the machine"),
        ("10,000 items over HTTP meanwhile", 10_000 / took, "items/s", "wall clock, array of whole answers"),
    ]


@contextmanager
def running_service() -> Iterator[str]:
    """A service in a process of its own."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    given = [sys.executable, "-m", "uvicorn", "kneewall.app:create_application", "--factory", "--port", str(port), "--log-level", "warning"]
    process = subprocess.Popen([*given, "--no-access-log"])
    try:
        for _ in range(300):
            try:
                urllib.request.urlopen(f"http://127.0.0.1:{port}/health/ready").close()
                break
            except OSError:
                time.sleep(0.1)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(30)


if __name__ == "__main__":
    parser = ArgumentParser(description="Measure bulk.")
    parser.add_argument("--rows", type=int, default=MILLION)
    for what, figure, unit, remark in measure(parser.parse_args().rows):
        print(f"{what:<52}{figure:>12,.2f} {unit:<18}{remark}")
