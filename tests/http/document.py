"""The OpenAPI document as the application serves it."""

from typing import Any

import msgspec

from kneewall.http.reference import reference_documents


def served_document() -> dict[str, Any]:
    """The served document, read back."""
    body = next(document.body for document in reference_documents() if document.path == "/openapi.json")
    return msgspec.json.decode(body)  # type: ignore[no-any-return]
