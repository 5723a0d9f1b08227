"""One JSON line for each request and for each fault, on stderr. Lines of requests are gathered and written together, a few times a second."""

import asyncio
import logging
import sys
from datetime import UTC, datetime
from typing import BinaryIO

import msgspec

SECONDS_GATHERED = 0.25
MOST_GATHERED = 500
_encoder = msgspec.json.Encoder()


class RequestLine(msgspec.Struct, omit_defaults=True):
    """What is told about a request. Neither its body nor its query is."""

    time: datetime
    request: str
    method: str
    path: str
    calculation: str
    status: int
    milliseconds: float
    key: str | None = None


class Journal:
    """Gathers lines of requests. A process that is killed outright loses the last quarter of a second."""

    def __init__(self, stream: BinaryIO | None = None) -> None:
        self.stream = stream
        self.lines: list[RequestLine] = []

    def note(self, line: RequestLine) -> None:
        """Take a line; it is written soon."""
        self.lines.append(line)
        if len(self.lines) == 1:
            asyncio.get_running_loop().call_later(SECONDS_GATHERED, self.write)
        elif len(self.lines) >= MOST_GATHERED:
            self.write()

    def write(self) -> None:
        """Write what is gathered. A log that nobody can take any longer is dropped: answers go on."""
        if not self.lines:
            return
        lines, self.lines = self.lines, []
        stream = self.stream or sys.stderr.buffer
        try:
            stream.write(_encoder.encode_lines(lines))
            stream.flush()
        except (OSError, ValueError):
            return


class JsonFormatter(logging.Formatter):
    """A record of the logging module as one JSON line, with the trace of an exception in it."""

    def format(self, record: logging.LogRecord) -> str:
        line = {"time": datetime.fromtimestamp(record.created, UTC), "level": record.levelname.lower(), "says": record.getMessage()}
        if record.exc_info:
            line["trace"] = self.formatException(record.exc_info)
        return _encoder.encode(line).decode()


def log_as_json() -> None:
    """Send all faults, ours and the server's, to stderr as JSON lines."""
    handler = logging.StreamHandler()
    handler.setFormatter(JsonFormatter())
    logging.basicConfig(level=logging.WARNING, handlers=[handler])
