"""The heading of a table of questions: each column a JSON pointer into the question, with a unit in brackets where its cells have none."""

import re
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import Any

import msgspec
from msgspec import inspect

from kneewall.kernel.quantity import FRACTION, Quantity
from kneewall.kernel.refusal import Fault, Refusal, fault

ID = "id"
_heading = re.compile(r"(?P<pointer>/[^\[]*?)\s*(?:\[(?P<unit>[^\]]+)\])?\s*")
_number = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_decimal = re.compile(r"[+-]?[0-9]{1,9}(?:\.[0-9]{1,9})?")
_mixed = re.compile(FRACTION)

Read = Callable[[str], Any]


class Column(msgspec.Struct, frozen=True):
    """A column that belongs to the question: where its cells stand, how one is read, and the kind of quantity it holds, if any, with its unit."""

    place: int
    path: tuple[str, ...]
    read: Read
    kind: type[Quantity] | None
    unit: str | None

    def quantity(self, text: str) -> Quantity:
        """What a cell says, in a column that holds quantities: most are plain numbers. Raises: ValueError."""
        assert self.kind is not None
        if self.unit is not None and _decimal.fullmatch(text):
            return self.kind.of(float(text), self.unit)
        return self.kind.read(self.read(text))


class Heading:
    """The columns of a table and what they mean for one kind of question."""

    def __init__(self, names: tuple[str, ...], question: type) -> None:
        """Raises: Refusal naming every column at fault."""
        self.width = len(names)
        self.identity: int | None = None
        self.columns: list[Column] = []
        self.unread: list[str] = []
        faults: list[Fault] = []
        described = inspect.type_info(question)
        for place, name in enumerate(names):
            if name.strip() == ID:
                self.identity = place
            elif not name.strip().startswith("/"):
                self.unread.append(name)
            else:
                faults += self._take(place, name.strip(), described)
        faults += self._overlaps()
        faults += [fault(name, "stands more than once in the heading") for name in sorted({one for one in names if names.count(one) > 1})]
        if not self.columns and not faults:
            faults.append(fault("", "no column is a JSON pointer such as {}", "/" + next(iter(described.fields)).encode_name))  # type: ignore[attr-defined]
        if faults:
            raise Refusal(faults, "invalid-question")

    def _take(self, place: int, name: str, question: inspect.Type) -> Iterator[Fault]:
        match = _heading.fullmatch(name)
        if match is None:
            yield fault(name, "is not a JSON pointer with a unit in brackets after it, such as {}", "/airflow [cfm]")
            return
        path = tuple(token.replace("~1", "/").replace("~0", "~") for token in match["pointer"].split("/")[1:])
        described = _field(question, path)
        if described is None:
            yield fault(name, "is not a field of this question")
            return
        kind, unit = _quantity(described), match["unit"]
        if unit is not None and (kind is None or unit not in kind.accepted):
            yield fault(name, "has a unit that does not fit; {}", f"use one of {', '.join(kind.table.units)}" if kind else "this field takes none")
        self.columns.append(Column(place, path, _cell_reader(described, kind, unit), kind, unit))

    def _overlaps(self) -> Iterator[Fault]:
        paths = [column.path for column in self.columns]
        for place, path in enumerate(paths):
            if any(path[: len(other)] == other for other in paths[:place]) or any(path == other[: len(path)] != other for other in paths[:place]):
                yield fault("/" + "/".join(path), "is given by another column too")

    def plain(self, cells: list[str]) -> dict[str, Any]:
        """What a row says in plain dicts and lists. Raises: Refusal for a row too long."""
        if any(cells[self.width :]):
            raise Refusal([fault("", "the row has more cells than the heading")], "invalid-question")
        return together((column, cells[column.place]) for column in self.columns if column.place < len(cells))


def together(given: Iterable[tuple[Column, str]]) -> dict[str, Any]:
    """What the cells of some columns say together, in plain dicts and lists. An empty cell is a field left out."""
    found: dict[str, Any] = {}
    for column, cell in given:
        text = cell.strip()
        if text:
            _put(found, column.path, column.read(text))
    return _with_lists(found)  # type: ignore[no-any-return]


def _put(found: dict[str, Any], path: tuple[str, ...], value: object) -> None:
    for token in path[:-1]:
        found = found.setdefault(token, {})
    found[path[-1]] = value


def _with_lists(found: Any) -> Any:
    """Turns objects whose keys are all numbers into lists, in the order of the numbers; gaps close."""
    if not isinstance(found, dict):
        return found
    if found and all(key.isdecimal() for key in found):
        return [_with_lists(found[key]) for key in sorted(found, key=int)]
    return {key: _with_lists(value) for key, value in found.items()}


def _field(described: inspect.Type, path: tuple[str, ...]) -> inspect.Type | None:
    """The type of the field at `path`, None where there is none."""
    if isinstance(described, inspect.Metadata):
        return _field(described.type, path)
    if isinstance(described, inspect.UnionType):
        return next((found for one in described.types if not isinstance(one, inspect.NoneType) and (found := _field(one, path)) is not None), None)
    if not path:
        return described
    if isinstance(described, inspect.StructType):
        return next((_field(field.type, path[1:]) for field in described.fields if field.encode_name == path[0]), None)
    if isinstance(described, inspect.ListType) and path[0].isdecimal():
        return _field(described.item_type, path[1:])
    if isinstance(described, inspect.DictType) and not path[0].isdecimal():
        return _field(described.value_type, path[1:])
    return None


def _quantity(described: inspect.Type) -> type[Quantity] | None:
    return described.cls if isinstance(described, inspect.CustomType) and issubclass(described.cls, Quantity) else None


def _cell_reader(described: inspect.Type, kind: type[Quantity] | None, unit: str | None) -> Read:
    if kind is not None:
        return str if unit is None else partial(_with_unit, unit)
    if isinstance(described, inspect.FloatType | inspect.IntType):
        return _as_number
    if isinstance(described, inspect.BoolType):
        return lambda text: {"true": True, "false": False}.get(text.lower(), text)
    if isinstance(described, inspect.StrType | inspect.LiteralType):
        return str
    return _as_json


def _with_unit(unit: str, text: str) -> str:
    """A cell that is a number alone takes the heading's unit; any other keeps what it says."""
    return f"{text} {unit}" if " " not in text or _mixed.fullmatch(text) else text


def _as_number(text: str) -> float | str:
    return float(text) if _number.fullmatch(text) else text


def _as_json(text: str) -> object:
    try:
        return msgspec.json.decode(text)
    except (msgspec.DecodeError, RecursionError):
        return text
