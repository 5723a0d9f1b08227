"""Water and water with antifreeze: density, viscosity, heat capacity and freezing point, from tables that are filled once at start-up."""

from collections.abc import Sequence
from functools import cache
from math import exp, trunc
from typing import Annotated, Literal, Protocol

import msgspec

from kneewall.kernel.quantity import Temperature
from kneewall.kernel.question import Question, asked
from kneewall.kernel.refusal import refuse
from kneewall.kernel.rule import Rule, Source
from kneewall.physics import liquid_tables as tables
from kneewall.physics.liquid_tables import FRACTION_STEP, LEAST_FRACTION, MOST_FRACTION, TEMPERATURE_STEPS
from kneewall.physics.start_tables import start_tables

FluidKind = Literal["water", "propylene-glycol", "ethylene-glycol", "methanol", "ethanol"]

WATER = Rule(
    id="water.water",
    says="Density, viscosity, heat capacity and speed of sound of water follow the international formulations at 3 bar; between 1 and 8 bar "
    "density changes by 0.03 %.",
    kind="formula",
    source=Source(title="IAPWS-95 and the viscosity formulation of 2008, as CoolProp computes them", publisher="IAPWS; CoolProp"),
    standing="computed",
)
ANTIFREEZE = Rule(
    id="water.antifreeze",
    says="Properties of water with antifreeze follow published fits by mass fraction and temperature. Published antifreeze charts by volume "
    "agree on the freezing point within about 1 °F for propylene glycol and 3 °F for ethanol.",
    kind="formula",
    source=Source(
        title="Properties of Secondary Working Fluids for Indirect Systems, as CoolProp's incompressible fluids compute it", edition="2010"
    ),
    standing="computed",
)

WATER_FREEZES = Temperature(tables.WATER_FREEZES)
SAME_TEMPERATURE = 1e-9
"""K; 32 °F and 0 °C differ in the last digit only."""


class Fluid(Question, frozen=True, kw_only=True):
    """What circulates: water, or water with antifreeze."""

    kind: Annotated[FluidKind, msgspec.Meta(description="Water, or the antifreeze in it")] = "water"
    mass_fraction: (
        Annotated[
            float,
            asked("Mass of antifreeze in the mass of the mixture; charts and labels often speak of volume", least=LEAST_FRACTION, most=MOST_FRACTION),
        ]
        | None
    ) = None


class Liquid(msgspec.Struct, frozen=True):
    """A liquid at one temperature. SI: K, kg/m3, Pa.s, J/(kg K)."""

    temperature: float
    density: float
    viscosity: float
    specific_heat: float


class Properties(Protocol):
    """A liquid over its range of temperatures, K."""

    freezing: float
    highest: float

    def at(self, temperature: float) -> Liquid:
        """The liquid at a temperature between `freezing` and `highest`."""
        ...

    def specific_heat(self, temperature: float) -> float:
        """Heat capacity, J/(kg K), at a temperature between `freezing` and `highest`."""
        ...


class WaterTable:
    """Water every 1 K: linear in density and heat capacity, linear in the logarithm of viscosity."""

    freezing: float = WATER_FREEZES
    highest: float = tables.HIGHEST_WATER

    def __init__(self, nodes: Sequence[tables.WaterNode]) -> None:
        self._rows, self._last = nodes, len(nodes) - 2

    def at(self, temperature: float) -> Liquid:
        """Water at a temperature, K. Source: water.water. Valid: 273.15 to 373.15 K."""
        below, share = self._place(temperature)
        low, high = self._rows[below], self._rows[below + 1]
        return Liquid(
            temperature,
            low[0] + share * (high[0] - low[0]),
            exp(low[1] + share * (high[1] - low[1])),
            low[2] + share * (high[2] - low[2]),
        )

    def specific_heat(self, temperature: float) -> float:
        """Heat capacity of water, J/(kg K). Source: water.water. Valid: 273.15 to 373.15 K."""
        below, share = self._place(temperature)
        low, high = self._rows[below][2], self._rows[below + 1][2]
        return low + share * (high - low)

    def speed_of_sound(self, temperature: float) -> float:
        """Speed of sound in water, m/s. Source: water.water. Valid: 273.15 to 373.15 K."""
        below, share = self._place(temperature)
        return self._rows[below][3] + share * (self._rows[below + 1][3] - self._rows[below][3])

    def _place(self, temperature: float) -> tuple[int, float]:
        steps = temperature - WATER_FREEZES
        below = _row(steps, self._last)
        return below, steps - below


