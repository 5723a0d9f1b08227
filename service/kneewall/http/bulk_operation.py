"""How `POST /v1/bulk` stands in the OpenAPI document, and the limits it states."""

from typing import Any

import msgspec

from kneewall.http.media import JSON, NDJSON, PROBLEM
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.schema import COMPONENTS, Schema

MOST_ITEMS = 50_000
LARGEST_BULK_BODY = 32_000_000
MOST_SECONDS = 120
LONGEST_PAUSE = 60
MOST_AT_ONCE = 8

SAYS = (
    "Each item is answered or refused on its own, in the order given: one faulty item spoils no other. Answers leave as they are worked out, in pieces; "
    "as JSON they are one array, as NDJSON one line each with a last line that sums up. "
    f"At most {MOST_ITEMS:,} items and {LARGEST_BULK_BODY // 1_000_000} MB in a request. Items that are not begun within {MOST_SECONDS} seconds of computing "
    f"are refused with /problems/out-of-time. A reader who takes nothing for {LONGEST_PAUSE} seconds, or goes away, ends the work. "
    f"At most {MOST_AT_ONCE} bulk requests run at once in one process; more are told 503 and when to come again."
)


def bulk_operation(calculations: list[AnyCalculation], parameters: list[Schema], problems: dict[str, Schema]) -> Schema:
    """The operation; `parameters` and `problems` are those of every calculation."""
    array = {"type": "array", "maxItems": MOST_ITEMS, "description": "Items of any calculations", "items": _any_item()}
    lines = {"description": f"Text: one BulkItem a line, at most {MOST_ITEMS:,}. Any other line is refused by itself, without spoiling the rest."}
    replies = {"type": "array", "items": {"$ref": f"{COMPONENTS}BulkReply"}}
    told = {"type": "string", "description": 'One BulkReply a line, and a last line {"summary": BulkSummary}'}
    return {
        "operationId": "bulk",
        "summary": "Many questions at once",
        "description": SAYS,
        "tags": ["calculations"],
        "parameters": parameters,
        "requestBody": {
            "required": True,
            "content": {
                JSON: {"schema": array, "examples": _examples(calculations)},
                NDJSON: {"schema": lines, "examples": _line_examples(calculations)},
            },
        },
        "responses": {
            "200": {"description": "Every item answered or refused", "content": {JSON: {"schema": replies}, NDJSON: {"schema": told}}},
            **problems,
            "503": {
                "description": "As many bulk requests as are taken at once are running",
                "headers": {"Retry-After": {"description": "Seconds to wait", "schema": {"type": "string"}}},
                "content": {PROBLEM: {"schema": {"$ref": f"{COMPONENTS}Problem"}}},
            },
        },
    }


def bulk_components(calculations: list[AnyCalculation], questions: tuple[Schema, ...], answers: tuple[Schema, ...]) -> dict[str, Schema]:
    """The named schemas of items and of what becomes of them."""
    identity = {"type": ["string", "number", "null"], "description": "Any text or number of at most 200 characters, given back as it was"}
    asked = {_item_name(one): _asked(one, question, identity) for one, question in zip(calculations, questions, strict=True)}
    problem = {"$ref": f"{COMPONENTS}Problem"}
    return {
        **asked,
        "BulkItem": {"description": "One question among many", "oneOf": [{"$ref": COMPONENTS + name} for name in asked]},
        "BulkReply": {
            "description": "What became of one item",
            "oneOf": [_reply(identity, "answer", {"anyOf": list(answers)}), _reply(identity, "problem", problem)],
        },
        "BulkSummary": _summary(),
    }


def _item_name(calculation: AnyCalculation) -> str:
    """Named, each kind of item stays the same alternative when its question grows."""
    return calculation.name.title().replace("-", "") + "BulkItem"


def _asked(calculation: AnyCalculation, question: Schema, identity: Schema) -> Schema:
    return {
        "type": "object",
        "properties": {"id": identity, "calculation": {"const": calculation.name}, "question": question},
        "required": ["calculation", "question"],
        "additionalProperties": False,
    }


def _any_item() -> Schema:
    says = "A BulkItem. Anything else is refused by itself, without spoiling the rest."
    return {
        "description": says,
        "anyOf": [{"$ref": f"{COMPONENTS}BulkItem"}, {"type": ["object", "array", "string", "number", "boolean", "null"], "items": {}}],
    }


def _reply(identity: Schema, name: str, schema: Schema) -> Schema:
    return {"type": "object", "properties": {"id": identity, name: schema}, "required": ["id", name], "additionalProperties": False}


def _summary() -> Schema:
    count: Schema = {"type": "integer", "minimum": 0}
    group: Schema = {"pointer": {"type": "string"}, "kind": {"type": "string"}, "count": count, "example": {"type": "string"}}
    return {
        "type": "object",
        "description": "What became of all items: answers by the worst verdict of their checks, and the commonest faults",
        "properties": {
            "items": count,
            "answered": count,
            "refused": count,
            "verdicts": {"type": "object", "additionalProperties": count},
            "faults": {"type": "array", "items": {"type": "object", "properties": group, "required": list(group)}},
        },
        "required": ["items", "answered", "refused", "verdicts", "faults"],
    }


def _some_items(calculations: list[AnyCalculation]) -> list[dict[str, Any]]:
    return [{"id": one.name, "calculation": one.name, "question": one.examples[0].question} for one in calculations]


def _examples(calculations: list[AnyCalculation]) -> Schema:
    return {"one-of-each": {"summary": "One question to each calculation", "value": _some_items(calculations)}}


def _line_examples(calculations: list[AnyCalculation]) -> Schema:
    lines = b"\n".join(msgspec.json.encode(item) for item in _some_items(calculations))
    return {"one-of-each": {"summary": "One question to each calculation, a line each", "value": lines.decode()}}
