"""Reading a form: from the names and texts a browser sends to the plain question, guided by the tree of fields.

A text's name is the JSON pointer of its field; `.unit` is added for a unit, `.there` says that an item or an optional group is there,
`.name` and `.count` are the two texts of a counted thing. Items keep the numbers the page gave them; reading closes the gaps.
"""

import math
from collections import defaultdict
from collections.abc import Mapping
from typing import Any

import msgspec

from kneewall.kernel.quantity import Quantity
from kneewall.kernel.refusal import Fault, fault
from kneewall.web.fields import Field

LEFT_OUT: Any = object()


class Form:
    """The texts of a form by name, and the faults that only the form can see."""

    def __init__(self, texts: Mapping[str, str], *, with_blanks: bool = False) -> None:
        self.texts = texts
        self.with_blanks = with_blanks
        self.faults: list[Fault] = []
        self._items: dict[str, set[int]] = defaultdict(set)
        for name in texts:
            self._note_items(name.partition(".")[0])

    def _note_items(self, pointer: str) -> None:
        at = pointer.rfind("/")
        while at > 0:
            segment = pointer[at + 1 :]
            if segment.isdecimal() and len(segment) < 7:
                self._items[pointer[:at]].add(int(segment))
            pointer, at = pointer[:at], pointer.rfind("/", 0, at)

    def question(self, field: Field) -> dict[str, Any]:
        """The plain question."""
        return self._group(field, "", "")

    def _value(self, field: Field, name: str, pointer: str) -> Any:
        if field.kind == "group":
            there = f"{name}.there" in self.texts
            if field.absent and not there:
                return LEFT_OUT
            found = self._group(field, name, pointer)
            return found if found or field.required or field.absent else LEFT_OUT
        if field.kind == "list":
            return self._list(field, name, pointer)
        if field.kind == "counts":
            return self._counts(field, name, pointer)
        return self._leaf(field, name, pointer)

    def _group(self, field: Field, name: str, pointer: str) -> dict[str, Any]:
        values = ((one.name, self._value(one, f"{name}/{one.name}", f"{pointer}/{one.name}")) for one in field.fields)
        return {name: value for name, value in values if value is not LEFT_OUT}

    def _list(self, field: Field, name: str, pointer: str) -> Any:
        assert field.item is not None
        found: list[Any] = []
        for index in sorted(self._items.get(name, ())):
            value = self._value(field.item, f"{name}/{index}", f"{pointer}/{len(found)}")
            if value is not LEFT_OUT:
                found.append(value)
            elif self.with_blanks:
                found.append("")
        return found if found or field.required else LEFT_OUT

    def _counts(self, field: Field, name: str, pointer: str) -> Any:
        found: dict[str, Any] = {}
        for index in sorted(self._items.get(name, ())):
            key = self.texts.get(f"{name}/{index}.name", "").strip()
            count = self.texts.get(f"{name}/{index}.count", "").strip()
            if key or count:
                below = f"{pointer}/{key.replace('~', '~0').replace('/', '~1')}"
                if key in found:
                    self.faults.append(fault(below, "stands here twice; put it on one line"))
                found[key] = self._number(count, below)
        return found if found or field.required else LEFT_OUT

    def _leaf(self, field: Field, name: str, pointer: str) -> Any:
        text = self.texts.get(name, "").strip()
        if not text:
            return LEFT_OUT
        if field.kind == "quantity" and field.quantity is not None:
            return self._quantity(field.quantity, text, self.texts.get(f"{name}.unit", ""), pointer)
        if field.kind == "number":
            return self._number(text, pointer)
        if field.kind == "yes-no":
            return {"yes": True, "no": False}.get(text, text)
        return self._written_out(text, pointer) if field.kind == "written-out" else text

    def _written_out(self, text: str, pointer: str) -> Any:
        try:
            return msgspec.json.decode(text)
        except (msgspec.DecodeError, RecursionError, UnicodeError):
            self.faults.append(fault(pointer, "cannot be read as JSON"))
            return text

    def _quantity(self, kind: type[Quantity], text: str, unit: str, pointer: str) -> str:
        """A number with the unit chosen beside it, or with the unit that was typed behind it."""
        number, typed = split_unit(kind, text)
        if unit in kind.accepted:
            try:
                kind.read(f"{number} {unit}")
            except ValueError:
                self.faults.append(fault(pointer, "{} is not a number; write it as 10, 0.5 or 1-1/8", repr(number[:40])))
        return text if typed else f"{text} {unit}".rstrip()

    def _number(self, text: str, pointer: str) -> Any:
        try:
            number = float(text)
        except ValueError:
            number = math.nan
        if math.isfinite(number):
            return int(number) if number.is_integer() and abs(number) < 1e15 else number
        self.faults.append(fault(pointer, "{} is not a number", repr(text[:40]) if text else "nothing"))
        return text


def split_unit(kind: type[Quantity], text: str) -> tuple[str, str]:
    """The number and the unit (as it is listed) of a quantity's text; no unit where the text ends in none that is known."""
    at = text.find(" ")
    while at != -1:
        label = text[at + 1 :].strip()
        if label in kind.accepted:
            return text[:at].strip(), kind.table.aliases.get(label, label)
        at = text.find(" ", at + 1)
    return text, ""


def added(field: Field, question: dict[str, Any], pointer: str) -> None:
    """Put one more item into the list at `pointer`, or the optional group that stands there; nothing where there is no such place."""
    found = _place(field, question, pointer)
    if found is None or not isinstance(found[1], dict):
        return
    place, parent, key = found
    if place.kind == "list" and place.item is not None:
        parent.setdefault(key, []).append({} if place.item.kind == "group" else "")
    elif place.kind == "group":
        parent.setdefault(key, {})


def removed(field: Field, question: dict[str, Any], pointer: str) -> None:
    """Take the item or optional group at `pointer` out again; nothing where there is none."""
    found = _place(field, question, pointer)
    if found is not None:
        _, parent, key = found
        if isinstance(parent, list):
            del parent[key]
        else:
            parent.pop(key, None)


def _place(field: Field, question: Any, pointer: str) -> tuple[Field, Any, Any] | None:
    """The field at a pointer, with the dict or list that holds its value and the key it has there."""
    parent: Any = question
    key: Any = None
    for segment in pointer.split("/")[1:]:
        if key is not None:
            if isinstance(parent, dict) and field.kind == "group":
                parent.setdefault(key, {})
            parent = parent.get(key) if isinstance(parent, dict) else parent[key]
        if field.kind == "list" and isinstance(parent, list) and field.item is not None:
            if not segment.isdecimal() or len(segment) > 6 or int(segment) >= len(parent):
                return None
            field, key = field.item, int(segment)
        elif isinstance(parent, dict) and segment in (names := {one.name: one for one in field.fields}) and field.kind == "group":
            field, key = names[segment], segment
        else:
            return None
    return None if key is None else (field, parent, key)
