"""The columns of a table of answers: a figure of the result each, named by its JSON pointer with its unit in brackets."""

from collections.abc import Callable, Iterator
from functools import partial
from math import isfinite
from operator import attrgetter
from typing import Any, Literal

import msgspec
from msgspec import inspect

from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import Number, Quantity, UnitSystem
from kneewall.kernel.refusal import Fault, Refusal, fault
from kneewall.kernel.unit import SIGNIFICANT_DIGITS, Unit
from kneewall.kernel.wire import write_json

DEEPEST = 6
Kind = Literal["number", "truth", "text"]
_digits = f"%.{SIGNIFICANT_DIGITS}g"
_NO_UNIT = Unit("", 1.0, 0.0, "")


class ResultColumn(msgspec.Struct, frozen=True):
    """One column of answers: its name, what kind of thing stands in it, and how the cells of many results are written."""

    name: str
    kind: Kind
    cells: Callable[[list[Any]], list[str]]


class _Leaf(msgspec.Struct, frozen=True):
    """A figure of a result: its path, its type, and whether something on the way to it may be missing."""

    path: tuple[str, ...]
    described: inspect.Type
    optional: bool


def result_columns(calculation: AnyCalculation, system: UnitSystem, wanted: tuple[str, ...], *, told: bool = False) -> list[ResultColumn]:
    """The wanted columns (`/result/velocity`, `/result/velocity [m/s]`), or every figure of the result where none is named.

    Lists and objects without fixed fields stand in one column as JSON. `told`: results come as a service's JSON has them. Raises: Refusal naming every column that is not in the result.
    """
    every = {"/result/" + "/".join(leaf.path): leaf for leaf in _leaves(calculation.result)}
    if not wanted:
        return [_column(pointer, leaf, system, None, told) for pointer, leaf in every.items()]
    found, faults = [], []
    for name in wanted:
        pointer, _, unit = name.strip().removesuffix("]").partition("[")
        try:
            found.append(_column(pointer.strip(), every[pointer.strip()], system, unit or None, told))
        except KeyError:
            faults.append(_unknown(name, pointer.strip(), unit, every))
    if faults:
        raise Refusal(faults, "invalid-question")
    return found


def _unknown(name: str, pointer: str, unit: str, every: dict[str, Any]) -> Fault:
    if pointer in every:
        return fault(name, "is not answered in {}", unit)
    return fault(name, "is not a column of the answer; there are {}", ", ".join(every))


def _leaves(struct: type, before: tuple[str, ...] = (), optional: bool = False) -> Iterator[_Leaf]:
    """Every figure of a struct."""
    described = inspect.type_info(struct)
    assert isinstance(described, inspect.StructType)
    for field in described.fields:
        kind, missing = _bare(field.type)
        path = (*before, field.name)
        if isinstance(kind, inspect.StructType) and len(path) < DEEPEST:
            yield from _leaves(kind.cls, path, optional or missing)
        else:
            yield _Leaf(path, kind, optional)


def _bare(described: inspect.Type) -> tuple[inspect.Type, bool]:
    """A field's type without its description, and whether it may be missing."""
    if isinstance(described, inspect.Metadata):
        return _bare(described.type)
    if isinstance(described, inspect.UnionType) and described.includes_none and len(described.types) == 2:
        return _bare(next(one for one in described.types if not isinstance(one, inspect.NoneType)))[0], True
    return described, False


def _column(name: str, leaf: _Leaf, system: UnitSystem, label: str | None, told: bool) -> ResultColumn:
    """Raises: KeyError where the unit does not fit."""
    described = leaf.described
    pick: Callable[[Any], Any] = partial(_dig, leaf.path) if leaf.optional else attrgetter(".".join(leaf.path))
    if told:
        pick = partial(_dig_told, leaf.path, described)
    if isinstance(described, inspect.CustomType) and issubclass(described.cls, Quantity):
        kind = described.cls
        unit = kind.accepted[label] if label else (kind.table.ip if system == "ip" else kind.table.si)
        return ResultColumn(f"{name} [{unit.label}]", "number", partial(_quantities, pick, unit))
    if label:
        raise KeyError(label)
    if isinstance(described, inspect.CustomType) and described.cls is Number:
        return ResultColumn(name, "number", partial(_quantities, pick, _NO_UNIT))
    if isinstance(described, inspect.FloatType | inspect.IntType):
        return ResultColumn(name, "number", partial(_numbers, pick))
    if isinstance(described, inspect.BoolType):
        return ResultColumn(name, "truth", partial(_truths, pick))
    if isinstance(described, inspect.LiteralType):
        cells = {None: "", **{word: quoted(str(word)) for word in described.values}}
        return ResultColumn(name, "text", partial(_words, pick, cells))
    if isinstance(described, inspect.StrType):
        return ResultColumn(name, "text", partial(_texts, pick))
    return ResultColumn(name, "text", partial(_as_json, pick, write_json[system]))


def _dig(path: tuple[str, ...], found: Any) -> Any:
    for name in path:
        found = getattr(found, name)
        if found is None:
            return None
    return found


def _dig_told(path: tuple[str, ...], described: inspect.Type, found: Any) -> Any:
    for name in path:
        found = found.get(name)
        if found is None:
            return None
    return described.cls.read(found) if isinstance(described, inspect.CustomType) and issubclass(described.cls, Quantity) else found


def _quantities(pick: Callable[[Any], Any], unit: Unit, results: list[Any]) -> list[str]:
    """As many digits as in any other answer. Raises: ArithmeticError."""
    scale, offset = unit.scale, unit.offset
    values = list(map(pick, results))
    if _all_given(values):
        return [_digits % ((value - offset) / scale + 0.0) for value in values]
    return ["" if value is None else _digits % ((value - offset) / scale + 0.0) for value in values]


def _numbers(pick: Callable[[Any], Any], results: list[Any]) -> list[str]:
    """Raises: ArithmeticError."""
    values = list(map(pick, results))
    return list(map(repr, values)) if _all_given(values) else ["" if value is None else repr(value) for value in values]


def _all_given(values: list[Any]) -> bool:
    """Whether no number is left out. Raises: ArithmeticError where one is not finite."""
    if None not in values:
        if not isfinite(sum(values)) and not all(map(isfinite, values)):
            raise ArithmeticError("a figure of the result is not finite")
        return True
    if not all(isfinite(value) for value in values if value is not None):
        raise ArithmeticError("a figure of the result is not finite")
    return False


def _truths(pick: Callable[[Any], Any], results: list[Any]) -> list[str]:
    return ["" if value is None else "true" if value else "false" for value in map(pick, results)]


def _words(pick: Callable[[Any], Any], cells: dict[Any, str], results: list[Any]) -> list[str]:
    return [cells[value] for value in map(pick, results)]


def _texts(pick: Callable[[Any], Any], results: list[Any]) -> list[str]:
    return ["" if value is None else quoted(str(value)) for value in map(pick, results)]


def _as_json(pick: Callable[[Any], Any], write: Callable[[object], bytes], results: list[Any]) -> list[str]:
    values = list(map(pick, results))
    return ["" if value is None else "[]" if value == [] else quoted(write(value).decode()) for value in values]


def quoted(text: str) -> str:
    """A text as a cell of CSV (RFC 4180)."""
    return '"' + text.replace('"', '""') + '"' if any(mark in text for mark in ',"\r\n') else text
