"""The four rods from above, true to scale: the weight's center, and every rod's load and use."""

from kneewall.calculations.equipment_hanging.answers import EquipmentHangingResult, RodLoad
from kneewall.calculations.equipment_hanging.end_elevation import percent
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion
from kneewall.calculations.equipment_hanging.sharing import CORNERS, hung_weight
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import CENTRE, HIDDEN, INK, PAPER, QUIET, SMALL, THIN, TINT, WIDTH, At, Drawing, Pen

BOX_WIDTH, BOX_HEIGHT = 220.0, 170.0
CHANNEL = Pen(QUIET, 5.0)
LABEL = 32.0
"""room above and below the plan for two lines at each corner"""


def weight_centre(question: EquipmentHangingQuestion) -> tuple[Dimension, Dimension]:
    """Where the center of everything that hangs stands from the middle of the rods: towards the front, towards the right."""
    hung, rods = hung_weight(question), question.rods
    return Dimension(hung.u * rods.along / 2.0), Dimension(hung.v * rods.across / 2.0)


def draw_plan(drawing: Drawing, y: float, question: EquipmentHangingQuestion, result: EquipmentHangingResult, system: UnitSystem) -> float:
    """The plan with its heading and dimensions. Returns the next free baseline."""
    rods, unit, pan = question.rods, question.equipment, question.pan
    along = max(rods.along, unit.length, 0.0 if pan is None else pan.length) / 2.0
    across = max(rods.across, unit.width, 0.0 if pan is None else pan.width) / 2.0
    drawing.text(14, y, "The rods from above", bold=True)
    drawing.text(14, y + 14, "to scale; the front is on the right of the drawing", size=SMALL, colour=QUIET)
    factor = min(BOX_WIDTH / (2.0 * along), BOX_HEIGHT / (2.0 * across))
    middle = y + 24 + LABEL + across * factor
    scale = Scale(WIDTH / 2.0, middle, factor)
    _rectangle(drawing, scale, unit.length, unit.width, THIN, TINT)
    if pan is not None:
        _rectangle(drawing, scale, pan.length, pan.width, HIDDEN, "none")
    if question.trapeze is not None:
        for end in (-1.0, 1.0):
            x = scale.x(end * rods.along / 2.0)
            drawing.line(x, scale.y(rods.across / 2.0) - 8, x, scale.y(-rods.across / 2.0) + 8, CHANNEL)
    drawing.line(scale.x(-along) - 6, middle, scale.x(along) + 6, middle, CENTRE)
    drawing.line(WIDTH / 2.0, scale.y(across) - 6, WIDTH / 2.0, scale.y(-across) + 6, CENTRE)
    _draw_rods(drawing, scale, (scale.y(across), scale.y(-across)), question, result.rods, system)
    _draw_centre(drawing, scale, question)
    return _dimensions(drawing, scale, across, question, result, system)


def _rectangle(drawing: Drawing, scale: Scale, length: float, width: float, pen: Pen, fill: str) -> None:
    drawing.rectangle(scale.x(-length / 2.0), scale.y(width / 2.0), scale.length(length), scale.length(width), pen, fill=fill)


def _draw_rods(
    drawing: Drawing, scale: Scale, edges: tuple[float, float], question: EquipmentHangingQuestion, rods: list[RodLoad], system: UnitSystem
) -> None:
    """Each rod as a ring with its load and use outside the plan; the most loaded one is filled."""
    most = max(rod.load for rod in rods)
    by_corner = {rod.corner: rod for rod in rods}
    for corner, front, right in CORNERS:
        rod = by_corner[corner]
        x, y = scale.x(front * question.rods.along / 2.0), scale.y(-right * question.rods.across / 2.0)
        drawing.circle(x, y, 5.0, Pen(INK, 1.6), fill=INK if rod.load == most else PAPER)
        at: At = "start" if front > 0.0 else "end"
        label = min(x, WIDTH / 2.0 - 14) if at == "end" else max(x, WIDTH / 2.0 + 14)
        room = WIDTH / 2.0 - 18.0
        label = max(label, room + 6.0) if at == "end" else min(label, WIDTH - room - 6.0)
        first = edges[1] + 20 if right > 0.0 else edges[0] - 21
        drawing.text(label, first, f"{rod.load.shown(system)}, {percent(rod.use)}", size=SMALL, at=at, bold=True, within=room)
        drawing.text(label, first + 12, corner.replace("-", " "), size=SMALL, at=at, colour=QUIET, within=room)


def _draw_centre(drawing: Drawing, scale: Scale, question: EquipmentHangingQuestion) -> None:
    """The weight's center: a ring with two quarters filled."""
    along, across = weight_centre(question)
    x, y = scale.x(along), scale.y(-across)
    drawing.circle(x, y, 7.0, Pen(INK, 1.2), fill=PAPER)
    drawing.polygon([(x, y), (x, y - 7), (x + 5, y - 5), (x + 7, y)], Pen("none", 0), fill=INK)
    drawing.polygon([(x, y), (x, y + 7), (x - 5, y + 5), (x - 7, y)], Pen("none", 0), fill=INK)


def _dimensions(
    drawing: Drawing, scale: Scale, across: float, question: EquipmentHangingQuestion, result: EquipmentHangingResult, system: UnitSystem
) -> float:
    rods = question.rods
    y, half = scale.y(-across) + 52.0, rods.along / 2.0
    drawing.dimension(scale.x(-half), y, scale.x(half), y, f"rods {rods.along.shown(system)}")
    half = rods.across / 2.0
    drawing.dimension(64, scale.y(half), 64, scale.y(-half), "")
    drawing.text(58, scale.y(0.0) + 3.7, rods.across.shown(system), size=SMALL, at="end")
    along, right = weight_centre(question)
    ways = ("front" if along >= 0.0 else "back", "right" if right >= 0.0 else "left")
    words = (
        Phrase("quartered ring: the weight's center, in the middle of the rods")
        if abs(along) + abs(right) < 1e-6
        else Phrase(
            "quartered ring: the weight's center, {} towards the {} and {} towards the {}",
            Dimension(abs(along)),
            ways[0],
            Dimension(abs(right)),
            ways[1],
        )
    )
    y = drawing.note(14, y + 18.0, words.shown(system), 332)
    if question.pan is not None:
        y = drawing.note(14, y, "dashed: the pan, counted full of water", 332)
    y = drawing.note(14, y, Phrase("loads: the larger of a stiff frame's and two trapezes'; % of what a rod may carry").shown(system), 332)
    slack = Phrase("with one rod slack another may carry {}, {}", result.slack_rod.load, percent(result.slack_rod.use))
    return drawing.note(14, y, slack.shown(system), 332)
