"""The working of a static-pressure budget, line by line."""

from kneewall.calculations.static_pressure_budget import rules
from kneewall.calculations.static_pressure_budget.messages import StaticPressureBudgetQuestion, StaticPressureBudgetResult
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.physics.air import STANDARD, air_of
from kneewall.physics.components import COMPONENT_EXPONENT, EXPONENTS, components_in
from kneewall.physics.fan import BLOWER_DENSITY, BLOWER_TABLE


def working(question: StaticPressureBudgetQuestion, answer: Answer[StaticPressureBudgetResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    result = answer.result
    how = Phrase("read from the blower's table at {}", question.airflow) if question.blower else Phrase("as stated at {}", question.airflow)
    air = air_of(question.air)
    lines = []
    if question.air is not None:
        share = air.density / STANDARD.density
        weighs = Phrase("{} / {}; the blower's pressure goes with it", air.density, STANDARD.density)
        lines.append(WorkingLine(step="air", formula="density / standard density", substituted=weighs, value=share, rule=BLOWER_DENSITY.id))
    lines.append(
        WorkingLine(
            step="blower",
            formula="static pressure at the design airflow",
            substituted=how,
            value=result.blower_static_pressure,
            rule=BLOWER_TABLE.id if question.blower else None,
        )
    )
    for component, drop in zip(components_in(question.components, air), result.components, strict=True):
        exponent = EXPONENTS[component.kind] if component.exponent is None else component.exponent
        substituted = Phrase("{} x ({} / {})^{}", component.pressure_drop, question.airflow, component.airflow, exponent)
        lines.append(
            WorkingLine(step=component.name, formula="dp0 (q/q0)^n", substituted=substituted, value=drop.pressure_drop, rule=COMPONENT_EXPONENT.id)
        )
    taken = Phrase("{} less {} components", result.blower_static_pressure, str(len(result.components)))
    length = Phrase("{} + {}", question.effective_length.supply, question.effective_length.return_)
    rate = Phrase("{} over {}", result.available_static_pressure, result.total_effective_length)
    lines += [
        WorkingLine(
            step="available", formula="blower - components", substituted=taken, value=result.available_static_pressure, rule=rules.AVAILABLE.id
        ),
        WorkingLine(step="effective length", formula="supply + return", substituted=length, value=result.total_effective_length),
        WorkingLine(
            step="friction rate",
            formula="100 ft x available / effective length",
            substituted=rate,
            value=result.friction_rate,
            rule=rules.FRICTION_RATE.id,
        ),
    ]
    return lines
