"""Opening, passage and service space from above, to scale, against what the code edition asks for."""

from kneewall.calculations.service_access.messages import AccessPassage, ServiceAccessQuestion, ServiceAccessResult
from kneewall.calculations.service_access.rules import Access
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import LIMIT, NO_LINE, OUTLINE, PAPER, QUIET, SMALL, THIN, TINT, Drawing, Pen

BOX_LEFT, BOX_WIDTH, BOX_HEIGHT = 20.0, 320.0, 150.0
LONGEST = Length.of(40, "ft")
"""A longer passage is drawn this long with a break in it."""
FLOOR = "#e3dccb"


def drawn_length(passage: AccessPassage | None) -> float:
    """How long the passage is drawn, m."""
    return 0.0 if passage is None else min(passage.length, LONGEST)


def draw_plan(drawing: Drawing, y: float, question: ServiceAccessQuestion, result: ServiceAccessResult, access: Access, system: UnitSystem) -> float:
    """The plan with its heading and dimensions. Returns the next free baseline."""
    short, long = sorted((question.opening.length, question.opening.width))
    piece, space, passage = question.largest_component, question.service_space, question.passage
    front, beside = (0.0, 0.0) if space is None else sorted((space.length, space.width))
    asked = 0.0 if _excused(result) else float(access.space)
    way, room = drawn_length(passage), max(front, asked)
    unit_long, unit_wide = max(piece.length, piece.width), min(piece.length, piece.width)
    total = long + way + room + unit_wide
    half = max(short, unit_long, beside, asked, 0.0 if passage is None else max(passage.width, passage.floor_width, access.passage_width)) / 2.0
    high = min(BOX_HEIGHT, BOX_WIDTH * 2.0 * half / total)
    scale = Scale.fit((0.0, total), (-half, half), (BOX_LEFT, y + 24, BOX_WIDTH, high))
    drawing.text(14, y, "From above", bold=True)
    drawing.text(14, y + 14, "to scale, in a line; the largest piece for the equipment", size=SMALL, colour=QUIET)
    _block(drawing, scale, 0.0, long, short, OUTLINE, PAPER)
    if passage is not None:
        _draw_passage(drawing, scale, long, passage, access, result)
    at = long + way
    if space is not None:
        _block(drawing, scale, at, front, beside, OUTLINE, TINT if space.level else PAPER)
    if asked:
        _block(drawing, scale, at, asked, asked, LIMIT, "none")
    _block(drawing, scale, at + room, unit_wide, unit_long, THIN, "none")
    left, top = scale.x(at + room), scale.y(unit_long / 2.0)
    drawing.hatch(left, top, scale.length(unit_wide), scale.length(unit_long), step=6.0)
    return _dimensions(drawing, scale, half, (long, way, room), question, result, access, system)


def _block(drawing: Drawing, scale: Scale, start: float, long: float, wide: float, pen: Pen, fill: str) -> None:
    """A rectangle on the way's centerline."""
    drawing.rectangle(scale.x(start), scale.y(wide / 2.0), scale.length(long), scale.length(wide), pen, fill=fill)


def _excused(result: ServiceAccessResult) -> bool:
    """Whether no service space is asked for."""
    return any(one.item == "service space" and one.required == "not needed" for one in result.requirements)


def _draw_passage(drawing: Drawing, scale: Scale, start: float, passage: AccessPassage, access: Access, result: ServiceAccessResult) -> None:
    """The way with its floor, the width asked for, a break where it is drawn shorter, and where the length allowed ends."""
    drawn = drawn_length(passage)
    _block(drawing, scale, start, drawn, passage.width, NO_LINE, PAPER)
    _block(drawing, scale, start, drawn, passage.floor_width, THIN, FLOOR if passage.solid_floor else "none")
    ends = scale.x(start), scale.x(start + drawn)
    for side in (-0.5, 0.5):
        drawing.line(ends[0], scale.y(side * passage.width), ends[1], scale.y(side * passage.width))
        drawing.line(ends[0], scale.y(side * access.passage_width), ends[1], scale.y(side * access.passage_width), LIMIT)
    half = scale.length(passage.width) / 2.0
    middle, axis = (ends[0] + ends[1]) / 2.0, scale.y(0.0)
    if drawn < passage.length:
        for x in (middle - 3, middle + 3):
            drawing.polyline([(x - 3, axis + half + 5), (x + 3, axis + 2), (x - 3, axis - 2), (x + 3, axis - half - 5)], THIN)
    limit = result.passage_length_limit
    if limit is not None and limit < passage.length and drawn == passage.length:
        x = scale.x(start + limit)
        drawing.line(x, axis - half - 7, x, axis + half + 7, LIMIT)


def _dimensions(
    drawing: Drawing, scale: Scale, half: float, parts: tuple[float, float, float], question: ServiceAccessQuestion,
    result: ServiceAccessResult, access: Access, system: UnitSystem,
) -> float:  # fmt: skip
    """The lengths in a row below the plan, keyed by number to the words beneath."""
    y, at = scale.y(-half) + 18.0, 0.0
    for number, part in enumerate((*parts, min(question.largest_component.length, question.largest_component.width)), 1):
        left, right = scale.x(at), scale.x(at + part)
        if part > 0.0:
            drawing.dimension(left, y, right, y, "")
            drawing.text((left + right) / 2.0, y - 5, str(number), size=SMALL, at="middle", bold=True)
        at += part
    y += 19.0
    for phrase in plan_words(question, result, access):
        y = drawing.note(14, y, phrase.shown(system), 332)
    return y


def plan_words(question: ServiceAccessQuestion, result: ServiceAccessResult, access: Access) -> list[Phrase]:
    """What the numbers in the plan stand for, with what is asked for."""
    short, long = sorted((question.opening.length, question.opening.width))
    passage, space, piece = question.passage, question.service_space, question.largest_component
    lines = [Phrase("1 opening {} x {}, at least {} x {}", Dimension(long), Dimension(short), access.opening_length, access.opening_width)]
    if passage is not None:
        floor = "solid floor" if passage.solid_floor else "floor with gaps"
        lines.append(Phrase("2 passage {} long, {} wide, {} {} wide", passage.length, passage.width, floor, passage.floor_width))
        if drawn_length(passage) < passage.length:
            lines.append(Phrase("the passage is drawn {} long, with a break", LONGEST))
        limit = result.passage_length_limit
        asked = Phrase("dotted: at least {} wide, floor {}", access.passage_width, access.floor_width)
        lines.append(asked if limit is None else Phrase("{}; at most {} long", asked, limit))
    least = "none is asked for" if _excused(result) else Phrase("at least {} x {} (dotted)", access.space, access.space)
    if space is None:
        lines.append(Phrase("3 no level space at the equipment; {}", least))
    else:
        level = "level space" if space.level else "space, not level,"
        lines.append(Phrase("3 {} {} x {}; {}", level, space.length, space.width, least))
    lines.append(Phrase("4 largest piece {} x {} x {}, hatched", piece.length, piece.width, piece.height))
    return lines
