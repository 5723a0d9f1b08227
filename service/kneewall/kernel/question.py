"""What a question is made of: strict structs whose fields state their meaning and their bounds."""

from functools import cache
from math import inf
from typing import Any

import msgspec

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Quantity
from kneewall.kernel.refusal import Fault

WITHIN = 1e-9
"""Relative slack of a bound, so that 12 in and 1 ft stand at the same limit."""


def asked(says: str, *, least: str | float | None = None, most: str | float | None = None) -> msgspec.Meta:
    """The meaning of a field and its bounds, ends included: `Annotated[Airflow, asked("Design airflow", least="1 cfm", most="50000 cfm")]`.
    Bounds of a plain number are numbers, bounds of a quantity are text with a unit.
    """
    if isinstance(least, str) or isinstance(most, str):
        bounds = {"least": least, "most": most}
        schema = {f"x-{end}": text for end, text in bounds.items() if text is not None}
        return msgspec.Meta(description=_with_bounds(says, least, most), extra=bounds, extra_json_schema=schema)
    return msgspec.Meta(description=says, ge=least, le=most)


def _with_bounds(says: str, least: str | float | None, most: str | float | None) -> str:
    if least is None:
        return f"{says} (at most {most})"
    return f"{says} (at least {least})" if most is None else f"{says} ({least} to {most})"


class Question(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Base of everything that is asked. Unknown fields are refused; quantities are held to their stated bounds."""

    def __post_init__(self) -> None:
        for name, least, most in _ends_of(type(self)):
            value = getattr(self, name)
            if value is None or (all(least <= item <= most for item in value) if isinstance(value, list) else least <= value <= most):
                continue
            raise ValueError(f"{name} is out of bounds")


class Bounds(msgspec.Struct, frozen=True):
    """The ends, included, between which a quantity must lie."""

    least: Quantity | None
    most: Quantity | None

    def hold(self, value: float) -> bool:
        """Whether `value` lies between the ends."""
        return (self.least is None or value >= self.least - WITHIN * abs(self.least)) and (
            self.most is None or value <= self.most + WITHIN * abs(self.most)
        )

    def fault(self, pointer: str, value: Quantity) -> Fault:
        """What to tell somebody whose `value` lies outside."""
        if self.least is not None and value < self.least:
            return Fault(pointer=pointer, detail=Phrase("{} is too small; the least that is answered is {}", value, self.least))
        return Fault(pointer=pointer, detail=Phrase("{} is too large; the most that is answered is {}", value, self.most))


@cache
def bounds_of(struct: type[msgspec.Struct]) -> tuple[tuple[str, str, Bounds], ...]:
    """The bounded quantity fields of a struct: the field's name here, its name on the wire, and its bounds."""
    info = msgspec.inspect.type_info(struct)
    if not isinstance(info, msgspec.inspect.StructType):
        raise TypeError(f"{struct} is not a struct")
    found = ((field.name, field.encode_name, bounds_in(field.type)) for field in info.fields)
    return tuple((name, wire, bounds) for name, wire, bounds in found if bounds is not None)


@cache
def _ends_of(struct: type[msgspec.Struct]) -> tuple[tuple[str, float, float], ...]:
    """As `bounds_of`, as plain numbers with the slack included: what every question is held to."""
    return tuple(
        (
            name,
            -inf if bounds.least is None else bounds.least - WITHIN * abs(bounds.least),
            inf if bounds.most is None else bounds.most + WITHIN * abs(bounds.most),
        )
        for name, _, bounds in bounds_of(struct)
    )


def bounds_in(described: msgspec.inspect.Type, bounds: dict[str, Any] | None = None) -> Bounds | None:
    """The bounds stated in a field's type: on itself, on the items of its list, or on what it is when it is given."""
    inspect = msgspec.inspect
    if isinstance(described, inspect.Metadata):
        return bounds_in(described.type, described.extra or bounds)
    if isinstance(described, inspect.ListType):
        return bounds_in(described.item_type, bounds)
    if isinstance(described, inspect.UnionType):
        return next((found for member in described.types if (found := bounds_in(member, bounds)) is not None), None)
    if bounds is not None and isinstance(described, inspect.CustomType) and issubclass(described.cls, Quantity):
        ends = (bounds.get("least"), bounds.get("most"))
        return Bounds(*(None if end is None else described.cls.read(end) for end in ends))
    return None
