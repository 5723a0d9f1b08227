"""The service as its own process on loopback, as an operator starts it, and raw talk with it."""

import contextlib
import json
import os
import re
import signal
import socket
import subprocess
import sys
import tempfile
from pathlib import Path
from types import TracebackType
from typing import Any

from kneewall.catalogue import all_calculations

ROOT = Path(__file__).parents[2]
QUESTION = all_calculations()["duct-sizing"].examples[0].question
BODY = json.dumps(QUESTION).encode()
PATH = "/v1/duct-sizing"


def request(body: bytes = BODY, *, path: str = PATH, headers: str = "content-type: application/json\r\n", method: str = "POST") -> bytes:
    """A whole request."""
    return f"{method} {path} HTTP/1.1\r\nhost: 127.0.0.1\r\n{headers}content-length: {len(body)}\r\n\r\n".encode() + body


class Service:
    """A running service. Its log is a file, so that no full pipe ever stops it."""

    def __init__(self, *, port: int = 0, **settings: str) -> None:
        environment = {**os.environ, "PYTHONPATH": str(ROOT / "service")}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        environment |= {f"KNEEWALL_{name.upper()}": value for name, value in settings.items()}
        self.log = tempfile.TemporaryFile()  # noqa: SIM115
        command = [sys.executable, "-m", "kneewall", "serve", "--port", str(port)]
        self.process = subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, stderr=self.log, text=True)
        assert self.process.stdout is not None
        said = self.process.stdout.readline()
        found = re.search(r":(\d+)/", said)
        assert found, f"the service did not start: {self.said()!r}"
        self.port = int(found[1])

    def __enter__(self) -> "Service":
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.stop(signal.SIGTERM)
        self.log.close()

    def stop(self, how: signal.Signals) -> int:
        """Send a signal and wait for the end; the exit status."""
        if self.process.poll() is None:
            self.process.send_signal(how)
        status = self.process.wait(timeout=40)
        assert self.process.stdout is not None
        self.process.stdout.close()
        return status

    def said(self) -> str:
        """Everything on its stderr up to now."""
        self.log.seek(0)
        return self.log.read().decode()

    def lines(self) -> list[dict[str, Any]]:
        """Its log, line by line; every line must be JSON."""
        return [json.loads(line) for line in self.said().splitlines()]

    def memory(self) -> int:
        """Resident bytes."""
        pages = int(Path(f"/proc/{self.process.pid}/statm").read_text("ascii").split()[1])
        return pages * os.sysconf("SC_PAGE_SIZE")

    def connect(self, patience: float = 20) -> socket.socket:
        """A connection to it."""
        return socket.create_connection(("127.0.0.1", self.port), patience)

    def exchange(self, sent: bytes, patience: float = 20) -> bytes:
        """Send these bytes on a connection of their own; all that comes back until it is closed or one whole answer is there."""
        with self.connect(patience) as connection:
            with contextlib.suppress(BrokenPipeError, ConnectionResetError):
                connection.sendall(sent)
            return whole_answer(connection)

    def answers(self) -> bool:
        """Whether an ordinary question gets its answer."""
        return self.exchange(request(), 10).startswith(b"HTTP/1.1 200 ")


def whole_answer(connection: socket.socket) -> bytes:
    """One answer, or what came before the other side closed."""
    got = b""
    try:
        while chunk := connection.recv(65536):
            got += chunk
            head, found, body = got.partition(b"\r\n\r\n")
            length = re.search(rb"content-length: *(\d+)", head.lower())
            if found and length and len(body) >= int(length[1]):
                break
    except ConnectionResetError:
        pass
    return got


def status_of(answer: bytes) -> int:
    """The status; 0 where the connection was closed without an answer."""
    return int(answer[9:12]) if answer.startswith(b"HTTP/1.1 ") else 0
