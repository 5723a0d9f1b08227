"""Which media type a body has, and which one the reader wants."""

from collections.abc import Sequence

from litestar.datastructures.headers import Accept
from litestar.types import Scope

JSON = "application/json"
MSGPACK = "application/msgpack"
NDJSON = "application/x-ndjson"
SVG = "image/svg+xml"
HTML = "text/html"
METRICS = "text/plain; version=0.0.4; charset=utf-8"
PROBLEM = "application/problem+json"
QUESTION_MEDIA = (JSON, MSGPACK)
BULK_MEDIA = (JSON, NDJSON)


class UnsupportedMedia(Exception):
    """The body is of a media type that is not read here (415)."""

    def __init__(self, says: str, readable: Sequence[str]) -> None:
        super().__init__(says)
        self.readable = readable


class NotAcceptable(Exception):
    """The reader accepts none of the media types offered (406)."""

    def __init__(self, offered: Sequence[str]) -> None:
        super().__init__(f"this is answered as {', '.join(offered)}")


def header(scope: Scope, name: bytes) -> str | None:
    """A request header by its lower-case name; several of one name are joined by commas."""
    found = [value for key, value in scope["headers"] if key == name]
    return b",".join(found).decode("latin-1") if found else None


def body_media(scope: Scope, readable: Sequence[str] = QUESTION_MEDIA) -> str:
    """The media type of the body, one of `readable`. Raises: UnsupportedMedia."""
    encoding = header(scope, b"content-encoding")
    if encoding is not None and encoding.strip().lower() not in ("", "identity"):
        raise UnsupportedMedia("compressed bodies are not read; send the body as it is", readable)
    given = header(scope, b"content-type")
    if given == JSON and JSON in readable:
        return JSON
    media, _, parameters = (given or "").partition(";")
    media = media.strip().lower()
    if media not in readable:
        raise UnsupportedMedia(f"a question is sent as {' or '.join(readable)}, not {media or 'without a content type'}", readable)
    if "charset" in parameters.lower() and "utf-8" not in parameters.lower():
        raise UnsupportedMedia("text is read as UTF-8 only", readable)
    return media


def wanted_media(scope: Scope, offered: Sequence[str]) -> str:
    """The offered media type that the reader likes best; the first where the reader does not say. Raises: NotAcceptable."""
    given = header(scope, b"accept")
    if given is None or given in ("*/*", offered[0]):
        return offered[0]
    best: str | None = Accept(given).best_match(list(offered))
    if best is None:
        raise NotAcceptable(offered)
    return best
