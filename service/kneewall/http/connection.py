"""Connections with limits that the server below leaves open: how large a request's head may be, and how long a request may take to arrive."""

import asyncio
from time import monotonic
from typing import Any

from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol
from uvicorn.server import Server

LARGEST_HEAD = 32_768
TOO_LARGE = b"HTTP/1.1 431 Request Header Fields Too Large\r\ncontent-length: 0\r\nconnection: close\r\n\r\n"


class Connection(HttpToolsProtocol):
    """One connection. `waiting_since` is when the request that is arriving began to; None where none is."""

    waiting_since: float | None = None
    head: int | None = 0
    """Bytes of the head that is arriving; None while a body does."""

    def connection_made(self, transport: Any) -> None:
        super().connection_made(transport)
        self.waiting_since = monotonic()

    def data_received(self, data: bytes) -> None:
        if self.head is not None:
            self.head += len(data)
        super().data_received(data)
        if self.head is not None and self.head > LARGEST_HEAD and not self.transport.is_closing():
            self.send_400_response("")

    def send_400_response(self, msg: str) -> None:
        if self.head is None or self.head <= LARGEST_HEAD:
            super().send_400_response(msg)
            return
        self.transport.write(TOO_LARGE)
        self.transport.close()

    def on_message_begin(self) -> None:
        self.waiting_since = monotonic()
        super().on_message_begin()

    def on_headers_complete(self) -> None:
        if self.head is not None and self.head > LARGEST_HEAD and sum(len(name) + len(value) for name, value in self.headers) > LARGEST_HEAD:
            raise ValueError("the head is too large")
        self.head = None
        super().on_headers_complete()

    def on_message_complete(self) -> None:
        self.head = 0
        self.waiting_since = None
        super().on_message_complete()


async def close_slow_connections(server: Server, patience: float) -> None:
    """Once a second, for as long as the server runs: close what has been arriving for longer than `patience` seconds."""
    while not server.should_exit:
        await asyncio.sleep(1)
        latest = monotonic() - patience
        for connection in list(server.server_state.connections):
            if isinstance(connection, Connection) and connection.waiting_since is not None and connection.waiting_since < latest:
                connection.transport.abort()
