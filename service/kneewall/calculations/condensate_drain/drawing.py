"""A condensate drain to look at: the trap from the side, the fall to the receiver, the auxiliary pan, and the verdicts."""

from kneewall.calculations.condensate_drain.fall_profile import draw_fall
from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.condensate_drain.pan_elevation import draw_pan
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.calculations.condensate_drain.trap_elevation import draw_trap, trap_drawn
from kneewall.kernel.answer import Answer
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, UnitSystem
from kneewall.kernel.svg import Drawing
from kneewall.kernel.verdict_list import draw_verdicts


def draw(question: CondensateDrainQuestion, answer: Answer[CondensateDrainResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result = answer.result
    drawing = Drawing("Condensate trap and drain", _says(question, result).shown(system), 0.0)
    y = draw_trap(drawing, 20.0, question, result, system)
    drawing.cut(y)
    y = draw_fall(drawing, y + 18.0, question, result, system)
    auxiliary = question.auxiliary_pan
    if auxiliary is not None and auxiliary.pan is not None:
        drawing.cut(y)
        y = draw_pan(drawing, y + 18.0, auxiliary, auxiliary.pan, trap_drawn(question, result), result, system)
    drawing.height = draw_verdicts(drawing, y + 14.0, answer.checks) + 2.0
    return drawing.svg()


def _says(question: CondensateDrainQuestion, result: CondensateDrainResult) -> Phrase:
    trap, found = trap_drawn(question, result), result.elevations
    shape = Phrase("Trap with H {}, J {}, overall height {}.", trap.outlet_drop, trap.seal_depth, trap.overall)
    line = Phrase("The line falls {} over {}.", result.fall, question.run.length)
    if found is None:
        return Phrase("{} {}", shape, line)
    ends = "above" if found.margin >= -1e-9 else "below"
    return Phrase("{} {} It ends {} {} the receiver's rim and air gap.", shape, line, Dimension(abs(found.margin)), ends)
