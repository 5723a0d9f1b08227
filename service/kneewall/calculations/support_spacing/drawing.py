"""Supports to look at: every run from the side with its supports at their spacing, its sag and its verdicts."""

from kneewall.calculations.support_spacing.messages import RunSupports, SupportedRun, SupportSpacingQuestion, SupportSpacingResult
from kneewall.calculations.support_spacing.riser_elevation import draw_riser
from kneewall.calculations.support_spacing.run_elevation import MOST_DRAWN, draw_run, drawn_all, words_of_bend
from kneewall.kernel.answer import Answer, Check
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.svg import QUIET, SMALL, Drawing
from kneewall.kernel.verdict_list import worst_first
from kneewall.kernel.words import in_words

LEFT, WIDE, RISER = 22.0, 312.0, 150.0
MOST_RUNS = 6
UNEQUAL = 6.0
"""Runs that differ more than this in length are each drawn to a scale of their own."""
MOST_MARKS = 3


def draw(question: SupportSpacingQuestion, answer: Answer[SupportSpacingResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    drawing = Drawing("Supports of every run", _says(answer.result, system), 0.0)
    shown = list(zip(question.runs, answer.result.runs, strict=True))[:MOST_RUNS]
    longest, shortest = (pick(run.length for run, _ in shown) for pick in (max, min))
    common = longest <= UNEQUAL * shortest
    words = "lengths to one scale" if common else "lengths to scale, each run to its own"
    drawing.text(14, 20, "Supports, from the side", bold=True)
    drawing.text(14, 34, words if len(shown) > 1 else "lengths to scale", size=SMALL, colour=QUIET)
    y, checks = 58.0, _by_run(answer.checks)
    for number, (run, found) in enumerate(shown):
        if number:
            drawing.cut(y - 14.0)
        factor = WIDE / (longest if common else run.length)
        y = _draw_one(drawing, y, run, found, factor, checks.get(run.id, []), system) + 20.0
    if len(question.runs) > MOST_RUNS:
        drawing.text(14, y, f"and {len(question.runs) - MOST_RUNS} more runs in the answer", size=SMALL, colour=QUIET)
        y += 16.0
    drawing.height = y - 10.0
    return drawing.svg()


def _says(result: SupportSpacingResult, system: UnitSystem) -> str:
    told = [
        Phrase("{}: {} supports {} apart, at most {}.", one.id, one.supports, one.spacing, one.maximum_spacing) for one in result.runs[:MOST_RUNS]
    ]
    return " ".join(phrase.shown(system) for phrase in told)


def _by_run(checks: list[Check]) -> dict[str, list[Check]]:
    """The checks of each run; a check is named after its run and what it looks at, which has no colon."""
    found: dict[str, list[Check]] = {}
    for check in checks:
        found.setdefault(check.check.rpartition(": ")[0], []).append(check)
    return found


def _draw_one(drawing: Drawing, y: float, run: SupportedRun, found: RunSupports, factor: float, checks: list[Check], system: UnitSystem) -> float:
    drawing.text(14, y, run.id, bold=True, within=332)
    drawing.text(14, y + 14, _what(run, system), size=SMALL, colour=QUIET, within=332)
    if run.orientation == "vertical":
        y = draw_riser(drawing, y + 28, min(factor, RISER / run.length), run, found, system) + 14.0
        bend = None
    else:
        y = draw_run(drawing, y + 30, LEFT, factor, run, found, system) + 16.0
        bend = words_of_bend(run, found, factor)
    for phrase in [*_words(run, found), *([] if bend is None else [bend])]:
        y = drawing.note(14, y, phrase.shown(system), 332)
    y += 3.0
    for check in worst_first(checks)[:MOST_MARKS]:
        drawing.mark(14, y, check.verdict, check.check.rpartition(": ")[2], within=332)
        y += 16.0
    return y


def _what(run: SupportedRun, system: UnitSystem) -> str:
    """Size and material as people say them."""
    material = in_words(run.material)
    if run.nominal_size is not None:
        return f"{run.nominal_size.shown(system)} {material}"
    if run.duct is None:
        return material
    sides = (run.duct.diameter, run.duct.width, run.duct.height, run.duct.major, run.duct.minor)
    return " x ".join([side.shown(system) for side in sides if side is not None]) + f" {material} duct"


def _words(run: SupportedRun, found: RunSupports) -> list[Phrase]:
    ends = ", the connections at its ends not counted" if run.material == "flexible" else ""
    lines = [Phrase("{} supports{}; at most {} apart", found.supports, ends, found.maximum_spacing)]
    carries = Phrase("each carries up to {}", found.load_per_support)
    if found.rod_diameter is not None:
        carries = Phrase("{} on a {} rod", carries, found.rod_diameter)
    if found.strap_width is not None:
        carries = Phrase("{}, strap at least {} wide", carries, found.strap_width)
    lines.append(carries)
    if found.drains_to is not None:
        lines.append(Phrase("beyond {} it would hold water", found.drains_to))
    if not drawn_all(found):
        lines.append(Phrase("of the supports only the first {} and the end are drawn", float(MOST_DRAWN)))
    return lines
