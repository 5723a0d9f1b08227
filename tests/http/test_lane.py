"""The speed lane and the router give the same answers to the same requests, header for header and byte for byte."""

import json
import random
from collections import Counter
from typing import Any

import msgspec
import pytest

from kneewall.app import create_application
from kneewall.catalogue import all_calculations
from kneewall.http.lane import SpeedLane
from kneewall.http.media import JSON, MSGPACK
from kneewall.http.settings import Settings
from kneewall.kernel.calculation import AnyCalculation
from tests.http.calling import Reply, call
from tests.http.quantities import varied

QUICK = create_application(settings=Settings(log="faults"))
ORDINARY = create_application(settings=Settings(log="faults", speed_lane=False))
CALCULATIONS = [pytest.param(calculation, id=calculation.name) for calculation in all_calculations().values()]
HEADERS: list[dict[str, str]] = [
    {"content_type": JSON},
    {"content_type": f"{JSON}; charset=utf-8", "accept": "application/*;q=0.5, text/plain"},
    {"content_type": JSON, "accept": MSGPACK},
    {"content_type": MSGPACK},
    {"content_type": JSON, "accept": "image/png"},
    {"content_type": "text/plain"},
    {"content_type": JSON, "content_encoding": "gzip"},
]
QUERIES = ["", "units=si", "working=true&units=si", "units=yards&colour=red"]
BODIES = [b"", b"{", b"null", b"[]", b"\xff", b"[" * 5000, b'{"airflow": NaN}', b'{"no such field": 1}', b"\x81"]


def both(path: str, body: bytes | list[bytes], query: str, headers: dict[str, str]) -> Reply:
    """The answer, which both gave."""
    quick, ordinary = (call(app, "POST", path, body, query, x_request_id="equal", **headers) for app in (QUICK, ORDINARY))
    assert quick == ordinary, (path, body[:200], query, headers)
    return quick


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_both_ways_give_the_same_answer(calculation: AnyCalculation) -> None:
    chance = random.Random(calculation.name)
    seen: Counter[int] = Counter()
    for turn in range(120):
        example = chance.choice(calculation.examples).question
        question = example if turn < len(HEADERS) else varied(calculation.question, example, chance, reach=1.3)
        headers = HEADERS[turn % len(HEADERS)]
        body = msgspec.msgpack.encode(question) if headers["content_type"] == MSGPACK else json.dumps(question).encode()
        seen[both(f"/v1/{calculation.name}", body, chance.choice(QUERIES), headers).status] += 1
    for body in BODIES:
        for headers in HEADERS:
            seen[both(f"/v1/{calculation.name}", body, "", headers).status] += 1
    assert seen.keys() >= {200, 400, 406, 415, 422} and 500 not in seen, seen


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_a_plain_question_never_meets_the_router_and_an_odd_one_does(calculation: AnyCalculation) -> None:
    asked: list[str] = []

    async def router(scope: Any, receive: Any, send: Any) -> None:
        asked.append((await receive())["body"].decode())

    lane: Any = QUICK
    while not isinstance(lane, SpeedLane):
        lane = lane.app
    alone = SpeedLane(router, lane.answerers, lane.largest)
    body = json.dumps(calculation.examples[0].question).encode()
    path = f"/v1/{calculation.name}"
    assert call(alone, "POST", path, body, content_type=JSON).status == 200
    assert asked == []
    for odd in (("GET", path, body), ("POST", f"{path}/", body), ("POST", path, [body[:9], body[9:]])):
        with pytest.raises(AssertionError):
            call(alone, *odd, content_type=JSON)
    assert len(asked) == 3


def test_a_body_in_pieces_is_answered_the_same() -> None:
    for calculation in all_calculations().values():
        body = json.dumps(calculation.examples[0].question).encode()
        whole = both(f"/v1/{calculation.name}", body, "", HEADERS[0])
        assert both(f"/v1/{calculation.name}", [body[:7], body[7:50], body[50:]], "", HEADERS[0]) == whole


def test_too_large_a_body_is_refused_the_same() -> None:
    body = b" " * 1_000_001
    assert both("/v1/duct-sizing", body, "", HEADERS[0]).status == 413
    assert both("/v1/duct-sizing", [body[:500_000], body[500_000:]], "", {**HEADERS[0], "transfer_encoding": "chunked"}).status == 413


def test_the_lane_can_be_left_out() -> None:
    assert not isinstance(ORDINARY.app, SpeedLane)  # type: ignore[attr-defined]
