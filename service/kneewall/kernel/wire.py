"""Reading questions and writing answers, as JSON and as MessagePack.

The good case is one typed, strict decode. Only when that fails is the body decoded again without types, to list every fault.
"""

from collections.abc import Callable, Iterator
from functools import partial
from math import isfinite
from typing import Annotated, Any, Generic, Literal, TypeVar

import msgspec
from msgspec import inspect

from kneewall.kernel.misread import in_plain_words
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Number, Quantity, UnitSystem, brief, kinds
from kneewall.kernel.question import Bounds, bounds_of
from kneewall.kernel.refusal import Fault, Refusal, fault
from kneewall.kernel.unit import SIGNIFICANT_DIGITS

QuestionT = TypeVar("QuestionT")
MOST_FAULTS = 100


class Malformed(Exception):
    """The body is not JSON or MessagePack at all."""


def read_custom(kind: type, given: object) -> object:
    """msgspec's hook for the types it does not know: quantities."""
    if issubclass(kind, Quantity):
        return kind.read(given)
    raise NotImplementedError(kind)


class Reader(Generic[QuestionT]):
    """Reads one type of question."""

    def __init__(self, question: type[QuestionT]) -> None:
        self.question = question
        self._json = msgspec.json.Decoder(question, dec_hook=read_custom)
        self._msgpack = msgspec.msgpack.Decoder(question, dec_hook=read_custom)

    def json(self, body: bytes) -> QuestionT:
        """The question in a JSON body. Raises: Malformed, Refusal."""
        return self._read(self._json.decode, msgspec.json.decode, body)

    def msgpack(self, body: bytes) -> QuestionT:
        """The question in a MessagePack body. Raises: Malformed, Refusal."""
        return self._read(self._msgpack.decode, msgspec.msgpack.decode, body)

    def plain(self, given: object) -> QuestionT:
        """The question in plain dicts and lists. Raises: Refusal."""
        try:
            return msgspec.convert(given, self.question, dec_hook=read_custom)
        except (msgspec.ValidationError, RecursionError) as error:
            raise refusal_of(self.question, given, error) from None

    def _read(self, typed: Callable[[bytes], QuestionT], untyped: Callable[[bytes], object], body: bytes) -> QuestionT:
        try:
            return typed(body)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
            try:
                given = untyped(body)
            except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as why:
                raise Malformed(str(why)) from None
            raise refusal_of(self.question, given, error) from None


def refusal_of(question: type, given: object, error: Exception) -> Refusal:
    """Every fault of a question that could not be read."""
    try:
        found = list(_faults(inspect.type_info(question), given, ""))
    except RecursionError:
        found = []
    shape = [one for one in found if not isinstance(one, _OutOfBounds)]
    faults = (found or [fault("", "{}", str(error))])[:MOST_FAULTS]
    return Refusal([Fault(pointer=one.pointer, detail=one.detail) for one in faults], "invalid-question" if shape or not found else "cannot-answer")


class _OutOfBounds(Fault, frozen=True):
    """A fault of size, not of shape."""


def _faults(described: inspect.Type, given: object, pointer: str) -> Iterator[Fault]:
    if isinstance(described, inspect.Metadata):
        described = described.type
    if isinstance(described, inspect.UnionType):
        if given is not None or not described.includes_none:
            yield from _faults(next(one for one in described.types if not isinstance(one, inspect.NoneType)), given, pointer)
    elif isinstance(described, inspect.StructType):
        yield from _struct_faults(described, given, pointer)
    elif isinstance(described, inspect.ListType) and isinstance(given, list):
        yield from _length_faults(described, given, pointer)
        for index, item in enumerate(given):
            yield from _faults(described.item_type, item, f"{pointer}/{index}")
    elif isinstance(described, inspect.DictType) and isinstance(given, dict):
        for key, item in given.items():
            yield from _leaf_faults(described.key_type, key, f"{pointer}/{_escaped(key)}")
            yield from _faults(described.value_type, item, f"{pointer}/{_escaped(key)}")
    else:
        yield from _leaf_faults(described, given, pointer)


def _struct_faults(described: inspect.StructType, given: object, pointer: str) -> Iterator[Fault]:
    if not isinstance(given, dict):
        yield fault(pointer, "must be an object with fields, not {}", _kind_of(given))
        return
    fields = {field.encode_name: field for field in described.fields}
    for key in given:
        if key not in fields:
            yield fault(f"{pointer}/{_escaped(key)}", "is not a field here; the fields are {}", ", ".join(fields))
    bounds = {wire: found for _, wire, found in bounds_of(described.cls)}
    for name, field in fields.items():
        below = f"{pointer}/{name}"
        if name not in given:
            if field.required:
                yield fault(below, "is missing")
            continue
        found = list(_faults(field.type, given[name], below))
        yield from found
        if not found and name in bounds and given[name] is not None:
            yield from _bound_faults(bounds[name], given[name], below)


