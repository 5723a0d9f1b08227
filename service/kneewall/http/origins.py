"""Cross-origin requests (the Fetch standard's CORS protocol), only where the operator names the origins."""

from typing import Any

from litestar.types import ASGIApp, Receive, Send

from kneewall.http.media import header

ALLOWED = [
    (b"access-control-allow-methods", b"GET, HEAD, POST"),
    (b"access-control-allow-headers", b"accept, content-type, if-none-match, x-api-key, x-request-id"),
    (b"access-control-max-age", b"600"),
    (b"content-length", b"0"),
]
EXPOSED = (b"access-control-expose-headers", b"etag, x-request-id")
VARY = (b"vary", b"origin")


class Origins:
    """Answers preflights and marks answers for the pages of allowed origins. Cookies are never involved."""

    __slots__ = ("allowed", "any", "app")

    def __init__(self, app: ASGIApp, allowed: tuple[str, ...]) -> None:
        self.app = app
        self.allowed = frozenset(allowed)
        self.any = "*" in allowed

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        origin = header(scope, b"origin") if scope["type"] == "http" else None
        marks = self._marks(origin)
        if scope["type"] == "http" and origin is not None and scope["method"] == "OPTIONS" and header(scope, b"access-control-request-method"):
            start: Any = {"type": "http.response.start", "status": 204, "headers": [*marks, *(ALLOWED if len(marks) > 1 else ALLOWED[-1:])]}
            end: Any = {"type": "http.response.body", "body": b""}
            await send(start)
            await send(end)
            return

        async def send_marked(message: Any) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message["headers"], *marks]
            await send(message)

        await self.app(scope, receive, send_marked)

    def _marks(self, origin: str | None) -> list[tuple[bytes, bytes]]:
        if origin is None or not (self.any or origin in self.allowed):
            return [VARY]
        return [(b"access-control-allow-origin", b"*" if self.any else origin.encode("latin-1")), EXPOSED, VARY]
