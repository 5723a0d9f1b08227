"""A static-pressure budget to look at: from what the blower has, piece by piece, to what is left for the ducts, and the rated limit beside it."""

from dataclasses import dataclass

from kneewall.calculations.static_pressure_budget.messages import StaticPressureBudgetQuestion, StaticPressureBudgetResult
from kneewall.kernel.answer import Answer
from kneewall.kernel.lettering import wrapped
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import AirPressure, UnitSystem
from kneewall.kernel.scale import Axis, draw_grid_across, shown_in
from kneewall.kernel.svg import BODY, LIMIT, OUTLINE, PAPER, QUIET, RETURN_COLOUR, SMALL, SUPPLY_COLOUR, THIN, TINT, Drawing, Pen
from kneewall.kernel.verdict_list import draw_verdicts
from kneewall.physics.air import air_of
from kneewall.physics.fan import rated_limit_in

SIDES = {"supply": Pen(SUPPLY_COLOUR, 1.6), "return": Pen(RETURN_COLOUR, 1.6, "6 3")}
NAMES, WITHIN, FIRST, LAST = 8.0, 136.0, 152.0, 338.0
BAR, LINE, TOP = 13.0, 13.5, 38.0


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the blower's pressure: from where to where, Pa, and which pen surrounds it. A component's piece is taken."""

    name: str
    start: float
    end: float
    pen: Pen
    is_taken: bool = False


def draw(question: StaticPressureBudgetQuestion, answer: Answer[StaticPressureBudgetResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result = answer.result
    drawing = Drawing("Where the blower's pressure goes", _in_words(question, result, system), 0.0)
    drawing.text(NAMES, 18, f"Where the pressure goes at {question.airflow.shown(system)}", bold=True, within=344)
    unit, unit_shown = shown_in(AirPressure, system)
    rated = None if question.rated_limit is None else rated_limit_in(question.rated_limit, air_of(question.air))
    reach = 1.04 * max(result.blower_static_pressure, rated or 0.0)
    across = Axis(0.0, AirPressure(reach).to(unit), FIRST, LAST)
    pieces = [(piece, wrapped(piece.name, WITHIN, SMALL)[:3]) for piece in pieces_of(question, result, system)]
    top, bottom = TOP, TOP + sum(_height(lines) for _, lines in pieces)
    if rated is not None:
        x = across(rated.to(unit))
        drawing.hatch(x, top, LAST - x, bottom - top)
        drawing.line(x, top, x, bottom, LIMIT)
        drawing.text(min(x + 16, LAST + 6), top - 5, "rated", size=SMALL, at="end", colour=QUIET)
    draw_grid_across(drawing, across, top, bottom, unit_shown)
    y, before = top, 0.0
    for piece, lines in pieces:
        before = _bar(drawing, piece, y + (_height(lines) - BAR) / 2.0, across, before, system)
        _label(drawing, piece, lines, y, system)
        y += _height(lines)
    drawing.height = _facts(drawing, question, answer, system, bottom + 46.0)
    return drawing.svg()


def pieces_of(question: StaticPressureBudgetQuestion, result: StaticPressureBudgetResult, system: UnitSystem) -> list[Piece]:
    """All that the blower has, then the components from its upper end downward, then what is left for ducts: they meet end to end and end at nought."""
    level = float(result.blower_static_pressure)
    pieces = [Piece("the blower has", 0.0, level, OUTLINE)]
    for component, drop in zip(question.components, result.components, strict=True):
        pieces.append(Piece(drop.name, level - drop.pressure_drop, level, SIDES[component.side], is_taken=True))
        level -= drop.pressure_drop
    length, share = question.effective_length, result.duct_pressure
    for side, long, left in (("return", length.return_, share.return_), ("supply", length.supply, share.supply)):
        pieces.append(Piece(Phrase("{} ducts, {}", side, long).shown(system), level - left, level, SIDES[side]))
        level -= left
    return pieces


def _height(lines: list[str]) -> float:
    return LINE * (len(lines) + 1) + 8.0


def _bar(drawing: Drawing, piece: Piece, y: float, across: Axis, before: float, system: UnitSystem) -> float:
    """The piece at the height `y`, hatched where it is taken; a thin line leads to its end from the piece `before`. Returns where the bar ends."""
    unit = shown_in(AirPressure, system)[0]
    start, end = (across(AirPressure(level).to(unit)) for level in (piece.start, piece.end))
    if before:
        drawing.line(end, before, end, y, THIN)
    drawing.rectangle(start, y, end - start, BAR, piece.pen, fill=PAPER if piece.is_taken else TINT)
    if piece.is_taken:
        drawing.hatch(start, y, end - start, BAR, step=5.0, pen=Pen(piece.pen.colour, 0.8))
    return y + BAR


def _label(drawing: Drawing, piece: Piece, lines: list[str], y: float, system: UnitSystem) -> None:
    for line in lines:
        y += LINE
        drawing.text(NAMES, y, line, size=SMALL, within=WITHIN)
    drawing.text(NAMES, y + LINE + 1.0, AirPressure(piece.end - piece.start).shown(system), bold=not piece.is_taken, within=WITHIN)


def _facts(
    drawing: Drawing, question: StaticPressureBudgetQuestion, answer: Answer[StaticPressureBudgetResult], system: UnitSystem, y: float
) -> float:
    """What the pens mean, the friction rate, and the verdicts."""
    result = answer.result
    entries = [(SIDES["supply"], "supply side"), (SIDES["return"], "return side")]
    if question.rated_limit is not None:
        entries.append((LIMIT, Phrase("rated limit: {}", rated_limit_in(question.rated_limit, air_of(question.air))).shown(system)))
    y = drawing.legend(NAMES, y, entries)
    y = drawing.note(NAMES, y, "Hatched: taken by components. Tinted: left for ducts.", 344, colour=QUIET) + 6
    words = Phrase("{} over {}: {}", result.available_static_pressure, result.total_effective_length, result.friction_rate)
    y = drawing.note(NAMES, y, words.shown(system), 344, size=BODY) + 4
    return draw_verdicts(drawing, y, answer.checks, x=NAMES) - 6.0


def _in_words(question: StaticPressureBudgetQuestion, result: StaticPressureBudgetResult, system: UnitSystem) -> str:
    """What the drawing shows, with figures, for those who do not see it."""
    says = [Phrase("Of the blower's {}:", result.blower_static_pressure)]
    says += [Phrase("{} takes {},", one.name, one.pressure_drop) for one in result.components]
    says.append(Phrase("{} is left for supply ducts and {} for return ducts.", result.duct_pressure.supply, result.duct_pressure.return_))
    if question.rated_limit is not None:
        says.append(Phrase("The unit is rated for {}.", rated_limit_in(question.rated_limit, air_of(question.air))))
    return " ".join([one.shown(system) for one in says])
