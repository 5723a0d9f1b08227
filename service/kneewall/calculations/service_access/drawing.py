"""Service access to look at: from above, opening and passage in section, and the verdicts."""

from kneewall.calculations.service_access.access_plan import draw_plan, plan_words
from kneewall.calculations.service_access.access_sections import draw_sections, section_words
from kneewall.calculations.service_access.messages import ServiceAccessQuestion, ServiceAccessResult
from kneewall.calculations.service_access.rules import ACCESS
from kneewall.kernel.answer import Answer
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.svg import Drawing
from kneewall.kernel.verdict_list import draw_verdicts


def draw(question: ServiceAccessQuestion, answer: Answer[ServiceAccessResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result, access = answer.result, ACCESS[question.code]
    phrases = [*plan_words(question, result, access), *section_words(result)]
    drawing = Drawing("Service access", "; ".join([phrase.shown(system) for phrase in phrases]) + ".", 0.0)
    y = draw_plan(drawing, 20.0, question, result, access, system)
    drawing.cut(y)
    y = draw_sections(drawing, y + 18.0, question, result, access, system)
    drawing.height = draw_verdicts(drawing, y + 14.0, answer.checks) + 2.0
    return drawing.svg()
