"""What a careless or hostile sender may send: each gets the right problem document or a closed connection, and the next question is answered."""

import gzip
import json
import socket
import struct
import time

import msgspec
import pytest

from tests.faults.service import BODY, PATH, Service, request, status_of

PLAIN = "content-type: application/json\r\n"
NUMBERED = "".join(f"x-{number}: {number}\r\n" for number in range(4000))
CASES = {
    "invalid UTF-8": (request(b'{"airflow": "\xff\xfe"}'), 400, "malformed"),
    "half a surrogate pair": (request(b'{"airflow": "\\ud800"}'), 400, "malformed"),
    "NaN, which JSON has not": (request(b'{"airflow": NaN}'), 400, "malformed"),
    "Infinity, which JSON has not": (request(b'{"airflow": {"value": -Infinity, "unit": "cfm"}}'), 400, "malformed"),
    "NaN in MessagePack": (
        request(
            msgspec.msgpack.encode({"airflow": {"value": float("nan"), "unit": "cfm"}, "friction_rate": "0.08 inH2O/100ft"}),
            headers="content-type: application/msgpack\r\n",
        ),
        422,
        "invalid-question",
    ),
    "a number beyond all numbers": (request(b'{"airflow": {"value": 1e999, "unit": "cfm"}, "friction_rate": "0.08 inH2O/100ft"}'), 400, "malformed"),
    "a number of a million digits": (
        request(b'{"airflow": "' + b"9" * 900_000 + b' cfm", "friction_rate": "0.08 inH2O/100ft"}'),
        422,
        "invalid-question",
    ),
    "lists a hundred thousand deep": (request(b"[" * 100_000), 400, "malformed"),
    "objects ten thousand deep": (request(b'{"airflow":' * 10_000 + b"1" + b"}" * 10_000), 400, "malformed"),
    "an empty body": (request(b""), 400, "malformed"),
    "null": (request(b"null"), 422, "invalid-question"),
    "more after the end": (request(BODY + b"}"), 400, "malformed"),
    "MessagePack cut short": (request(b"\x8f\xa7air", headers="content-type: application/msgpack\r\n"), 400, "malformed"),
    "MessagePack that claims four thousand million items": (
        request(b"\xdd\xff\xff\xff\xff", headers="content-type: application/msgpack\r\n"),
        400,
        "malformed",
    ),
    "two megabytes": (request(b" " * 2_000_000), 413, "content-too-large"),
    "two megabytes promised, none sent": (
        f"POST {PATH} HTTP/1.1\r\nhost: a\r\n{PLAIN}content-length: 2000000\r\n\r\n".encode(),
        413,
        "content-too-large",
    ),
    "two megabytes in chunks": (
        f"POST {PATH} HTTP/1.1\r\nhost: a\r\n{PLAIN}transfer-encoding: chunked\r\n\r\n".encode()
        + (b"10000\r\n" + b" " * 65536 + b"\r\n") * 32
        + b"0\r\n\r\n",
        413,
        "content-too-large",
    ),
    "a compression bomb": (request(gzip.compress(b" " * 50_000_000), headers=f"{PLAIN}content-encoding: gzip\r\n"), 415, "unsupported-media-type"),
    "no content type": (request(headers=""), 415, "unsupported-media-type"),
    "an unknown path": (request(path="/v1/../etc/passwd"), 404, "not-found"),
    "a path of odd characters": (request(path="/v1/%00%ff%2e%2e/"), 404, "not-found"),
    "an unknown method": (request(method="DELETE"), 405, "method-not-allowed"),
    "an unknown query parameter": (request(path=f"{PATH}?%00=%ff"), 422, "invalid-question"),
    "an upgrade to something else": (request(headers=f"{PLAIN}connection: upgrade\r\nupgrade: websocket\r\n"), 400, "malformed"),
    "two thousand headers": (request(headers=PLAIN + NUMBERED[:20_000].rpartition("\r\n")[0] + "\r\n"), 200, ""),
    "a flood of headers": (request(headers=PLAIN + NUMBERED), 431, ""),
    "one endless header": (f"POST {PATH} HTTP/1.1\r\nx: {'a' * 200_000}".encode(), 431, ""),
    "an endless path": (f"GET /{'a' * 200_000}".encode(), 431, ""),
    "no HTTP at all": (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" * 20, 400, ""),
    "two lengths": (f"POST {PATH} HTTP/1.1\r\nhost: a\r\n{PLAIN}content-length: 4\r\ncontent-length: 5\r\n\r\nnull1".encode(), 400, ""),
    "a length and chunks": (
        f"POST {PATH} HTTP/1.1\r\nhost: a\r\n{PLAIN}content-length: 4\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n".encode(),
        400,
        "",
    ),
    "a negative length": (f"POST {PATH} HTTP/1.1\r\nhost: a\r\n{PLAIN}content-length: -5\r\n\r\nnull".encode(), 400, ""),
}


@pytest.mark.parametrize(("sent", "status", "kind"), CASES.values(), ids=CASES.keys())
def test_a_bad_request_gets_its_problem_document(service: Service, sent: bytes, status: int, kind: str) -> None:
    answer = service.exchange(sent)
    assert status_of(answer) == status, answer[:400]
    head, _, body = answer.partition(b"\r\n\r\n")
    if kind:
        assert b"content-type: application/problem+json" in head
        assert b"x-request-id: " in head
        problem = json.loads(body)
        assert problem["type"] == f"/problems/{kind}"
        assert problem["status"] == status
    for inside in (b"Traceback", b'File "', b".py", b"site-packages", str(service.process.args).encode()[:20]):
        assert inside not in answer
    assert service.answers()


def test_of_two_equal_keys_the_last_counts(service: Service) -> None:
    """RFC 8259 section 4 leaves it open; what we do is documented, and the same in both lanes."""
    twice = service.exchange(request(b'{"airflow": "9000 cfm", ' + BODY[1:]))
    once = service.exchange(request())
    assert twice.partition(b"\r\n\r\n")[2] == once.partition(b"\r\n\r\n")[2]


def test_a_sender_who_leaves_in_the_middle_harms_nobody(service: Service) -> None:
    time.sleep(0.5)
    before = len(service.lines())
    for _ in range(20):
        with service.connect() as connection:
            connection.sendall(request()[:-10])
            connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
    assert service.answers()
    time.sleep(0.6)
    left = [line for line in service.lines()[before:] if line.get("status") != 200]
    assert [line["status"] for line in left] == [400] * 20
    assert not [line for line in service.lines() if "trace" in line]


def test_a_reader_who_never_reads_holds_up_only_himself(service: Service) -> None:
    """Hundreds of questions are sent on one connection and no answer is taken; others are answered meanwhile, and memory stays."""
    before = service.memory()
    with service.connect() as greedy:
        greedy.settimeout(1)
        try:
            for _ in range(20):
                greedy.sendall(request() * 100)
        except TimeoutError:
            pass
        started = time.perf_counter()
        assert all(service.answers() for _ in range(20))
        assert time.perf_counter() - started < 5
        assert service.memory() - before < 30e6


def test_many_idle_connections_leave_room_for_others(service: Service) -> None:
    idle = [service.connect() for _ in range(300)]
    try:
        for connection in idle[::2]:
            connection.sendall(b"POST /v1/duct-sizing HTTP/1.1\r\nhost: a\r\n")
        started = time.perf_counter()
        assert all(service.answers() for _ in range(20))
        assert time.perf_counter() - started < 5
    finally:
        for connection in idle:
            connection.close()
