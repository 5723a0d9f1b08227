"""One item of a bulk request: `{"id", "calculation", "question"}` in, `{"id", "answer"}` or `{"id", "problem"}` out, whatever was sent."""

import logging
from typing import Any

import msgspec

from kneewall.bulk.tally import Tally, worst_verdict
from kneewall.catalogue import all_calculations
from kneewall.http.ask import BEYOND_ARITHMETIC
from kneewall.http.problem import Problem, problem_document, refusal_document
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Fault, Refusal, fault, refuse
from kneewall.kernel.wire import Malformed, write_json

log = logging.getLogger("kneewall")

LONGEST_ID = 200
FIELDS = ("id", "calculation", "question")
NOT_AN_ITEM = 'an item is an object with the fields "id", "calculation" and "question"'
Identity = str | int | float | None


class How(msgspec.Struct, frozen=True):
    """How answers are written: in which units, with working or not, and what problems give as their instance."""

    system: UnitSystem = "ip"
    working: bool = False
    instance: str = ""


class Item(msgspec.Struct, forbid_unknown_fields=True):
    """One question among many."""

    calculation: str
    question: msgspec.Raw
    id: Identity = None


class Answered(msgspec.Struct):
    """An item that was answered."""

    id: Identity
    answer: Any


class Refused(msgspec.Struct):
    """An item that was not answered."""

    id: Identity
    problem: Problem


_read_item = msgspec.json.Decoder(Item).decode
_write_refused = msgspec.json.Encoder().encode


def answer_item(given: bytes, how: How, tally: Tally) -> bytes:
    """The line that answers or refuses one item, and its count."""
    identity: Identity = None
    try:
        identity, calculation, question = read_item(given)
        return answer_question(identity, calculation, question, how, tally)
    except _Faulty as faulty:
        return refused_line(faulty.identity, faulty.refusal, how, tally)
    except Exception as error:
        return refused_line(identity, error, how, tally)


def answer_question(identity: Identity, calculation: AnyCalculation, question: bytes | msgspec.Raw, how: How, tally: Tally) -> bytes:
    """The line that answers one question. Raises: Malformed, Refusal, ArithmeticError."""
    answer = calculation.answer(calculation.reader.json(question), working=how.working)
    line = write_json[how.system](Answered(identity, answer))
    tally.count_answer(worst_verdict(answer))
    return line


def refused_line(identity: Identity, error: Exception, how: How, tally: Tally) -> bytes:
    """The line that refuses one item, and its count."""
    return write_refused(identity, problem_of(error, how), tally)


def write_refused(identity: Identity, problem: Problem, tally: Tally) -> bytes:
    """The line that carries a problem document, and its count."""
    tally.count_problem(problem)
    return _write_refused(Refused(identity, problem))


def read_identity(given: bytes) -> Identity:
    """The id of an item, as far as it has one."""
    try:
        return read_item(given)[0]
    except _Faulty as faulty:
        return faulty.identity


def problem_of(error: Exception, how: How) -> Problem:
    """The same problem document as the calculation's own route would send."""
    if isinstance(error, _Faulty):
        error = error.refusal
    if isinstance(error, Refusal):
        return refusal_document(error, how.system, how.instance)
    if isinstance(error, Malformed):
        return problem_document(400, "malformed", str(error), how.instance)
    if isinstance(error, ArithmeticError):
        log.warning("a bulk question left the range of arithmetic: %s", error)
        return refusal_document(refuse("", BEYOND_ARITHMETIC), how.system, how.instance)
    log.error("an item of %s failed", how.instance, exc_info=error)
    return problem_document(500, "fault-here", "The service could not finish this item; its log has the reason.", how.instance)


def read_item(given: bytes) -> tuple[Identity, AnyCalculation, msgspec.Raw]:
    """The parts of an item. Raises: _Faulty."""
    try:
        item = _read_item(given)
        calculation = all_calculations().get(item.calculation)
        if calculation is not None and not (isinstance(item.id, str) and len(item.id) > LONGEST_ID):
            return item.id, calculation, item.question
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        pass  # the slower way below finds every fault
    raise _faults_of(given)


class _Faulty(Exception):
    """An item that is not an item, with the id as far as it has one."""

    def __init__(self, identity: Identity, refusal: Exception) -> None:
        super().__init__(refusal)
        self.identity = identity
        self.refusal = refusal


def _faults_of(given: bytes) -> _Faulty:
    try:
        plain = msgspec.json.decode(given)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        return _Faulty(None, Malformed(str(error)))
    if not isinstance(plain, dict):
        return _Faulty(None, Refusal([fault("", "{}", NOT_AN_ITEM)], "invalid-question"))
    identity = plain.get("id")
    known = _is_identity(identity)
    return _Faulty(identity if known else None, Refusal(list(_item_faults(plain, known)), "invalid-question"))


def _is_identity(given: object) -> bool:
    return given is None or (isinstance(given, str | int | float) and not isinstance(given, bool) and len(str(given)) <= LONGEST_ID)


def _item_faults(given: dict[str, Any], known: bool) -> list[Fault]:
    found = [fault(f"/{name}", "is not a field of an item; the fields are {}", ", ".join(FIELDS)) for name in given if name not in FIELDS]
    found += [fault(f"/{name}", "is missing") for name in FIELDS[1:] if name not in given]
    if not known:
        found.append(fault("/id", "must be a text or number of at most {} characters", str(LONGEST_ID)))
    if "calculation" in given and given["calculation"] not in list(all_calculations()):
        found.append(fault("/calculation", "is not a calculation; there are {}", ", ".join(all_calculations())))
    return found
