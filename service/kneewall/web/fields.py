"""A question type as a tree of form fields, read from the types themselves by `msgspec.inspect`."""

from collections.abc import Hashable
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, cast, get_args, get_origin, get_type_hints

import msgspec
from msgspec import inspect

from kneewall.kernel.quantity import Quantity, UnitSystem
from kneewall.kernel.words import titled

Kind = Literal["quantity", "number", "text", "choice", "yes-no", "group", "list", "counts", "written-out"]


@dataclass(frozen=True, eq=False)
class Field:
    """One field of a form. `path` is its place in the type (`*` stands for an item); `says` its description."""

    path: str
    name: str
    kind: Kind
    says: str = ""
    required: bool = True
    absent: bool = False
    """A group that may be left out as a whole."""
    usual: str = ""
    """What stands in an untouched field."""
    quantity: type[Quantity] | None = None
    least: str | None = None
    most: str | None = None
    choices: tuple[str, ...] = ()
    fields: tuple["Field", ...] = ()
    item: "Field | None" = None
    longest: int | None = None

    @property
    def title(self) -> str:
        """The name as people read it."""
        return titled(self.name)

    @property
    def needs_fraction(self) -> bool:
        """Whether a phone must show more than digits: sizes are written as 1-1/8, and some figures are negative."""
        fraction = self.quantity is not None and self.quantity.table.ip.label in ("in", "ft", "in/ft")
        return fraction or self.least is None or self.least.startswith("-")

    def first_unit(self, system: UnitSystem) -> str:
        """The unit an untouched field starts with: in the inch-pound system the one in which its bounds are stated."""
        assert self.quantity is not None
        table = self.quantity.table
        stated = (self.most or self.least or "").partition(" ")[2]
        return table.si.label if system == "si" else table.aliases.get(stated, stated) or table.ip.label


def form_of(question: type) -> Field:
    """The whole form of a question type."""
    return _form_of(cast("Hashable", question))


@cache
def _form_of(question: type) -> Field:
    return _field("", "", inspect.type_info(question), question)


def _field(path: str, name: str, described: inspect.Type, hint: Any, required: bool = True, default: object = None) -> Field:
    """A field from its described type and its annotation (which alone keeps the order of choices)."""
    base, meta, optional = _opened(described)
    says, ends = _beside(name, str(meta.get("description", ""))), (meta.get("x-least"), meta.get("x-most"))
    known: dict[str, Any] = {"path": path, "name": name, "says": says, "required": required}
    if isinstance(base, inspect.CustomType) and issubclass(base.cls, Quantity):
        known["says"] = _with_range(says, base.cls, *ends)
        return Field(kind="quantity", quantity=base.cls, least=ends[0], most=ends[1], **known)
    if isinstance(base, inspect.LiteralType):
        return Field(kind="choice", choices=_choices(hint, base.values), usual=str(default or ""), **known)
    if isinstance(base, inspect.BoolType):
        return Field(kind="yes-no", usual={True: "yes", False: "no"}.get(default, "") if isinstance(default, bool) else "", **known)
    if isinstance(base, inspect.FloatType | inspect.IntType):
        low, high = base.ge if base.ge is not None else base.gt, base.le if base.le is not None else base.lt
        known["says"] = says + (f" ({low:g} to {high:g})" if low is not None and high is not None else "")
        usual = f"{default:g}" if isinstance(default, int | float) else ""
        return Field(kind="number", usual=usual, least=None if low is None else f"{low:g}", most=None if high is None else f"{high:g}", **known)
    if isinstance(base, inspect.StrType):
        return Field(kind="text", usual=str(default or ""), longest=base.max_length, **known)
    if isinstance(base, inspect.StructType):
        return Field(kind="group", absent=optional, fields=_fields_of(path, base), **known)
    if isinstance(base, inspect.ListType):
        item = _field(f"{path}/*", _one_of(name), base.item_type, hint)
        return Field(kind="list", item=item, longest=base.max_length, **known)
    if isinstance(base, inspect.DictType) and isinstance(_opened(base.value_type)[0], inspect.FloatType | inspect.IntType):
        key = _field(f"{path}/*", "name", base.key_type, hint)
        count = _field(f"{path}/*", "count", base.value_type, hint)
        return Field(kind="counts", fields=(key, count), longest=base.max_length, **known)
    return Field(kind="written-out", **known)


def _beside(name: str, says: str) -> str:
    """A description, unless it only says the name again."""
    return "" if says.lower() == name.replace("_", " ") else says


def _opened(described: inspect.Type) -> tuple[inspect.Type, dict[str, Any], bool]:
    """The type inside its descriptions and its `| None`. A union of several others stays closed."""
    meta: dict[str, Any] = {}
    optional = False
    while True:
        if isinstance(described, inspect.Metadata):
            meta = {**(described.extra_json_schema or {}), **meta}
            described = described.type
        elif isinstance(described, inspect.UnionType):
            others = [one for one in described.types if not isinstance(one, inspect.NoneType)]
            optional = optional or described.includes_none
            if len(others) != 1:
                return described, meta, optional
            described = others[0]
        else:
            return described, meta, optional


def _fields_of(path: str, described: inspect.StructType) -> tuple[Field, ...]:
    hints = get_type_hints(get_origin(described.cls) or described.cls, include_extras=True)
    return tuple(
        _field(f"{path}/{one.encode_name}", one.encode_name, one.type, hints[one.name], one.required, _default(one)) for one in described.fields
    )


def _default(field: inspect.Field) -> object:
    return None if field.default is msgspec.NODEFAULT else field.default


def _choices(hint: Any, values: tuple[Any, ...]) -> tuple[str, ...]:
    """The choices in the order in which they were written; `msgspec.inspect` sorts them."""
    if get_origin(hint) is Literal and set(get_args(hint)) == set(values):
        return tuple(str(value) for value in get_args(hint))
    found = (_choices(inner, values) for inner in get_args(hint) if not isinstance(inner, str | int | float))
    return next((choices for choices in found if choices), tuple(str(value) for value in values) if get_origin(hint) is None else ())


def _with_range(says: str, kind: type[Quantity], least: str | None, most: str | None) -> str:
    """A description whose bounds stand in the units that people see."""
    if not least or not most:
        return says
    low, high = (text.partition(" ") for text in (least, most))
    ends = [f"{number} {kind.accepted[label].shown}" for number, _, label in (low, high)]
    return says.replace(f"({least} to {most})", f"({low[0]} to {ends[1]})" if low[2] == high[2] else f"({' to '.join(ends)})")


def _one_of(name: str) -> str:
    """What one item of a list is called: `pipes` has pipes, `attached` has entries."""
    if name.endswith("ies"):
        return f"{name[:-3]}y"
    if not name.endswith("s"):
        return "entry"
    return name[:-2] if name.endswith(("ches", "shes", "xes", "sses")) else name[:-1]
