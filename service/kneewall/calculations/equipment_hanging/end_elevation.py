"""The hung unit from its more heavily loaded end: framing, rods, channel, unit and pan, and what the two rods carry."""

from kneewall.calculations.equipment_hanging.answers import EquipmentHangingResult, RodLoad
from kneewall.calculations.equipment_hanging.calculate import inset_of
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion, Trapeze
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import CENTRE, INK, NO_LINE, PAPER, QUIET, SMALL, SUPPLY, THIN, TINT, WIDTH, Drawing, Pen
from kneewall.kernel.words import in_words

BOX_WIDTH, MOST_FACTOR = 228.0, 460.0
"""The widest thing fills the box; a small unit is not drawn larger than this many units per m."""
MOST_HEIGHT, UNIT_SHARE = 86.0, 0.75
MEMBERS = {"rafter": "rafters", "joist": "joists", "truss": "trusses"}
ROD, CHANNEL, OVERHANG = Pen(INK, 2.0), 8.0, 9.0


def loaded_end(rods: list[RodLoad]) -> str:
    """The end at which the most loaded rod stands: front or back."""
    return max(rods, key=lambda rod: rod.load).corner.partition("-")[0]


def channel_above(question: EquipmentHangingQuestion) -> bool:
    """Whether the channels lie on the framing and carry the rods: wider apart at their supports than the rods are."""
    return question.trapeze is not None and question.trapeze.span > question.rods.across * (1.0 + 1e-6)


def draw_end(drawing: Drawing, y: float, question: EquipmentHangingQuestion, result: EquipmentHangingResult, system: UnitSystem) -> float:
    """The elevation with its heading and notes. Returns the next free baseline."""
    end, trapeze, pan = loaded_end(result.rods), question.trapeze, question.pan
    across, unit = question.rods.across, question.equipment
    widest = max(across, unit.width, 0.0 if pan is None else pan.width, 0.0 if trapeze is None else trapeze.span)
    scale = Scale(WIDTH / 2.0, 0.0, min(BOX_WIDTH / widest, MOST_FACTOR))
    drawing.text(14, y, f"Seen from the {end} end", bold=True)
    drawing.text(14, y + 14, "where a rod carries most; widths to scale, heights are not asked", size=SMALL, colour=QUIET)
    top = y + 34.0
    left, right = scale.x(-across / 2.0), scale.x(across / 2.0)
    framing = _draw_framing(drawing, top, left, right, scale, question)
    height = min(MOST_HEIGHT, UNIT_SHARE * scale.length(unit.width))
    base = framing + 52.0 + height
    depth = 0.0 if pan is None else max(3.0, scale.length(pan.depth))
    foot = base + (depth + 4.0 if pan is not None else 0.0)
    below = foot + 1.0 if trapeze is not None and not channel_above(question) else base - 6.0
    for x in (left, right):
        drawing.line(x, framing, x, below + CHANNEL, ROD)
        if question.isolator is not None:
            drawing.polyline([(x, framing + 14), (x - 4, framing + 17), (x + 4, framing + 21), (x - 4, framing + 25), (x, framing + 28)], THIN)
    _draw_unit(drawing, scale, question, base, height, depth)
    if trapeze is not None and not channel_above(question):
        _draw_channel(drawing, scale, trapeze, left, right, below)
    elif trapeze is None or channel_above(question):
        half = unit.width / 2.0
        drawing.polyline([(left, base - 2), (scale.x(-half), base - 2)], ROD)
        drawing.polyline([(right, base - 2), (scale.x(half), base - 2)], ROD)
    _draw_loads(drawing, left, right, framing + 34.0, result.rods, end, system)
    bottom = _draw_widths(drawing, scale, question, max(foot, below + CHANNEL) + 14.0, system)
    return _notes(drawing, bottom, question, result, system)


def _draw_framing(drawing: Drawing, top: float, left: float, right: float, scale: Scale, question: EquipmentHangingQuestion) -> float:
    """The members in section, and a channel upon them where the rods hang from one. Returns where the rods begin."""
    trapeze, places = question.trapeze, (left, right)
    if trapeze is not None and channel_above(question):
        places = (scale.x(-trapeze.span / 2.0), scale.x(trapeze.span / 2.0))
    for x in places:
        drawing.rectangle(x - 8, top, 16, 26, THIN, fill=TINT)
        drawing.hatch(x - 8, top, 16, 26, step=6.0, pen=Pen(QUIET, 0.7))
    drawing.text(
        WIDTH / 2.0,
        top + 14,
        f"{MEMBERS[question.framing.kind]}, in section",
        size=SMALL,
        at="middle",
        colour=QUIET,
        within=places[1] - places[0] - 20,
    )
    if trapeze is not None and channel_above(question):
        drawing.rectangle(places[0] - OVERHANG, top + 27, places[1] - places[0] + 2 * OVERHANG, CHANNEL, THIN, fill=PAPER)
        return top + 27.0 + CHANNEL
    for x in places:
        drawing.polygon([(x - 3, top + 26), (x + 3, top + 26), (x, top + 12)], NO_LINE, fill=INK)
    return top + 26.0


