"""How generated bodies of NDJSON are put into bytes."""

import json
from typing import Any

import schemathesis


@schemathesis.serializer("application/x-ndjson")
def ndjson(ctx: Any, value: Any) -> bytes:
    if isinstance(value, str):
        return value.encode()
    return b"\n".join(json.dumps(line).encode() for line in (value if isinstance(value, list) else [value]))
