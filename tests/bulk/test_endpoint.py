"""`POST /v1/bulk`: order, each item for itself, limits, and readers who are slow or leave."""

import asyncio
import json
import os
import signal
from concurrent.futures import Future
from typing import Any

import pytest

from kneewall.bulk import endpoint
from kneewall.bulk.body import items_of
from kneewall.bulk.endpoint import BulkReply
from kneewall.bulk.item import How
from kneewall.bulk.pool import WorkerPool
from kneewall.bulk.tally import Outcome
from kneewall.bulk.worker import answer_items
from kneewall.http.bulk_operation import LARGEST_BULK_BODY, MOST_ITEMS
from kneewall.http.media import JSON, NDJSON
from kneewall.kernel.refusal import Refusal
from tests.bulk.conftest import Post
from tests.bulk.questions import many_questions, without_instance

GOOD = {"airflow": "400 cfm", "friction_rate": "0.1 inH2O/100ft"}
ITEM = {"id": 1, "calculation": "duct-sizing", "question": GOOD}
LINES = {"content-type": NDJSON}


def ndjson(items: list[Any]) -> bytes:
    return b"\n".join(json.dumps(item).encode() for item in items)


def test_every_item_is_answered_as_its_own_route_answers_it(post: Post) -> None:
    items = many_questions(60)
    together = post("/v1/bulk", json=items).json()
    for item, reply in zip(items, together, strict=True):
        alone = post(f"/v1/{item['calculation']}", json=item["question"])
        name = "answer" if alone.status_code == 200 else "problem"
        assert without_instance(reply) == without_instance({"id": item["id"], name: alone.json()})


def test_order_is_kept_over_many_chunks(post: Post) -> None:
    items = [{**ITEM, "id": number} for number in range(3000)]
    assert [reply["id"] for reply in post("/v1/bulk", json=items).json()] == list(range(3000))


def test_lines_end_with_a_summary(post: Post) -> None:
    reply = post("/v1/bulk", content=ndjson([ITEM, {**ITEM, "question": {"airflow": "3 kg"}}, {**ITEM, "question": {}}]), headers=LINES)
    assert reply.headers["content-type"] == NDJSON
    *lines, last = [json.loads(line) for line in reply.text.splitlines()]
    assert ["answer" in line for line in lines] == [True, False, False]
    summary = last["summary"]
    assert (summary["items"], summary["answered"], summary["refused"], summary["verdicts"]) == (3, 1, 2, {"meets": 1})
    assert [(group["pointer"], group["count"]) for group in summary["faults"]] == [("/airflow", 2)]


@pytest.mark.parametrize(
    ("item", "identity", "status", "pointer"),
    [
        (5, None, 422, ""),
        (None, None, 422, ""),
        ({"id": "a"}, "a", 422, "/calculation"),
        ({"id": "b", "calculation": "no-such", "question": {}}, "b", 422, "/calculation"),
        ({"id": [1], "calculation": "duct-sizing", "question": GOOD}, None, 422, "/id"),
        ({"id": "x" * 201, "calculation": "duct-sizing", "question": GOOD}, None, 422, "/id"),
        ({"id": 7.5, "calculation": "duct-sizing", "question": GOOD, "extra": 1}, 7.5, 422, "/extra"),
        ({"calculation": "duct-sizing", "question": 3}, None, 422, ""),
    ],
)
def test_a_faulty_item_spoils_no_other(post: Post, item: Any, identity: Any, status: int, pointer: str) -> None:
    before, faulty, after = post("/v1/bulk", json=[ITEM, item, ITEM]).json()
    assert "answer" in before and "answer" in after
    assert faulty["id"] == identity
    assert faulty["problem"]["status"] == status
    assert faulty["problem"]["errors"][0]["pointer"] == pointer


def test_a_line_that_is_not_json_spoils_no_other(post: Post) -> None:
    body = b"\n".join([json.dumps(ITEM).encode(), b'{"id": "\xff"}', b"[" * 100_000, b"{", b"", json.dumps(ITEM).encode()])
    lines = [json.loads(line) for line in post("/v1/bulk", content=body, headers=LINES).text.splitlines()]
    assert [line.get("problem", {}).get("status") for line in lines] == [None, 400, 400, 400, None, None]


