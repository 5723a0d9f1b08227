"""The outermost layer: a request id, security headers and HEAD for every response, whoever made it."""

import os
import re
from typing import Any

from litestar.types import ASGIApp, Receive, Scope, Send

from kneewall.http.problem import from_exception

_given_id = re.compile(rb"[A-Za-z0-9._-]{1,64}")

SECURITY_HEADERS = [
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (
        b"content-security-policy",
        b"default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; "
        b"form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    ),
    (b"cross-origin-resource-policy", b"same-origin"),
]


class Edge:
    """Wraps the application. Answers HEAD with GET's headers; turns what escapes the application into a problem document."""

    __slots__ = ("app",)

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        identity = _identity(scope)
        scope["kneewall_request_id"] = identity.decode("ascii")
        head = scope["method"] == "HEAD"
        if head:
            scope["method"] = "GET"
        started = False

        async def send_at_edge(message: Any) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                message["headers"] = [*message["headers"], *SECURITY_HEADERS, (b"x-request-id", identity)]
            elif head and message["type"] == "http.response.body":
                message = {**message, "body": b""}
            await send(message)

        try:
            await self.app(scope, receive, send_at_edge)
        except Exception as error:
            if started:
                raise
            await from_exception(scope, error)(scope, receive, send_at_edge)


def _identity(scope: Scope) -> bytes:
    for name, value in scope["headers"]:
        if name == b"x-request-id" and _given_id.fullmatch(value):
            return value
    return os.urandom(8).hex().encode("ascii")
