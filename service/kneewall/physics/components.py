"""What stands in the blower's way inside the cabinet: filter, coil, grilles."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Airflow, AirPressure
from kneewall.kernel.question import Question, asked
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source
from kneewall.physics.air import STANDARD, Air

COMPONENT_EXPONENT = Rule(
    id="fan.component-exponent",
    says="A component's pressure drop follows the airflow to its own power: filter 1.18, coil 1.6, anything else 2, unless the question states another.",
    kind="practice",
    source=Source(
        title="Filters: 1/0.85 as read in the Modelica Buildings library documentation, air filters. Coils: fit to one printed coil table. Others: custom of the trade",
        publisher="Lawrence Berkeley National Laboratory",
    ),
    standing="common-practice",
)
COMPONENT_DENSITY = Rule(
    id="fan.component-density",
    says="Pressure drops of filters, coils, outlets and grilles are stated for standard air. One that follows the airflow to the power n goes with density to "
    "the power n - 1 and viscosity to the power 2 - n: with density alone where n is 2.",
    kind="formula",
    source=Source(title="Dimensional analysis: dp rho/mu^2 depends on rho q/mu only, so dp ~ q^n must be mu^2/rho (rho q/mu)^n"),
    standing="computed",
)
COMPONENT_RANGE = Rule(
    id="fan.component-range",
    says="A component's pressure drop is read by its power up to twice the airflow at which it is stated; further out it is only a rough figure.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
FAR_ABOVE = 2.0
EXPONENTS = {"filter": 1.0 / 0.85, "coil": 1.6, "other": 2.0}


class Component(Question, frozen=True, kw_only=True):
    """Something outside the blower's own rating that takes pressure: a filter, a coil, a grille."""

    name: Annotated[str, msgspec.Meta(description="What it is", min_length=1, max_length=60)]
    pressure_drop: Annotated[AirPressure, asked("Its pressure drop, in standard air", least="0 inH2O", most="5 inH2O")]
    airflow: Annotated[Airflow, asked("The airflow at which it has this drop", least="1 cfm", most="100000 cfm")]
    exponent: Annotated[float, asked("Power of the airflow that its drop follows; by its kind where left out", least=1.0, most=2.5)] | None = None
    kind: Annotated[Literal["filter", "coil", "other"], msgspec.Meta(description="What kind of thing it is, for the power")] = "other"
    side: Annotated[Literal["supply", "return"], msgspec.Meta(description="On which side of the blower it is")] = "return"


def component_drop(component: Component, airflow: float) -> float:
    """Pressure drop, Pa, at another airflow: dp = dp0 (q/q0)^n. Source: fan.component-exponent."""
    exponent = EXPONENTS[component.kind] if component.exponent is None else component.exponent
    return component.pressure_drop * float((airflow / component.airflow) ** exponent)


def component_drop_and_slope(component: Component, airflow: float) -> tuple[float, float]:
    """Pressure drop, Pa, and its slope by airflow, Pa per m3/s. Source: fan.component-exponent. Valid: airflow > 0."""
    exponent = EXPONENTS[component.kind] if component.exponent is None else component.exponent
    drop = component_drop(component, airflow)
    return drop, exponent * drop / airflow


def check_component_range(findings: Findings, components: list[Component], airflow: float) -> None:
    """Watch components whose drop is read far above the airflow at which it is stated."""
    far = [component.name for component in components if airflow > FAR_ABOVE * component.airflow * (1.0 + 1e-9)]
    if far:
        sentence = "{} is stated at less than half of this airflow, {}: a power law reaches that far only roughly. Give its drop nearer to it."
        findings.check("component range", "watch", COMPONENT_RANGE, Phrase(sentence, ", ".join(far), Airflow(airflow)), actual=Airflow(airflow))


def components_in(components: list[Component], air: Air) -> list[Component]:
    """The components with the drops they have in this air: dp = dp0 (rho/rho0)^(n - 1) (mu/mu0)^(2 - n). Source: fan.component-density."""
    if air is STANDARD:
        return components
    density, viscosity = air.density / STANDARD.density, air.viscosity / STANDARD.viscosity
    found = []
    for component in components:
        exponent = EXPONENTS[component.kind] if component.exponent is None else component.exponent
        drop = component.pressure_drop * density ** (exponent - 1.0) * viscosity ** (2.0 - exponent)
        found.append(msgspec.structs.replace(component, pressure_drop=AirPressure(drop)))
    return found
