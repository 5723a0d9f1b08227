"""Plain numbers of an answer as they leave: ratios and counts to as many digits as quantities have."""

from functools import cache
from typing import Any

import msgspec
from msgspec import inspect

from kneewall.kernel.answer import Answer
from kneewall.kernel.phrase import Figure
from kneewall.kernel.unit import SIGNIFICANT_DIGITS


def rounded(value: float) -> float:
    """A plain number to the digits that quantities leave with."""
    return float(f"{value:.{SIGNIFICANT_DIGITS}g}")


def round_answer(answer: Answer[Any]) -> None:
    """Round every plain number of a finished answer, where it stands. Quantities are rounded when they are written, and questions stay as they were asked."""
    _round_fields(answer.result)
    for check in answer.checks:
        if type(check.actual) is float:
            msgspec.structs.force_setattr(check, "actual", rounded(check.actual))
        if type(check.limit) is float:
            msgspec.structs.force_setattr(check, "limit", rounded(check.limit))
    for line in answer.working or ():
        if type(line.value) is float:
            msgspec.structs.force_setattr(line, "value", rounded(line.value))


def _round_fields(struct: msgspec.Struct) -> None:
    for name in _fields_with_numbers(type(struct)):
        value = getattr(struct, name)
        if type(value) is float:
            msgspec.structs.force_setattr(struct, name, rounded(value))
        elif value is not None:
            _round_inside(value)


def _round_inside(value: Any) -> None:
    """Round what a struct, a list or a dict holds."""
    if isinstance(value, Answer):
        round_answer(value)
    elif isinstance(value, msgspec.Struct):
        _round_fields(value)
    elif isinstance(value, list | dict):
        for key, item in enumerate(value) if isinstance(value, list) else list(value.items()):
            if type(item) is float:
                value[key] = rounded(item)
            else:
                _round_inside(item)


@cache
def _fields_with_numbers(struct: type[msgspec.Struct]) -> tuple[str, ...]:
    """The fields of a struct under which plain numbers may stand."""
    described = inspect.type_info(struct)
    assert isinstance(described, inspect.StructType)
    return tuple([field.name for field in described.fields if _holds_numbers(field.type)])


def _holds_numbers(described: inspect.Type) -> bool:
    if isinstance(described, inspect.Metadata):
        return _holds_numbers(described.type)
    if isinstance(described, inspect.UnionType):
        return any(_holds_numbers(one) for one in described.types)
    if isinstance(described, inspect.ListType):
        return _holds_numbers(described.item_type)
    if isinstance(described, inspect.DictType):
        return _holds_numbers(described.value_type)
    if isinstance(described, inspect.StructType):
        struct = getattr(described.cls, "__origin__", described.cls)
        return struct is Answer or bool(_fields_with_numbers(struct))
    return isinstance(described, inspect.FloatType) or (isinstance(described, inspect.CustomType) and described.cls is Figure)  # type: ignore[comparison-overlap]
