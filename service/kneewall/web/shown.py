"""Any question or answer as titled figures, groups and tables, in the reader's units: what the pages and the sheet print."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

import msgspec

from kneewall.kernel.answer import Answer, Figured
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Quantity, UnitSystem, number_shown
from kneewall.kernel.verdict_list import worst_first
from kneewall.kernel.words import all_in_words, field_in_words, titled

SENTENCE = 60
"""Longer texts than this are read as sentences, not as figures."""
FOLDED_FROM = 24
"""A group inside an answer that has more figures is folded on a page, never on a sheet."""
SHORT = 20
"""No sentence is shorter; a figure such as `0.7 in. w.c.` ends with a full stop too."""


@dataclass(frozen=True)
class Entry:
    """One titled thing: a figure (`text`), a group (`entries`) or a table (`columns`, `rows`)."""

    title: str
    says: str = ""
    text: str = ""
    entries: list["Entry"] = field(default_factory=list)
    columns: list[tuple[str, str]] = field(default_factory=list)
    """Title and, where a whole column has one, unit."""
    rows: list[list[str]] = field(default_factory=list)
    tally: Mapping[str, int] = field(default_factory=dict)
    """Of an answer inside an answer: how many of its checks have each verdict."""

    @property
    def figures(self) -> int:
        """How many figures stand in it."""
        return len(self.rows) * len(self.columns) + sum([one.figures for one in self.entries]) + bool(self.text)

    @property
    def large(self) -> bool:
        """Whether the pages fold it: an answer inside an answer, or a group as long as a question."""
        return bool(self.tally) or bool(self.entries and self.figures > FOLDED_FROM)

    @property
    def prose(self) -> bool:
        """Whether there are sentences in it, which need the width of the page."""
        return len(self.text) > SENTENCE or any(len(cell) > SENTENCE for row in self.rows for cell in row)


def entries_of(found: object, system: UnitSystem) -> list[Entry]:
    """The fields of a struct or dict that hold something."""
    if isinstance(found, Answer):
        return [entry for entry in (_entry("checks", "", worst_first(found.checks), system), *entries_of(found.result, system)) if entry is not None]
    says = _descriptions(type(found)) if isinstance(found, Figured) else {}
    entries = (_entry(str(name), says.get(str(name), ""), value, system) for name, value in _pairs(found))
    return [entry for entry in entries if entry is not None]


def _entry(name: str, says: str, value: object, system: UnitSystem) -> Entry | None:
    if value is None or value == [] or value == {}:
        return None
    title = titled(name)
    if isinstance(value, list | tuple) and all(isinstance(one, msgspec.Struct | dict) for one in value):
        return _table(title, says, list(value), system)
    if isinstance(value, msgspec.Struct | dict):
        inner = entries_of(value, system)
        tally: Counter[str] = Counter([one.verdict for one in worst_first(value.checks)]) if isinstance(value, Answer) else Counter()
        return Entry(title, says, entries=inner, tally=tally) if inner else None
    return Entry(title, says, text=_cell(value, system))


def _table(title: str, says: str, found: list[Any], system: UnitSystem) -> Entry:
    rows = [dict(_pairs(one)) for one in found]
    names = list(dict.fromkeys(name for row in rows for name, value in row.items() if value is not None and value != []))
    shown = {name: [_cell(row.get(name), system) for row in rows] for name in names}
    units = {name: _common_unit([row.get(name) for row in rows], shown[name]) for name in names}
    cells = [[shown[name][at].removesuffix(f" {units[name]}") for name in names] for at in range(len(rows))]
    return Entry(title, says, columns=[(titled(name), units[name]) for name in names], rows=cells)


def _common_unit(values: list[Any], shown: list[str]) -> str:
    """The unit in which every figure of a column is shown; none where they differ or are no quantities."""
    if not all(value is None or isinstance(value, Quantity) for value in values):
        return ""
    units = {cell.partition(" ")[2] for cell in shown if cell}
    return units.pop() if len(units) == 1 else ""


def _cell(value: object, system: UnitSystem) -> str:
    if value is None:
        return ""
    if isinstance(value, Quantity):
        return value.shown(system)
    if isinstance(value, Phrase):
        return value.shown(system)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return number_shown(value)
    if isinstance(value, list | tuple):
        return _joined([_cell(one, system) for one in value], any(isinstance(one, msgspec.Struct) for one in value))
    if isinstance(value, msgspec.Struct | dict):
        found = [(name, one) for name, one in _pairs(value) if one is not None and one != [] and one != {}]
        return ", ".join([_cell(one, system) if isinstance(one, str) else f"{field_in_words(name)} {_cell(one, system)}" for name, one in found])
    return str(value)


def _joined(cells: list[str], of_several: bool) -> str:
    """What several things are as one text: sentences as they stand, figures parted by commas, things with parts of their own by semicolons."""
    sentences = all(cell.endswith(".") and len(cell) > SHORT for cell in cells)
    return (" " if sentences else "; " if of_several else ", ").join(cells)


def _pairs(found: object) -> list[tuple[str, Any]]:
    if isinstance(found, msgspec.Struct):
        chosen, left_out = _choices(type(found)), _for_programs(type(found))
        return [
            (name, _said(getattr(found, name)) if name in chosen else getattr(found, name))
            for name in found.__struct_fields__
            if name not in left_out
        ]
    return [(str(name), value) for name, value in found.items()] if isinstance(found, dict) else []


def _said(chosen: Any) -> Any:
    """A choice, several, or the numbers of several things, in words."""
    if isinstance(chosen, list):
        return [_said(one) for one in chosen]
    if isinstance(chosen, dict) and all(isinstance(count, int | float) for count in chosen.values()):
        return ", ".join([f"{number_shown(count)} × {all_in_words(name)}" for name, count in chosen.items()])
    return all_in_words(chosen) if isinstance(chosen, str) else chosen


def _fields(struct: type[msgspec.Struct]) -> tuple[msgspec.inspect.Field, ...]:
    described = msgspec.inspect.type_info(struct)
    assert isinstance(described, msgspec.inspect.StructType)
    return described.fields


@cache
def _choices(struct: type[msgspec.Struct]) -> frozenset[str]:
    """The fields that hold choices, and not what somebody wrote."""
    return frozenset(one.name for one in _fields(struct) if _chosen(one.type))


@cache
def _for_programs(struct: type[msgspec.Struct]) -> frozenset[str]:
    """The fields that pages leave out."""
    return frozenset(
        one.name for one in _fields(struct) if isinstance(one.type, msgspec.inspect.Metadata) and (one.type.extra or {}).get("for_programs")
    )


def _chosen(described: msgspec.inspect.Type) -> bool:
    inspect = msgspec.inspect
    if isinstance(described, inspect.Metadata):
        return bool(described.extra and described.extra.get("tokens")) or _chosen(described.type)
    if isinstance(described, inspect.UnionType):
        return any(map(_chosen, described.types))
    if isinstance(described, inspect.ListType):
        return _chosen(described.item_type)
    if isinstance(described, inspect.DictType):
        return _chosen(described.key_type)
    return isinstance(described, inspect.LiteralType)


@cache
def _descriptions(struct: type[msgspec.Struct]) -> dict[str, str]:
    return {one.name: _description(one.type) for one in _fields(struct)}


def _description(described: msgspec.inspect.Type) -> str:
    if isinstance(described, msgspec.inspect.Metadata):
        return str((described.extra_json_schema or {}).get("description", "")).replace("`", "") or _description(described.type)
    if isinstance(described, msgspec.inspect.UnionType):
        return next((says for one in described.types if (says := _description(one))), "")
    return ""
