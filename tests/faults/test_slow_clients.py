"""Senders who take their time are cut off after the operator's patience; everybody else is answered meanwhile."""

import time

import pytest

from tests.faults.service import Service, request, status_of, whole_answer

SLOW = {
    "says nothing": b"",
    "half a head": b"POST /v1/duct-sizing HTTP/1.1\r\nhost: a\r\ncontent-ty",
    "half a body": request()[:-10],
}


@pytest.fixture(scope="module")
def hasty():  # type: ignore[no-untyped-def]
    with Service(patience="1") as running:
        yield running


def test_a_slow_sender_is_closed_and_a_quick_one_is_not(hasty: Service) -> None:
    connections = {name: hasty.connect(10) for name in SLOW}
    after = hasty.connect(10)
    after.sendall(request())
    assert status_of(whole_answer(after)) == 200
    after.sendall(b"POST /v1")
    for name, sent in SLOW.items():
        connections[name].sendall(sent)
    started = time.monotonic()
    closed: dict[str, float] = {}
    for name, connection in {**connections, "half a head after a whole question": after}.items():
        answer = whole_answer(connection)
        closed[name] = time.monotonic() - started
        assert answer == b"", name
        connection.close()
        assert hasty.answers()
    assert all(0.5 < seconds < 8 for seconds in closed.values()), closed


def test_one_byte_at_a_time_is_answered_within_the_patience_and_cut_off_beyond(service: Service, hasty: Service) -> None:
    whole = request()
    with service.connect() as patient:
        for start in range(0, len(whole), 20):
            patient.sendall(whole[start : start + 20])
            time.sleep(0.01)
        assert status_of(whole_answer(patient)) == 200
    with hasty.connect() as dripping:
        started, sent = time.monotonic(), 0
        try:
            while time.monotonic() - started < 8:
                dripping.sendall(b" " if sent else b"POST /v1/duct-sizing HTTP/1.1\r\nx: ")
                sent += 1
                time.sleep(0.05)
            pytest.fail("a head that never ends was never cut off")
        except (BrokenPipeError, ConnectionResetError):
            assert time.monotonic() - started > 0.5
