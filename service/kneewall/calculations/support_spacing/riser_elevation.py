"""One vertical run from the side, to scale, with its supports and guides."""

from itertools import pairwise

from kneewall.calculations.support_spacing.messages import RunSupports, SupportedRun
from kneewall.calculations.support_spacing.run_elevation import DUCT, places
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length, UnitSystem
from kneewall.kernel.svg import INK, PAPER, SMALL, SUPPLY, THIN, Drawing, Pen

LINE = 96.0


def draw_riser(drawing: Drawing, y: float, factor: float, run: SupportedRun, found: RunSupports, system: UnitSystem) -> float:
    """The riser from `y` down; `factor` in units per m. Returns the lowest place taken."""
    at, high = places(run, found), factor * run.length
    bottom = y + high
    drawing.line(LINE, y, LINE, bottom, DUCT if run.kind == "duct" else SUPPLY)
    for place in at:
        there = bottom - place * factor
        drawing.line(LINE - 13, there, LINE + 13, there, Pen(INK, 1.8))
        drawing.hatch(LINE - 19, there - 4, 6, 8, step=4.0)
        drawing.hatch(LINE + 13, there - 4, 6, 8, step=4.0)
    if found.guides:
        for first, last in pairwise(at):
            there = bottom - (first + last) / 2.0 * factor
            drawing.circle(LINE, there, 4.0, THIN, fill=PAPER)
    drawing.dimension(LINE + 34, bottom - at[1] * factor, LINE + 34, bottom, "")
    step = found.spacing if abs(at[1] - found.spacing) < 1e-6 else Length(at[1])
    drawing.text(LINE + 42, bottom - at[1] * factor / 2.0 + 3.7, step.shown(system), size=SMALL, bold=True, within=90)
    drawing.dimension(LINE - 36, y, LINE - 36, bottom, "")
    drawing.text(LINE - 42, (y + bottom) / 2.0 + 3.7, run.length.shown(system), size=SMALL, at="end")
    if found.guides:
        drawing.text(LINE + 42, y + 10, Phrase("rings: {} guides", found.guides).shown(system), size=SMALL, within=200)
    return bottom + 6
