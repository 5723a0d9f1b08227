"""Bodies compressed on the way: pages repeat themselves, and phones in attics have little reception."""

import gzip
import re

from litestar.types import Scope

from kneewall.http.media import header
from kneewall.http.reply import Header

_refused = re.compile(r"\bgzip\s*;\s*q=0(?:\.0*)?\s*(?:,|$)").search
VARIES: Header = (b"vary", b"accept, accept-encoding")
PACKED: Header = (b"content-encoding", b"gzip")


def takes_packed(scope: Scope) -> bool:
    """Whether the reader takes a compressed body."""
    given = header(scope, b"accept-encoding") or ""
    return "gzip" in given and not _refused(given)


def packed(body: bytes) -> bytes:
    """The body compressed; the same body gives the same bytes."""
    return gzip.compress(body, 5, mtime=0)


def on_the_way(scope: Scope, body: bytes) -> tuple[bytes, tuple[Header, ...]]:
    """The body as this reader gets it, with the headers that say so."""
    return (packed(body), (VARIES, PACKED)) if takes_packed(scope) else (body, (VARIES,))