def test_ids_come_back_as_they_were(post: Post) -> None:
    for identity in ("", "ü/~", 0, -7, 1.5, 10**18, None):
        assert post("/v1/bulk", json=[{**ITEM, "id": identity}]).json()[0]["id"] == identity


def test_units_and_working_are_chosen_for_all(post: Post) -> None:
    reply = post("/v1/bulk?units=si&working=true", json=[ITEM]).json()[0]["answer"]
    assert reply == post("/v1/duct-sizing?units=si&working=true", json=GOOD).json()
    assert post("/v1/bulk?units=furlong", json=[ITEM]).status_code == 422


def test_the_answer_comes_in_the_form_the_reader_wants(post: Post) -> None:
    lines = post("/v1/bulk", json=[ITEM], headers={"accept": NDJSON}).text.splitlines()
    assert len(lines) == 2 and json.loads(lines[1])["summary"]["items"] == 1
    array = post("/v1/bulk", content=ndjson([ITEM]), headers={**LINES, "accept": JSON}).json()
    assert [without_instance(one) for one in array] == [json.loads(lines[0])]
    assert post("/v1/bulk", json=[ITEM], headers={"accept": "application/xml"}).status_code == 406


def test_nothing_asked_is_answered_with_nothing(post: Post) -> None:
    assert post("/v1/bulk", json=[]).json() == []
    assert json.loads(post("/v1/bulk", content=b"\n\n", headers=LINES).text)["summary"]["items"] == 0


@pytest.mark.parametrize(
    ("how", "status"),
    [
        ({"json": {}}, 422),
        ({"content": b"[1,", "headers": {"content-type": JSON}}, 400),
        ({"content": b"[" * 100_000, "headers": {"content-type": JSON}}, 400),
        ({"content": b"[]", "headers": {"content-type": "text/csv"}}, 415),
        ({"content": b" " * (LARGEST_BULK_BODY + 1), "headers": {"content-type": JSON}}, 413),
    ],
)
def test_a_body_that_is_no_bulk_request_is_refused_as_a_whole(post: Post, how: dict[str, Any], status: int) -> None:
    reply = post("/v1/bulk", **how)
    assert reply.status_code == reply.json()["status"] == status
    assert status != 415 or reply.headers["accept-post"] == f"{JSON}, {NDJSON}"


def test_as_many_items_as_stated_and_no_more() -> None:
    assert len(items_of(b"\n".join([b"1"] * MOST_ITEMS), NDJSON)) == MOST_ITEMS
    for body, media in ((b"\n".join([b"1"] * (MOST_ITEMS + 1)), NDJSON), (b"[" + b",".join([b"1"] * (MOST_ITEMS + 1)) + b"]", JSON)):
        with pytest.raises(Refusal, match="Fault"):
            items_of(body, media)


class CountingPool:
    """Stands where the pool stands, answers at once, and counts."""

    workers = 2
    started = True

    def __init__(self) -> None:
        self.begun = 0

    def submit(self, function: Any, chunk: list[bytes], *given: Any) -> "Future[Outcome]":
        self.begun += len(chunk)
        done: Future[Outcome] = Future()
        done.set_result(function(chunk, *given))
        return done


def streamed(pool: Any, count: int, media: str = NDJSON) -> BulkReply:
    return BulkReply([json.dumps({**ITEM, "id": number}).encode() for number in range(count)], How(), media, pool)


async def _nothing_more() -> Any:
    await asyncio.Event().wait()


