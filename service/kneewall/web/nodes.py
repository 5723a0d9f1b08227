"""A form ready to be written as HTML: every field with its name, its text, its unit and its faults."""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import msgspec

from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Fault, fault, refuse_any
from kneewall.kernel.words import in_words, place_in_words
from kneewall.web.fields import Field
from kneewall.web.form import split_unit

MOST_NODES = 4000
MOST_OPEN = 3
"""Lists with more items than this show them closed, each by its name."""
MOST_OPENED = 24
"""An optional group with more fields in it than this is shown closed."""
PLACEHOLDER = "~~"
"""Stands in a pattern of an item for the name that the item gets; no JSON pointer has two tildes in a row."""


@dataclass
class Node:
    """One field with what is in it. `name` is its name in the form, `pointer` its JSON pointer in the question."""

    field: Field
    name: str
    pointer: str
    title: str
    label: str
    text: str = ""
    unit: str = ""
    count: str = ""
    there: bool = True
    open: bool = True
    """Whether an item is shown opened."""
    says_at: str = ""
    """The node at which this field's description stands: only the first of several items shows it."""
    faults: list[str] = dataclasses.field(default_factory=list)
    children: list["Node"] = dataclasses.field(default_factory=list)

    @property
    def called(self) -> str:
        """What an item is called by whoever filled it in: its first word, or where it has none its first two figures."""
        named = [
            in_words(one.text) if one.field.kind == "choice" else one.text
            for one in self.children
            if one.field.kind in ("text", "choice") and one.text
        ]
        return named[0] if named else ", ".join([f"{one.text} {one.unit_shown}".strip() for one in self.children if one.text][:2])

    @property
    def unit_shown(self) -> str:
        """The unit as people read it."""
        kind = self.field.quantity
        return kind.table.units[self.unit].shown if kind is not None and self.unit in kind.table.units else self.unit


class Nodes:
    """Builds the nodes of one form. `faults` are texts by JSON pointer; what `touched`, where an item was added or removed, stands in is shown open."""

    def __init__(self, system: UnitSystem, faults: Mapping[str, list[str]], touched: str = "") -> None:
        self.system = system
        self.faults = faults
        self.touched = touched
        self.by_pointer: dict[str, Node] = {}
        self._said: dict[str, str] = {}

    def build(self, described: Field, given: Any, name: str = "", pointer: str = "", title: str = "", above: str = "") -> Node:
        """The node of a field and of all below it. Raises: Refusal where the question is too large for a form."""
        title = title or described.title
        label = f"{above} › {title}" if above else title
        node = Node(described, name, pointer, title, label, faults=self.faults.get(pointer, []))
        self.by_pointer[pointer] = node
        node.says_at = self._said.setdefault(described.path, name)
        if len(self.by_pointer) > MOST_NODES:
            refuse_any([fault("", "has more fields than a form can show; send it to the service as JSON instead")])
        if described.kind == "group":
            node.there = isinstance(given, dict) or not described.absent
            known = given if isinstance(given, dict) else {}
            before = len(self.by_pointer)
            for one in described.fields if node.there else ():
                node.children.append(self.build(one, known.get(one.name), f"{name}/{one.name}", f"{pointer}/{one.name}", above=label))
            node.open = not known or len(self.by_pointer) - before <= MOST_OPENED or self._wanted(pointer)
        elif described.kind == "list":
            self._items(node, given)
        elif described.kind == "counts":
            self._counts(node, given if isinstance(given, dict) else {})
        else:
            self._leaf(node, given)
        return node

    def _items(self, node: Node, given: Any) -> None:
        item = node.field.item
        assert item is not None
        blank: list[Any] = [None] if node.field.required and given is None else []
        for index, value in enumerate(given if isinstance(given, list) else blank):
            child = self.build(item, value, f"{node.name}/{index}", f"{node.pointer}/{index}", f"{item.title} {index + 1}", node.label)
            child.open = value in ({}, "", None) or len(given) <= MOST_OPEN or self._wanted(child.pointer)
            node.children.append(child)

    def _wanted(self, pointer: str) -> bool:
        """Whether the reader must see what stands here: there are faults in it, or it was just changed."""
        return any(one == pointer or one.startswith(f"{pointer}/") for one in (*self.faults, self.touched))

    def _counts(self, node: Node, given: dict[str, Any]) -> None:
        for index, (key, count) in enumerate([*given.items(), ("", "")]):
            pointer = f"{node.pointer}/{str(key).replace('~', '~0').replace('/', '~1')}"
            row = Node(node.field, f"{node.name}/{index}", pointer, node.title, f"{node.label} › {key}", text=str(key), count=_plain(count))
            row.faults = self.faults.get(pointer, []) if key or count else []
            self.by_pointer[pointer] = row
            node.children.append(row)

    def _leaf(self, node: Node, given: Any) -> None:
        described = node.field
        node.text = described.usual if given is None else _plain(given)
        if described.kind == "quantity" and described.quantity is not None:
            if isinstance(given, dict) and given.keys() == {"value", "unit"}:
                node.text = f"{_plain(given['value'])} {given['unit']}"
            node.text, node.unit = split_unit(described.quantity, node.text)
            node.unit = node.unit or described.first_unit(self.system)

    def summary(self) -> list[tuple[str, str, str]]:
        """Every fault in the order of the form, as (name of the field to go to, what it is called, what is wrong); where it has no field, the
        nearest one above.
        """
        order = {pointer: place for place, pointer in enumerate(self.by_pointer)}
        found: list[tuple[int, str, str, str]] = []
        for pointer, details in self.faults.items():
            at = pointer
            while at not in self.by_pointer and at:
                at = at.rpartition("/")[0]
            node = self.by_pointer[at]
            rest = place_in_words(pointer[len(at) :])
            label = " › ".join([words for words in (node.label, rest) if words])
            found += [(order[at], node.name, label, detail) for detail in details]
        return [(name, label, detail) for _, name, label, detail in sorted(found, key=lambda one: one[0])]


def patterns(described: Field, system: UnitSystem) -> dict[str, Node]:
    """For every list and optional group of a form, by its path: the node of one untouched item, named with the placeholder."""
    found: dict[str, Node] = {}
    for one in (*described.fields, *([described.item] if described.item else [])):
        if one.kind == "list" and one.item is not None:
            found[one.path] = Nodes(system, {}).build(one.item, {} if one.item.kind == "group" else None, PLACEHOLDER, PLACEHOLDER, one.item.title)
        elif one.absent:
            found[one.path] = Nodes(system, {}).build(one, {}, PLACEHOLDER, PLACEHOLDER)
        elif one.kind == "counts":
            found[one.path] = Node(one, PLACEHOLDER, PLACEHOLDER, one.title, one.title)
        found.update(patterns(one, system) if one.kind != "counts" else {})
    return found


def by_pointer(faults: list[Fault], system: UnitSystem) -> dict[str, list[str]]:
    """What is wrong, in the reader's units, by the JSON pointer of the field."""
    found: dict[str, list[str]] = {}
    for one in faults:
        found.setdefault(one.pointer, []).append(one.detail.shown(system))
    return found


def _plain(given: Any) -> str:
    if given is None:
        return ""
    if isinstance(given, str):
        return given
    if isinstance(given, bool):
        return "yes" if given else "no"
    return f"{given:.10g}" if isinstance(given, float) else msgspec.json.encode(given).decode()
