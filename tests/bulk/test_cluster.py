"""A file answered by a cluster of two workers, one of them killed on the way, and the same thousand questions asked in every way."""

import csv
import io
import json
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import distributed
import httpx
import pytest

from tests.bulk.conftest import Post, environment, kneewall
from tests.bulk.questions import many_questions, without_instance
from tests.bulk.test_stopping import table

pytestmark = pytest.mark.filterwarnings("ignore")


@pytest.fixture(scope="module")
def cluster() -> Iterator[Any]:
    """Two worker processes on this machine, each with a nanny that replaces it when it dies."""
    os.environ["PYTHONPATH"] = environment()["PYTHONPATH"]
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None, memory_limit=0) as running:
        yield running


@pytest.fixture(scope="module")
def service() -> Iterator[str]:
    """A running service, in a process of its own."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    given = [sys.executable, "-m", "uvicorn", "kneewall.app:create_application", "--factory", "--port", str(port), "--log-level", "warning"]
    process = subprocess.Popen(given, env=environment())
    address = f"http://127.0.0.1:{port}"
    for _ in range(200):
        try:
            httpx.get(f"{address}/health/ready")
            break
        except httpx.TransportError:
            time.sleep(0.1)
    yield address
    process.terminate()
    assert process.wait(30) in (0, -signal.SIGTERM, 143)


def test_a_worker_killed_on_the_way_changes_nothing(cluster: Any, tmp_path: Path) -> None:
    path = table(tmp_path / "in.csv", 60_000)
    given = ("--calculation", "duct-sizing", "--columns", "/result/velocity", "--out")
    assert kneewall("bulk", path, *given, tmp_path / "here.csv", "--workers", "1").returncode == 0
    worker = next(iter(cluster.scheduler_info["workers"].values()))
    victim = cluster.workers[worker["id"]].process.pid
    partial, killed = tmp_path / "there.csv.partial", []

    def kill() -> None:
        while not (partial.exists() and partial.stat().st_size > 200_000):
            time.sleep(0.005)
        os.kill(victim, signal.SIGKILL)
        killed.append(not (tmp_path / "there.csv").exists())

    watching = threading.Thread(target=kill, daemon=True)
    watching.start()
    done = kneewall("bulk", path, *given, tmp_path / "there.csv", "--cluster", cluster.scheduler_address)
    watching.join(10)
    assert killed == [True]
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "there.csv").read_bytes() == (tmp_path / "here.csv").read_bytes()


def test_a_thousand_questions_are_answered_alike_in_every_way(cluster: Any, service: str, post: Post, tmp_path: Path) -> None:
    """One by one, in bulk, from a file, on a cluster, and from a file against a running service."""
    items = many_questions(1000)
    alone = []
    for item in items:
        reply = post(f"/v1/{item['calculation']}", json=item["question"])
        alone.append(without_instance({"id": item["id"], ("answer" if reply.status_code == 200 else "problem"): reply.json()}))
    assert sum("answer" in reply for reply in alone) > 500 and sum("problem" in reply for reply in alone) >= 10
    lines = b"\n".join(json.dumps(item).encode() for item in items)
    (tmp_path / "in.ndjson").write_bytes(lines)
    bulk = post("/v1/bulk", content=lines, headers={"content-type": "application/x-ndjson"}).text.splitlines()[:-1]
    assert [without_instance(json.loads(line)) for line in bulk] == alone
    for name, how in {"file": (), "cluster": ("--cluster", cluster.scheduler_address), "against": ("--against", service)}.items():
        out = tmp_path / f"{name}.ndjson"
        done = kneewall("bulk", tmp_path / "in.ndjson", "--out", out, *how)
        assert done.returncode == 0, done.stderr
        assert [without_instance(json.loads(line)) for line in out.read_text().splitlines()] == alone, name


def test_a_table_is_the_same_here_and_against_a_service(service: str, tmp_path: Path) -> None:
    """Every column of the result, read from answers here and from JSON there."""
    path = table(tmp_path / "in.csv", 1000)
    for name, how in {"here": (), "there": ("--against", service + "/")}.items():
        assert kneewall("bulk", path, "--calculation", "duct-sizing", "--out", tmp_path / f"{name}.csv", *how).returncode == 0
    here, there = (list(csv.reader(io.StringIO((tmp_path / f"{name}.csv").read_text()))) for name in ("here", "there"))
    assert here == there
    assert len(here) == 1001


def test_questions_of_another_media_or_an_absent_service_stop_the_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kneewall.bulk.against.TRIES", 1)
    path = table(tmp_path / "in.csv", 10)
    done = kneewall("bulk", path, "--calculation", "duct-sizing", "--out", tmp_path / "out.csv", "--against", "http://127.0.0.1:9")
    assert done.returncode == 3 and "Run the same command again" in done.stderr
    assert kneewall("bulk", path, "--calculation", "duct-sizing", "--out", tmp_path / "out.csv").returncode == 0


def test_others_hardly_wait_while_ten_thousand_items_run(service: str) -> None:
    """The median wait of single questions, asked one after the other while a bulk request of ten thousand items runs."""
    question = {"airflow": "400 cfm", "friction_rate": "0.1 inH2O/100ft"}
    items = [{"id": number, "calculation": "duct-sizing", "question": question} for number in range(10_000)]
    httpx.post(f"{service}/v1/bulk", json=items[:10], timeout=60)
    replies: list[httpx.Response] = []
    bulk = threading.Thread(target=lambda: replies.append(httpx.post(f"{service}/v1/bulk", json=items, timeout=60)))
    waits = []
    with httpx.Client() as client:
        client.post(f"{service}/v1/duct-sizing", json=question)
        bulk.start()
        while bulk.is_alive():
            began = time.perf_counter()
            assert client.post(f"{service}/v1/duct-sizing", json=question).status_code == 200
            waits.append(time.perf_counter() - began)
    assert len(replies[0].json()) == 10_000
    assert len(waits) >= 5
    assert sorted(waits)[len(waits) // 2] < 0.010
