"""The trap from the side, true to scale, with its three heights and the water in it while the fan runs."""

from typing import NamedTuple

from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.calculations.condensate_drain.trap import WATER_COLUMN, balance
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import GRID, INK, LIMIT, PAPER, QUIET, SMALL, THIN, Drawing, Pen

WATER = "#9cc3cf"
BOX_LEFT, BOX_WIDTH, BOX_HEIGHT = 80.0, 188.0, 184.0
LEFT_LINE, RIGHT_LINE = 72.0, 276.0
PAN_REACH, INLET_LEG, OUTLET_LEG, PIPE_END, HEADROOM = -2.4, 1.8, 4.4, 7.0, 2.2
"""Places across and room above, in outside diameters: none of them is asked or answered, so none carries a dimension."""
DRAWN_CLEARANCE = 1.8
"""What stands further below the pan outlet than this many trap heights is only told."""


class TrapDrawn(NamedTuple):
    """The trap that is drawn: the one that is there, or else the one that is asked for. In m; `head` is the pan's pressure as water."""

    outlet_drop: Dimension
    seal_depth: Dimension
    overall: Dimension
    outside: Dimension
    inside: Dimension
    head: Dimension
    draw_through: bool

    @property
    def inlet_level(self) -> float:
        """Water in the inlet leg above the pan outlet's invert while the fan runs: -H + P under suction, -H - P under pressure."""
        return -self.outlet_drop + (self.head if self.draw_through else -self.head)

    @property
    def blown(self) -> bool:
        """Whether the fan blows the seal out: no more seal than pressure."""
        return not self.draw_through and self.head > 0.0 and self.head >= self.seal_depth * (1.0 - 1e-9)

    @property
    def floods(self) -> bool:
        """Whether suction holds the water up to the pan: no more drop than pressure."""
        return self.draw_through and self.head > 0.0 and self.head >= self.outlet_drop * (1.0 - 1e-9)


def trap_drawn(question: CondensateDrainQuestion, result: CondensateDrainResult) -> TrapDrawn:
    """The trap to draw. Overall height: H + J + outside diameter."""
    there, pipe = question.trap, result.pipe
    drop, seal = (result.trap.outlet_drop, result.trap.seal_depth) if there is None else (there.outlet_drop, there.seal_depth)
    return TrapDrawn(
        drop, seal, Dimension(drop + seal + pipe.outside_diameter), pipe.outside_diameter, pipe.inside_diameter,
        Dimension(question.pan_static_pressure * WATER_COLUMN), question.fan_position == "draw-through",
    )  # fmt: skip


def draw_trap(drawing: Drawing, y: float, question: CondensateDrainQuestion, result: CondensateDrainResult, system: UnitSystem) -> float:
    """The elevation with its heading and notes. Returns the next free baseline."""
    trap = trap_drawn(question, result)
    clear = None if result.elevations is None else result.elevations.clear_height
    lowest = -trap.overall
    if clear is not None and 0.0 <= clear <= DRAWN_CLEARANCE * trap.overall:
        lowest = min(lowest, -clear)
    drawing.text(14, y, "The trap that is there, from the side" if question.trap else "Trap, from the side", bold=True)
    drawing.text(14, y + 14, "heights and pipe to scale; distances across are not asked", size=SMALL, colour=QUIET)
    outside = trap.outside
    span, rise = (PAN_REACH * outside, PIPE_END * outside), (lowest, HEADROOM * outside)
    high = min(BOX_HEIGHT, BOX_WIDTH * (rise[1] - rise[0]) / (span[1] - span[0]))
    scale = Scale.fit(span, rise, (BOX_LEFT, y + 26, BOX_WIDTH, high))
    _draw_extensions(drawing, trap, scale)
    _draw_pan(drawing, trap, scale)
    _draw_pipe(drawing, trap, scale)
    _draw_levels(drawing, trap, scale)
    _draw_dimensions(drawing, trap, scale, system)
    bottom = scale.y(lowest) + 12.0
    if clear is not None and lowest <= -clear <= 0.0:
        _draw_below(drawing, scale.y(-clear), clear, system)
        bottom += 12.0
    return _notes(drawing, max(bottom, y + 60.0) + 8.0, trap, question, result, system)


