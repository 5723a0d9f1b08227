"""Problem documents (RFC 9457) for everything that was not answered."""

import logging
from http import HTTPStatus
from typing import Annotated, Any

import msgspec
from litestar.exceptions import HTTPException, InternalServerException
from litestar.types import Scope

from kneewall.http.media import PROBLEM, NotAcceptable, UnsupportedMedia
from kneewall.http.reply import Header, Reply
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Fault, Refusal
from kneewall.kernel.wire import Malformed
from kneewall.kernel.words import place_in_words

log = logging.getLogger("kneewall")

READER_LEFT = "client disconnected prematurely"
"""What Litestar says, as an error of the server, when a sender goes away in the middle of a body."""

TITLES = {
    "invalid-question": "The question does not have the form it should have",
    "cannot-answer": "No honest answer can be given to this question",
    "malformed": "The body could not be read",
    "unsupported-media-type": "Bodies of this media type are not read",
    "not-acceptable": "None of the accepted media types can be given",
    "content-too-large": "The body is too large",
    "unauthorized": "A known API key is needed",
    "out-of-time": "The time that one request may take was used up",
    "too-busy": "As many bulk requests as this service takes at once are running",
    "fault-here": "Something went wrong here, not in the question",
}


class FieldFault(msgspec.Struct, frozen=True, omit_defaults=True):
    """One faulty field."""

    pointer: Annotated[str, msgspec.Meta(description="JSON pointer (RFC 6901) into the question")]
    detail: Annotated[str, msgspec.Meta(description="What is wrong and what to do about it")]
    rule: Annotated[str | None, msgspec.Meta(description="Id of the rule that stands against it")] = None


class Problem(msgspec.Struct, frozen=True, kw_only=True):
    """A problem document after RFC 9457."""

    type: Annotated[str, msgspec.Meta(description="What kind of problem this is: a reference relative to the service")]
    title: Annotated[str, msgspec.Meta(description="The kind of problem in words")]
    status: Annotated[int, msgspec.Meta(description="The HTTP status code", ge=400, le=599)]
    detail: Annotated[str, msgspec.Meta(description="What went wrong this time")]
    instance: Annotated[str, msgspec.Meta(description="The request id, as in the X-Request-Id header")]
    errors: Annotated[list[FieldFault], msgspec.Meta(description="Every faulty field, as far as the question has fields at fault")]


def problem(scope: Scope, status: int, kind: str, detail: str, *, errors: list[FieldFault] | None = None, headers: tuple[Header, ...] = ()) -> Reply:
    """The reply that carries a problem document."""
    return _reply(problem_document(status, kind, detail, request_id(scope), errors), headers)


def problem_document(status: int, kind: str, detail: str, instance: str, errors: list[FieldFault] | None = None) -> Problem:
    """A problem document by itself, as it also stands in a line of a bulk answer."""
    title = TITLES.get(kind) or HTTPStatus(status).phrase
    return Problem(type=f"/problems/{kind}", title=title, status=status, detail=detail, instance=instance, errors=errors or [])


def _reply(document: Problem, headers: tuple[Header, ...] = ()) -> Reply:
    return Reply(msgspec.json.encode(document), PROBLEM, status=document.status, headers=(*headers, (b"cache-control", b"no-store")))


def request_id(scope: Scope) -> str:
    """The id the edge gave this request."""
    found: Any = scope.get("kneewall_request_id", "")
    return str(found)


def refused(scope: Scope, refusal: Refusal, system: UnitSystem) -> Reply:
    """422 for a question that was read but not answered."""
    return _reply(refusal_document(refusal, system, request_id(scope)))


def refusal_document(refusal: Refusal, system: UnitSystem, instance: str) -> Problem:
    """The problem document of a refusal, every faulty field in it."""
    errors = [_field_fault(fault, system) for fault in refusal.faults]
    where = place_in_words(errors[0].pointer)
    more = f" (and {len(errors) - 1} more)" if len(errors) > 1 else ""
    return problem_document(422, refusal.kind, f"{where}: {errors[0].detail}{more}", instance, errors)


def _field_fault(fault: Fault, system: UnitSystem) -> FieldFault:
    return FieldFault(fault.pointer, fault.detail.shown(system), fault.rule)


def from_exception(scope: Scope, error: Exception) -> Reply:
    """The problem document for any exception whatever; what we did not foresee is logged and told without its inside."""
    if isinstance(error, Refusal):
        return refused(scope, error, "ip")
    if isinstance(error, Malformed):
        return problem(scope, 400, "malformed", str(error))
    if isinstance(error, UnsupportedMedia):
        return problem(scope, 415, "unsupported-media-type", str(error), headers=((b"accept-post", ", ".join(error.readable).encode()),))
    if isinstance(error, NotAcceptable):
        return problem(scope, 406, "not-acceptable", str(error))
    if isinstance(error, HTTPException) and error.status_code < 500:
        return _from_http_exception(scope, error)
    if isinstance(error, InternalServerException) and error.detail == READER_LEFT:
        return problem(scope, 400, "malformed", "the connection was closed before the body was complete")
    log.error("request %s failed", request_id(scope), exc_info=error)
    return problem(scope, 500, "fault-here", "The service could not finish this request; its log has the reason under this request id.")


def _from_http_exception(scope: Scope, error: HTTPException) -> Reply:
    phrase = HTTPStatus(error.status_code).phrase
    details = {
        404: "There is nothing at this path; GET /v1/calculations lists what there is.",
        405: "This path does not know this method; the Allow header lists those it knows.",
        413: "The body is larger than this path takes.",
    }
    kind = "content-too-large" if error.status_code == 413 else phrase.lower().replace(" ", "-")
    allowed = tuple((name.lower().encode(), value.encode()) for name, value in (error.headers or {}).items())
    return problem(scope, error.status_code, kind, details.get(error.status_code, phrase), headers=allowed)
