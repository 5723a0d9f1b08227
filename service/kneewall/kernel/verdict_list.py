"""The checks of an answer as a list in a drawing, the worst first, each with its own shape and word."""

from collections.abc import Sequence

from kneewall.kernel.answer import Check, Verdict
from kneewall.kernel.svg import QUIET, SMALL, WIDTH, Drawing

ORDER: dict[Verdict, int] = {"fails": 0, "watch": 1, "refer": 2, "meets": 3}
LINE = 16.0


def worst_first(checks: Sequence[Check]) -> list[Check]:
    """The checks, those that need something done first."""
    return sorted(checks, key=lambda check: ORDER[check.verdict])


def draw_verdicts(drawing: Drawing, y: float, checks: Sequence[Check], *, x: float = 14.0, most: int = 6) -> float:
    """At most `most` of the checks, one to a line. Returns the baseline after the last."""
    within = WIDTH - 2.0 * x
    for check in worst_first(checks)[:most]:
        drawing.mark(x, y, check.verdict, check.check, within=within)
        y += LINE
    if len(checks) > most:
        drawing.text(x, y, f"and {len(checks) - most} more in the answer", size=SMALL, colour=QUIET)
        y += LINE
    return y
