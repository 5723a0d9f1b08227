"""The speed lane: a plain question to an exact path is answered before the router; everything else falls through to it."""

from collections.abc import Callable, Mapping
from typing import Any

from litestar.types import ASGIApp, Receive, Scope, Send

from kneewall.http.media import header
from kneewall.http.problem import from_exception
from kneewall.http.reply import Reply

Answerer = Callable[[Scope, bytes], Reply]


class SpeedLane:
    """Calls the very function that the route of the same path calls. A body of unstated or great length, or one that did not arrive in one piece, goes to the router, whole."""

    __slots__ = ("answerers", "app", "largest")

    def __init__(self, app: ASGIApp, answerers: Mapping[str, Answerer], largest: int) -> None:
        self.app = app
        self.answerers = answerers
        self.largest = largest

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        answer = self.answerers.get(scope["path"]) if scope["type"] == "http" and scope["method"] == "POST" else None
        if answer is None:
            await self.app(scope, receive, send)
            return
        length = header(scope, b"content-length") or ""
        if not length.isdecimal() or int(length) > self.largest:
            await self.app(scope, receive, send)
            return
        first: Any = await receive()
        if first["type"] != "http.request" or first.get("more_body"):
            await self.app(scope, _again(first, receive), send)
            return
        try:
            reply = answer(scope, first["body"])
        except Exception as error:
            reply = from_exception(scope, error)
        await reply(scope, receive, send)


def _again(first: Any, receive: Receive) -> Receive:
    """A `receive` that gives a message already taken once more, then goes on."""
    waiting = [first]

    async def receive_again() -> Any:
        return waiting.pop() if waiting else await receive()

    return receive_again
