"""Every made tube as a row of a drawing: what it loses and what it keeps, in both modes, against the two limits, and which one is taken."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.choice import drops
from kneewall.calculations.refrigerant_line_sizing.messages import LineRun, RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import (
    BrokenLimit,
    LiquidCandidate,
    RefrigerantLineSizingResult,
    VaporCandidate,
)
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, TemperatureDifference, UnitSystem, number_shown
from kneewall.kernel.scale import Axis, shown_in
from kneewall.kernel.svg import GRID, INK, LIMIT, OUTLINE, QUIET, SMALL, THIN, VERDICT_COLOURS, Drawing, Pen

ROW = 18.0
LEFT_PANEL, RIGHT_PANEL, WORDS_AT = (82.0, 156.0), (183.0, 257.0), 274.0
WORDS: dict[BrokenLimit, str] = {
    "loss": "loss", "velocity": "velocity", "oil-return": "oil stays", "subcooling": "subcooling", "flashing": "boils", "pressure": "pressure",
    "drop-too-large": "loss",
}  # fmt: skip
HEATS = Pen(INK, 1.3)
KEEPS = Pen(VERDICT_COLOURS["meets"], 1.8)
BROKEN = Pen(VERDICT_COLOURS["fails"], 1.8)
Figures = tuple[tuple[bool, float], ...]
"""Whether it is of heating, and the figure; infinite where it lies beyond what can be worked out."""


@dataclass(frozen=True)
class Panel:
    """One limit beside the rows: its axis, where the limit stands, on which side of it a tube may be, and its words."""

    axis: Axis
    limit: float
    may_be_above: bool
    names: tuple[str, str]
    ticks: Sequence[float]


@dataclass(frozen=True)
class Row:
    """One tube: its figures against the left and the right limit; `praise` is said of the one that is taken."""

    label: str
    bore: Dimension
    twice_made: bool
    taken: bool
    praise: str
    breaks: Sequence[BrokenLimit]
    left: Figures
    right: Figures


def draw_vapor_candidates(
    drawing: Drawing, question: RefrigerantLineSizingQuestion, result: RefrigerantLineSizingResult, system: UnitSystem, y: float
) -> float:
    """The tubes for the vapor line: loss of saturation temperature and oil return. Returns the lowest place."""
    unit, _ = shown_in(TemperatureDifference, system)
    limit = rules.USUAL_PENALTY if question.limits.vapor_penalty is None else question.limits.vapor_penalty
    line, risers = result.vapor_line, [state.riser for state in result.states]
    twice, praise = _made_twice(line.candidates), "take this" if question.vapor_line.size is None else "keeps all"
    loss = _loss_panel(limit, unit, system)
    oil = Panel(
        Axis(0.25, 16.0, *RIGHT_PANEL, powers=True), 1.0, True, ("lowest stage, as a multiple", "of what carries the oil"), (0.25, 1.0, 4.0, 16.0)
    )  # fmt: skip
    rows = [
        Row(
            one.nominal_size.shown(system), one.inside_diameter, one.nominal_size in twice, one.inside_diameter == line.recommended_inside_diameter, praise,
            one.breaks,
            _by_mode([inf if drop is None else drop.to(unit) for drop in drops(one)]),
            tuple([(heats, 1.0 + margin) for (heats, margin), risen in zip(_by_mode(_margins(one)), risers, strict=True) if risen]),
        )
        for one in line.candidates
    ]  # fmt: skip
    asked = "only in the mode in which the gas rises" if any(risers) else "nowhere: the gas does not rise in either mode"
    return _draw(
        drawing,
        _title("Vapor", question.vapor_line),
        rows,
        (loss, oil),
        question.heating is not None,
        y,
        system,
        f"An arrowhead at the end of an axis points to a figure beyond it. Oil return is asked {asked}.",
    )


def draw_liquid_candidates(
    drawing: Drawing, question: RefrigerantLineSizingQuestion, result: RefrigerantLineSizingResult, system: UnitSystem, y: float
) -> float:
    """The tubes for the liquid line: loss of saturation temperature and subcooling left at the valve. Returns the lowest place."""
    unit, shown = shown_in(TemperatureDifference, system)
    limits, line = question.limits, result.liquid_line
    loss = _loss_panel(rules.USUAL_PENALTY if limits.liquid_penalty is None else limits.liquid_penalty, unit, system)
    least = (rules.USUAL_SUBCOOLING if limits.least_subcooling is None else limits.least_subcooling).to(unit)
    twice, praise = _made_twice(line.candidates), "take this" if question.liquid_line.size is None else "keeps all"
    kept = [_by_mode([-inf if left is None else left.to(unit) for left in _left(one)]) for one in line.candidates]
    most = max([2.5 * least, 5.0, *[figure for figures in kept for _, figure in figures]])
    axis = Axis(0.0, most * 1.05, *RIGHT_PANEL)
    subcooling = Panel(axis, least, True, ("subcooling left", f"at the valve, {shown}"), axis.ticks(3))
    rows = [
        Row(
            one.nominal_size.shown(system), one.inside_diameter, one.nominal_size in twice, one.inside_diameter == line.recommended_inside_diameter, praise,
            one.breaks, _by_mode([inf if drop is None else drop.to(unit) for drop in drops(one)]), figures,
        )
        for one, figures in zip(line.candidates, kept, strict=True)
    ]  # fmt: skip
    return _draw(
        drawing,
        _title("Liquid", question.liquid_line),
        rows,
        (loss, subcooling),
        question.heating is not None,
        y,
        system,
        "No figure holds beyond where liquid boils.",
    )


def _title(line: str, run: LineRun) -> str:
    return f"{line} line: {'every made tube' if run.size is None else 'the size to be checked'}"


def _loss_panel(limit: TemperatureDifference, unit: str, system: UnitSystem) -> Panel:
    axis = Axis(-0.15 * limit.to(unit), 2.2 * limit.to(unit), *LEFT_PANEL)
    return Panel(axis, limit.to(unit), False, ("loss of saturation", f"temperature, {shown_in(TemperatureDifference, system)[1]}"), axis.ticks(3))


def _by_mode(figures: Sequence[float]) -> Figures:
    return tuple([(index == 1, figure) for index, figure in enumerate(figures)])


def _margins(one: VaporCandidate) -> list[float]:
    return [one.oil_return.margin] if one.heating is None else [one.oil_return.margin, one.heating.oil_return.margin]


def _left(one: LiquidCandidate) -> list[TemperatureDifference | None]:
    return [one.subcooling_left] if one.heating is None else [one.subcooling_left, one.heating.subcooling_left]


def _made_twice(candidates: Sequence[VaporCandidate] | Sequence[LiquidCandidate]) -> set[float]:
    """The nominal sizes that are made in two walls."""
    return {size for size, count in Counter([one.nominal_size for one in candidates]).items() if count > 1}


def _draw(
    drawing: Drawing, title: str, rows: Sequence[Row], panels: tuple[Panel, Panel], heats: bool, y: float, system: UnitSystem, note: str
) -> float:
    drawing.text(8, y + 10, title, bold=True)
    drawing.circle(14, y + 25, 3.6, THIN, fill=INK)
    drawing.text(22, y + 28.5, "cooling", size=SMALL)
    if heats:
        _diamond(drawing, 78, y + 25)
        drawing.text(87, y + 28.5, "heating", size=SMALL)
    drawing.line(142, y + 25, 164, y + 25, LIMIT)
    drawing.text(170, y + 28.5, "limit; hatched is not allowed", size=SMALL)
    top = y + 72.0
    bottom = top + ROW * len(rows)
    for panel in panels:
        _draw_panel(drawing, panel, top, bottom)
    for index, row in enumerate(rows):
        _draw_row(drawing, row, panels, top + ROW * index, system)
    more = " After +: how many more limits it breaks." if any(len(set(row.breaks)) > 1 for row in rows) else ""
    return drawing.note(8, bottom + 32.0, note + more, 344, colour=QUIET)


def _draw_panel(drawing: Drawing, panel: Panel, top: float, bottom: float) -> None:
    """Grid, names and limit of one panel; what is not allowed is hatched."""
    start, end, at = panel.axis.start, panel.axis.end, panel.axis(panel.limit)
    for index, name in enumerate(panel.names):
        drawing.text(start, top - 24 + 12 * index, name, size=SMALL, colour=QUIET)
    for tick in panel.ticks:
        drawing.line(panel.axis(tick), top, panel.axis(tick), bottom, GRID)
        drawing.text(panel.axis(tick), bottom + 13, number_shown(tick), size=SMALL, at="middle", colour=QUIET)
    if panel.may_be_above:
        drawing.hatch(start, top, at - start, bottom - top, step=9.0)
    else:
        drawing.hatch(at, top, end - at, bottom - top, step=9.0)
    drawing.line(at, top - 4, at, bottom + 2, LIMIT)


def _draw_row(drawing: Drawing, row: Row, panels: tuple[Panel, Panel], y: float, system: UnitSystem) -> None:
    middle = y + ROW / 2.0
    if row.taken:
        drawing.rectangle(4, y + 0.5, 352, ROW - 1.0, OUTLINE, corner=4.0)
    else:
        drawing.line(8, y + ROW, 352, y + ROW, GRID)
    drawing.text(9, middle + 3.7, row.label, size=SMALL, bold=row.taken, within=58)
    for panel, figures in zip(panels, (row.left, row.right), strict=True):
        for heats, figure in figures:
            _draw_figure(drawing, panel, heats, figure, middle)
    if row.taken:
        drawing.polyline([(WORDS_AT, middle), (WORDS_AT + 3, middle + 4), (WORDS_AT + 9, middle - 5)], KEEPS)
        drawing.text(WORDS_AT + 13, middle + 3.7, row.praise, size=SMALL, bold=True, within=72)
    elif row.breaks:
        words = list(dict.fromkeys(WORDS[one] for one in row.breaks))
        drawing.polyline([(WORDS_AT, middle - 4), (WORDS_AT + 8, middle + 4)], BROKEN)
        drawing.polyline([(WORDS_AT + 8, middle - 4), (WORDS_AT, middle + 4)], BROKEN)
        drawing.text(WORDS_AT + 13, middle + 3.7, words[0] + (f" +{len(words) - 1}" if len(words) > 1 else ""), size=SMALL, within=72)
    elif row.twice_made:
        drawing.text(WORDS_AT, middle + 3.7, Phrase("bore {}", row.bore).shown(system), size=SMALL, colour=QUIET, within=84)


def _draw_figure(drawing: Drawing, panel: Panel, heats: bool, figure: float, y: float) -> None:
    """The place of one mode; beyond the axis the mark stands at its end with a head that points on."""
    x = panel.axis(figure)
    if not panel.axis.low <= figure <= panel.axis.high:
        way = 1.0 if figure > panel.axis.high else -1.0
        drawing.polygon([(x + way * 13, y), (x + way * 7, y - 3.5), (x + way * 7, y + 3.5)], THIN, fill=INK)
    if heats:
        _diamond(drawing, x, y)
    else:
        drawing.circle(x, y, 3.0, THIN, fill=INK)


def _diamond(drawing: Drawing, x: float, y: float) -> None:
    drawing.polygon([(x - 6, y), (x, y - 6), (x + 6, y), (x, y + 6)], HEATS)