def _draw_pan(drawing: Drawing, trap: TrapDrawn, scale: Scale) -> None:
    left, right, floor = scale.x(PAN_REACH * trap.outside), scale.x(0.0), scale.y(0.0)
    rim = scale.y(HEADROOM * trap.outside)
    if trap.floods:
        top = max(scale.y(trap.inlet_level), rim + 2.0)
        drawing.rectangle(left, top, right - left, floor - top, Pen("none", 0), fill=WATER)
    drawing.polyline([(left, floor), (right, floor), (right, rim)], Pen(INK, 2.2))
    drawing.text(left + 2, rim + 9, "pan", size=SMALL, colour=QUIET)


def _draw_pipe(drawing: Drawing, trap: TrapDrawn, scale: Scale) -> None:
    """The pipe as its wall, its bore and the water in it, along one centerline."""
    outside, middle = trap.outside, trap.inside / 2.0
    inlet, outlet = scale.x(INLET_LEG * outside), scale.x(OUTLET_LEG * outside)
    bottom, end = scale.y(-trap.overall + outside / 2.0), scale.x(PIPE_END * outside)
    way = [(scale.x(0.0), scale.y(middle)), (inlet, scale.y(middle)), (inlet, bottom), (outlet, bottom)]
    way += [(outlet, scale.y(middle - trap.outlet_drop)), (end, scale.y(middle - trap.outlet_drop))]
    bore = round(scale.length(trap.inside), 2)
    drawing.polyline(way, Pen(INK, round(scale.length(outside), 2)))
    drawing.polyline(way, Pen(PAPER, bore))
    water = Pen(WATER, bore)
    level = scale.y(-trap.outlet_drop)
    if trap.blown:
        drawing.polyline([(inlet, bottom), (outlet, bottom)], water)
    elif trap.floods:
        drawing.polyline([*way[:4], (outlet, level)], water)
    else:
        drawing.polyline([(inlet, scale.y(trap.inlet_level)), (inlet, bottom), (outlet, bottom), (outlet, level)], water)


def _draw_levels(drawing: Drawing, trap: TrapDrawn, scale: Scale) -> None:
    """A mark upon each water level, and between the legs the pressure that holds them apart."""
    if trap.blown:
        return
    inlet, outlet = INLET_LEG * trap.outside, OUTLET_LEG * trap.outside
    heights = [(outlet, -trap.outlet_drop)] if trap.floods else [(inlet, trap.inlet_level), (outlet, -trap.outlet_drop)]
    for across, height in heights:
        x, y = scale.x(across), scale.y(height)
        drawing.polygon([(x, y), (x - 4, y - 6), (x + 4, y - 6)], THIN, fill=PAPER)
    if trap.head > 0.0 and not trap.floods:
        x = scale.x((inlet + outlet) / 2.0)
        drawing.dimension(x, scale.y(trap.inlet_level), x, scale.y(-trap.outlet_drop), "P", beside="start")


def _draw_extensions(drawing: Drawing, trap: TrapDrawn, scale: Scale) -> None:
    outside = trap.outside
    crown = -trap.outlet_drop - trap.seal_depth
    drawing.line(LEFT_LINE - 6, scale.y(0.0), RIGHT_LINE + 6, scale.y(0.0), GRID)
    drawing.line(scale.x(OUTLET_LEG * outside), scale.y(-trap.outlet_drop), RIGHT_LINE + 6, scale.y(-trap.outlet_drop), GRID)
    drawing.line(scale.x(INLET_LEG * outside), scale.y(crown), RIGHT_LINE + 6, scale.y(crown), GRID)
    drawing.line(LEFT_LINE - 6, scale.y(-trap.overall), scale.x(OUTLET_LEG * outside), scale.y(-trap.overall), GRID)


