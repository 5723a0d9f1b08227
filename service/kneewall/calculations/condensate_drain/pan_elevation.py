"""The auxiliary pan under unit and trap, from the side, true to scale."""

from kneewall.calculations.condensate_drain.messages import AuxiliaryPan, PanOffered
from kneewall.calculations.condensate_drain.pan import EACH_SIDE
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.calculations.condensate_drain.trap_elevation import TrapDrawn
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, UnitSystem
from kneewall.kernel.scale import Scale
from kneewall.kernel.svg import HIDDEN, INK, QUIET, SMALL, TINT, Drawing, Pen

FAR_END = EACH_SIDE / 2.0
"""The pan stands this far beyond the unit's far end, so that the rest of it reaches under the trap."""
UNIT_HEIGHT = 0.22
"""of the unit's length, drawn with an open top: its height is not asked"""


def draw_pan(
    drawing: Drawing, y: float, asked: AuxiliaryPan, pan: PanOffered, trap: TrapDrawn, result: CondensateDrainResult, system: UnitSystem
) -> float:
    """The elevation along the unit with its heading and notes. Returns the next free baseline."""
    clear = None if result.elevations is None else result.elevations.clear_height
    known = clear is not None and trap.overall <= clear <= 3.0 * trap.overall + pan.depth
    above = float(clear) if known and clear is not None else trap.overall + pan.depth * 0.25
    unit, reach = asked.unit, asked.trap_reach or 0.0
    drawing.text(14, y, "Auxiliary pan under unit and trap", bold=True)
    says = "to scale; the unit's height is not asked" if known else "to scale, but the height above the pan is not given"
    drawing.text(14, y + 14, says, size=SMALL, colour=QUIET)
    span = (-FAR_END, max(pan.length - FAR_END, unit.length + reach))
    top = above + UNIT_HEIGHT * unit.length
    scale = Scale.fit(span, (0.0, top), (22.0, y + 24, 316.0, 96.0))
    left, right = scale.x(-FAR_END), scale.x(pan.length - FAR_END)
    base, roof, floor = scale.y(above), scale.y(top), scale.y(0.0)
    drawing.rectangle(scale.x(0.0), roof, scale.length(unit.length), base - roof, Pen("none", 0), fill=TINT)
    drawing.polyline([(scale.x(0.0), roof), (scale.x(0.0), base), (scale.x(unit.length), base), (scale.x(unit.length), roof)])
    drawing.text(scale.x(unit.length / 2.0), (base + roof) / 2.0 + 4, "unit", size=SMALL, at="middle", colour=QUIET)
    if asked.trap_reach:
        drawing.rectangle(scale.x(unit.length), base, scale.length(reach), scale.length(trap.overall), HIDDEN)
    drawing.polyline([(left, scale.y(pan.depth)), (left, floor), (right, floor), (right, scale.y(pan.depth))], Pen(INK, 2.2))
    drawing.dimension(left, floor + 20, right, floor + 20, Phrase("pan {} x {}, {} deep", pan.length, pan.width, pan.depth).shown(system))
    drawing.dimension(scale.x(0.0), floor + 38, scale.x(unit.length), floor + 38, Phrase("unit {} x {}", unit.length, unit.width).shown(system))
    bottom = floor + 54
    for phrase in _words(asked, result):
        bottom = drawing.note(14, bottom, phrase.shown(system), 332)
    return bottom


def _words(asked: AuxiliaryPan, result: CondensateDrainResult) -> list[Phrase]:
    found = result.auxiliary_pan
    assert found is not None
    lines = []
    if asked.trap_reach:
        lines.append(
            Phrase(
                "dashed: the room of the trap, {} beyond the unit; to take it in, the pan must be {} long", asked.trap_reach, found.length_over_trap
            )
        )
    if found.minimum_length is not None:
        least = (found.minimum_length, found.minimum_width, found.minimum_depth)
        lines.append(Phrase("least by the code: {} x {}, {} deep", *least))
    if found.fills_with_loop_leak is not None:
        lines.append(Phrase("full to the rim after {} of loop water at {}", found.fills_with_loop_leak, found.loop_flow))
    lines.append(Phrase("drawn {} beyond the unit's far end", Dimension(FAR_END)))
    return lines
