"""Our own Python per drawing, sheet and form page, for every example of every calculation, in microseconds of the machine of the goals."""

from collections.abc import Iterator
from functools import partial

from _yardstick import best
from single import Line

from kneewall.catalogue import all_calculations
from kneewall.kernel.calculation import AnyCalculation, Example
from kneewall.web.asked import Asked
from kneewall.web.views import sheet_page

GOAL = 1000.0


def measure() -> Iterator[Line]:
    """Microseconds per drawing, with the goal, and the pages beside it."""
    for calculation in all_calculations().values():
        for example in calculation.examples:
            yield from _measured(calculation, example)


def _measured(calculation: AnyCalculation, example: Example) -> Iterator[Line]:
    question = calculation.reader.plain(example.question)
    answer = calculation.answer(question, working=True)
    name = f"{calculation.name}: {example.name}"
    if calculation.drawing is not None:
        draw = calculation.drawing
        took = best(partial(draw, question, answer), "ip")
        yield f"{name}, drawing", took, "us", f"{'met' if took <= GOAL else 'MISSED'}: goal {GOAL:.0f}"
    yield f"{name}, sheet", best(partial(sheet_page, calculation, question, answer), "ip"), "us", ""
    yield f"{name}, form with answer", best(lambda texts: Asked(calculation, texts).opened(), {"example": example.name}), "us", ""
