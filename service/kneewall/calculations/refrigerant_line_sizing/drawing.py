"""Refrigerant lines to look at: the run in elevation, to scale, with its sizes and flows, and every made tube against its limits."""

from kneewall.calculations.refrigerant_line_sizing.choice import nearest
from kneewall.calculations.refrigerant_line_sizing.drawing_candidates import draw_liquid_candidates, draw_vapor_candidates
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import RefrigerantLineSizingResult
from kneewall.kernel.answer import Answer
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import BODY, INK, OUTLINE, PAPER, QUIET, RETURN_COLOUR, SMALL, SUPPLY, TINT, Drawing, Pen

VAPOR = SUPPLY
LIQUID = Pen(RETURN_COLOUR, 1.3)
HEAD = Pen(INK, 1.1)
APART = 9.0
"""Between the two lines as drawn; not to scale."""
BOX = (52.0, 58.0, 214.0, 132.0)


def draw(question: RefrigerantLineSizingQuestion, answer: Answer[RefrigerantLineSizingResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result = answer.result
    drawing = Drawing(f"{question.refrigerant} lines", in_words(question, result).shown(system), 0.0)
    drawing.text(8, 18, "The run in elevation", bold=True)
    drawing.text(352, 18, "to scale; all height in one riser", size=SMALL, at="end", colour=QUIET)
    bottom = _draw_run(drawing, question, result, system)
    y = _draw_facts(drawing, question, result, system, bottom + 20)
    drawing.cut(y)
    y = draw_vapor_candidates(drawing, question, result, system, y + 12)
    drawing.cut(y + 4)
    drawing.height = draw_liquid_candidates(drawing, question, result, system, y + 16)
    return drawing.svg()


def in_words(question: RefrigerantLineSizingQuestion, result: RefrigerantLineSizingResult) -> Phrase:
    """What the drawing shows, for those who do not see it."""
    return Phrase(
        "The vapor line is {} and {} long, the liquid line {} and {} long; the indoor coil stands {} the outdoor unit. In cooling the gas runs {}{}.",
        _size("vapor", result), question.vapor_line.length, _size("liquid", result), question.liquid_line.length, _height(question),
        _way(result.elevations.vapor_flows),
        Phrase(", in heating {}", _way(_OTHER_WAY[result.elevations.vapor_flows])) if question.heating else "",
    )  # fmt: skip


def _height(question: RefrigerantLineSizingQuestion) -> Phrase:
    height = question.indoor_above_outdoor
    if height == 0.0:
        return Phrase("level with")
    return Phrase("{} above" if height > 0.0 else "{} below", Length(abs(height)))


_OTHER_WAY = {"up": "down", "down": "up", "level": "level"}


def _way(flows: str) -> str:
    return "level" if flows == "level" else f"{flows} the riser"


def _size(line: str, result: RefrigerantLineSizingResult) -> Phrase:
    """The size that was taken, or the one that is looked at because none keeps every limit."""
    taken = result.vapor_line.recommended if line == "vapor" else result.liquid_line.recommended
    return Phrase("{}" if taken is not None else "{} (which breaks a limit)", _shown_size(line, result))


def _shown_size(line: str, result: RefrigerantLineSizingResult) -> Dimension:
    if line == "vapor":
        return result.vapor_line.recommended or nearest(result.vapor_line.candidates).nominal_size
    return result.liquid_line.recommended or nearest(result.liquid_line.candidates).nominal_size


def _none_keeps(result: RefrigerantLineSizingResult) -> str:
    lines = [name for name, line in (("vapor", result.vapor_line), ("liquid", result.liquid_line)) if line.recommended is None]
    return f"No tube offered for the {' or the '.join(lines)} line keeps every limit; the one that comes nearest is shown."


def _draw_run(drawing: Drawing, question: RefrigerantLineSizingQuestion, result: RefrigerantLineSizingResult, system: UnitSystem) -> float:
    """Both lines from the outdoor unit to the indoor coil. Returns the lowest place."""
    _, corner, coil = result.elevations.points
    height = float(coil.elevation)
    scale = Scale.fit((0.0, corner.along), (min(0.0, height), max(0.0, height)), BOX)
    left, right, low, high = scale.x(0.0), scale.x(corner.along), scale.y(0.0), scale.y(height)
    side = 1.0 if height >= 0.0 else -1.0
    drawing.polyline([(left, low), (right, low), (right, high)], VAPOR)
    drawing.polyline([(left, low + APART), (right + side * APART, low + APART), (right + side * APART, high)], LIQUID)
    _draw_units(drawing, left, low, right, high, side, height)
    _draw_dimensions(drawing, question, system, (left, low, right, high), corner.along)
    _draw_flows(drawing, question.heating is not None, (left, low, right, high), side)
    return max(low, high) + 48.0


def _draw_units(drawing: Drawing, left: float, low: float, right: float, high: float, side: float, height: float) -> None:
    """The two machines as boxes, not to scale, where the lines end."""
    drawing.rectangle(left - 34, low - 12, 34, 34, OUTLINE, fill=TINT)
    drawing.text(left - 3, low - 17 if height >= 0.0 else low + 34, "outdoor", size=SMALL, at="end")
    if height == 0.0:
        drawing.rectangle(right, low - 12, 34, 34, OUTLINE, fill=TINT)
        drawing.text(right + 17, low - 17, "indoor", size=SMALL, at="middle")
        return
    middle = right + side * APART / 2.0
    drawing.rectangle(middle - 20, high - (26 if height > 0.0 else 0), 40, 26, OUTLINE, fill=TINT)
    drawing.text(middle, high + (-10 if height > 0.0 else 17), "indoor", size=SMALL, at="middle")


def _draw_dimensions(
    drawing: Drawing, question: RefrigerantLineSizingQuestion, system: UnitSystem, place: tuple[float, float, float, float], level: Length
) -> None:
    left, low, right, high = place
    if level > 1e-6:
        y = low + 36.0 if high <= low else low - 24.0
        drawing.dimension(left, y, right, y, Length(level).shown(system))
    if abs(high - low) > 0.5:
        beside = right + (APART + 20.0 if high <= low else 26.0)
        drawing.dimension(beside, low, beside, high, Length(abs(question.indoor_above_outdoor)).shown(system), beside="start")


def _draw_flows(drawing: Drawing, heats: bool, place: tuple[float, float, float, float], side: float) -> None:
    """Heads on both lines along the longer leg: full for cooling, open for heating. In cooling the gas runs to the outdoor unit, the liquid from it."""
    left, low, right, high = place
    level = right - left >= abs(high - low)
    toward = (1.0, 0.0) if level else (0.0, -1.0 if high < low else 1.0)
    for apart, way in ((0.0, -1.0), (APART, 1.0)):
        for share, mode_way, filled in ((0.36, way, True), (0.64, -way, False)):
            if filled or heats:
                x = left + share * (right - left) if level else right + side * apart
                y = low + apart if level else low + share * (high - low)
                _head(drawing, x, y, (toward[0] * mode_way, toward[1] * mode_way), filled)


def _head(drawing: Drawing, x: float, y: float, toward: tuple[float, float], filled: bool) -> None:
    along, across = (6.0 * toward[0], 6.0 * toward[1]), (-4.2 * toward[1], 4.2 * toward[0])
    tail = (x - along[0], y - along[1])
    corners = [(x + along[0], y + along[1]), (tail[0] + across[0], tail[1] + across[1]), (tail[0] - across[0], tail[1] - across[1])]
    drawing.polygon(corners, HEAD, fill=INK if filled else PAPER)


def _draw_facts(
    drawing: Drawing, question: RefrigerantLineSizingQuestion, result: RefrigerantLineSizingResult, system: UnitSystem, y: float
) -> float:
    """Sizes by pen, flows by head, and what the riser asks. Returns the baseline after the last."""
    for pen, name, run in ((VAPOR, "vapor", question.vapor_line), (LIQUID, "liquid", question.liquid_line)):
        drawing.line(8, y - 4, 34, y - 4, pen)
        drawing.text(
            42, y, Phrase("{} line {}, {} long", name, _shown_size(name, result), run.length).shown(system), size=BODY, bold=True, within=312
        )
        y += 18.0
    if result.vapor_line.recommended is None or result.liquid_line.recommended is None:
        y = drawing.note(42, y - 3, _none_keeps(result), 312) + 3.0
    flows = result.elevations.vapor_flows
    _head(drawing, 21, y - 4, (-1.0, 0.0), True)
    y = drawing.note(42, y, _flow_in_words("cooling", "cold gas", flows, question).shown(system), 312)
    if question.heating is not None:
        _head(drawing, 21, y - 3, (1.0, 0.0), False)
        y = drawing.note(42, y + 1, _flow_in_words("heating", "hot gas", _OTHER_WAY[flows], question).shown(system), 312)
    pitch = Phrase("The level part of the vapor line falls {} toward the outdoor unit.", result.elevations.fall_toward_outdoor)
    if result.elevations.fall_toward_outdoor > 0.0:
        y = drawing.note(42, y + 1, pitch.shown(system), 312, colour=QUIET)
    if result.double_riser is not None:
        riser = Phrase("No single tube does: {} and {} side by side in the riser would.", result.double_riser.small, result.double_riser.large)
        y = drawing.note(42, y + 1, riser.shown(system), 312)
    return y


def _flow_in_words(mode: str, gas: str, flows: str, question: RefrigerantLineSizingQuestion) -> Phrase:
    end = "outdoor unit" if mode == "cooling" else "indoor coil"
    if flows == "level":
        return Phrase("{}: {} runs level to the {}; there is no riser", mode, gas, end)
    if flows == "up":
        return Phrase("{}: {} rises {} to the {} and has to carry the oil up", mode, gas, Length(abs(question.indoor_above_outdoor)), end)
    return Phrase("{}: {} runs down to the {}; oil comes by itself", mode, gas, end)
