"""The outermost layer: a request id, security headers and HEAD for every response, whoever made it; each request counted and logged."""

import re
from collections.abc import Mapping
from datetime import UTC, datetime
from random import getrandbits
from time import perf_counter
from typing import Any

from litestar.types import ASGIApp, Receive, Scope, Send

from kneewall.http.journal import Journal, RequestLine
from kneewall.http.problem import from_exception
from kneewall.http.tally import Tally

_given_id = re.compile(rb"[A-Za-z0-9._-]{1,64}")

SECURITY_HEADERS = [
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (
        b"content-security-policy",
        b"default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; "
        b"form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    ),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
]


class Edge:
    """Wraps the application. Answers HEAD with GET's headers; turns what escapes the application into a problem document.

    `calculations` names the calculation of a path; all other paths are counted together.
    """

    __slots__ = ("app", "calculations", "journal", "tally")

    def __init__(self, app: ASGIApp, calculations: Mapping[str, str], tally: Tally, journal: Journal | None) -> None:
        self.app = app
        self.calculations = calculations
        self.tally = tally
        self.journal = journal

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        begun = perf_counter()
        identity = _identity(scope)
        scope["kneewall_request_id"] = identity.decode("ascii")
        method = scope["method"]
        head = method == "HEAD"
        if head:
            scope["method"] = "GET"
        status = 0

        async def send_at_edge(message: Any) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                message["headers"] = [*message["headers"], *SECURITY_HEADERS, (b"x-request-id", identity)]
            elif head and message["type"] == "http.response.body":
                message = {**message, "body": b""}
            await send(message)

        try:
            await self.app(scope, receive, send_at_edge)
        except Exception as error:
            if status:
                raise
            await from_exception(scope, error)(scope, receive, send_at_edge)
        finally:
            self._account(scope, method, status, perf_counter() - begun)

    def _account(self, scope: Any, method: str, status: int, seconds: float) -> None:
        path = scope["path"]
        calculation = self.calculations.get(path, "other")
        self.tally.count(calculation, status, seconds)
        if self.journal is not None:
            who, key = scope["kneewall_request_id"], scope.get("kneewall_key")
            self.journal.note(RequestLine(datetime.now(UTC), who, method, path[:200], calculation, status, round(seconds * 1e3, 3), key))


def _identity(scope: Scope) -> bytes:
    for name, value in scope["headers"]:
        if name == b"x-request-id" and _given_id.fullmatch(value):
            return value
    return b"%016x" % getrandbits(64)
