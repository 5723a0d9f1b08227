"""API keys: held only as hashes, compared in constant time. Without keys nobody is asked for one."""

import re
import secrets
from collections.abc import Iterable
from hashlib import sha256
from hmac import compare_digest
from pathlib import Path
from typing import Any

from litestar.types import ASGIApp, Receive, Send

from kneewall.http.media import header
from kneewall.http.problem import problem
from kneewall.http.settings import SettingFault, Settings

HEADER = b"x-api-key"
OPEN_PATHS = frozenset({"/health/live", "/health/ready", "/metrics", "/openapi.json"})
_line = re.compile(r"([A-Za-z0-9._-]{1,64}):sha256:([0-9a-f]{64})")


def new_key(name: str) -> tuple[str, str]:
    """A fresh key of 256 random bits, and the line that admits it."""
    key = secrets.token_urlsafe(32)
    return key, f"{name}:sha256:{sha256(key.encode()).hexdigest()}"


def known_keys(settings: Settings) -> dict[str, str]:
    """Digest by name of every key in the settings and in their file. Raises: SettingFault."""
    lines = list(settings.api_keys)
    if settings.api_keys_file:
        try:
            written = Path(settings.api_keys_file).read_text("utf-8").splitlines()
        except (OSError, UnicodeDecodeError) as error:
            raise SettingFault(f"the file of API keys cannot be read: {error}") from None
        lines += [line.strip() for line in written if line.strip() and not line.startswith("#")]
        if not lines:
            raise SettingFault("the file of API keys holds none; leave it out where no key shall be asked for")
    return dict(_read(lines))


def _read(lines: Iterable[str]) -> Iterable[tuple[str, str]]:
    seen: set[str] = set()
    for number, line in enumerate(lines, 1):
        found = _line.fullmatch(line)
        if found is None:
            raise SettingFault(f"API key {number} is not of the form name:sha256:64-hex-digits; `python -m kneewall new-key NAME` makes one")
        if found[1] in seen:
            raise SettingFault(f"two API keys are named {found[1]}")
        seen.add(found[1])
        yield found[1], found[2]


class Keyed:
    """Lets a request pass only with a known key; health, metrics and the OpenAPI document are open."""

    __slots__ = ("app", "keys")

    def __init__(self, app: ASGIApp, keys: dict[str, str]) -> None:
        self.app = app
        self.keys = keys

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or scope["path"] in OPEN_PATHS:
            await self.app(scope, receive, send)
            return
        given = header(scope, HEADER)
        name = self.owner(given) if given is not None else None
        if name is None:
            says = "this key is not known" if given is not None else "send your key in the X-API-Key header"
            await problem(scope, 401, "unauthorized", says, headers=((b"www-authenticate", b"ApiKey"),))(scope, receive, send)
            return
        scope["kneewall_key"] = name
        await self.app(scope, receive, send)

    def owner(self, given: str) -> str | None:
        """Whose key this is. Every known key is compared, whichever fits."""
        digest = sha256(given.encode("utf-8")).hexdigest()
        fitting = [name for name, known in self.keys.items() if compare_digest(digest, known)]
        return fitting[0] if fitting else None
