"""A commissioning check to look at: every measured figure as a bar of its uncertainty, held against its limits."""

from kneewall.calculations.commissioning_check.answered import CommissioningCheckResult
from kneewall.calculations.commissioning_check.banded import Banded
from kneewall.calculations.commissioning_check.drawing_bars import draw_agreement, draw_bar, draw_mark
from kneewall.calculations.commissioning_check.messages import CommissioningCheckQuestion
from kneewall.kernel.answer import Answer, Check, Verdict
from kneewall.kernel.lettering import BOLDER, width_of
from kneewall.kernel.phrase import Phrase, figure_shown
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.svg import LIMIT, QUIET, SMALL, Drawing
from kneewall.kernel.verdict_list import worst_first

PIECE = 300.0
"""How much of the drawing stands together before a page may end."""
WORDS: dict[Verdict, str] = {"fails": "fail", "watch": "to be watched", "refer": "for others to decide", "meets": "meet"}


def draw(question: CommissioningCheckQuestion, answer: Answer[CommissioningCheckResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    drawing = Drawing(f"Commissioning check, {question.mode}", in_words(answer).shown(system), 0.0)
    counted = {verdict: sum(check.verdict == verdict for check in answer.checks) for verdict in WORDS}
    drawing.text(8, 18, "Measured figures against their limits", bold=True)
    drawing.text(8, 34, ", ".join(f"{count} {WORDS[verdict]}" for verdict, count in counted.items() if count), size=SMALL, colour=QUIET, within=344)
    y = _draw_legend(drawing, 54.0) + 18.0
    plain: list[Check] = []
    top = 0.0
    for check in worst_first(answer.checks):
        if y > top + PIECE:
            top = y - 12.0
            drawing.cut(top)
        bands = [figure for figure in check.says.figures if isinstance(figure, Banded)]
        if len(bands) == 1:
            y = draw_bar(drawing, check, bands[0], system, y)
        elif bands:
            y = draw_agreement(drawing, check, bands, system, y)
        else:
            plain.append(check)
    y = _draw_plain(drawing, plain, system, y)
    drawing.height = _draw_not_compared(drawing, answer.result.not_compared, y)
    return drawing.svg()


def in_words(answer: Answer[CommissioningCheckResult]) -> Phrase:
    """What the drawing shows, for those who do not see it: what does not simply meet its limits, in full."""
    open_ = [check.says for check in answer.checks if check.verdict in ("fails", "watch")]
    if not open_:
        return Phrase("All of {} checks meet their limits or are for others to decide.", str(len(answer.checks)))
    return Phrase("{} of {} checks do not simply meet: " + " ".join(["{}"] * len(open_)), str(len(open_)), str(len(answer.checks)), *open_)


def _draw_legend(drawing: Drawing, y: float) -> float:
    draw_mark(drawing, 10, 22, 34, y - 4)
    drawing.text(40, y, "measured, with its uncertainty", size=SMALL)
    drawing.line(22, y + 4, 22, y + 16, LIMIT)
    drawing.text(40, y + 14, "limit; what is not allowed is hatched", size=SMALL)
    drawing.text(40, y + 28, "Each bar has a scale of its own.", size=SMALL, colour=QUIET)
    return y + 28.0


def _draw_plain(drawing: Drawing, checks: list[Check], system: UnitSystem, y: float) -> float:
    """Checks of what has no uncertainty: times, gases, what was seen."""
    if not checks:
        return y
    drawing.text(8, y + 4, "Checked without a band", bold=True)
    y += 22.0
    for check in checks:
        figures = [figure_shown(figure, system) for figure in (check.actual, check.limit) if figure is not None]
        drawing.mark(8, y, check.verdict, check.check, within=344)
        room = 320.0 - width_of(f"{check.verdict}: {check.check}", SMALL * BOLDER)
        drawing.text(352, y, " against ".join(figures), size=SMALL, at="end", within=room)
        y += 17.0
    return y + 6.0


def _draw_not_compared(drawing: Drawing, missing: list[str], y: float) -> float:
    """What could not be held against anything, and what it would take."""
    if not missing:
        return y
    drawing.text(8, y + 4, "Not compared", bold=True)
    y += 20.0
    for says in missing:
        y = drawing.note(8, y, says, 344, colour=QUIET) + 3.0
    return y
