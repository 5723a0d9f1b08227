"""The rows of a file as questions: from a table by its heading, from NDJSON a question or an item a line."""

import csv
import io
from collections.abc import Iterator
from operator import itemgetter
from typing import Any, Protocol

import msgspec

from kneewall.bulk.heading import Heading
from kneewall.bulk.item import Identity, Item, read_identity, read_item
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.wire import Malformed, read_custom

LONGEST_CELL = 16_000_000
MOST_REMEMBERED = 4096
_UNKNOWN = object()
_NOT_GIVEN = object()
csv.field_size_limit(LONGEST_CELL)


class Reading(Protocol):
    """How the rows of a chunk are read. A row's number is its line in the file, for Parquet its row, counted from 1."""

    def rows(self, text: bytes, first: int) -> Iterator[tuple[int, Any]]:
        """Each row with its number."""

    def identity(self, number: int, row: Any) -> Identity:
        """The row's id; its number where it has none."""

    def question(self, row: Any) -> tuple[AnyCalculation, Any]:
        """Which calculation is asked, and its question. Raises: Malformed, Refusal and what `problem_of` knows."""

    def item(self, number: int, row: Any) -> bytes:
        """The row as an item of a bulk request. Raises: as `question`."""


class TableRows:
    """Rows of cells, all asking one calculation. What the same cells say is read once and remembered: most columns repeat few values."""

    def __init__(self, calculation: AnyCalculation, names: tuple[str, ...]) -> None:
        self._calculation = calculation
        self.heading = Heading(names, calculation.question)
        self._groups: list[tuple[str, itemgetter[Any], _Group]] = []
        for field in msgspec.structs.fields(calculation.question):
            columns = [column for column in self.heading.columns if column.path[0] == field.encode_name]
            if columns:
                self._groups.append((field.name, itemgetter(*(column.place for column in columns)), _Group(self.heading, columns, field)))

    def rows(self, text: bytes, first: int) -> Iterator[tuple[int, list[str]]]:
        lines = csv.reader(io.StringIO(text.decode("utf-8", "replace"), newline=""))
        number = first
        for cells in lines:
            if cells:
                yield number, cells
            number = first + lines.line_num

    def identity(self, number: int, row: list[str]) -> Identity:
        place = self.heading.identity
        return number if place is None or place >= len(row) or not row[place] else row[place]

    def question(self, row: list[str]) -> tuple[AnyCalculation, Any]:
        if len(row) == self.heading.width:
            try:
                given = {}
                for name, pick, group in self._groups:
                    cells = pick(row)
                    value = group.known.get(cells, _UNKNOWN)
                    if value is _UNKNOWN:
                        value = group.read(cells, row)
                    if value is not _NOT_GIVEN:
                        given[name] = value
                return self._calculation, self._calculation.question(**given)
            except (ValueError, TypeError, msgspec.ValidationError, RecursionError):
                pass  # the slower way below finds every fault and puts it into words
        return self._calculation, self._calculation.reader.plain(self.heading.plain(row))

    def item(self, number: int, row: list[str]) -> bytes:
        question = msgspec.Raw(msgspec.json.encode(self.heading.plain(row)))
        return msgspec.json.encode(Item(calculation=self._calculation.name, question=question, id=self.identity(number, row)))


class _Group:
    """The columns that make up one field of the question, and what their cells were found to say."""

    def __init__(self, heading: Heading, columns: list[Any], field: msgspec.structs.FieldInfo) -> None:
        self.known: dict[Any, Any] = {}
        self._heading = heading
        self._columns = columns
        self._name = field.encode_name
        self._holder = msgspec.defstruct("Holder", [("value", field.type)])

    def read(self, cells: Any, row: list[str]) -> Any:
        """What these cells say, as the field's own type. Raises: ValueError, msgspec.ValidationError."""
        if len(self.known) >= MOST_REMEMBERED:
            self.known.clear()
        self.known[cells] = value = self._read(cells, row)
        return value

    def _read(self, cells: Any, row: list[str]) -> Any:
        alone = self._columns[0]
        if alone.kind is not None and len(alone.path) == 1:
            text = cells.strip()
            return alone.kind.read(alone.read(text)) if text else _NOT_GIVEN
        plain = self._heading.plain(row, self._columns)
        if not plain:
            return _NOT_GIVEN
        holder: Any = msgspec.convert({"value": plain[self._name]}, self._holder, dec_hook=read_custom)
        return holder.value


class _Lines:
    def rows(self, text: bytes, first: int) -> Iterator[tuple[int, bytes]]:
        for number, line in enumerate(text.split(b"\n"), first):
            if line and not line.isspace():
                yield number, line


class QuestionLines(_Lines):
    """NDJSON with a question of one calculation on every line."""

    def __init__(self, calculation: AnyCalculation) -> None:
        self._calculation = calculation

    def identity(self, number: int, row: bytes) -> Identity:
        return number

    def question(self, row: bytes) -> tuple[AnyCalculation, Any]:
        return self._calculation, self._calculation.reader.json(row)

    def item(self, number: int, row: bytes) -> bytes:
        try:
            msgspec.json.decode(row)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
            raise Malformed(str(error)) from None
        return msgspec.json.encode(Item(calculation=self._calculation.name, question=msgspec.Raw(row), id=number))


class ItemLines(_Lines):
    """NDJSON with an item on every line, as `POST /v1/bulk` takes them."""

    def identity(self, number: int, row: bytes) -> Identity:
        found = read_identity(row)
        return number if found is None else found

    def question(self, row: bytes) -> tuple[AnyCalculation, Any]:
        _, calculation, question = read_item(row)
        return calculation, calculation.reader.json(question)

    def item(self, number: int, row: bytes) -> bytes:
        identity, calculation, question = read_item(row)
        return msgspec.json.encode(Item(calculation=calculation.name, question=question, id=number if identity is None else identity))