class Mixture:
    """Water with one antifreeze of one mass fraction, between two rows of its nodes."""

    def __init__(self, nodes: tables.MixtureNodes, fraction: float) -> None:
        steps = (fraction - LEAST_FRACTION) / FRACTION_STEP
        row = _row(steps + 1e-9, len(nodes.rows) - 2)
        self.less, self.more, self.share = nodes.rows[row], nodes.rows[row + 1], steps - row
        self.freezing = nodes.freezing[row] + self.share * (nodes.freezing[row + 1] - nodes.freezing[row])
        self.highest = nodes.highest

    def at(self, temperature: float) -> Liquid:
        """The mixture at a temperature, K, straight between four nodes. Source: water.antifreeze. Valid: freezing point to `highest`."""
        density, viscosity, heat = [self._between(temperature, which) for which in (0, 1, 2)]
        return Liquid(temperature, density, exp(viscosity), heat)

    def specific_heat(self, temperature: float) -> float:
        """Heat capacity of the mixture, J/(kg K). Source: water.antifreeze. Valid: freezing point to `highest`."""
        return self._between(temperature, 2)

    def _between(self, temperature: float, which: int) -> float:
        """One of the figures of the nodes, between the two fractions and the two temperatures around."""
        steps = (temperature - self.freezing) / (self.highest - self.freezing) * TEMPERATURE_STEPS
        below = _row(steps, TEMPERATURE_STEPS - 1)
        across, share, less, more = steps - below, self.share, self.less, self.more
        cold = (1.0 - share) * less[below][which] + share * more[below][which]
        warm = (1.0 - share) * less[below + 1][which] + share * more[below + 1][which]
        return (1.0 - across) * cold + across * warm


def _row(steps: float, last: int) -> int:
    """The row below a place counted in rows, from the first to the last that has one above."""
    return 0 if steps < 0.0 else last if steps > last else trunc(steps)


@cache
def plain_water() -> WaterTable:
    """Plain water."""
    return WaterTable(start_tables().water)


@cache
def rated_water() -> Liquid:
    """The water of makers' coil tables, at 60 °F."""
    return plain_water().at(Temperature.of(60, "degF"))


def properties_of(kind: FluidKind, mass_fraction: float | None) -> Properties:
    """The properties of a fluid. Valid: mass fraction 0.05 to 0.50 for antifreeze, None for water."""
    if kind == "water" or mass_fraction is None:
        return plain_water()
    return Mixture(start_tables().mixtures[kind], mass_fraction)


def fluid_rule(fluid: Fluid) -> Rule:
    """Where the properties of a fluid come from."""
    return WATER if fluid.kind == "water" else ANTIFREEZE


def fluid_properties(fluid: Fluid, pointer: str = "/fluid") -> Properties:
    """The properties of the fluid of a question. Raises: Refusal where the mass fraction is missing or does not belong."""
    if fluid.kind == "water":
        if fluid.mass_fraction is not None:
            raise refuse(f"{pointer}/mass_fraction", "plain water has no mass fraction of antifreeze; leave it out or name the antifreeze")
        return plain_water()
    if fluid.mass_fraction is None:
        raise refuse(f"{pointer}/mass_fraction", "is missing: the mass of {} in the mass of the mixture, such as 0.2", fluid.kind)
    return properties_of(fluid.kind, fluid.mass_fraction)


def liquid_at(properties: Properties, temperature: Temperature, pointer: str) -> Liquid:
    """The liquid at a temperature of the question. Raises: Refusal below the freezing point and above what is known."""
    if temperature < properties.freezing - SAME_TEMPERATURE:
        raise refuse(pointer, "this fluid freezes at {}; at {} it does not flow", Temperature(properties.freezing), temperature)
    if temperature > properties.highest + SAME_TEMPERATURE:
        raise refuse(pointer, "the properties of this fluid are known up to {}, not at {}", Temperature(properties.highest), temperature)
    return properties.at(temperature)
