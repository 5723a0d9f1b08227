"""Working the parts through, each by the very function that answers it alone."""

from importlib import import_module
from typing import Any

import msgspec

from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.refusal import Fault, Refusal
from kneewall.kernel.wire import read_custom, refusal_of
from kneewall.retrofit.fill import FILLS
from kneewall.retrofit.loop_water import unknown_loop_unit
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.partial import given_of, merged
from kneewall.retrofit.stated_twice import stated_twice
from kneewall.retrofit.work import Work

CALCULATIONS: dict[str, AnyCalculation] = {part: import_module(f"kneewall.calculations.{part}").CALCULATION for part in FILLS}
ALWAYS_WHERE_POSSIBLE = "support_spacing"


def work_through(question: RetrofitCheckQuestion) -> Work:
    """Every part that is given, in the order in which each finds what it takes; supports for the runs of all of them.

    A part whose question is complete but cannot be answered is kept with its faults, and the job goes on; so is a part that lacks what such a part
    would have given. Raises: Refusal naming every figure that a part lacks otherwise.
    """
    work = Work(question)
    lacking = unknown_loop_unit(question)
    for part, calculation in CALCULATIONS.items():
        stated = getattr(question, part)
        if stated is None and not (part == ALWAYS_WHERE_POSSIBLE and work.answers):
            continue
        try:
            full = complete(work, part, calculation, stated)
        except Refusal as refusal:
            faults = [Fault(pointer=f"/{part}{fault.pointer}", detail=fault.detail) for fault in refusal.faults]
            if work.refused:
                work.refused[part] = faults
            else:
                lacking += faults
            continue
        if full is not None:
            _answer(work, part, calculation, full)
    if lacking:
        raise Refusal(lacking)
    return work


def complete(work: Work, part: str, calculation: AnyCalculation, stated: Any) -> Any:
    """The full question of a part; None where supports are not asked for and nothing is there to hang. Raises: Refusal."""
    given = {} if stated is None else given_of(stated)
    taken = _without_none(FILLS[part](work, given))
    work.twice += stated_twice(part, given, taken)
    full = merged(given, taken)
    if stated is None and not full.get("runs"):
        return None
    try:
        return msgspec.convert(full, calculation.question, dec_hook=read_custom)
    except msgspec.ValidationError as error:
        raise refusal_of(calculation.question, full, error) from None


def _answer(work: Work, part: str, calculation: AnyCalculation, full: Any) -> None:
    try:
        work.answers[part] = calculation.function(full)
        work.questions[part] = full
    except Refusal as refusal:
        work.refused[part] = [Fault(pointer=f"/{part}{fault.pointer}", detail=fault.detail) for fault in refusal.faults]


def _without_none(taken: Any) -> Any:
    if isinstance(taken, dict):
        found = {name: _without_none(value) for name, value in taken.items()}
        return {name: value for name, value in found.items() if value is not None and value != {}}
    return taken