def _draw_dimensions(drawing: Drawing, trap: TrapDrawn, scale: Scale, system: UnitSystem) -> None:
    """H and J on the right, the overall height on the left; labels that would meet are moved apart."""
    top, outlet, crown = scale.y(0.0), scale.y(-trap.outlet_drop), scale.y(-trap.outlet_drop - trap.seal_depth)
    drawing.dimension(RIGHT_LINE, top, RIGHT_LINE, outlet, "")
    drawing.dimension(RIGHT_LINE, outlet, RIGHT_LINE, crown, "")
    short = max(0.0, (14.0 - (crown - top) / 2.0) / 2.0)
    for letter, figure, middle in (
        ("H", trap.outlet_drop, (top + outlet) / 2.0 - short),
        ("J", trap.seal_depth, (outlet + crown) / 2.0 + short),
    ):
        drawing.text(RIGHT_LINE + 7, middle + 3.7, f"{letter} {figure.shown(system)}", size=SMALL, bold=True)
    bottom = scale.y(-trap.overall)
    drawing.dimension(LEFT_LINE, top, LEFT_LINE, bottom, "")
    drawing.text(LEFT_LINE - 6, (top + bottom) / 2.0 - 2, "overall", size=SMALL, at="end", colour=QUIET)
    drawing.text(LEFT_LINE - 6, (top + bottom) / 2.0 + 11, trap.overall.shown(system), size=SMALL, at="end", bold=True)


def _draw_below(drawing: Drawing, y: float, clear: Dimension, system: UnitSystem) -> None:
    drawing.line(BOX_LEFT - 4, y, RIGHT_LINE + 6, y, LIMIT)
    drawing.hatch(BOX_LEFT - 4, y, RIGHT_LINE - BOX_LEFT + 10, 7.0, step=6.0)
    drawing.text(
        (BOX_LEFT + RIGHT_LINE) / 2.0, y + 17, Phrase("first thing below: {} under the pan outlet", clear).shown(system), size=SMALL, at="middle"
    )


def _notes(
    drawing: Drawing, y: float, trap: TrapDrawn, question: CondensateDrainQuestion, result: CondensateDrainResult, system: UnitSystem
) -> float:
    y = drawing.note(14, y, _water_words(trap).shown(system), 332)
    clear = None if result.elevations is None else result.elevations.clear_height
    if clear is not None and not 0.0 <= clear <= DRAWN_CLEARANCE * trap.overall:
        side = "below" if clear >= 0.0 else "above"
        y = drawing.note(
            14, y, Phrase("The first thing below the trap stands {} {} the pan outlet (not drawn).", Dimension(abs(clear)), side).shown(system), 332
        )
    if question.trap is not None:
        wanted = result.trap
        words = Phrase("Wanted instead: H {}, J {}, overall {}.", wanted.outlet_drop, wanted.seal_depth, wanted.overall_height)
        y = drawing.note(14, y, words.shown(system), 332)
    return y


def _water_words(trap: TrapDrawn) -> Phrase:
    """What the water does while the fan runs."""
    if trap.blown:
        return Phrase("Fan running: P is {} of water and blows this seal out; air passes through the trap.", trap.head)
    if trap.floods:
        return Phrase("Fan running: P is {} of water and holds the water up to the pan; the pan does not drain.", trap.head)
    least = balance("draw-through", trap.head).seal_depth
    if trap.draw_through and trap.head > 0.0 and least >= trap.seal_depth * (1.0 - 1e-9):
        return Phrase("When the fan starts, P of {} of water pulls the seal out: J takes more than {}.", trap.head, Dimension(least))
    if trap.draw_through:
        return Phrase("Fan running: suction holds the water in the inlet leg P = {} above the trap's outlet; the pan above it stays dry.", trap.head)
    return Phrase("Fan running: pressure holds the water in the inlet leg P = {} below the trap's outlet; what is left of J is the seal.", trap.head)
