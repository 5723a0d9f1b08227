"""The blower and what stands in its way inside the cabinet: filter, coil, grilles."""

from itertools import pairwise
from typing import Annotated, Literal

import msgspec

from kneewall.kernel.quantity import Airflow, AirPressure
from kneewall.kernel.question import Question, asked
from kneewall.kernel.refusal import Fault, Refusal, fault
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source
from kneewall.physics.air import STANDARD, Air
from kneewall.physics.monotone import MonotoneCubic

BLOWER_TABLE = Rule(
    id="fan.blower-table",
    says="The blower's own table is read as airflow by static pressure, by a curve that never overshoots its points; only the limb on which air falls as "
    "pressure rises is used, and nothing is read beyond the table's ends.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
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
BLOWER_DENSITY = Rule(
    id="fan.blower-density",
    says="A blower's table is printed for standard air. At the same airflow and speed its pressure goes with the density of the air that it moves.",
    kind="formula",
    source=Source(title="Fan laws: Q ~ N, dp ~ N^2 rho; course notebook CE414 in an open repository, homework 5-6"),
    standing="published",
)
RATED_DENSITY = Rule(
    id="fan.rated-density",
    says="A rated external static pressure is stated for standard air. In lighter air the same airflow makes less pressure, so the rating goes down with "
    "density; in denser air it is left as it is stated.",
    kind="formula",
    source=Source(title="Fan laws, as in fan.blower-density: a rating is one point of the blower's table; never raising it is on the safe side"),
    standing="computed",
)
COMPONENT_DENSITY = Rule(
    id="fan.component-density",
    says="Pressure drops of filters, coils, outlets and grilles are stated for standard air. One that follows the airflow to the power n goes with density to "
    "the power n - 1 and viscosity to the power 2 - n: with density alone where n is 2.",
    kind="formula",
    source=Source(title="Dimensional analysis: dp rho/mu^2 depends on rho q/mu only, so dp ~ q^n must be mu^2/rho (rho q/mu)^n"),
    standing="computed",
)
RATED_AS_IT_IS = 0.005
"""Share of density below which nobody needs to be told that a rating was restated."""
EXPONENTS = {"filter": 1.0 / 0.85, "coil": 1.6, "other": 2.0}


class BlowerPoint(Question, frozen=True, kw_only=True):
    """One entry of a blower table."""

    airflow: Annotated[Airflow, asked("Air delivered", least="1 cfm", most="100000 cfm")]
    static_pressure: Annotated[AirPressure, asked("External static pressure at which it is delivered", least="0 inH2O", most="10 inH2O")]


class Blower(Question, frozen=True, kw_only=True):
    """The blower's table at one speed setting, as its maker prints it, for standard air."""

    points: Annotated[list[BlowerPoint], msgspec.Meta(description="The table's entries in any order", min_length=2, max_length=60)]


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


def rated_limit_in(rated: AirPressure, air: Air) -> AirPressure:
    """What a rated external static pressure comes to in this air: p = p0 min(1, rho/rho0). Source: fan.rated-density."""
    return AirPressure(rated * min(1.0, air.density / STANDARD.density))


def rated_in_words(air: Air) -> str:
    """How a sentence names the limit of `rated_limit_in`."""
    return "rated {}" if air.density >= STANDARD.density * (1.0 - RATED_AS_IT_IS) else "{} that its rating comes to in this air"


class BlowerCurve:
    """A blower's airflow by static pressure, on its falling limb."""

    __slots__ = ("curve", "highest", "lowest")

    def __init__(self, blower: Blower, pointer: str, air: Air = STANDARD) -> None:
        """The curve through the table, its pressures those of this air. Source: fan.blower-density. Raises: Refusal where the table does not fall."""
        points = falling_limb(blower, pointer)
        share = air.density / STANDARD.density
        pressures = [AirPressure(point.static_pressure * share) for point in points]
        self.lowest, self.highest = pressures[0], pressures[-1]
        self.curve = MonotoneCubic(pressures, [point.airflow for point in points])

    def airflow_and_slope(self, static_pressure: float) -> tuple[float, float]:
        """Airflow, m3/s, and its slope by static pressure. Source: fan.blower-table."""
        return self.curve.at(static_pressure)

    def static_pressure(self, airflow: float) -> float | None:
        """The static pressure, Pa, at which the blower delivers `airflow`; None where the table does not reach it.

        The curve falls, so bisection finds it; the highest pressure where the table shows the same air over a range.
        """
        low, high = float(self.lowest), float(self.highest)
        if not self.curve.y[-1] <= airflow <= self.curve.y[0]:
            return None
        while high - low > 1e-9 * max(1.0, high):
            middle = 0.5 * (low + high)
            if self.curve.at(middle)[0] >= airflow:
                low = middle
            else:
                high = middle
        return 0.5 * (low + high)


def falling_limb(blower: Blower, pointer: str) -> list[BlowerPoint]:
    """The table's points by rising static pressure, airflow never rising; of a humped table the limb to the right of the peak. Raises: Refusal."""
    given = sorted(enumerate(blower.points), key=lambda pair: (pair[1].static_pressure, -pair[1].airflow))
    peak = given[-1][1]
    limb = [(index, point) for index, point in given if point.airflow >= peak.airflow]
    faults: list[Fault] = []
    for (_, before), (index, point) in pairwise(limb):
        if point.airflow > before.airflow or point.static_pressure == before.static_pressure:
            faults.append(
                fault(
                    f"{pointer}/points/{index}",
                    "{} at {} cannot follow {} at {}: as static pressure rises the air must not grow, and each pressure may stand once",
                    point.airflow,
                    point.static_pressure,
                    before.airflow,
                    before.static_pressure,
                )
            )
    if len(limb) < 2:
        faults.append(
            fault(f"{pointer}/points", "the table has no falling limb: it needs two entries or more on which air falls as static pressure rises")
        )
    if faults:
        raise Refusal(faults)
    return [point for _, point in limb]
