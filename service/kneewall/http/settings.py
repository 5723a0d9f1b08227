"""What an operator may set, each by an environment variable: `port` by KNEEWALL_PORT."""

from collections.abc import Mapping
from typing import Annotated, Any, Literal

import msgspec
from msgspec import Meta

PREFIX = "KNEEWALL_"


class SettingFault(Exception):
    """A variable of the environment has a value that cannot be used."""


class Settings(msgspec.Struct, frozen=True, kw_only=True):
    """Every setting with its default. Nothing else about the service can be set."""

    host: Annotated[str, Meta(description="Address to listen on")] = "127.0.0.1"
    port: Annotated[int, Meta(ge=0, le=65535, description="Port to listen on")] = 8017
    api_keys: Annotated[tuple[str, ...], Meta(description="Hashed keys, `name:sha256:...`, parted by commas; none: no key is asked for")] = ()
    api_keys_file: Annotated[str, Meta(description="A file of hashed keys, one a line, read at start-up")] = ""
    allowed_origins: Annotated[
        tuple[str, ...], Meta(description="Origins whose pages may ask in a browser (CORS), parted by commas; `*` for any; none: off")
    ] = ()
    log: Annotated[
        Literal["requests", "faults"], Meta(description="`requests`: a JSON line on stderr for each request and fault; `faults`: only for faults")
    ] = "requests"
    patience: Annotated[float, Meta(ge=1, le=3600, description="Seconds that a request may take to arrive; slower connections are closed")] = 60.0
    drain: Annotated[int, Meta(ge=0, le=3600, description="Seconds that requests in progress are given after SIGTERM")] = 20
    speed_lane: Annotated[bool, Meta(description="Whether plain questions pass by the router (same answers, less work)")] = True


def settings_from(environment: Mapping[str, str]) -> Settings:
    """The settings in an environment. Raises: SettingFault naming every variable at fault."""
    given: dict[str, Any] = {}
    faults = []
    for field in msgspec.structs.fields(Settings):
        variable = PREFIX + field.name.upper()
        text = environment.get(variable, "")
        if not text:
            continue
        several = isinstance(field.default, tuple)
        try:
            given[field.name] = msgspec.convert(text.replace(",", " ").split() if several else text, field.type, strict=False)
        except msgspec.ValidationError as error:
            faults.append(f"{variable}={text}: {error}")
    if faults:
        raise SettingFault("; ".join(faults))
    return Settings(**given)


def settings_table() -> str:
    """The settings as a table in Markdown."""
    lines = ["| variable | default | meaning |", "|---|---|---|"]
    for field in msgspec.structs.fields(Settings):
        meta = next(part for part in field.type.__metadata__ if isinstance(part, Meta))
        default = "" if field.default in ("", ()) else f"`{msgspec.json.encode(field.default).decode().strip(chr(34))}`"
        lines.append(f"| `{PREFIX}{field.name.upper()}` | {default} | {meta.description} |")
    return "\n".join(lines)
