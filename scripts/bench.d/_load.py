"""A load from this process: sixteen kept-alive connections, each sending its next request when the answer is complete."""

import asyncio
import time
from typing import Any

import uvloop

CONNECTIONS = 16


class Client(asyncio.Protocol):
    """One connection. Counts the answers it got whole; anything but 200 ends the run."""

    def __init__(self, request: bytes) -> None:
        self.request, self.answered, self.buffer, self.failed = request, 0, b"", b""

    def connection_made(self, transport: Any) -> None:
        self.transport = transport
        transport.write(self.request)

    def data_received(self, data: bytes) -> None:
        self.buffer += data
        head, found, body = self.buffer.partition(b"\r\n\r\n")
        if not found:
            return
        if b" 200 " not in head[:16]:
            self.failed = self.buffer[:300]
            self.transport.abort()
            return
        length = int(head.lower().partition(b"content-length:")[2].split(b"\r\n", 1)[0])
        if len(body) >= length:
            self.answered += 1
            self.buffer = body[length:]
            self.transport.write(self.request)


async def _drive(port: int, request: bytes, seconds: float) -> float:
    loop = asyncio.get_running_loop()
    clients = [(await loop.create_connection(lambda: Client(request), "127.0.0.1", port))[1] for _ in range(CONNECTIONS)]
    started = time.perf_counter()
    await asyncio.sleep(seconds)
    answered, taken = sum(client.answered for client in clients), time.perf_counter() - started
    for client in clients:
        client.transport.abort()
        if client.failed:
            raise RuntimeError(client.failed.decode(errors="replace"))
    return answered / taken


def run(port: int, body: bytes, seconds: float) -> float:
    """Requests answered per second."""
    head = f"POST /v1/duct-sizing HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: application/json\r\ncontent-length: {len(body)}\r\n\r\n"
    return uvloop.run(_drive(port, head.encode() + body, seconds))
