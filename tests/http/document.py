"""The OpenAPI document as the application serves it."""

from typing import Any

import msgspec

from kneewall.http.reference import openapi_body


def served_document() -> dict[str, Any]:
    """The served document, read back."""
    return msgspec.json.decode(openapi_body())  # type: ignore[no-any-return]
