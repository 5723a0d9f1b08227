"""The smallest ASGI response: a status, a body and its headers, sent in two messages."""

from collections.abc import Iterable
from typing import Any

from litestar.types import Receive, Scope, Send

Header = tuple[bytes, bytes]


class Reply:
    """A finished response. `body` is sent as it stands."""

    __slots__ = ("body", "headers", "status")

    def __init__(self, body: bytes, media_type: str, *, status: int = 200, headers: Iterable[Header] = ()) -> None:
        self.status = status
        self.body = body
        self.headers = [
            (b"content-type", media_type.encode("latin-1")),
            (b"content-length", str(len(body)).encode("ascii")),
            *headers,
        ]

    def to_asgi_response(self, **_: object) -> "Reply":
        """What Litestar asks of a response that an exception handler returns."""
        return self

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        start: Any = {"type": "http.response.start", "status": self.status, "headers": self.headers}
        end: Any = {"type": "http.response.body", "body": self.body}
        await send(start)
        await send(end)
