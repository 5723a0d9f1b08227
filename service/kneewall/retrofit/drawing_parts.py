"""The parts of a job with their verdicts, the clashes as brackets between them, and what would settle each clash."""

from kneewall.kernel.answer import Answer, Verdict
from kneewall.kernel.phrase import figure_shown
from kneewall.kernel.quantity import Duration, UnitSystem
from kneewall.kernel.svg import GRID, NO_LINE, PAPER, QUIET, SMALL, VERDICT_COLOURS, Drawing, Pen
from kneewall.kernel.words import in_words
from kneewall.retrofit.results import Conflict, RetrofitCheckResult

ROW, LANE, LANES_WIDTH = 18.0, 18.0, 112.0


def verdicts_of_parts(answer: Answer[RetrofitCheckResult]) -> dict[str, Verdict]:
    """The verdict of every part that was given; the checks of an answer are those of its clashes first, then one for each part."""
    return {check.check: check.verdict for check in answer.checks[len(answer.result.conflicts) :]}


def clashing(result: RetrofitCheckResult) -> list[Conflict]:
    """The conflicts that are not settled, as they are numbered on the sheet."""
    return [conflict for conflict in result.conflicts if conflict.verdict != "meets"]


def draw_parts(drawing: Drawing, answer: Answer[RetrofitCheckResult], y: float) -> float:
    """A row for each part with its verdict and how many checks are so; a column for each clash, with a dot at the parts it is between. Returns the
    lowest place.
    """
    result, verdicts = answer.result, verdicts_of_parts(answer)
    clashes = clashing(result)
    drawing.text(8, y + 4, "Parts", bold=True)
    lane = min(LANE, LANES_WIDTH / max(1, len(clashes)))
    edge = 352.0 - lane * len(clashes)
    if clashes:
        drawing.text(edge - 6, y + 4, "clash", size=SMALL, at="end", colour=QUIET)
    drawing.text(8, y + 18, "worst verdict, and how many checks have it", size=SMALL, colour=QUIET, within=edge - 14)
    heads, y = y, y + 38.0
    rows: dict[str, float] = {}
    for part, verdict in verdicts.items():
        rows[part] = y - 4.0
        drawing.mark(8, y, verdict, in_words(part), within=216)
        drawing.text(edge - 6, y, _counted(result, part, verdict), size=SMALL, at="end", colour=QUIET, within=62)
        drawing.line(8, y + 5, 352, y + 5, GRID)
        y += ROW
    for number, clash in enumerate(clashes, start=1):
        _draw_column(drawing, number, clash, [rows[part] for part in _parts_of(clash) if part in rows], (edge + lane * (number - 0.5), heads), lane)
    return y - 8.0


def _counted(result: RetrofitCheckResult, part: str, verdict: Verdict) -> str:
    answer = getattr(result.parts, part.replace("-", "_"), None)
    if answer is None:
        return "no answer"
    return f"{sum(check.verdict == verdict for check in answer.checks)} of {len(answer.checks)}"


def _parts_of(clash: Conflict) -> list[str]:
    """The parts that a clash names; what stands after a colon says only which side of a part."""
    return list(dict.fromkeys(name.partition(":")[0] for name in clash.between))


def _draw_column(drawing: Drawing, number: int, clash: Conflict, rows: list[float], head: tuple[float, float], lane: float) -> None:
    """The number of a clash over a line with a dot at each of its parts."""
    x, top = head
    if rows:
        drawing.line(x, top, x, max(rows), Pen(VERDICT_COLOURS[clash.verdict], 1.1))
    for row in rows:
        drawing.circle(x, row, 4.0, NO_LINE, fill=VERDICT_COLOURS[clash.verdict])
    _draw_number(drawing, number, x, top, clash.verdict, min(7.5, lane / 2.0 - 0.4))


def _draw_number(drawing: Drawing, number: int, x: float, y: float, verdict: Verdict, radius: float = 7.5) -> None:
    drawing.circle(x, y, radius, Pen(VERDICT_COLOURS[verdict], 1.4), fill=PAPER)
    drawing.text(x, y + 3.6, str(number), size=SMALL, at="middle", bold=True, colour=VERDICT_COLOURS[verdict])


def draw_clashes(drawing: Drawing, result: RetrofitCheckResult, system: UnitSystem, y: float) -> float:
    """Every clash by its number, by how much, and the least change that would settle it; then what agrees. Returns the lowest place."""
    drawing.text(8, y + 4, "Clashes", bold=True)
    y += 22.0
    for number, clash in enumerate(clashing(result), start=1):
        _draw_number(drawing, number, 16, y - 4, clash.verdict)
        drawing.mark(31, y, clash.verdict, f"{clash.conflict}{_by_how_much(clash, system)}", within=320)
        y = drawing.note(31, y + 14, (clash.settle or clash.says).shown(system), 318) + 5.0
    agreed = [conflict.conflict for conflict in result.conflicts if conflict.verdict == "meets"]
    if agreed:
        drawing.mark(8, y, "meets", "these agree", within=300)
        y = drawing.note(24, y + 14, ", ".join(agreed), 326, colour=QUIET)
    elif not result.conflicts:
        y = drawing.note(8, y, "Too little is given to hold one part against another.", 344, colour=QUIET)
    return y - 8.0


def _by_how_much(clash: Conflict, system: UnitSystem) -> str:
    if clash.by is None:
        return ""
    return f" ({'in' if isinstance(clash.by, Duration) else 'by'} {figure_shown(clash.by, system)})"