def test_a_slow_reader_holds_the_work_back() -> None:
    """No more than the chunks that may be under way are begun while the reader takes nothing."""

    async def talk() -> int:
        pool, taken = CountingPool(), asyncio.Event()

        async def send(message: Any) -> None:
            if message["type"] == "http.response.body":
                await taken.wait()

        work = asyncio.ensure_future(streamed(pool, 20_000)({}, _nothing_more, send))  # type: ignore[arg-type]
        await asyncio.sleep(0.3)
        begun = pool.begun
        taken.set()
        await work
        assert pool.begun == 20_000
        return begun

    assert 0 < asyncio.run(talk()) <= (2 * CountingPool.workers + 1) * endpoint.LARGEST_CHUNK


def test_a_reader_who_leaves_stops_the_work() -> None:
    async def talk() -> int:
        pool, left = CountingPool(), asyncio.Event()

        async def receive() -> Any:
            await left.wait()
            return {"type": "http.disconnect"}

        async def send(message: Any) -> None:
            await asyncio.sleep(0)
            if message["type"] == "http.response.body":
                left.set()

        await streamed(pool, 50_000)({}, receive, send)  # type: ignore[arg-type]
        return pool.begun

    assert asyncio.run(talk()) < 10_000
    assert BulkReply.running == 0


def test_a_reader_who_takes_nothing_for_too_long_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(endpoint, "LONGEST_PAUSE", 0.05)

    async def send(message: Any) -> None:
        if message["type"] == "http.response.body":
            await asyncio.Event().wait()

    with pytest.raises(TimeoutError):
        asyncio.run(streamed(CountingPool(), 10)({}, _nothing_more, send))  # type: ignore[arg-type]
    assert BulkReply.running == 0


async def gathered(reply: BulkReply) -> bytes:
    """The body of a streamed reply."""
    pieces: list[bytes] = []

    async def send(message: Any) -> None:
        pieces.append(message.get("body", b""))

    await reply({}, _nothing_more, send)  # type: ignore[arg-type]
    return b"".join(pieces)


@pytest.mark.parametrize("media", [JSON, NDJSON])
def test_items_beyond_the_stated_time_are_refused_each(monkeypatch: pytest.MonkeyPatch, media: str) -> None:
    monkeypatch.setattr(endpoint, "MOST_SECONDS", 0)
    body = asyncio.run(gathered(streamed(CountingPool(), 5, media)))
    replies = json.loads(body) if media == JSON else [json.loads(line) for line in body.splitlines()][:-1]
    assert [reply["id"] for reply in replies] == list(range(5))
    assert {reply["problem"]["type"] for reply in replies} == {"/problems/out-of-time"}


def test_too_many_at_once_are_told_when_to_come_again(post: Post, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(BulkReply, "running", endpoint.MOST_AT_ONCE)
    reply = post("/v1/bulk", json=[ITEM])
    assert (reply.status_code, reply.headers["retry-after"]) == (503, "5")


def test_a_worker_that_dies_costs_no_answer() -> None:
    async def talk() -> list[int]:
        pool = WorkerPool(2)
        killed = False

        async def send(message: Any) -> None:
            nonlocal killed
            pieces.append(message.get("body", b""))
            if len(pieces) == 3 and not killed:
                killed = True
                os.kill(pool.submit(os.getpid).result(), signal.SIGKILL)

        pieces: list[bytes] = []
        await streamed(pool, 3000)({}, _nothing_more, send)  # type: ignore[arg-type]
        pool.close()
        assert killed
        replies = [json.loads(line) for line in b"".join(pieces).splitlines()[:-1]]
        assert all("answer" in reply for reply in replies)
        return [reply["id"] for reply in replies]

    assert asyncio.run(talk()) == list(range(3000))


def _die(*_: object) -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def test_items_that_kill_every_worker_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(endpoint, "answer_items", _die)
    monkeypatch.setattr("kneewall.bulk.pool.TRIES", 1)
    pool = WorkerPool(1)
    replies = [json.loads(line) for line in asyncio.run(gathered(streamed(pool, 300))).splitlines()]
    assert [(reply["id"], reply["problem"]["status"]) for reply in replies[:-1]] == [(number, 500) for number in range(300)]
    assert pool.submit(answer_items, [json.dumps(ITEM).encode()], How(), True).result().tally.items == 1
    pool.close()
