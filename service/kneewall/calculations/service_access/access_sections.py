"""The clear opening and the passage in section, to one scale, with the face of the largest piece that fits best in each."""

from math import acos, atan2, cos, hypot, sin

from kneewall.calculations.service_access.fit import Box, Way, clearance, goes_straight, goes_turned, ways
from kneewall.calculations.service_access.messages import ServiceAccessQuestion, ServiceAccessResult
from kneewall.calculations.service_access.rules import Access
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import HIDDEN, LIMIT, OUTLINE, PAPER, QUIET, SMALL, Drawing, Pen, Point

BOX_WIDTH, BOX_HEIGHT, FIRST, SECOND = 98.0, 122.0, 72.0, 250.0
FLOOR_LINE = Pen("#1d2b2a", 4.0)


def best_way(question: ServiceAccessQuestion, long: float, short: float) -> tuple[Way, float]:
    """The face that goes through best, and the angle, rad, at which it does: straight, else turned, else the least bad straight one."""
    piece = question.largest_component
    every = sorted(ways(Box(piece.length, piece.width, piece.height)), key=lambda way: -clearance(way, long, short))
    if goes_straight(every[0], long, short):
        return every[0], 0.0
    turned = next((way for way in every if goes_turned(way, long, short)), None)
    return (every[0], 0.0) if turned is None else (turned, turned_by(turned, long))


def turned_by(way: Way, long: float) -> float:
    """The angle, rad, at which a face p x q longer than the opening's side a just fits along it: p cos t + q sin t = a."""
    across = hypot(way.long, way.short)
    return atan2(way.short, way.long) + acos(max(-1.0, min(1.0, long / across)))


def draw_sections(
    drawing: Drawing, y: float, question: ServiceAccessQuestion, result: ServiceAccessResult, access: Access, system: UnitSystem
) -> float:
    """Both sections side by side. Returns the next free baseline."""
    short, long = sorted((float(question.opening.length), float(question.opening.width)))
    passage = question.passage
    way, angle = best_way(question, long, short)
    along = None if passage is None else best_way(question, *sorted((passage.width, passage.height), reverse=True))[0]
    widths, heights = [long, access.opening_length, _reach(way, angle)[0]], [short, access.opening_width, _reach(way, angle)[1]]
    if passage is not None and along is not None:
        flat = passage.width >= passage.height
        widths += [passage.width, access.passage_width, along.long if flat else along.short]
        heights += [passage.height, access.passage_height, along.short if flat else along.long]
    factor = min(BOX_WIDTH / max(widths), BOX_HEIGHT / max(heights))
    drawing.text(14, y, "Opening and passage, looking through", bold=True)
    drawing.text(14, y + 14, "to one scale; dotted: the least; dashed: largest piece", size=SMALL, colour=QUIET)
    ground = y + 36 + factor * max(heights)
    _draw_opening(drawing, Scale(FIRST, ground, factor), (long, short), access, way, angle, system)
    if passage is not None and along is not None:
        _draw_passage(drawing, Scale(SECOND, ground, factor), question, access, along, system)
    y = ground + 52.0
    for phrase in section_words(result):
        y = drawing.note(14, y, phrase.shown(system), 332)
    if passage is not None:
        floor = "the bar below the passage is its solid floor" if passage.solid_floor else "the dashes below the passage are its floor, with gaps"
        y = drawing.note(14, y, floor, 332)
    return y


def _reach(way: Way, angle: float) -> tuple[float, float]:
    return way.long * cos(angle) + way.short * sin(angle), way.long * sin(angle) + way.short * cos(angle)


def _frame(drawing: Drawing, scale: Scale, size: tuple[float, float], pen: Pen, fill: str = "none") -> None:
    drawing.rectangle(scale.x(0.0), scale.y(size[1]), scale.length(size[0]), scale.length(size[1]), pen, fill=fill)


def _sizes(drawing: Drawing, scale: Scale, name: str, size: tuple[float, float], system: UnitSystem) -> None:
    left, right, ground = scale.x(0.0), scale.x(size[0]), scale.y(0.0)
    drawing.dimension(left, ground + 20, right, ground + 20, "")
    drawing.text(left, ground + 33, f"{name} {Dimension(size[0]).shown(system)}", size=SMALL, within=112)
    drawing.dimension(left - 9, scale.y(size[1]), left - 9, ground, "")
    drawing.text(left - 14, (scale.y(size[1]) + ground) / 2.0 + 3.7, Dimension(size[1]).shown(system), size=SMALL, at="end")


def _draw_opening(drawing: Drawing, scale: Scale, size: tuple[float, float], access: Access, way: Way, angle: float, system: UnitSystem) -> None:
    _frame(drawing, scale, size, OUTLINE, PAPER)
    _frame(drawing, scale, (access.opening_length, access.opening_width), LIMIT)
    wide, high = _reach(way, angle)
    middle = (size[0] / 2.0, size[1] / 2.0) if wide <= size[0] * 1.001 and high <= size[1] * 1.001 else (wide / 2.0, high / 2.0)
    corners: list[Point] = []
    for x, y in ((-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)):
        across, up = x * way.long, y * way.short
        corners.append((scale.x(middle[0] + across * cos(angle) - up * sin(angle)), scale.y(middle[1] + across * sin(angle) + up * cos(angle))))
    drawing.polygon(corners, HIDDEN)
    _sizes(drawing, scale, "opening", size, system)


def _draw_passage(drawing: Drawing, scale: Scale, question: ServiceAccessQuestion, access: Access, along: Way, system: UnitSystem) -> None:
    passage = question.passage
    assert passage is not None
    _frame(drawing, scale, (passage.width, passage.height), OUTLINE, PAPER)
    floor = min(passage.floor_width, passage.width)  # one that runs on below what narrows the passage is cut off here
    start = (passage.width - floor) / 2.0
    drawing.line(scale.x(start), scale.y(0.0) + 4, scale.x(start + floor), scale.y(0.0) + 4, FLOOR_LINE if passage.solid_floor else HIDDEN)
    _frame(drawing, scale, (access.passage_width, access.passage_height), LIMIT)
    size = (along.long, along.short) if passage.width >= passage.height else (along.short, along.long)
    _frame(drawing, scale, size, HIDDEN)
    _sizes(drawing, scale, "passage", (passage.width, passage.height), system)


def section_words(result: ServiceAccessResult) -> list[Phrase]:
    """How the largest piece goes through."""
    found, lines = result.removal, []
    spare = found.opening_clearance
    words = {
        "straight": Phrase("through the opening it goes straight, {} to spare", spare),
        "turned": Phrase("through the opening it goes only turned askew"),
        "no": Phrase("through the opening it does not go: {} is missing", Dimension(-spare)),
    }
    lines.append(words[found.through_opening])
    if found.passage_clearance is not None:
        missing = found.passage_clearance < 0.0
        says = "along the passage it does not go: {} is missing" if missing else "along the passage it goes, {} to spare"
        lines.append(Phrase(says, Dimension(abs(found.passage_clearance))))
    if found.must_be_tipped:
        lines.append(Phrase("coming up through a ceiling hatch it must be tipped on the way"))
    return lines
