"""Rules and cautions: what an answer rests on, where that is written and how we know it."""

from typing import Literal

import msgspec

RuleKind = Literal["formula", "table", "limit", "practice"]
Standing = Literal["published", "from-memory", "common-practice", "computed"]
Hazard = Literal[
    "electrical",
    "refrigerant",
    "pressure",
    "structural",
    "fall",
    "water-damage",
    "freezing",
    "scalding",
    "air-quality",
    "biological",
    "environment",
]


class Source(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Where a rule is written."""

    title: str
    edition: str | None = None
    clause: str | None = None
    publisher: str | None = None


class Rule(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A formula, table, limit or practice that an answer applied.

    `standing` says how we know it: `published` (somebody on the project read that clause, or a quotation of it that the source
    names), `from-memory` (recalled, not read), `common-practice` (the trade's habit, no source), `computed` (follows from the named formula).
    """

    id: str
    says: str
    kind: RuleKind
    source: Source
    standing: Standing


class Caution(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A hazard of the work that the answer's figures do not remove."""

    id: str
    hazard: Hazard
    says: str
    rule: str | None = None
    source: Source | None = None


COMMON_PRACTICE = Source(title="Common practice of the trade, no source document")
