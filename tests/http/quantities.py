"""Where the quantities of a question stand, and questions varied from an example by its type."""

import copy
import random
from dataclasses import dataclass
from typing import Any

from msgspec import inspect

from kneewall.kernel.quantity import Quantity


@dataclass(frozen=True)
class Place:
    """A quantity in a question: its path, its kind and what is given."""

    path: str
    kind: type[Quantity]
    given: Any


def places(question: type, given: dict[str, Any]) -> list[Place]:
    """Every quantity that an example gives."""
    found: list[Place] = []
    _walk(inspect.type_info(question), given, "", found)
    return found


def _core(described: inspect.Type) -> inspect.Type:
    if isinstance(described, inspect.Metadata):
        return _core(described.type)
    if isinstance(described, inspect.UnionType):
        return _core(next(one for one in described.types if not isinstance(one, inspect.NoneType)))
    return described


def _walk(described: inspect.Type, given: Any, path: str, found: list[Place]) -> None:
    core = _core(described)
    if isinstance(core, inspect.CustomType) and given is not None:
        found.append(Place(path, core.cls, given))
    elif isinstance(core, inspect.StructType) and isinstance(given, dict):
        for field in core.fields:
            if field.encode_name in given:
                _walk(field.type, given[field.encode_name], f"{path}/{field.encode_name}", found)
    elif isinstance(core, inspect.ListType) and isinstance(given, list):
        for index, item in enumerate(given):
            _walk(core.item_type, item, f"{path}/{index}", found)
    elif isinstance(core, inspect.DictType) and isinstance(given, dict):
        for key, item in given.items():
            _walk(core.value_type, item, f"{path}/{key}", found)


def put(question: Any, path: str, value: Any) -> None:
    """Set what stands at a path."""
    *way, last = path.strip("/").split("/")
    for step in way:
        question = question[int(step)] if isinstance(question, list) else question[step]
    question[int(last) if isinstance(question, list) else last] = value


def varied(question: type, example: dict[str, Any], chance: random.Random, *, reach: float) -> dict[str, Any]:
    """An example with a few of its quantities multiplied by up to `reach`, some optional fields dropped and some choices changed."""
    new = copy.deepcopy(example)
    every = places(question, example)
    for place in every:
        if chance.random() < min(0.35, 6 / len(every)):
            unit = place.kind.table.ip.label
            factor = reach ** chance.uniform(-1.0, 1.0)
            put(new, place.path, {"value": place.kind.read(place.given).to(unit) * factor, "unit": unit})
    _shake(inspect.type_info(question), new, chance, min(1.0, 12 / len(every)))
    return new


def _shake(described: inspect.Type, given: Any, chance: random.Random, often: float) -> None:
    core = _core(described)
    if isinstance(core, inspect.StructType) and isinstance(given, dict):
        for field in core.fields:
            if field.encode_name not in given:
                continue
            inner = _core(field.type)
            if not field.required and chance.random() < 0.04 * often:
                del given[field.encode_name]
            elif isinstance(inner, inspect.LiteralType) and chance.random() < 0.08 * often:
                given[field.encode_name] = chance.choice(list(inner.values))
            else:
                _shake(field.type, given[field.encode_name], chance, often)
    elif isinstance(core, inspect.ListType) and isinstance(given, list):
        for item in given:
            _shake(core.item_type, item, chance, often)
