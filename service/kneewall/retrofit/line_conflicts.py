"""Clash in the refrigerant lines: one vapor line for cold vapor in summer and for hot gas in winter."""

from collections.abc import Iterator
from typing import Any

from msgspec.structs import replace

from kneewall.calculations.refrigerant_line_sizing import CALCULATION
from kneewall.kernel.phrase import Phrase
from kneewall.retrofit.results import Conflict
from kneewall.retrofit.work import Work

NAME, NAMES = "one line, two modes", ["refrigerant-line-sizing: cooling", "refrigerant-line-sizing: heating"]


def cooling_and_heating_line(work: Work) -> Iterator[Conflict]:
    """The size that is planned against the sizes that serve both modes. Source: retrofit-check.one-line-two-modes.

    A planned size is the only one that the part tries; what would do is found by asking it again without one.
    """
    result, question = work.result("refrigerant_line_sizing"), work.asked("refrigerant_line_sizing")
    if result is None or question.heating is None:
        return
    planned, serves = question.vapor_line.size, result.vapor_line.recommended
    if serves is not None:
        yield Conflict(conflict=NAME, between=NAMES, verdict="meets", says=Phrase("One vapor line of {} serves both modes.", serves))
        return
    chosen = result if planned is None else CALCULATION.function(replace(question, vapor_line=replace(question.vapor_line, size=None))).result
    if chosen.vapor_line.recommended is None:
        says = Phrase("No single vapor line satisfies cooling and heating: a small one loses too much, a large one leaves oil in the riser.")
        yield Conflict(conflict=NAME, between=NAMES, verdict="fails", says=says, settle=_without_one_size(chosen))
        return
    says = Phrase("The planned vapor line of {} does not serve both modes; {} does.", planned, chosen.vapor_line.recommended)
    settle = Phrase("Run {} instead.", chosen.vapor_line.recommended)
    yield Conflict(conflict=NAME, between=NAMES, verdict="fails", says=says, settle=settle)


def _without_one_size(result: Any) -> Phrase:
    if result.double_riser is None:
        return Phrase("A shorter run with fewer bends, or less height between the units.")
    return Phrase("A double riser of {} and {}, or a shorter run with fewer bends.", result.double_riser.small, result.double_riser.large)
