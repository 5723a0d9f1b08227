"""What happens to questions when a process ends: told to under load, or killed behind the balancer."""

import asyncio
import os
import re
import shutil
import signal
import socket
import subprocess
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tests.faults.load import Outcome, ask_until
from tests.faults.service import PATH, ROOT, Service, request, status_of, whole_answer

HAPROXY = shutil.which("haproxy", path=f"{os.environ.get('PATH', '')}:/usr/sbin")


def test_sigterm_under_load_loses_no_question() -> None:
    """Every question that the service began is answered in full: the log has one line with 200 for each answer that reached a client, none is cut short."""
    with Service() as service:

        async def load_and_end() -> Outcome:
            loading = asyncio.create_task(ask_until(asyncio.Event(), service.port))
            await asyncio.sleep(1)
            service.process.send_signal(signal.SIGTERM)
            return await loading

        started = time.monotonic()
        outcome = asyncio.run(load_and_end())
        assert service.process.wait(10) in (0, -signal.SIGTERM)
        assert time.monotonic() - started < 15
        assert set(outcome.statuses) == {200} and outcome.statuses[200] > 100
        assert outcome.cut == 0
        assert sum(line.get("status") == 200 for line in service.lines()) == outcome.statuses[200]


def test_a_body_that_is_still_arriving_at_sigterm_is_waited_for() -> None:
    with Service() as service, service.connect() as connection:
        whole = request()
        connection.sendall(whole[:-20])
        time.sleep(0.3)
        service.process.send_signal(signal.SIGTERM)
        time.sleep(0.3)
        connection.sendall(whole[-20:])
        assert status_of(whole_answer(connection)) == 200


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


@pytest.fixture
def balanced(tmp_path: Path) -> Iterator[tuple[int, list[int]]]:
    """The balancer as configured in docker/, before two replicas of fixed address: its port and theirs."""
    if HAPROXY is None:
        assert os.environ.get("KNEEWALL_REQUIRE_HAPROXY") != "1", "HAProxy is required here and was not found"
        pytest.skip("HAProxy is not installed (Debian: apt-get install haproxy)")
    front, first, second = free_port(), free_port(), free_port()
    text = (ROOT / "docker" / "haproxy.cfg").read_text("utf-8")
    for pattern, here in (
        (r"bind :8080", f"bind 127.0.0.1:{front}"),
        (r"gt 2000 ", "gt 2000000 "),
        (r"server-template .*", f"server one 127.0.0.1:{first}\n    server two 127.0.0.1:{second}"),
        (r" resolvers names init-addr none", ""),
    ):
        text, changed = re.subn(pattern, here, text)
        assert changed == 1, pattern
    configuration = tmp_path / "haproxy.cfg"
    configuration.write_text(text, "utf-8")
    process = subprocess.Popen([HAPROXY, "-db", "-q", "-f", str(configuration)], stderr=subprocess.DEVNULL)
    try:
        yield front, [first, second]
    finally:
        process.terminate()
        process.wait(10)


def wait_for_status(port: int, path: str, wanted: int) -> bytes:
    until, answer = time.monotonic() + 20, b""
    while time.monotonic() < until:
        try:
            with socket.create_connection(("127.0.0.1", port), 5) as connection:
                connection.sendall(request(b"", path=path, method="GET"))
                answer = whole_answer(connection)
        except OSError:
            answer = b""
        if status_of(answer) == wanted:
            return answer
        time.sleep(0.1)
    raise AssertionError(f"no {wanted} from {path}: {answer[:200]!r}")


def test_two_replicas_behind_the_balancer_one_killed_one_restarted_no_question_fails(balanced: tuple[int, list[int]]) -> None:
    front, ports = balanced
    with ThreadPoolExecutor() as both:
        first, second = both.map(lambda port: Service(port=port), ports)
    replicas = [first, second]
    wait_for_status(front, "/health/ready", 200)
    time.sleep(1.2)

    async def load_and_harm() -> Outcome:
        over = asyncio.Event()
        loading = asyncio.create_task(ask_until(over, front, pause=0.01))
        await asyncio.sleep(0.7)
        first.process.kill()
        await asyncio.sleep(0.7)
        replicas.append(await asyncio.to_thread(lambda: Service(port=ports[0])))
        await asyncio.sleep(2)
        second.process.send_signal(signal.SIGTERM)
        await asyncio.sleep(0.7)
        replicas.append(await asyncio.to_thread(lambda: Service(port=ports[1])))
        await asyncio.sleep(2)
        over.set()
        return await loading

    try:
        outcome = asyncio.run(load_and_harm())
        assert outcome.gave_up == 0
        assert set(outcome.statuses) == {200} and outcome.statuses[200] > 300
        assert outcome.longest < 5
        shares = [sum(line.get("path") == PATH for line in replica.lines()) for replica in replicas]
        assert min(shares) > 0, f"every replica, the new ones too, took questions: {shares}"
    finally:
        for replica in replicas:
            replica.stop(signal.SIGTERM)
            replica.log.close()


def test_the_balancer_keeps_the_metrics_inside_and_speaks_in_problem_documents(balanced: tuple[int, list[int]]) -> None:
    front, _ = balanced
    assert b"application/problem+json" in wait_for_status(front, "/v1/units", 503)
    assert status_of(wait_for_status(front, "/metrics", 403)) == 403
    assert status_of(wait_for_status(front, "/%6Detrics", 403)) == 403
