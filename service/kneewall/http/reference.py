"""The documents that are worked out at start-up and never change: the calculations, rules, units, materials, the OpenAPI document, health."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256
from typing import Any

import msgspec
from litestar.exceptions import NotFoundException
from litestar.types import Scope

from kneewall import RULEBOOK, VERSION
from kneewall.catalogue import all_calculations, all_rules, all_tables
from kneewall.http.document import openapi_document
from kneewall.http.keys import OPEN_PATHS
from kneewall.http.media import HTML, JSON, METRICS, header, wanted_media
from kneewall.http.packing import PACKED, VARIES, packed, takes_packed
from kneewall.http.reply import Header, Reply
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import kinds
from kneewall.kernel.schema import Schema

WORTH_PACKING = 1000


@dataclass(frozen=True)
class Document:
    """A frozen body at a path, with a strong ETag."""

    path: str
    says: str
    body: bytes
    media: str = JSON
    tag: str = "reference"

    def reply(self, scope: Scope) -> Reply:
        """The body, or 304 where the reader has it. Raises: NotAcceptable."""
        wanted_media(scope, (self.media.partition(";")[0],))
        small = len(self.body) > WORTH_PACKING and takes_packed(scope)
        etag = f'"{self._digest}{"-gzip" if small else ""}"'.encode("ascii")
        headers: tuple[Header, ...] = ((b"etag", etag), (b"cache-control", b"no-cache"), VARIES)
        if (header(scope, b"if-none-match") or "").encode("latin-1") == etag:
            return Reply(b"", self.media, status=304, headers=headers)
        return Reply(self._packed, self.media, headers=(*headers, PACKED)) if small else Reply(self.body, self.media, headers=headers)

    @cached_property
    def _digest(self) -> str:
        return sha256(self.body).hexdigest()[:32]

    @cached_property
    def _packed(self) -> bytes:
        return packed(self.body)

    @property
    def operation(self) -> Schema:
        """How the document stands in the OpenAPI document."""
        schema: Schema = {"type": "object"} if self.media == JSON else {"type": "string"}
        return {
            "operationId": "get" + self.path.replace("/", "-"),
            "summary": self.says,
            "description": f"{self.says}. Worked out at start-up; carries an ETag.",
            "tags": [self.tag],
            **({"security": []} if self.path in OPEN_PATHS else {}),
            "responses": {
                "200": {"description": self.says, "content": {self.media.partition(";")[0]: {"schema": schema}}},
                **({} if self.path in OPEN_PATHS else {"401": {"$ref": "#/components/responses/Problem401"}}),
                "406": {"$ref": "#/components/responses/Problem406"},
            },
        }


def reference_documents(calculations: Mapping[str, AnyCalculation] | None = None) -> list[Document]:
    """Every frozen document of the calculations there are or of those given, the OpenAPI document last since it describes the others."""
    calculations = all_calculations() if calculations is None else calculations
    documents = [
        Document("/v1/calculations", "The calculations and where to send their questions", _json(_calculations(calculations))),
        Document(
            "/v1/rules",
            "Every rule an answer can apply, with its source and standing",
            _json({"rulebook": RULEBOOK, "rules": list(all_rules().values())}),
        ),
        Document("/v1/units", "Every unit that is read, by kind of quantity", _json(_units())),
        Document("/v1/materials", "Ducts, pipes, tubes, refrigerants, fluids and woods, with their data", _json(_materials())),
        Document("/health/live", "The process runs", _json({"status": "live", "version": VERSION}), tag="operation"),
        Document(
            "/health/ready",
            "Tables are built and questions are answered",
            _json({"status": "ready", "version": VERSION, "rulebook": RULEBOOK}),
            tag="operation",
        ),
    ]
    described = Document("/openapi.json", "This interface as an OpenAPI 3.1 document", b"")
    paths = {one.path: {"get": one.operation} for one in [*documents, described]}
    paths["/v1/rules/{id}"] = {"get": _rule_operation()}
    paths["/metrics"] = {"get": _metrics_operation()}
    body = msgspec.json.format(msgspec.json.encode(openapi_document(list(calculations.values()), dict(sorted(paths.items())))), indent=1)
    return [*documents, Document(described.path, described.says, body)]


def openapi_body() -> bytes:
    """The OpenAPI document as it is served."""
    return next(document.body for document in reference_documents() if document.path == "/openapi.json")


def rule_document(identity: str) -> Document:
    """A rule with its whole table. Raises: NotFoundException."""
    rule = all_rules().get(identity)
    if rule is None:
        raise NotFoundException
    table = all_tables().get(identity)
    body: dict[str, Any] = {"rule": rule}
    if table is not None:
        body["table"] = {"columns": table.columns, "between": table.between, "outside": table.outside, "rows": table.rows}
    return Document(f"/v1/rules/{identity}", rule.says, _json(body))


def _json(content: object) -> bytes:
    return msgspec.json.encode(content)


def _calculations(calculations: Mapping[str, AnyCalculation]) -> Schema:
    return {
        "rulebook": RULEBOOK,
        "calculations": [
            {
                "calculation": one.name,
                "title": one.title,
                "says": one.says,
                "path": f"/v1/{one.name}",
                "sheet": f"/sheets/{one.name}",
                "examples": [{"name": example.name, "says": example.says, "question": example.question} for example in one.examples],
            }
            for one in calculations.values()
        ],
    }


def _units() -> Schema:
    return {
        "quantities": {
            kind.__name__: {
                "says": kind.table.says,
                "ip": kind.table.ip.label,
                "si": kind.table.si.label,
                "units": list(kind.table.units),
                "aliases": dict(kind.table.aliases),
            }
            for kind in kinds()
        }
    }


def _materials() -> Schema:
    groups: dict[str, list[Schema]] = defaultdict(list)
    for identity, table in all_tables().items():
        if table.materials is not None:
            groups[table.materials].append({"rule": identity, "columns": table.columns, "rows": table.rows})
    return dict(sorted(groups.items()))


def _rule_operation() -> Schema:
    return {
        "operationId": "get-v1-rule",
        "summary": "One rule with its whole table",
        "description": "One rule with its source, standing and, where it has one, its whole table",
        "tags": ["reference"],
        "parameters": [
            {"name": "id", "in": "path", "required": True, "description": "The rule's id", "schema": {"type": "string", "enum": list(all_rules())}},
        ],
        "responses": {
            "401": {"$ref": "#/components/responses/Problem401"},
            "200": {"description": "The rule", "content": {JSON: {"schema": {"type": "object"}}, HTML: {"schema": {"type": "string"}}}},
            "404": {"$ref": "#/components/responses/Problem404"},
            "406": {"$ref": "#/components/responses/Problem406"},
        },
    }


def _metrics_operation() -> Schema:
    return {
        "operationId": "get-metrics",
        "summary": "What the service counts about itself",
        "description": "Requests, their duration, memory and processor time, in the Prometheus text format",
        "tags": ["operation"],
        "security": [],
        "responses": {
            "200": {"description": "The figures", "content": {METRICS.partition(";")[0]: {"schema": {"type": "string"}}}},
            "406": {"$ref": "#/components/responses/Problem406"},
        },
    }
