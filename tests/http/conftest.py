"""How generated bodies of NDJSON are put into bytes."""

from typing import Any

import schemathesis


@schemathesis.serializer("application/x-ndjson")
def ndjson(ctx: Any, value: Any) -> bytes:
    return value.encode() if isinstance(value, str) else str(value).encode()
