"""The working of a duct sizing, line by line."""

from kneewall.calculations.duct_sizing import rules
from kneewall.calculations.duct_sizing.calculate import diameter_by_velocity, duct_of, stretch_of
from kneewall.calculations.duct_sizing.messages import DuctSizingQuestion, DuctSizingResult, GovernedBy
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length
from kneewall.physics import ducts, friction
from kneewall.physics.air import air_of


def working(question: DuctSizingQuestion, answer: Answer[DuctSizingResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    result = answer.result
    air = air_of(question.air)
    lines = [
        WorkingLine(step="air", formula="density of the air", substituted=Phrase("{}, viscosity {}", air.density, air.viscosity), value=air.density, rule=air.rules[0].id),
        *_exact_lines(question, result),
        WorkingLine(
            step="velocity", formula="V = q / A", substituted=Phrase("{} through {}", question.airflow, _named(result)), value=result.velocity
        ),
        WorkingLine(
            step="equivalent diameter", formula="De by the shape's equivalence", substituted=Phrase("{}", _named(result)), value=result.equivalent_diameter,
            rule=next((rule.id for rule in ducts.size_rules(result.size)), None),
        ),
        WorkingLine(
            step="Reynolds number", formula="Re = rho V De / mu", substituted=Phrase("in a round duct of {}", result.equivalent_diameter), value=result.reynolds_number
        ),
        WorkingLine(
            step="friction factor", formula="1/sqrt f = -2 log10(e/(3.7 De) + 2.51/(Re sqrt f))", value=result.friction_factor, rule=friction.COLEBROOK.id,
            substituted=Phrase("roughness {}, {} flow", Length(ducts.roughness_of(duct_of(question).material)), result.regime),
        ),
    ]  # fmt: skip
    if result.stretch_factor is not None:
        lines.append(
            WorkingLine(
                step="slack", formula="1 + 58 (1 - stretch) exp(-0.126 D), D in inches", value=result.stretch_factor, rule=ducts.FLEXIBLE_STRETCH.id,
                substituted=Phrase("stretch {}, D {}", stretch_of(duct_of(question)), result.equivalent_diameter),
            )
        )  # fmt: skip
    lines.append(
        WorkingLine(
            step="friction", formula="dp/L = f rho V^2 / (2 De)", value=result.friction_rate, rule=friction.DARCY_WEISBACH.id,
            substituted=Phrase("f {}, V in the round duct of {}", result.friction_factor, result.equivalent_diameter),
        )
    )  # fmt: skip
    return lines


def _exact_lines(question: DuctSizingQuestion, result: DuctSizingResult) -> list[WorkingLine]:
    if result.exact_diameter is None or question.size is not None:
        return []
    by_velocity = diameter_by_velocity(question)
    governs: GovernedBy = "velocity" if by_velocity is not None and by_velocity >= result.exact_diameter else "friction"
    limit = question.friction_rate if governs == "friction" else question.velocity_limit
    return [
        WorkingLine(
            step="exact diameter", formula="the round diameter at which the limits are just met", value=result.exact_diameter,
            substituted=Phrase("{} governs in a round duct: {} at {}", governs, question.airflow, limit), rule=rules.ASKED_LIMIT.id,
        )
    ]  # fmt: skip


def _named(result: DuctSizingResult) -> Phrase:
    size = result.size
    if size.diameter is not None:
        return Phrase("{} round", size.diameter)
    if size.width is not None:
        return Phrase("{} x {}", size.width, size.height)
    return Phrase("{} x {} flat oval", size.major, size.minor)
