"""The JSON Schema of what the wire carries that msgspec does not know: quantities, figures and phrases."""

import re
from typing import Any

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import DECIMAL, FRACTION, LARGEST_NUMBER, Number, Quantity, kinds

Schema = dict[str, Any]
COMPONENTS = "#/components/schemas/"


def asked_schema(kind: type) -> Schema:
    """How a custom type stands in a question."""
    if issubclass(kind, Quantity):
        return {"$ref": f"{COMPONENTS}{kind.__name__}"}
    raise NotImplementedError(kind)


def answered_schema(kind: type) -> Schema:
    """How a custom type stands in an answer."""
    if issubclass(kind, Quantity):
        return {"$ref": f"{COMPONENTS}{kind.__name__}Value"}
    if kind is Number:
        return {"type": "number"}
    if kind is Phrase:
        return {"type": "string"}
    if kind.__name__ == "Figure":
        return {"anyOf": [{"$ref": f"{COMPONENTS}AnyValue"}, {"type": "number"}, {"type": "string"}, {"type": "boolean"}]}
    raise NotImplementedError(kind)


def quantity_components() -> dict[str, Schema]:
    """The named schemas of every kind of quantity: as it is asked (text or value with unit) and as it is answered."""
    found: dict[str, Schema] = {"AnyValue": _value("Any quantity", None)}
    for kind in kinds():
        found[kind.__name__] = _asked(kind)
        found[f"{kind.__name__}Value"] = _value(_sentence(kind), sorted({kind.table.ip.label, kind.table.si.label}))
    return found


def _asked(kind: type[Quantity]) -> Schema:
    spellings = list(kind.accepted)
    units = "|".join(re.escape(spelling).replace("\\ ", " ").replace("\\-", "-").replace("\\%", "%") for spelling in spellings)
    inch_mark = '|"' if "in" in kind.accepted else ""
    return {
        "title": kind.__name__,
        "description": f"{_sentence(kind)}, as a number, a space and a unit, or as a value with a unit.",
        "anyOf": [
            {"type": "string", "pattern": f"^[+-]?(?:{DECIMAL}|{FRACTION})(?: (?:{units}){inch_mark})$", "examples": [f"10 {kind.table.ip.label}"]},
            _value(f"{_sentence(kind)}, as a value with a unit", spellings, bounded=True),
        ],
    }


def _value(says: str, units: list[str] | None, *, bounded: bool = False) -> Schema:
    number: Schema = {"type": "number"}
    if bounded:
        number |= {"minimum": -LARGEST_NUMBER, "maximum": LARGEST_NUMBER}
    return {
        "type": "object",
        "description": says,
        "properties": {"value": number, "unit": {"type": "string", "enum": units} if units else {"type": "string"}},
        "required": ["value", "unit"],
        "additionalProperties": False,
    }


def _sentence(kind: type[Quantity]) -> str:
    return kind.table.says[0].upper() + kind.table.says[1:]
