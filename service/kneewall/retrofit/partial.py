"""A question with every field left optional: what a part of a whole job states itself, the rest being taken from elsewhere."""

import types
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin

import msgspec

from kneewall.kernel.question import Question

Given = dict[str, Any]
"""A question as nested fields whose leaves are already quantities, numbers and words. Wire names throughout."""


@cache
def partial_of(struct: type[msgspec.Struct]) -> type[Question]:
    """The struct with all its fields, and those of the structs inside it, optional; `Part` before its name."""
    fields = [
        (field.name, _partial(field.type) | None, msgspec.field(default=None, name=field.encode_name)) for field in msgspec.structs.fields(struct)
    ]
    made = msgspec.defstruct(f"Part{struct.__name__}", fields, bases=(Question,), module=struct.__module__, frozen=True, kw_only=True)
    made.__doc__ = f"{(struct.__doc__ or '').strip()} Whatever is left out here is taken from the shared facts or from other parts."
    assert issubclass(made, Question)
    return made


def _partial(described: Any) -> Any:
    origin, arguments = get_origin(described), get_args(described)
    if origin is Annotated:
        return Annotated[(_partial(arguments[0]), *arguments[1:])]
    if origin in (Union, types.UnionType):
        return Union[tuple(_partial(argument) for argument in arguments)]  # noqa: UP007 (its members are known only now)
    if origin is list:
        return list[_partial(arguments[0])]  # type: ignore[misc]
    if isinstance(described, type) and issubclass(described, msgspec.Struct):
        return partial_of(described)
    return described


def given_of(value: Any) -> Any:
    """What a partial question states, as plain nested fields; what it leaves out is left out."""
    if isinstance(value, msgspec.Struct):
        stated = ((wire, getattr(value, name)) for name, wire in _names(type(value)))
        return {wire: given_of(item) for wire, item in stated if item is not None}
    if isinstance(value, list):
        return [given_of(item) for item in value]
    return value


@cache
def _names(struct: type[msgspec.Struct]) -> tuple[tuple[str, str], ...]:
    return tuple((field.name, field.encode_name) for field in msgspec.structs.fields(struct))


def merged(given: Given, taken: Given) -> Given:
    """What is given, with what is taken from elsewhere put where nothing is given, down through nested fields."""
    result = dict(taken)
    for name, value in given.items():
        before = result.get(name)
        result[name] = merged(value, before) if isinstance(value, dict) and isinstance(before, dict) else value
    return {name: value for name, value in result.items() if value is not None}
