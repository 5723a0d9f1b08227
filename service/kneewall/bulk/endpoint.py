"""`POST /v1/bulk`: the items go to worker processes in chunks, the answers come back in order and leave as fast as the reader takes them."""

import asyncio
import logging
from collections import deque
from contextlib import suppress
from functools import cache, partial
from typing import Any

import msgspec
from litestar.types import Receive, Scope, Send

from kneewall.bulk.body import items_of
from kneewall.bulk.item import How, read_identity, write_refused
from kneewall.bulk.pool import WorkerPool
from kneewall.bulk.tally import Outcome, Tally
from kneewall.bulk.worker import answer_items, joined
from kneewall.http.ask import NO_STORE, read_choices
from kneewall.http.bulk_operation import LONGEST_PAUSE, MOST_AT_ONCE, MOST_SECONDS
from kneewall.http.media import BULK_MEDIA, JSON, NDJSON, body_media, wanted_media
from kneewall.http.problem import problem, problem_document, request_id
from kneewall.http.reply import Reply

log = logging.getLogger("kneewall")

_UnderWay = tuple["asyncio.Future[Outcome]", list[bytes]]

OUT_OF_TIME = (503, "out-of-time", f"Computing was ended after {MOST_SECONDS} seconds, before this item; send it again with fewer others.")
FAILED_HERE = (500, "fault-here", "The service could not finish this item or one near it; its log has the reason under this request id.")
MOST_FAILED = 3
"""Chunks that may fail before the rest is no longer tried: workers that cannot live must not be started again and again."""
FIRST_CHUNK = 20
LARGEST_CHUNK = 500
SECONDS_PER_CHUNK = 0.02
"""How long a chunk should take: short enough to stop soon, long enough that handing it over costs little."""
NICENESS = 5
"""The workers stand back, so that whoever asks one question does not wait for those who ask ten thousand."""


@cache
def service_pool() -> WorkerPool:
    """The pool of this service's process; its workers start with the first bulk request."""
    return WorkerPool(niceness=NICENESS)


def close_service_pool() -> None:
    """End the workers, if there are any."""
    if service_pool.cache_info().currsize:
        service_pool().close()
        service_pool.cache_clear()


def bulk_reply(scope: Scope, body: bytes) -> "BulkReply | Reply":
    """Read the request and make ready to stream its answer. Raises: Malformed, Refusal, UnsupportedMedia, NotAcceptable."""
    system, working = read_choices(scope["query_string"])
    media = body_media(scope, BULK_MEDIA)
    wanted = wanted_media(scope, BULK_MEDIA if media == JSON else BULK_MEDIA[::-1])
    if BulkReply.running >= MOST_AT_ONCE:
        return problem(scope, 503, "too-busy", "Come again in a few seconds.", headers=((b"retry-after", b"5"),))
    return BulkReply(items_of(body, media), How(system, working, request_id(scope)), wanted, service_pool())


class BulkReply:
    """The streaming response: an ASGI application that sends pieces and meanwhile listens for the reader going away."""

    running = 0
    """How many are being sent by this process."""

    def __init__(self, items: list[bytes], how: How, media: str, pool: WorkerPool) -> None:
        self.how = how
        self.media = media
        self.pool = pool
        self.tally = Tally()
        self._items = items
        self._begun = 0
        self._chunk = FIRST_CHUNK
        self._waited = 0.0
        self._failed = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Send the answers until they are all sent or nobody reads them."""
        start: Any = {"type": "http.response.start", "status": 200, "headers": [(b"content-type", self.media.encode()), *NO_STORE]}
        BulkReply.running += 1
        sending = asyncio.ensure_future(self._send_all(send))
        leaving = asyncio.ensure_future(_reader_gone(receive))
        try:
            await send(start)
            await asyncio.wait({sending, leaving}, return_when=asyncio.FIRST_COMPLETED)
            if sending.done():
                sending.result()
        finally:
            BulkReply.running -= 1
            for task in (sending, leaving):
                task.cancel()
                with suppress(asyncio.CancelledError, Exception):
                    await task

    async def _send_all(self, send: Send) -> None:
        under_way: deque[_UnderWay] = deque()
        opening, between, closing = (b"[", b",", b"]") if self.media == JSON else (b"", b"", b"")
        try:
            await self._fill(under_way)
            while under_way:
                outcome = await self._finished(*under_way.popleft())
                await self._fill(under_way)
                await _send_piece(send, opening + outcome.text)
                opening = between
        finally:
            for future, _ in under_way:
                future.cancel()
        if self._begun < len(self._items):
            await _send_piece(send, opening + self._refused(self._items[self._begun :], FAILED_HERE if self._failed >= MOST_FAILED else OUT_OF_TIME))
            opening = between
        if self.media == NDJSON:
            closing = msgspec.json.encode({"summary": self.tally.summary()}) + b"\n"
        await _send_piece(send, (opening if opening == b"[" else b"") + closing, last=True)

    async def _fill(self, under_way: "deque[_UnderWay]") -> None:
        """Hand chunks to the workers until enough are under way, all are, or the time is used up."""
        while (
            len(under_way) < 2 * self.pool.workers and self._begun < len(self._items) and self._waited < MOST_SECONDS and self._failed < MOST_FAILED
        ):
            chunk = self._items[self._begun : self._begun + self._chunk]
            self._begun += len(chunk)
            begin = partial(self.pool.submit, answer_items, chunk, self.how, self.media == NDJSON)
            future = begin() if self.pool.started else await asyncio.to_thread(begin)
            under_way.append((asyncio.wrap_future(future), chunk))

    async def _finished(self, future: "asyncio.Future[Outcome]", chunk: list[bytes]) -> Outcome:
        clock = asyncio.get_running_loop().time
        began = clock()
        try:
            outcome = await future
        except Exception as error:
            log.error("a chunk of bulk request %s failed", self.how.instance, exc_info=error)
            self._failed += 1
            return Outcome(self._refused(chunk, FAILED_HERE), Tally(), 0.0)
        self._waited += clock() - began
        self.tally.add(outcome.tally)
        self._chunk = max(1, min(LARGEST_CHUNK, int(SECONDS_PER_CHUNK * len(chunk) / max(outcome.seconds, 1e-6))))
        return outcome

    def _refused(self, items: list[bytes], why: tuple[int, str, str]) -> bytes:
        document = problem_document(*why, self.how.instance)
        lines = [write_refused(read_identity(item), document, self.tally) for item in items]
        return joined(lines, self.media == NDJSON)


async def _send_piece(send: Send, body: bytes, *, last: bool = False) -> None:
    """Send a piece, waiting for the reader to take what was sent before. Raises: TimeoutError where he takes nothing."""
    message: Any = {"type": "http.response.body", "body": body, "more_body": not last}
    async with asyncio.timeout(LONGEST_PAUSE):
        await send(message)


async def _reader_gone(receive: Receive) -> None:
    while (await receive())["type"] != "http.disconnect":
        pass
