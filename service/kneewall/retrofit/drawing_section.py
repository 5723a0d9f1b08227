"""A simple section through the attic, heights and unit true to scale: rafters, unit, attic floor, and the receiver of the drain."""

from collections.abc import Sequence

from kneewall.kernel.lettering import width_of
from kneewall.kernel.quantity import Dimension, Length, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import CENTRE, GRID, HIDDEN, INK, OUTLINE, QUIET, SMALL, SUPPLY, THIN, TINT, VERDICT_COLOURS, Drawing
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.results import RetrofitCheckResult

LEFT, RIGHT, UNIT_BOX, HIGH = 124.0, 350.0, (200.0, 80.0), 150.0
RECEIVER_AT, RECEIVER_WIDE = 312.0, 30.0
LABEL_STEP = 13.0


def draw_section(drawing: Drawing, question: RetrofitCheckQuestion, result: RetrofitCheckResult, system: UnitSystem, y: float) -> float:
    """The section, where at least two elevations are known. Returns the lowest place."""
    heights, unit = question.elevations, question.unit
    known = {
        "rafters": heights.rafter_underside, "unit base": heights.unit_base, "attic floor": heights.attic_floor, "receiver": heights.receiver_rim,
    }  # fmt: skip
    levels = {name: float(height) for name, height in known.items() if height is not None}
    top = None if heights.unit_base is None or unit.height is None else heights.unit_base + unit.height
    places = [*levels.values(), *([] if top is None else [top])]
    if len(places) < 2 or max(places) - min(places) < 1e-6:
        return y - 8.0
    drawing.text(8, y + 4, "Section through the attic", bold=True)
    drawing.text(8, y + 18, "Heights and unit to scale; the way to the receiver is not.", size=SMALL, colour=QUIET, within=344)
    y += 14.0
    wide = unit.width or Dimension.of(2, "ft")
    scale = Scale.fit((0.0, wide), (min(places), max(places)), (UNIT_BOX[0], y + 26.0, UNIT_BOX[1], HIGH))
    if "rafters" in levels:
        _draw_rafters(drawing, scale.y(levels["rafters"]))
    if "attic floor" in levels:
        _draw_floor(drawing, scale.y(levels["attic floor"]))
    if top is not None and heights.unit_base is not None:
        _draw_unit(drawing, question, scale, (float(heights.unit_base), top, wide), system)
    if "receiver" in levels:
        _draw_receiver(drawing, scale.y(levels["receiver"]))
        _draw_drain(drawing, result, scale, wide)
    _draw_labels(drawing, [(scale.y(height), f"{name} {Length(height).shown(system)}") for name, height in levels.items()])
    return y + 26.0 + HIGH + 16.0


def _draw_rafters(drawing: Drawing, y: float) -> None:
    """The lowest framing above the unit: solid matter above the line."""
    drawing.hatch(LEFT, y - 9, RIGHT - LEFT, 9, step=6.0)
    drawing.line(LEFT, y, RIGHT, y, OUTLINE)


def _draw_floor(drawing: Drawing, y: float) -> None:
    """The attic floor: solid matter below the line."""
    drawing.hatch(LEFT, y, RIGHT - LEFT, 7, step=6.0)
    drawing.line(LEFT, y, RIGHT, y, OUTLINE)


def _draw_unit(drawing: Drawing, question: RetrofitCheckQuestion, scale: Scale, unit: tuple[float, float, float], system: UnitSystem) -> None:
    """The unit end on, its rods to the framing, and what is free above and below it."""
    base, top, wide = unit
    left, right = scale.x(0.0), scale.x(wide)
    heights = question.elevations
    if heights.rafter_underside is not None and heights.rafter_underside > top and question.equipment_hanging is not None:
        for x in (left - 3, right + 3):
            drawing.line(x, scale.y(heights.rafter_underside), x, scale.y(base), THIN)
        drawing.line(left - 6, scale.y(base), right + 6, scale.y(base), SUPPLY)
    pen = OUTLINE if question.unit.width is not None else HIDDEN
    drawing.rectangle(left, scale.y(top), right - left, scale.y(base) - scale.y(top), pen, fill=TINT)
    if scale.y(base) - scale.y(top) > 30.0:
        drawing.text((left + right) / 2, (scale.y(base) + scale.y(top)) / 2 + 4, "unit", size=SMALL, at="middle", within=right - left)
    x = left - 14.0
    _dimension(drawing, x, scale.y(base), scale.y(top), Dimension(top - base), system)
    if heights.rafter_underside is not None:
        _dimension(drawing, x, scale.y(top), scale.y(heights.rafter_underside), Dimension(heights.rafter_underside - top), system)
    if heights.attic_floor is not None:
        _dimension(drawing, x, scale.y(heights.attic_floor), scale.y(base), Dimension(base - heights.attic_floor), system)


def _dimension(drawing: Drawing, x: float, low: float, high: float, length: Dimension, system: UnitSystem) -> None:
    """An upright dimension with its figure beside it; one that is too short for its figure is left to the levels at the left."""
    if length <= 0.0:
        if length < -1e-6:
            drawing.text(x, high + 12, f"{Dimension(-length).shown(system)} short", size=SMALL, at="end", colour=VERDICT_COLOURS["fails"], bold=True)
    elif low - high >= 12.0:
        drawing.dimension(x, low, x, high, length.shown(system), beside="end")


def _draw_receiver(drawing: Drawing, y: float) -> None:
    """A standpipe or basin with its flood rim at the level given."""
    drawing.polyline(
        [(RECEIVER_AT, y), (RECEIVER_AT + 4, y + 16), (RECEIVER_AT + RECEIVER_WIDE - 4, y + 16), (RECEIVER_AT + RECEIVER_WIDE, y)], OUTLINE
    )
    drawing.line(RECEIVER_AT + RECEIVER_WIDE / 2, y + 16, RECEIVER_AT + RECEIVER_WIDE / 2, y + 22, OUTLINE)
    drawing.line(LEFT, y, RECEIVER_AT, y, CENTRE)


def _draw_drain(drawing: Drawing, result: RetrofitCheckResult, scale: Scale, wide: float) -> None:
    """The drain from the pan's outlet through its trap to where it ends above the receiver; heights to scale, the way broken."""
    answer, asked = result.parts.condensate_drain, result.questions.get("condensate-drain")
    if answer is None or answer.result.elevations is None or asked is None or asked.elevations is None:
        return
    found, x = answer.result.elevations, scale.x(wide)
    outlet, end = scale.y(asked.elevations.pan_outlet), scale.y(found.end_of_run)
    bottom, leaves = scale.y(found.trap_bottom), scale.y(found.trap_outlet)
    middle = RECEIVER_AT + RECEIVER_WIDE / 2
    points = [(x, outlet), (x + 4, outlet), (x + 4, bottom), (x + 9, bottom), (x + 9, leaves), (middle, end)]
    drawing.polyline(points, SUPPLY)
    drawing.arrow(middle, end, middle, end + 8.0, THIN)


def _draw_labels(drawing: Drawing, labels: Sequence[tuple[float, str]]) -> None:
    """The levels at the left, moved apart where they would cover each other, each with a line to its height."""
    placed: list[tuple[float, float, str]] = []
    for y, words in sorted(labels):
        at = y if not placed else max(y, placed[-1][0] + LABEL_STEP)
        placed.append((at, y, words))
    for at, y, words in placed:
        drawing.text(8, at + 3.5, words, size=SMALL, within=108, colour=INK)
        start = 12 + min(108.0, width_of(words, SMALL))
        drawing.polyline([(start, at), (LEFT - 6, y), (LEFT, y)], GRID)