def _bound_faults(bounds: Bounds, given: Any, pointer: str) -> Iterator[Fault]:
    kind = type(bounds.most if bounds.most is not None else bounds.least)
    several = isinstance(given, list)
    for index, item in enumerate(given if several else [given]):
        value = read_custom(kind, item)
        if isinstance(value, Quantity) and not bounds.hold(value):
            where = f"{pointer}/{index}" if several else pointer
            yield _OutOfBounds(pointer=where, detail=bounds.fault(where, value).detail)


def _length_faults(described: inspect.ListType, given: list[Any], pointer: str) -> Iterator[Fault]:
    if described.min_length is not None and len(given) < described.min_length:
        yield fault(pointer, "needs at least {} items", str(described.min_length))
    if described.max_length is not None and len(given) > described.max_length:
        yield fault(pointer, "may have at most {} items", str(described.max_length))


def _leaf_faults(described: inspect.Type, given: object, pointer: str) -> Iterator[Fault]:
    try:
        msgspec.convert(given, _type_of(described), dec_hook=read_custom)
    except msgspec.ValidationError as error:
        if isinstance(described, inspect.LiteralType) and isinstance(given, str):
            yield fault(pointer, "{} is not known here; it is one of {}", brief(given), ", ".join(map(str, described.values)))
        else:
            yield Fault(pointer=pointer, detail=Phrase("{}", in_plain_words(str(error))))


def _type_of(described: inspect.Type) -> Any:
    """The Python type that msgspec.inspect described, for the leaves a question may have."""
    if isinstance(described, inspect.Metadata):
        return _type_of(described.type)
    if isinstance(described, inspect.CustomType):
        return described.cls
    if isinstance(described, inspect.LiteralType):
        return Literal[tuple(described.values)]
    if isinstance(described, inspect.FloatType):
        return _constrained(float, ge=described.ge, gt=described.gt, le=described.le, lt=described.lt)
    if isinstance(described, inspect.IntType):
        return _constrained(int, ge=described.ge, gt=described.gt, le=described.le, lt=described.lt)
    if isinstance(described, inspect.StrType):
        return _constrained(str, pattern=described.pattern, min_length=described.min_length, max_length=described.max_length)
    if isinstance(described, inspect.BoolType):
        return bool
    if isinstance(described, inspect.ListType):
        return list
    if isinstance(described, inspect.DictType):
        return dict
    return Any


def _constrained(kind: type, **limits: Any) -> Any:
    given = {name: limit for name, limit in limits.items() if limit is not None}
    return Annotated[kind, msgspec.Meta(**given)] if given else kind


def _kind_of(given: object) -> str:
    names = {dict: "an object", list: "a list", str: "a text", bool: "a yes/no", type(None): "null"}
    return names.get(type(given), "a number")


def _escaped(key: object) -> str:
    return str(key).replace("~", "~0").replace("/", "~1")


def write_custom(system: UnitSystem, figure: object) -> object:
    """msgspec's hook for what it cannot write: quantities, numbers without a unit and phrases, in the units of `system`."""
    if isinstance(figure, Quantity):
        return figure.plain(system)
    if isinstance(figure, Number):
        return figure.plain()
    if isinstance(figure, Phrase):
        return figure.shown(system)
    raise NotImplementedError(f"cannot write {type(figure)}")


def custom_json_writer(system: UnitSystem) -> Callable[[object], object]:
    """As `write_custom`, with a quantity put straight into JSON: the same number in a third of the time."""
    shapes: dict[type, tuple[float, float, bytes]] = {
        kind: (unit.offset, unit.scale, unit.json) for kind in kinds() for unit in [kind.table.ip if system == "ip" else kind.table.si]
    }
    shapes[Number] = 0.0, 1.0, f"%.{SIGNIFICANT_DIGITS}g".encode()

    def write(figure: object) -> object:
        shape = shapes.get(type(figure))
        if shape is None:
            return write_custom(system, figure)
        offset, scale, text = shape
        value = (figure - offset) / scale + 0.0  # type: ignore[operator]
        if not isfinite(value):
            raise ArithmeticError(f"{type(figure).__name__} came out as {value}")
        return msgspec.Raw(text % value)

    return write


write_json: dict[UnitSystem, Callable[[object], bytes]] = {
    "ip": msgspec.json.Encoder(enc_hook=custom_json_writer("ip")).encode,
    "si": msgspec.json.Encoder(enc_hook=custom_json_writer("si")).encode,
}
write_msgpack: dict[UnitSystem, Callable[[object], bytes]] = {
    "ip": msgspec.msgpack.Encoder(enc_hook=partial(write_custom, "ip")).encode,
    "si": msgspec.msgpack.Encoder(enc_hook=partial(write_custom, "si")).encode,
}
