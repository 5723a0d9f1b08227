"""The OpenAPI document: every route, with schemas taken from the very types that read and write."""

from typing import Any

import msgspec

from kneewall import VERSION
from kneewall.http.ask import offered
from kneewall.http.bulk_operation import bulk_components, bulk_operation
from kneewall.http.media import JSON, MSGPACK, PROBLEM
from kneewall.http.problem import Problem
from kneewall.kernel.answer import Answer
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.schema import COMPONENTS, Schema, answered_schema, asked_schema, quantity_components

PROBLEMS = {
    "400": "The body could not be read as JSON or MessagePack",
    "401": "This service asks for an API key, and a known one was not sent",
    "406": "None of the accepted media types can be given",
    "413": "The body is too large",
    "415": "Bodies of this media type are not read",
    "422": "The question does not have the form it should have (type /problems/invalid-question), or no honest answer can be given (type /problems/cannot-answer)",
}
API_KEY = {"type": "apiKey", "in": "header", "name": "X-API-Key", "description": "Asked for only where the operator has set keys"}
ANSWERED = "The answer; as text/html a printable sheet with the working, as image/svg+xml a drawing where there is one"
TEXT: Schema = {"type": "string"}
DESCRIPTION = (
    "Sizing and checking for the people who re-engineer a house's heating and cooling. Every answer carries its values, the checks made on them, "
    "the rules and tables it applied and the cautions of the trade. Quantities always carry their unit. Nothing is kept: the same question gets the same answer."
)


def openapi_document(calculations: list[AnyCalculation], reference: dict[str, Schema]) -> Schema:
    """The whole document. `reference` maps the GET paths to their operations."""
    schemas, questions, answers = _schemas(calculations)
    paths: Schema = {
        f"/v1/{calculation.name}": {"post": _operation(calculation, question, answer)}
        for calculation, question, answer in zip(calculations, questions, answers, strict=True)
    }
    schemas |= bulk_components(calculations, questions, answers)
    paths["/v1/bulk"] = {"post": bulk_operation(calculations, _choices(), _problems())}
    paths |= reference
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Kneewall",
            "version": VERSION,
            "summary": "Sizing and checking for house heating and cooling",
            "description": DESCRIPTION,
            "license": {"name": "Proprietary", "identifier": "LicenseRef-Proprietary"},
            "contact": {"name": "The operator of this service"},
        },
        "servers": [{"url": "/", "description": "This service"}],
        "tags": [
            {"name": "calculations", "description": "One question, one answer"},
            {"name": "reference", "description": "What the answers rest on"},
            {"name": "operation", "description": "For those who run the service"},
        ],
        "security": [{}, {"ApiKey": []}],
        "paths": paths,
        "components": {
            "schemas": _used(schemas, [paths, _problem_responses()]),
            "responses": _problem_responses(),
            "securitySchemes": {"ApiKey": API_KEY},
        },
    }


def _schemas(calculations: list[AnyCalculation]) -> tuple[dict[str, Schema], tuple[Schema, ...], tuple[Schema, ...]]:
    """All named schemas, and the references to each calculation's question and answer. A struct that is both asked and answered has two names."""
    template = COMPONENTS + "{name}"
    questions, asked = msgspec.json.schema_components([one.question for one in calculations], schema_hook=asked_schema, ref_template=template)
    types = [Answer[one.result] for one in calculations]  # type: ignore[name-defined]
    answers, answered = msgspec.json.schema_components([*types, Problem], schema_hook=answered_schema, ref_template=template)
    renamed = {name: f"{name}Answered" for name in answered if name in asked}
    answered = {renamed.get(name, name): {**_with_names(schema, renamed), "title": renamed.get(name, name)} for name, schema in answered.items()}
    return {**quantity_components(), **asked, **answered}, questions, tuple(_with_names(one, renamed) for one in answers[:-1])


def _used(schemas: dict[str, Schema], by: Any) -> dict[str, Schema]:
    """Those schemas that are referred to, directly or by one another."""
    used: dict[str, Schema] = {}
    waiting = [by]
    while waiting:
        part = waiting.pop()
        if isinstance(part, list):
            waiting += part
        elif isinstance(part, dict):
            waiting += part.values()
            name = str(part.get("$ref", "")).removeprefix(COMPONENTS)
            if name in schemas and name not in used:
                used[name] = schemas[name]
                waiting.append(schemas[name])
    return dict(sorted(used.items()))


def _with_names(schema: Any, renamed: dict[str, str]) -> Any:
    if isinstance(schema, dict):
        return {
            key: COMPONENTS + renamed.get(name, name)
            if key == "$ref" and (name := str(value).removeprefix(COMPONENTS))
            else _with_names(value, renamed)
            for key, value in schema.items()
        }
    return [_with_names(item, renamed) for item in schema] if isinstance(schema, list) else schema


def _operation(calculation: AnyCalculation, question: Schema, answer: Schema) -> Schema:
    examples = {one.name: {"summary": one.says, "value": one.question} for one in calculation.examples}
    return {
        "operationId": calculation.name,
        "summary": calculation.title,
        "description": calculation.says,
        "tags": ["calculations"],
        "x-monotone": calculation.monotone,
        "parameters": _choices(),
        "requestBody": {"required": True, "content": {JSON: {"schema": question, "examples": examples}, MSGPACK: {"schema": question}}},
        "responses": {
            "200": {
                "description": ANSWERED,
                "content": {media: {"schema": answer if media in (JSON, MSGPACK) else TEXT} for media in offered(calculation)},
            },
            **_problems(),
        },
    }


def _choices() -> list[Schema]:
    return [
        _choice("units", ["ip", "si"], "Units of the answer: inch-pound or SI"),
        _choice("working", ["false", "true"], "Whether the answer carries its working, line by line"),
    ]


def _problems() -> dict[str, Schema]:
    return {status: {"$ref": f"#/components/responses/Problem{status}"} for status in PROBLEMS}


def _choice(name: str, values: list[str], says: str) -> Schema:
    return {"name": name, "in": "query", "required": False, "description": says, "schema": {"type": "string", "enum": values, "default": values[0]}}


def _problem_responses() -> dict[str, Schema]:
    problem = {"schema": {"$ref": f"{COMPONENTS}Problem"}}
    found: dict[str, Schema] = {f"Problem{status}": {"description": says, "content": {PROBLEM: problem}} for status, says in PROBLEMS.items()}
    found["Problem401"]["headers"] = {"WWW-Authenticate": {"description": "ApiKey", "schema": {"type": "string"}}}
    found["Problem415"]["headers"] = {"Accept-Post": {"description": "The media types that are read", "schema": {"type": "string"}}}
    found["Problem404"] = {"description": "There is nothing of this name", "content": {PROBLEM: problem}}
    return found
