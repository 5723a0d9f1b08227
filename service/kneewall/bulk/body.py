"""The body of a bulk request, cut into items, and the limits it must keep."""

import msgspec

from kneewall.http.bulk_operation import MOST_ITEMS
from kneewall.http.media import JSON
from kneewall.kernel.refusal import Refusal, fault
from kneewall.kernel.wire import Malformed

_items = msgspec.json.Decoder(list[msgspec.Raw])


def items_of(body: bytes, media: str) -> list[bytes]:
    """The items of a JSON array or of NDJSON, unread. Raises: Malformed, Refusal where there are too many or the body is no array."""
    if media == JSON:
        return _within_limit([bytes(item) for item in _array(body)])
    if body.count(b"\n") > 2 * MOST_ITEMS:
        raise _too_many()
    return _within_limit([line for line in body.split(b"\n") if line and not line.isspace()])


def _array(body: bytes) -> list[msgspec.Raw]:
    try:
        return _items.decode(body)
    except msgspec.ValidationError:
        raise Refusal([fault("", "a bulk request is an array of items")], "invalid-question") from None
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise Malformed(str(error)) from None


def _within_limit(items: list[bytes]) -> list[bytes]:
    if len(items) > MOST_ITEMS:
        raise _too_many()
    return items


def _too_many() -> Refusal:
    says = "one request takes at most {} items; send several, or run the file through the command for files"
    return Refusal([fault("", says, MOST_ITEMS)], "invalid-question")
