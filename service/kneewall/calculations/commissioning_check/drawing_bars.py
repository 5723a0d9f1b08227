"""One measured figure as a bar: its band on a scale of its own, the limits dotted across it, what is not allowed hatched."""

from collections.abc import Sequence

from kneewall.calculations.commissioning_check.banded import Banded
from kneewall.kernel.answer import Check
from kneewall.kernel.lettering import BOLDER, width_of
from kneewall.kernel.quantity import Quantity, UnitSystem
from kneewall.kernel.scale import Axis, shown_in
from kneewall.kernel.svg import LIMIT, OUTLINE, PAPER, QUIET, SMALL, SUPPLY_COLOUR, THIN, Drawing, Pen

NOT_ALLOWED = Pen(QUIET, 0.8)
BAND_HIGH = 7.0
LEFT, RIGHT, HIGH = 10.0, 350.0, 14.0
PAIR, HATCH = 26.0, 16.0
BESIDE = 0.3
"""Room at either end of a bar, as a share of what it has to show."""


def ends(band: Banded, system: UnitSystem) -> tuple[float, float, float]:
    """The lower end, the figure and the upper end of a band, as numbers in the reader's unit."""
    value, width = band.figures
    assert isinstance(value, Quantity) and isinstance(width, Quantity)
    middle = value.to(shown_in(type(value), system)[0])
    wide = abs(width.to(shown_in(type(width), system)[0]))
    return middle - wide, middle, middle + wide


def draw_bar(drawing: Drawing, check: Check, band: Banded, system: UnitSystem, y: float) -> float:
    """A figure against the limits its whole band is held to. Returns where the next may begin."""
    y = _draw_heading(drawing, check, band.shown(system), y)
    reach, limits = ends(band, system), _limits(check, band, system)
    axis = _axis([*reach, *(figure for figure, _ in limits)], LEFT)
    placed = [(axis(figure), words) for figure, words in limits]
    top = y + 7.0
    drawing.rectangle(LEFT, top, RIGHT - LEFT, HIGH, THIN, fill=PAPER)
    if band.least is not None:
        drawing.hatch(LEFT, top, placed[0][0] - LEFT, HIGH, step=HATCH, pen=NOT_ALLOWED)
    if band.most is not None:
        drawing.hatch(placed[-1][0], top, RIGHT - placed[-1][0], HIGH, step=HATCH, pen=NOT_ALLOWED)
    for x, _ in placed:
        drawing.line(x, top - 3, x, top + HIGH + 2, LIMIT)
    _draw_band(drawing, reach, axis, top + HIGH / 2.0)
    _draw_limits(drawing, placed, top + HIGH + 14.0)
    return y + (55.0 if limits else 42.0)


def _limits(check: Check, band: Banded, system: UnitSystem) -> list[tuple[float, str]]:
    """What the whole band is held to, or else what it is held against: the number in the reader's unit and its words, the lower first."""
    kind = type(band.figures[0])
    assert issubclass(kind, Quantity)
    found = [(kind(limit), words) for limit, words in ((band.least, "at least"), (band.most, "at most")) if limit is not None]
    if not found and isinstance(check.limit, kind):
        found = [(check.limit, "against")]
    unit = shown_in(kind, system)[0]
    return [(limit.to(unit), f"{words} {limit.shown(system)}") for limit, words in found]


def draw_agreement(drawing: Drawing, check: Check, bands: Sequence[Banded], system: UnitSystem, y: float) -> float:
    """Two ways to one figure, one above the other on the same scale. Returns where the next may begin."""
    _draw_heading(drawing, check, "", y)
    start = 172.0
    axis = _axis([end for band in bands for end in ends(band, system)], start)
    ways = [str(figure) for figure in check.says.figures if isinstance(figure, str)]
    drawing.rectangle(start, y + 7, RIGHT - start, PAIR * len(bands), THIN, fill=PAPER)
    at = y + 20.0
    for band, way in zip(bands, [*ways, *[""] * len(bands)], strict=False):
        drawing.text(LEFT, at - 2.5, way, size=SMALL, colour=QUIET, within=start - LEFT - 6)
        drawing.text(LEFT, at + 9.5, band.shown(system), size=SMALL, within=start - LEFT - 6)
        _draw_band(drawing, ends(band, system), axis, at)
        at += PAIR
    return y + 25.0 + PAIR * len(bands)


def _draw_heading(drawing: Drawing, check: Check, figure: str, y: float) -> float:
    """Verdict, name and figure on one line, or on two where they are too long. Returns the baseline of the last."""
    room = 340.0 - width_of(figure, SMALL) if figure else 344.0
    drawing.mark(8, y, check.verdict, check.check, within=344)
    if 16.0 + width_of(f"{check.verdict}: {check.check}", SMALL * BOLDER) > room:
        y += 14.0
    drawing.text(352, y, figure, size=SMALL, at="end", within=344)
    return y


def _axis(figures: Sequence[float], start: float) -> Axis:
    low, high = min(figures), max(figures)
    room = BESIDE * (high - low) or 0.1 * abs(high) or 1.0
    return Axis(low - room, high + room, start, RIGHT)


def draw_mark(drawing: Drawing, low: float, middle: float, high: float, y: float) -> None:
    """A figure as a ring upon a band as long as its uncertainty."""
    drawing.rectangle(low, y - BAND_HIGH / 2.0, high - low, BAND_HIGH, THIN, fill=SUPPLY_COLOUR)
    drawing.circle(middle, y, 3.4, OUTLINE, fill=PAPER)


def _draw_band(drawing: Drawing, band: tuple[float, float, float], axis: Axis, y: float) -> None:
    draw_mark(drawing, axis(band[0]), axis(band[1]), axis(band[2]), y)


def _draw_limits(drawing: Drawing, limits: Sequence[tuple[float, str]], y: float) -> None:
    """The one or two limits in words below their lines, side by side where they would cover each other."""
    widths = [width_of(words, SMALL) for _, words in limits]
    right, rest = LEFT - 10.0, sum(widths) + 8.0 * (len(limits) - 1)
    for (x, words), wide in zip(limits, widths, strict=True):
        left = min(max(x - wide / 2.0, right + 8.0), RIGHT + 2.0 - rest)
        drawing.text(left, y, words, size=SMALL, colour=QUIET, within=RIGHT + 2.0 - left)
        right, rest = left + wide, rest - wide - 8.0
