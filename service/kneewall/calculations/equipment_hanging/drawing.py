"""Hung equipment to look at: from its end, from above, and the verdicts."""

from kneewall.calculations.equipment_hanging.answers import EquipmentHangingResult
from kneewall.calculations.equipment_hanging.end_elevation import draw_end, percent
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion
from kneewall.calculations.equipment_hanging.rod_plan import draw_plan
from kneewall.kernel.answer import Answer
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.svg import Drawing
from kneewall.kernel.verdict_list import draw_verdicts


def draw(question: EquipmentHangingQuestion, answer: Answer[EquipmentHangingResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result = answer.result
    most = max(result.rods, key=lambda rod: rod.load)
    says = Phrase(
        "{} hangs on four rods; the {} rod carries most, {}, {} of what it may. The anchors are used to {}.",
        result.load.total, most.corner.replace("-", " "), most.load, percent(most.use), percent(result.anchor.use),
    )  # fmt: skip
    drawing = Drawing("Hung equipment", says.shown(system), 0.0)
    y = draw_end(drawing, 20.0, question, result, system)
    drawing.cut(y)
    y = draw_plan(drawing, y + 18.0, question, result, system)
    drawing.height = draw_verdicts(drawing, y + 14.0, answer.checks) + 2.0
    return drawing.svg()
