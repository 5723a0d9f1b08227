"""One horizontal run from the side: the run to scale with its supports, heights drawn larger so that fall and sag can be seen."""

from itertools import pairwise
from typing import NamedTuple

from kneewall.calculations.support_spacing.messages import RunSupports, SupportedRun
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length, UnitSystem
from kneewall.kernel.svg import INK, LIMIT, PAPER, SMALL, SUPPLY, THIN, Drawing, Pen, Point

MOST_DRAWN = 30
"""More supports than this are drawn as so many, at their spacing, and a break."""
HANGER, CURVE = 15.0, 8
MOST_SAG, MOST_FALL = 5.0, 46.0
BAR = Pen(INK, 1.8)
DUCT = Pen(INK, 5.0)
BEAM = {
    steps: [(share / steps, 3.2 * ((share / steps) - 2.0 * (share / steps) ** 3 + (share / steps) ** 4)) for share in range(1, steps + 1)]
    for steps in (CURVE, 4)
}
"""Share of the span and share of the sag there: 16/5 (x - 2 x^3 + x^4)."""


class Bent(NamedTuple):
    """How the run stands between its supports: fall per length, sag in the middle of a span, and how much larger heights are drawn."""

    slope: float
    sag: float
    larger: float


def places(run: SupportedRun, found: RunSupports) -> list[float]:
    """Where the supports and the two ends stand along the run, m; the last span may be short where the spacing was given."""
    flexible = run.material == "flexible"
    spans = max(int(found.supports) + (1 if flexible else -1), 1)
    return [*(index * found.spacing for index in range(min(spans, MOST_DRAWN + flexible))), float(run.length)]


def drawn_all(found: RunSupports) -> bool:
    """Whether every support is drawn."""
    return found.supports <= MOST_DRAWN


def bent(run: SupportedRun, found: RunSupports, factor: float) -> Bent:
    """Heights as large as they may be: neither fall nor sag beyond its room. `factor` in units per m of length."""
    slope, sag = float(run.slope or 0.0), float(drawn_sag(run, found) or 0.0)
    room = [MOST_SAG / sag] if sag > 0.0 else []
    room += [MOST_FALL / (slope * run.length)] if slope > 0.0 else []
    larger = min(room) / factor if room else 1.0
    return Bent(slope, sag, float(f"{larger:.2g}") if larger > 1.0 else 1.0)


def drawn_sag(run: SupportedRun, found: RunSupports) -> Dimension | None:
    """The sag at the spacing that is drawn: the answer gives it at the greatest spacing where none was to be checked.

    A pipe's sag goes with the fourth power of the span, a flexible duct's limit with the span. Source: pipe-span.simple-span.
    """
    share = found.spacing / min(found.maximum_spacing if run.spacing is None else run.spacing, run.length)
    if found.sag is not None:
        return Dimension(found.sag * min(1.0, share) ** 4)
    return None if found.sag_limit is None else Dimension(found.sag_limit * min(1.0, share))


def draw_run(drawing: Drawing, y: float, left: float, factor: float, run: SupportedRun, found: RunSupports, system: UnitSystem) -> float:
    """The run from `left` on, its ceiling at `y`; `factor` in units per m. Returns the lowest place taken."""
    shape, at = bent(run, found, factor), places(run, found)
    up = factor * shape.larger
    right = left + factor * run.length
    drawing.line(left - 4, y, right + 4, y, THIN)
    drawing.hatch(left - 4, y - 5, right - left + 8, 5.0, step=8.0)
    low = y + HANGER + shape.slope * run.length * up
    pen = DUCT if run.kind == "duct" else SUPPLY
    drawing.polyline(_line(at, shape, left, factor, y + HANGER), pen)
    if found.sag_limit is not None or found.sag is not None:
        low += shape.sag * up
    hung = at[1:-1] if run.material == "flexible" else at
    for place in hung:
        x, there = left + place * factor, y + HANGER + shape.slope * place * up
        drawing.line(x, y, x, there, THIN)
        drawing.line(x - 3.5, there + 3.5, x + 3.5, there + 3.5, BAR)
    if run.material == "flexible":
        for x in (left, right):
            drawing.rectangle(x - 3, y + HANGER - 5, 6, 10, THIN, fill=PAPER)
    if not drawn_all(found):
        middle = left + (at[-2] + at[-1]) / 2.0 * factor
        drawing.line(left + at[-2] * factor, y + HANGER - 7, middle, y + HANGER - 7, LIMIT)
    line = low + 22.0
    _draw_spacing(drawing, left, factor, line, at, found, system)
    drawing.dimension(left, line + 18, max(right, left + 0.1), line + 18, "")
    drawing.text((left + right) / 2.0, line + 31, Phrase("{} long", run.length).shown(system), size=SMALL, at="middle")
    return line + 31


def _line(at: list[float], shape: Bent, left: float, factor: float, top: float) -> list[Point]:
    """The run's line: straight where no sag could be seen, or as a simple beam bends: y = 16/5 s (x - 2 x^3 + x^4) with the sag s, x the share of the span.

    Source: pipe-span.simple-span.
    """
    up = factor * shape.larger
    if shape.sag * up < 0.4 or at[1] * factor < 4.0:
        return [(left + place * factor, top + shape.slope * place * up) for place in (at[0], at[-1])]
    points = [(left, top)]
    curve = BEAM[CURVE if len(at) <= 14 else 4]
    for first, last in pairwise(at):
        full = shape.sag * _share_of_sag(last - first, at[1] - at[0])
        for along, down in curve:
            place = first + along * (last - first)
            points.append((left + place * factor, top + (shape.slope * place + full * down) * up))
    return points


def _share_of_sag(span: float, usual: float) -> float:
    """A short last span sags with the fourth power of its length; what stands for spans that are not drawn is straight."""
    if span > usual * 1.001:
        return 0.0
    return float(min(1.0, (span / usual) ** 4)) if usual > 0.0 else 1.0


def _draw_spacing(drawing: Drawing, left: float, factor: float, y: float, at: list[float], found: RunSupports, system: UnitSystem) -> None:
    """The distance between the first two supports."""
    last = left + at[1] * factor
    drawing.dimension(left, y, last, y, "")
    words = found.spacing.shown(system) if abs(at[1] - found.spacing) < 1e-6 else Length(at[1]).shown(system)
    drawing.text(last + 7, y + 3.7, words, size=SMALL, bold=True, within=352.0 - last)


def words_of_bend(run: SupportedRun, found: RunSupports, factor: float) -> Phrase | None:
    """Fall and sag as they are drawn, and by how much heights are enlarged."""
    sag = drawn_sag(run, found)
    if sag is None:
        return None
    times = bent(run, found, factor).larger
    enlarged = Phrase("heights × {}", times) if times > 1.0 else Phrase("heights to the same scale")
    if found.sag_limit is not None:
        return Phrase("drawn with the most it may sag, {}; {}", sag, enlarged)
    how = Phrase("falls {}, sags {}", run.slope, sag) if run.slope is not None else Phrase("sags {}", sag)
    return Phrase("{}; {}", how, enlarged)
