"""How the answers of a file leave: whole, a line of NDJSON each, or as the rows of a table."""

from collections.abc import Iterator
from typing import Any, Literal, Protocol

import msgspec

from kneewall.bulk.columns import ResultColumn, quoted
from kneewall.bulk.item import Answered, How, Identity, problem_of, write_refused
from kneewall.bulk.tally import REFUSED, UNCHECKED, Tally, worst_verdict
from kneewall.http.problem import Problem
from kneewall.kernel.wire import write_json


class Reply(msgspec.Struct):
    """What became of one row: the answer (or what a service told of it), or the problem."""

    number: int
    identity: Identity
    answer: Any
    problem: Problem | None = None


class Writing(Protocol):
    """Puts replies into text, in order, and counts them."""

    heading: bytes

    def write(self, replies: list[Reply], how: How, tally: Tally) -> bytes:
        """The text of these replies."""


class Lines:
    """Whole answers, one line of NDJSON each."""

    heading = b""

    def write(self, replies: list[Reply], how: How, tally: Tally) -> bytes:
        return b"".join([self._line(reply, how, tally) + b"\n" for reply in replies])

    def _line(self, reply: Reply, how: How, tally: Tally) -> bytes:
        if reply.problem is None:
            try:
                line = write_json[how.system](Answered(reply.identity, reply.answer))
                tally.count_answer(worst_verdict(reply.answer))
                return line
            except Exception as error:
                reply.problem = problem_of(error, at_row(how, reply.number))
        return write_refused(reply.identity, reply.problem, tally)


class Table:
    """Rows of CSV: number, id, worst verdict, the checks that ask for attention, why it was refused, then figures of the result."""

    def __init__(self, columns: list[ResultColumn], number: Literal["line", "row"], identified: bool) -> None:
        self._columns = columns
        self._identified = identified
        self.kinds: dict[str, str] = {
            number: "count",
            **({"id": "text"} if identified else {}),
            "verdict": "text",
            "attention": "text",
            "refusal": "text",
        }
        self.kinds |= {column.name: column.kind for column in columns}
        self.heading = ",".join(quoted(name) for name in self.kinds).encode() + b"\n"
        self._blank = "," * len(columns)

    def write(self, replies: list[Reply], how: How, tally: Tally) -> bytes:
        figures = iter(self._figures([reply for reply in replies if reply.problem is None], how))
        return "".join([self._row(reply, figures, tally) for reply in replies]).encode()

    def _figures(self, replies: list[Reply], how: How) -> list[str]:
        """The cells of each reply's result. A reply whose figures left the range of arithmetic becomes a refusal and has none."""
        results = [reply.answer.result for reply in replies]
        try:
            return list(map(",".join, zip(*[column.cells(results) for column in self._columns], strict=True)))
        except ArithmeticError as error:
            if len(replies) > 1:
                return [cells for reply in replies for cells in self._figures([reply], how)]
            replies[0].problem = problem_of(error, at_row(how, replies[0].number))
            return []

    def _row(self, reply: Reply, figures: Iterator[str], tally: Tally) -> str:
        start = f"{reply.number},{quoted(str(reply.identity))}" if self._identified else str(reply.number)
        if reply.problem is not None:
            tally.count_problem(reply.problem)
            return f"{start},{REFUSED},,{quoted(_why(reply.problem))}{self._blank}\n"
        checks = reply.answer.checks
        attention = [check for check in checks if check.verdict != "meets"]
        if not attention:
            verdict = "meets" if checks else UNCHECKED
            tally.count_answer(verdict)
            return f"{start},{verdict},,,{next(figures)}\n"
        verdict = worst_verdict(reply.answer)
        tally.count_answer(verdict)
        named = quoted("; ".join(f"{check.check}: {check.verdict}" for check in attention))
        return f"{start},{verdict},{named},,{next(figures)}\n"


def _why(problem: Problem) -> str:
    return "; ".join(f"{error.pointer} {error.detail}".strip() for error in problem.errors) or problem.detail


def at_row(how: How, number: int) -> How:
    """The same, with the row named as the instance of a problem."""
    return msgspec.structs.replace(how, instance=f"{how.instance}:{number}")
