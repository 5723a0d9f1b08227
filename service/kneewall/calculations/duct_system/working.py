"""The working of a duct system: one line per section along each critical path, then the sums."""

from kneewall.calculations.duct_system import rules
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult, Path, SectionAnswer
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.physics import friction
from kneewall.physics.components import COMPONENT_EXPONENT
from kneewall.physics.fan import BLOWER_TABLE


def working(question: DuctSystemQuestion, answer: Answer[DuctSystemResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    result = answer.result
    lines: list[WorkingLine] = []
    if result.friction_rate is not None:
        substituted = Phrase("as asked") if question.friction_rate is not None else Phrase("what blower and components leave over the critical paths")
        lines.append(
            WorkingLine(
                step="friction rate",
                formula="(blower - components) / effective length",
                substituted=substituted,
                value=result.friction_rate,
                rule=rules.FRICTION_RATE.id,
            )
        )
    sections = {section.id: section for section in result.sections}
    for side in (result.critical_path.supply, result.critical_path.return_):
        lines += [line for path in result.paths if path.outlet == side for line in _path_lines(path, sections)]
    taken = result.external_static_pressure
    lines.append(
        WorkingLine(
            step="components",
            formula="sum of dp0 (q/q0)^n",
            substituted=Phrase("at {}", result.operating_point.airflow),
            value=taken.components,
            rule=COMPONENT_EXPONENT.id,
        )
    )
    lines.append(
        WorkingLine(
            step="external static pressure", formula="supply + return + components", value=taken.total, rule=rules.NETWORK.id,
            substituted=Phrase("{} + {} + {}", taken.supply, taken.return_, taken.components),
        )
    )  # fmt: skip
    if question.task == "analyse" and question.blower is not None:
        point = result.operating_point
        lines.append(
            WorkingLine(
                step="operating point",
                formula="blower table meets system",
                substituted=Phrase("{} at {}", point.airflow, point.static_pressure),
                value=point.airflow,
                rule=BLOWER_TABLE.id,
            )
        )
    return lines


def _path_lines(path: Path, sections: dict[str, SectionAnswer]) -> list[WorkingLine]:
    lines = [
        WorkingLine(
            step=f"{path.side}: {name}", formula="friction + fittings", value=sections[name].pressure_drop, rule=friction.DARCY_WEISBACH.id,
            substituted=Phrase(
                "{} at {}; friction {} over its length, fittings {}", sections[name].airflow, sections[name].velocity, sections[name].friction_rate, sections[name].fitting_loss
            ),
        )
        for name in path.sections
    ]  # fmt: skip
    total = WorkingLine(
        step=f"{path.side}: path to {path.outlet}",
        formula="sum of the sections and the outlet",
        substituted=Phrase("{} sections, worth {} of straight duct", str(len(path.sections)), path.effective_length),
        value=path.pressure_drop,
    )
    return [*lines, total]
