"""A duct system to look at: its tree, the pressure along the critical path, and blower and system where they meet."""

from kneewall.calculations.duct_system.drawing_blower import draw_blower
from kneewall.calculations.duct_system.drawing_pressure import draw_pressure
from kneewall.calculations.duct_system.drawing_tree import draw_tree
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult
from kneewall.kernel.answer import Answer
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.svg import Drawing


def draw(question: DuctSystemQuestion, answer: Answer[DuctSystemResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result = answer.result
    drawing = Drawing(f"Duct system of {len(result.sections)} sections", _in_words(question, result, system), 0.0)
    y = draw_tree(drawing, question, result, system, 18.0)
    drawing.cut(y + 4.0)
    y = draw_pressure(drawing, question, result, system, y + 20.0)
    if question.blower is not None:
        drawing.cut(y + 8.0)
        y = draw_blower(drawing, question, question.blower, result, system, y + 26.0)
    drawing.height = y + 8.0
    return drawing.svg()


def _in_words(question: DuctSystemQuestion, result: DuctSystemResult, system: UnitSystem) -> str:
    """What the drawing shows, with figures, for those who do not see it."""
    point = result.operating_point
    says = [Phrase("The unit moves {} and the system takes {}.", point.airflow, point.static_pressure)]
    for path in result.paths:
        if path.outlet in (result.critical_path.supply, result.critical_path.return_):
            if question.task == "size":
                says.append(Phrase("On the {} side the path of {} loses most, {}.", path.side, path.outlet, path.pressure_drop))
            else:
                says.append(Phrase("On the {} side the air settles so that every path loses {}.", path.side, path.pressure_drop))
    if question.task == "size":
        spare = max(result.paths, key=lambda path: path.surplus_pressure)
        says.append(Phrase("The most surplus is {}, at {}.", spare.surplus_pressure, spare.outlet))
    else:
        least = min(result.outlets, key=lambda outlet: outlet.ratio)
        says.append(Phrase("Least served is {} with {} of its {}.", least.id, least.airflow, least.design_airflow))
    return " ".join([one.shown(system) for one in says])
