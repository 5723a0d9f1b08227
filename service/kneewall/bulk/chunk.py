"""A piece of a file and what is done with it. Workers of the pool and of a cluster call `run_chunk`; both give the same text."""

from functools import lru_cache
from itertools import islice
from time import perf_counter
from typing import Any, Literal

import msgspec

from kneewall.bulk.columns import result_columns
from kneewall.bulk.item import How, problem_of
from kneewall.bulk.rows import ItemLines, QuestionLines, Reading, TableRows
from kneewall.bulk.tally import Outcome, Tally
from kneewall.bulk.writing import Lines, Reply, Table, Writing, at_row
from kneewall.catalogue import calculation_of
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import UnitSystem

ROWS_AT_ONCE = 200
"""Rows whose answers are held before they are written: few enough to stay in the processor's cache."""

FileForm = Literal["csv", "ndjson", "parquet"]


class Job(msgspec.Struct, frozen=True):
    """What is asked of every row of a file and how the answers leave. `heading` is the table's first row; NDJSON has none."""

    source: FileForm
    calculation: str | None
    heading: tuple[str, ...]
    out: FileForm
    columns: tuple[str, ...] = ()
    system: UnitSystem = "ip"
    name: str = "file"


class Chunk(msgspec.Struct, frozen=True):
    """Whole rows of the file, the number of the first, and where in the file the next chunk begins (Parquet: at which row)."""

    text: bytes
    first: int
    end: int
    next_first: int


def run_chunk(job: Job, chunk: Chunk) -> Outcome:
    """Answer every row of a chunk."""
    began, tally = perf_counter(), Tally()
    writing, how = writing_of(job), How(job.system, instance=job.name)
    rows = reading_of(job).rows(chunk.text, chunk.first)
    text = []
    while some := list(islice(rows, ROWS_AT_ONCE)):
        text.append(writing.write(answered_rows(job, some, how), how, tally))
    return Outcome(b"".join(text), tally, perf_counter() - began)


def answered_rows(job: Job, rows: list[tuple[int, Any]], how: How) -> list[Reply]:
    """What becomes of each row."""
    reading, replies = reading_of(job), []
    for (number, row), answer in zip(rows, reading.answers(rows), strict=True):
        reply = Reply(number, reading.identity(number, row), answer)
        if isinstance(answer, Exception):
            reply.answer, reply.problem = None, problem_of(answer, at_row(how, number))
        replies.append(reply)
    return replies


def asked_of(job: Job) -> AnyCalculation:
    """The calculation that every row of this job asks."""
    found = calculation_of(job.calculation or "")
    assert found is not None
    return found


@lru_cache(maxsize=8)
def reading_of(job: Job) -> Reading:
    """How the rows of this job are read. Raises: Refusal naming every column at fault."""
    if job.calculation is None:
        return ItemLines()
    calculation = asked_of(job)
    return QuestionLines(calculation) if job.source == "ndjson" else TableRows(calculation, job.heading)


@lru_cache(maxsize=8)
def writing_of(job: Job, told: bool = False) -> Writing:
    """How the answers of this job are written; `told`: answers as a service's JSON has them. Raises: Refusal naming every column at fault."""
    if job.out == "ndjson":
        return Lines()
    columns = result_columns(asked_of(job), job.system, job.columns, told=told)
    return Table(columns, "row" if job.source == "parquet" else "line", "id" in job.heading)