def _draw_unit(drawing: Drawing, scale: Scale, question: EquipmentHangingQuestion, base: float, height: float, depth: float) -> None:
    unit, pan = question.equipment, question.pan
    left, wide = scale.x(-unit.width / 2.0), scale.length(unit.width)
    drawing.rectangle(left, base - height, wide, height, fill=TINT)
    drawing.line(WIDTH / 2.0, base - height - 8, WIDTH / 2.0, base + 6, CENTRE)
    drawing.text(WIDTH / 2.0, base - height / 2.0 + 4, "unit", size=SMALL, at="middle", colour=QUIET)
    if pan is not None:
        half = pan.width / 2.0
        drawing.rectangle(scale.x(-half), base + 4, scale.length(pan.width), depth, NO_LINE, fill="#9cc3cf")
        points = ((-half, base + 3), (-half, base + 4 + depth), (half, base + 4 + depth), (half, base + 3))
        drawing.polyline([(scale.x(place), y) for place, y in points])


def _draw_channel(drawing: Drawing, scale: Scale, trapeze: Trapeze, left: float, right: float, y: float) -> None:
    """The channel under unit and pan with nuts at the rods, its supports, and its two load points."""
    half, inset = trapeze.span / 2.0, inset_of(trapeze)
    drawing.rectangle(left - OVERHANG, y, right - left + 2 * OVERHANG, CHANNEL, fill=PAPER)
    drawing.line(left - OVERHANG, y + 2.5, right + OVERHANG, y + 2.5, THIN)
    for x in (left, right):
        drawing.rectangle(x - 4, y + CHANNEL, 8, 4, THIN, fill=INK)
    for place in {-half + inset, half - inset}:
        drawing.polygon([(scale.x(place), y), (scale.x(place) - 3, y - 5), (scale.x(place) + 3, y - 5)], NO_LINE, fill=INK)


def _draw_loads(drawing: Drawing, left: float, right: float, y: float, rods: list[RodLoad], end: str, system: UnitSystem) -> None:
    """The pull of each rod as an arrow and a figure. Seen from the front the unit's right is on the left."""
    sides = ("right", "left") if end == "front" else ("left", "right")
    by_corner = {rod.corner: rod for rod in rods}
    for x, side, at, shift in ((left, sides[0], "end", -12.0), (right, sides[1], "start", 12.0)):
        rod = by_corner[f"{end}-{side}"]  # type: ignore[index]
        drawing.arrow(x + shift * 0.55, y, x + shift * 0.55, y + 24, SUPPLY)
        room = x + shift - 4 if at == "end" else WIDTH - x - shift - 4
        drawing.text(x + shift, y + 8, rod.load.shown(system), size=SMALL, at=at, bold=True, within=room)  # type: ignore[arg-type]
        drawing.text(x + shift, y + 21, side, size=SMALL, at=at, colour=QUIET, within=room)  # type: ignore[arg-type]


def _draw_widths(drawing: Drawing, scale: Scale, question: EquipmentHangingQuestion, y: float, system: UnitSystem) -> float:
    """Everything that is drawn to scale, one dimension below the other."""
    trapeze, pan = question.trapeze, question.pan
    widths: list[tuple[str, Dimension]] = [("unit", question.equipment.width)]
    widths += [] if pan is None else [("pan", pan.width)]
    widths.append(("rods", question.rods.across))
    widths += [] if trapeze is None else [("channel between supports", trapeze.span)]
    for name, width in widths:
        y += 17.0
        half = width / 2.0
        drawing.dimension(scale.x(-half), y, scale.x(half), y, f"{name} {width.shown(system)}")
    return y + 18.0


def _notes(drawing: Drawing, y: float, question: EquipmentHangingQuestion, result: EquipmentHangingResult, system: UnitSystem) -> float:
    anchor, framing = result.anchor, question.framing
    lines = [
        Phrase("{} threaded rods, {} allowed on each", question.rods.diameter, result.rods[0].limit),
        Phrase("anchors: {}, {} of {} used", in_words(question.anchor.kind), percent(anchor.use), anchor.allowable),
        Phrase("hangs: {}", result.load.total)
        if question.pan is None
        else Phrase("hangs: {}, of which {} water in the pan", result.load.total, result.load.pan_water),
        Phrase("{} {}, up to {} on one of them", framing.members, MEMBERS[framing.kind], result.framing.most_loaded_member),
    ]
    if question.trapeze is not None and result.trapeze is not None:
        where = (
            "both loads taken at its middle"
            if question.trapeze.rod_inset is None
            else Phrase("loads {} from its supports", question.trapeze.rod_inset)
        )
        lines.insert(1, Phrase("channel {}: {} used, {}", in_words(question.trapeze.section), percent(result.trapeze.use), where))
    for phrase in lines:
        y = drawing.note(14, y, phrase.shown(system), 332)
    return y


def percent(share: float) -> str:
    """A use as people say it, rounded up so that what is over never reads as all."""
    if share < 0.0005:
        return "0 %"
    return f"{-(-share * 1000.0 // 1.0) / 10.0:.3g} %" if share < 1.0 else f"{share * 100.0:,.0f} %" if share >= 1.1 else f"{share * 100.0:.1f} %"
