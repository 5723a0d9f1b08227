"""Running a file: chunks go out, answers come back in order, and the ledger remembers how far it came."""

from collections import deque
from collections.abc import Iterator
from concurrent.futures import CancelledError, Future
from functools import partial
from pathlib import Path
from typing import Protocol

import msgspec

from kneewall.bulk.chunk import Chunk, Job, writing_of
from kneewall.bulk.ledger import Ledger
from kneewall.bulk.source import Source, csv_pieces
from kneewall.bulk.tally import Outcome, Tally
from kneewall.bulk.ways import Way, rulebook_here
from kneewall.bulk.writing import Table

SMALLEST_CHUNK, LARGEST_CHUNK = 4_000, 1_000_000
SECONDS_PER_CHUNK = 0.2
"""How long a chunk should take: short enough to show progress and to lose little by a stop, long enough that handing it over costs nothing."""


BYTES_PER_PIECE = 500_000
ROWS_PER_GROUP = 50_000


class Reporter(Protocol):
    """Somebody who shows how far a run has come."""

    def begin(self, says: str, share: float, rows: int) -> None:
        """The run starts with this share of the input done."""

    def went_on(self, share: float, rows: int) -> None:
        """This share of the input, so many rows, is done."""

    def end(self) -> None:
        """The run is over or stopped."""


class Run:
    """One file, one job, one way."""

    def __init__(self, source: Source, job: Job, out: Path, way: Way) -> None:
        self.source, self.job, self.out, self.way = source, job, out, way
        self._size = SMALLEST_CHUNK

    def finish(self, report: Reporter) -> Tally:
        """Answer what is not answered yet, and give the output its name. Raises: OtherWork, Unreadable, Unanswered, OSError."""
        ledger = Ledger(self.out, self._work(), self.source.start, self.source.first, writing_of(self.job).heading)
        try:
            if not ledger.note.finished:
                self._answer_rest(ledger, report)
            self.way.close()  # the workers' memory is free before Parquet is shaped
            ledger.finish(partial(shape_parquet, self.job) if self.job.out == "parquet" else None)
        except BaseException:
            ledger.stop()
            raise
        return ledger.note.tally

    def _answer_rest(self, ledger: Ledger, report: Reporter) -> None:
        length = max(1, self.source.length)
        under_way: deque[tuple[Chunk, Future[Outcome]]] = deque()
        report.begin(self.way.says, ledger.note.at / length, ledger.note.tally.items)
        try:
            for chunk in self.source.chunks(ledger.note.at, ledger.note.first, lambda: self._size):
                under_way.append((chunk, self.way.submit(self.job, chunk)))
                if len(under_way) >= self.way.width:
                    self._settle(*under_way.popleft(), ledger)
                    report.went_on(ledger.note.at / length, ledger.note.tally.items)
            while under_way:
                self._settle(*under_way.popleft(), ledger)
                report.went_on(ledger.note.at / length, ledger.note.tally.items)
        finally:
            report.end()
            for _, future in under_way:
                future.cancel()

    def _settle(self, chunk: Chunk, future: "Future[Outcome]", ledger: Ledger) -> None:
        try:
            outcome = future.result()
        except CancelledError as error:
            raise RuntimeError("the work was cancelled") from error
        ledger.append(outcome.text, chunk.end, chunk.next_first, outcome.tally)
        fitting = int(len(chunk.text) * SECONDS_PER_CHUNK / max(outcome.seconds, 1e-3))
        self._size = max(SMALLEST_CHUNK, min(LARGEST_CHUNK, fitting, 2 * self._size))

    def _work(self) -> str:
        """What makes this run the same work as another: the job, the rulebook and the unchanged input."""
        state = self.source.path.stat()
        return f"{rulebook_here()} {self.source.path.resolve()} {state.st_size} {state.st_mtime_ns} {msgspec.json.encode(self.job).decode()}"


def shape_parquet(job: Job, rows: Path, ready: Path) -> None:
    """Turn rows of CSV into Parquet, piece by piece."""
    import polars
    from polars.io.plugins import register_io_source

    table = writing_of(job)
    assert isinstance(table, Table)
    kinds = {"number": polars.Float64, "count": polars.Int64, "truth": polars.Boolean, "text": polars.String}
    schema = polars.Schema({name: kinds[kind] for name, kind in table.kinds.items()})

    def pieces(*_: object) -> Iterator[polars.DataFrame]:
        for text in csv_pieces(rows, len(table.heading), BYTES_PER_PIECE):
            yield polars.read_csv(text, schema=schema, has_header=False)

    register_io_source(pieces, schema=schema).sink_parquet(ready, row_group_size=ROWS_PER_GROUP)
