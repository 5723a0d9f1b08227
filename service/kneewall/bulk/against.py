"""Having a running service answer the rows of a file: each chunk is one `POST /v1/bulk`."""

from http.client import HTTPException
from time import perf_counter, sleep
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import msgspec

from kneewall.bulk.chunk import Chunk, Job, reading_of, writing_of
from kneewall.bulk.item import How, problem_of, write_refused
from kneewall.bulk.tally import Outcome, Tally, worst_verdict
from kneewall.bulk.writing import Reply, at_row
from kneewall.http.media import NDJSON
from kneewall.http.problem import Problem

TRIES = 6
LONGEST_WAIT = 300


class Unanswered(Exception):
    """The service did not answer a chunk."""


class ToldCheck(msgspec.Struct, frozen=True):
    """What is read of a check."""

    check: str
    verdict: str


class ToldAnswer(msgspec.Struct, frozen=True):
    """What is read of an answer."""

    checks: list[ToldCheck]
    result: dict[str, Any]


class Told(msgspec.Struct, frozen=True):
    """A line of the service's answer."""

    answer: ToldAnswer | None = None
    problem: Problem | None = None


_read_told = msgspec.json.Decoder(Told).decode


def run_chunk_against(address: str, job: Job, chunk: Chunk) -> Outcome:
    """As `run_chunk`, answered by the service at `address`. Raises: Unanswered."""
    began, tally = perf_counter(), Tally()
    reading, how = reading_of(job), How(job.system, instance=job.name)
    asked: list[tuple[Reply, bytes]] = []
    for number, row in reading.rows(chunk.text, chunk.first):
        reply = Reply(number, reading.identity(number, row), None)
        try:
            asked.append((reply, reading.item(number, row)))
        except Exception as error:
            reply.problem = problem_of(error, at_row(how, number))
            asked.append((reply, b""))
    told = iter(ask_service(f"{address}/v1/bulk?units={job.system}", [item for _, item in asked if item]))
    lines = [next(told) if item else write_refused(reply.identity, _problem(reply), Tally()) for reply, item in asked]
    text = _written(job, how, [reply for reply, _ in asked], lines, tally)
    return Outcome(text, tally, perf_counter() - began)


def _written(job: Job, how: How, replies: list[Reply], lines: list[bytes], tally: Tally) -> bytes:
    for reply, line in zip(replies, lines, strict=True):
        told = _read_told(line)
        reply.answer, reply.problem = told.answer, told.problem
        if job.out == "ndjson":
            tally.count_answer(worst_verdict(told.answer)) if told.problem is None else tally.count_problem(told.problem)
    if job.out == "ndjson":
        return b"".join([line + b"\n" for line in lines])
    return writing_of(job, told=True).write(replies, how, tally)


def _problem(reply: Reply) -> Problem:
    assert reply.problem is not None
    return reply.problem


def ask_service(address: str, items: list[bytes]) -> list[bytes]:
    """One line for each item, in order. Waits and asks again where the service is away or busy. Raises: Unanswered."""
    if not items:
        return []
    request = Request(address, b"\n".join(items), {"content-type": NDJSON, "accept": NDJSON})
    why: Exception = Unanswered("not asked")
    for attempt in range(TRIES):
        try:
            with urlopen(request, timeout=LONGEST_WAIT) as reply:
                lines: list[bytes] = reply.read().splitlines()
            if len(lines) == len(items) + 1 and lines[-1].startswith(b'{"summary"') and not _unfinished(lines):
                return lines[:-1]
            why = Unanswered("the answer was cut short")
        except HTTPError as error:
            if error.code < 500:
                raise Unanswered(f"the service refused the request: {error.read()[:300].decode(errors='replace')}") from None
            why = error
        except (OSError, HTTPException) as error:
            why = error
        sleep(min(2.0**attempt / 4, 5.0))
    raise Unanswered(f"{address} did not answer {TRIES} times: {why}")


def _unfinished(lines: list[bytes]) -> bool:
    """Whether the service ran out of time or failed on an item, so that another attempt is worth while."""
    return any(b'"type":"/problems/out-of-time"' in line for line in lines)
