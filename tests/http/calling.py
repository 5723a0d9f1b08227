"""Calling an ASGI application inside the test process, message by message."""

import asyncio
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from litestar.types import ASGIApp


@dataclass(frozen=True)
class Reply:
    status: int
    headers: dict[str, str]
    body: bytes


def call(app: ASGIApp, method: str, path: str, body: bytes | list[bytes] = b"", query: str = "", **headers: str) -> Reply:
    """One request and its answer. A list of bodies arrives piece by piece; header names are written with underscores."""
    return asyncio.run(_call(app, method, path, [body] if isinstance(body, bytes) else body, query, headers))


async def _call(app: Any, method: str, path: str, pieces: list[bytes], query: str, headers: dict[str, str]) -> Reply:
    given = {"content-length": str(sum(map(len, pieces))), **{name.replace("_", "-"): value for name, value in headers.items()}}
    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": path,
        "raw_path": path.encode(),
        "root_path": "",
        "query_string": query.encode(),
        "headers": [(name.encode(), value.encode()) for name, value in given.items()],
        "server": ("127.0.0.1", 80),
        "client": ("127.0.0.1", 1),
        "state": {},
    }
    waiting: Iterable[Any] = [{"type": "http.request", "body": piece, "more_body": number + 1 < len(pieces)} for number, piece in enumerate(pieces)]
    coming = iter([*waiting, {"type": "http.disconnect"}])
    sent: list[Any] = []

    async def receive() -> Any:
        return next(coming)

    async def send(message: Any) -> None:
        sent.append(message)

    await app(scope, receive, send)
    assert [message["type"] for message in sent[:1]] == ["http.response.start"]
    found = {name.decode(): value.decode() for name, value in sent[0]["headers"]}
    return Reply(sent[0]["status"], found, b"".join(message.get("body", b"") for message in sent[1:]))
