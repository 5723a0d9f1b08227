"""The rows of a file as questions: from a table by its heading, from NDJSON a question or an item a line."""

import csv
import io
from collections.abc import Callable, Iterator
from itertools import repeat
from operator import itemgetter
from typing import Any, Protocol

import msgspec

from kneewall.bulk.heading import Column, Heading, together
from kneewall.bulk.item import Identity, Item, read_identity, read_item
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.wire import Malformed, read_custom

LONGEST_CELL = 16_000_000
MOST_REMEMBERED = 4096
_NOT_GIVEN = object()
_FAULTY = object()
csv.field_size_limit(LONGEST_CELL)


class Reading(Protocol):
    """How the rows of a chunk are read. A row's number is its line in the file, for Parquet its row, counted from 1."""

    def rows(self, text: bytes, first: int) -> Iterator[tuple[int, Any]]:
        """Each row with its number."""

    def identity(self, number: int, row: Any) -> Identity:
        """The row's id; its number where it has none."""

    def answers(self, rows: list[tuple[int, Any]]) -> list[Any]:
        """The answer to each row, or the exception that says why it has none: Malformed, Refusal and what else `problem_of` knows."""

    def item(self, number: int, row: Any) -> bytes:
        """The row as an item of a bulk request. Raises: Malformed, Refusal and what else `problem_of` knows."""


class TableRows:
    """Rows of cells, all asking one calculation. What the same cells say is read once and remembered: most columns repeat few values."""

    def __init__(self, calculation: AnyCalculation, names: tuple[str, ...]) -> None:
        self._calculation = calculation
        self.heading = Heading(names, calculation.question)
        self._groups: dict[str, tuple[itemgetter[Any], _Known]] = {}
        for field in msgspec.structs.fields(calculation.question):
            columns = [column for column in self.heading.columns if column.path[0] == field.encode_name]
            if columns:
                self._groups[field.name] = itemgetter(*(column.place for column in columns)), _Known(columns, field)

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

    def answers(self, rows: list[tuple[int, list[str]]]) -> list[Any]:
        questions = self._questions([row for _, row in rows])
        return list(map(answer_or_why_not, repeat(self._calculation.function), questions))

    def _questions(self, rows: list[list[str]]) -> list[Any]:
        """The question of each row, or the exception that says why it is none. Cells are read column by column."""
        if any(len(row) != self.heading.width for row in rows):
            return list(map(self._slowly, rows))
        names, question = list(self._groups), self._calculation.question
        columns = [map(known.__getitem__, map(pick, rows)) for pick, known in self._groups.values()]
        found = []
        for row, values in zip(rows, zip(*columns, strict=True), strict=True):
            try:
                if _FAULTY not in values:
                    found.append(question(**{name: value for name, value in zip(names, values, strict=True) if value is not _NOT_GIVEN}))
                    continue
            except (ValueError, TypeError):
                pass  # the slower way finds every fault and puts it into words
            found.append(self._slowly(row))
        return found

    def _slowly(self, row: list[str]) -> Any:
        try:
            return self._calculation.reader.plain(self.heading.plain(row))
        except Exception as error:
            return error

    def item(self, number: int, row: list[str]) -> bytes:
        question = msgspec.Raw(msgspec.json.encode(self.heading.plain(row)))
        return msgspec.json.encode(Item(calculation=self._calculation.name, question=question, id=self.identity(number, row)))


def answer_or_why_not(function: Callable[[Any], Any], question: Any) -> Any:
    """The answer, or the exception that says why there is none; a question that is one already stays it."""
    if isinstance(question, Exception):
        return question
    try:
        return function(question)
    except Exception as error:
        return error


class _Known(dict[Any, Any]):
    """What the cells of the columns that make up one field of the question say, as the field's own type."""

    def __init__(self, columns: list[Column], field: msgspec.structs.FieldInfo) -> None:
        self._columns = columns
        self._name = field.encode_name
        self._alone = columns[0] if columns[0].kind is not None and len(columns[0].path) == 1 else None
        self._holder = msgspec.defstruct("Holder", [("value", field.type)])

    def __missing__(self, cells: Any) -> Any:
        if len(self) >= MOST_REMEMBERED:
            self.clear()
        try:
            self[cells] = value = self._read(cells)
        except (ValueError, TypeError, msgspec.ValidationError, RecursionError):
            return _FAULTY
        return value

    def _read(self, cells: Any) -> Any:
        if self._alone is not None:
            text = cells.strip()
            return self._alone.quantity(text) if text else _NOT_GIVEN
        plain = together(zip(self._columns, (cells,) if isinstance(cells, str) else cells, strict=True))
        if not plain:
            return _NOT_GIVEN
        holder: Any = msgspec.convert({"value": plain[self._name]}, self._holder, dec_hook=read_custom)
        return holder.value


class _Lines:
    """Lines that are questions each for itself."""

    def question(self, row: bytes) -> tuple[AnyCalculation, Any]:
        """Which calculation is asked, and its question. Raises: Malformed, Refusal and what else `problem_of` knows."""
        raise NotImplementedError

    def answers(self, rows: list[tuple[int, bytes]]) -> list[Any]:
        return [answer_or_why_not(self._answer, row) for _, row in rows]

    def _answer(self, row: bytes) -> Any:
        calculation, question = self.question(row)
        return calculation.function(question)

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
