"""Reading a file of questions in chunks of whole rows, from any place where a chunk began, in memory that does not grow with the file."""

import csv
import io
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from kneewall.bulk.chunk import Chunk, FileForm
from kneewall.bulk.rows import LONGEST_CELL

MOST_LINES = 20_000
"""Lines of a chunk at most, so that a chunk also fits into one request to a service."""
BYTES_PER_ROW = 64
"""What a Parquet row is taken for where a chunk's size is given in bytes."""
SUFFIXES: dict[str, FileForm] = {".csv": "csv", ".ndjson": "ndjson", ".jsonl": "ndjson", ".parquet": "parquet"}

Size = Callable[[], int]


class Unreadable(Exception):
    """The file cannot be read as what its name says."""


def form_of(path: Path) -> FileForm:
    """Which form a file has, by its name. Raises: Unreadable."""
    form = SUFFIXES.get(path.suffix.lower())
    if form is None:
        raise Unreadable(f"{path.name} ends with none of {', '.join(SUFFIXES)}")
    return form


class Source:
    """A file of questions."""

    def __init__(self, path: Path) -> None:
        """Raises: Unreadable, OSError."""
        self.path = path
        self.form = form_of(path)
        self.heading: tuple[str, ...] = ()
        self.start, self.first = 0, 1
        if self.form == "csv":
            self._read_csv_heading()
        elif self.form == "parquet":
            self._table = _scan_parquet(path)
            self.heading = _parquet_heading(path, self._table)

    @property
    def length(self) -> int:
        """Where the file ends: in bytes, for Parquet in rows."""
        if self.form == "parquet":
            import polars

            return int(self._table.select(polars.len()).collect().item())
        return self.path.stat().st_size

    def chunks(self, at: int, first: int, size: Size) -> Iterator[Chunk]:
        """The chunks from `at` on, whose first row is number `first`; `size` says how many bytes the next one should have. Raises: Unreadable."""
        return self._parquet_chunks(at, first, size) if self.form == "parquet" else self._text_chunks(at, first, size)

    def _read_csv_heading(self) -> None:
        with self.path.open("rb") as file:
            line = file.readline(LONGEST_CELL)
        self.start, self.first = len(line), 2
        try:
            rows = list(csv.reader(io.StringIO(line.decode("utf-8-sig"), newline=""), strict=True))
        except (UnicodeDecodeError, csv.Error) as error:
            raise Unreadable(f"the first line of {self.path.name} is not a heading: {error}") from None
        if len(rows) != 1 or not rows[0]:
            raise Unreadable(f"{self.path.name} has no heading on its first line")
        self.heading = tuple(name.strip() for name in rows[0])

    def _text_chunks(self, at: int, first: int, size: Size) -> Iterator[Chunk]:
        whole_rows = _end_of_lines if self.form == "ndjson" else _end_of_records
        with self.path.open("rb") as file:
            file.seek(at)
            held = b""
            while True:
                wanted = size()
                read = file.read(max(wanted - len(held), wanted // 4, 1))
                held += read
                end = whole_rows(held) if read else len(held)
                if not held:
                    return
                if not end:
                    if len(held) > LONGEST_CELL:
                        raise Unreadable(f"the row at line {first} of {self.path.name} does not end: is a quote missing?")
                    continue
                text, held = held[:end], held[end:]
                at += end
                lines = text.count(b"\n")
                yield Chunk(text, first, at, first + lines)
                first += lines

    def _parquet_chunks(self, at: int, first: int, size: Size) -> Iterator[Chunk]:
        rows = max(1, min(MOST_LINES, size() // BYTES_PER_ROW))
        for batch in self._table.slice(at).collect_batches(chunk_size=rows, maintain_order=True):
            for frame in batch.iter_slices(rows):
                text = frame.write_csv(include_header=False).encode()
                at += frame.height
                yield Chunk(text, first, at, first + frame.height)
                first += frame.height


def _end_of_lines(text: bytes) -> int:
    """Where the last whole line within the first `MOST_LINES` ends; 0 where there is none."""
    if text.count(b"\n") <= MOST_LINES:
        return text.rfind(b"\n") + 1
    end = 0
    for _ in range(MOST_LINES):
        end = text.index(b"\n", end) + 1
    return end


def _end_of_records(text: bytes) -> int:
    """As `_end_of_lines`, for CSV, whose quoted cells may hold line ends. The last record is held back: its quote may close further on."""
    if b'"' not in text:
        return _end_of_lines(text)
    lines = text.decode("latin-1").split("\n")[:-1]
    records = csv.reader(line + "\n" for line in lines)
    before = ended = 0
    for _ in records:
        before, ended = ended, records.line_num
        if ended >= MOST_LINES:
            break
    return sum(len(line) + 1 for line in lines[:before])


def _scan_parquet(path: Path) -> Any:
    try:
        import polars
    except ImportError:
        raise Unreadable("Parquet needs the optional part of the installation: pip install 'kneewall[bulk]'") from None
    return polars.scan_parquet(path)


def _parquet_heading(path: Path, table: Any) -> tuple[str, ...]:
    try:
        schema = table.collect_schema()
    except Exception as error:  # polars has its own exceptions for each way a file can be broken
        raise Unreadable(f"{path.name} is not a Parquet file: {error}") from None
    nested = [name for name, kind in schema.items() if kind.is_nested()]
    if nested:
        raise Unreadable(f"the columns {', '.join(nested)} hold lists or objects; give a column for each figure, or text with JSON")
    return tuple(schema)
