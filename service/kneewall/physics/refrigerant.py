"""Refrigerants: saturation by bubble and dew point, vapor by dew point and superheat.

Every look-up goes to tables that are filled at start-up; see `refrigerant_tables`. SI throughout: K, Pa, kg/m3, J/kg, Pa.s.
"""

from collections.abc import Iterable, Mapping
from functools import cache
from math import e, exp, exp2, log, log1p, log2
from pathlib import Path
from typing import Literal

import msgspec

from kneewall.kernel.quantity import Density, Temperature
from kneewall.kernel.rule import Rule, Source
from kneewall.kernel.table import load_table
from kneewall.physics.refrigerant_tables import MOST_SUPERHEAT, SUPERHEAT_SCALE, PropertyTables
from kneewall.physics.spline import Surface
from kneewall.physics.start_tables import start_tables

RefrigerantName = Literal["R-410A", "R-454B", "R-32", "R-22", "R-407C", "R-134a", "R-290"]
SafetyGroup = Literal["A1", "A2L", "A3"]
SLACK = 1e-9
"""Relative slack at the ends of the range, so that unit conversion refuses nobody."""
_MOST_ACROSS, _USUAL_ACROSS = log1p(MOST_SUPERHEAT / SUPERHEAT_SCALE), log1p(30.0 / SUPERHEAT_SCALE)
LOG2_E = log2(e)
LEAST_GLIDE = 0.01
"""K that the tables can tell apart"""
LEAST_PRESSURE, MOST_PRESSURE = 1.0 - 1e-5, 1.0 + 1e-5
"""The same for pressures, which are only as exact as the tables."""

SAFETY_TABLE = load_table(Path(__file__).parent / "tables" / "refrigerants.toml")
SAFETY_DATA = SAFETY_TABLE.rule
PROPERTIES = Rule(
    id="refrigerant.properties",
    says="Properties follow each refrigerant's Helmholtz-energy equation of state, read from tables within 0.01 % of it. A published chart may differ by 1 %.",
    kind="formula",
    source=Source(title="CoolProp, open-source property library; the equations of state it names for each fluid", edition="8.0"),
    standing="computed",
)
LIQUID_BLEND_VISCOSITY = Rule(
    id="refrigerant.liquid-blend-viscosity",
    says="The viscosity of liquid R-454B is mixed from its components by ln mu = sum of x ln mu, x mole fractions, at the same temperature.",
    kind="formula",
    source=Source(title="Logarithmic mixing rule of liquid viscosity (Arrhenius), as in texts on transport properties"),
    standing="from-memory",
)
BUBBLE_AND_DEW = Rule(
    id="refrigerant.bubble-and-dew",
    says="Superheat is counted from the dew point, subcooling from the bubble point, at the absolute pressure; a blend's glide is the difference of the two.",
    kind="formula",
    source=Source(title="Definition, as in any text on refrigeration"),
    standing="published",
)


class OutsideProperties(ArithmeticError):
    """A state that the tables do not reach: what it is, what was asked and between what it may lie."""

    def __init__(self, what: str, asked: float, least: float, most: float) -> None:
        super().__init__(f"{what} {asked} outside {least} to {most}")
        self.what, self.asked, self.least, self.most = what, asked, least, most


class Vapor(msgspec.Struct, frozen=True, gc=False):
    """Vapor at a dew point and superheat."""

    pressure: float
    density: float
    enthalpy: float
    viscosity: float


class Liquid(msgspec.Struct, frozen=True, gc=False):
    """Saturated liquid, which stands for the subcooled liquid of the same temperature."""

    density: float
    enthalpy: float
    viscosity: float


class Refrigerant(msgspec.Struct, frozen=True, kw_only=True):
    """One refrigerant. Temperatures in K, absolute pressures in Pa. Immutable, and so safe to share between threads.

    Valid: bubble and dew points from `least_temperature` to `greatest_temperature`, superheat from 0 to 100 K.
    Raises: OutsideProperties beyond.
    """

    name: RefrigerantName
    safety_group: SafetyGroup
    lower_flammability_limit: Density | None
    concentration_limit: Density
    least_temperature: Temperature
    greatest_temperature: Temperature
    greatest_condensing: Temperature
    """The bubble point, K, at the pressure of the highest dew point: a blend condenses from its dew point, which lies above its bubble point."""
    reach: tuple[float, float]
    """The least and the greatest temperature, K, with their slack."""
    bubble_pressures: tuple[float, float]
    """Bubble pressures at the ends of the range."""
    dew_pressures: tuple[float, float]
    tables: PropertyTables

    def bubble_pressure(self, temperature: float) -> float:
        """Pressure at which liquid of this temperature begins to boil. Source: refrigerant.properties."""
        return exp2(self.tables.bubble_pressure.at(self._place(temperature)))

    def bubble_temperature(self, pressure: float) -> float:
        """Temperature at which liquid begins to boil at this pressure: the inverse of `bubble_pressure`."""
        least, most = self.bubble_pressures
        if not least * LEAST_PRESSURE <= pressure <= most * MOST_PRESSURE:
            raise OutsideProperties("pressure", pressure, least, most)
        return self.tables.bubble_temperature.at(log2(pressure))

    def dew_temperature(self, pressure: float) -> float:
        """Temperature at which vapor begins to condense at this pressure: the dew point of a `vapor` of it."""
        least, most = self.dew_pressures
        if not least * LEAST_PRESSURE <= pressure <= most * MOST_PRESSURE:
            raise OutsideProperties("pressure", pressure, least, most)
        return self.tables.dew_temperature.at(log2(pressure))

    def bubble_temperatures_below(self, pressure: float, drops: Iterable[float], least: float = 0.0) -> list[float | None]:
        """As `bubble_temperature` after each drop from a pressure; None where less than `least`, Pa, is left or the tables end."""
        low, high = self.bubble_pressures
        return self.tables.bubble_temperature.at_log2_less(pressure, drops, least if least > low else low, high)

    def dew_temperatures_below(self, pressure: float, drops: Iterable[float], least: float = 0.0) -> list[float | None]:
        """As `dew_temperature` after each drop from a pressure; None where less than `least`, Pa, is left or the tables end."""
        low, high = self.dew_pressures
        return self.tables.dew_temperature.at_log2_less(pressure, drops, least if least > low else low, high)

    def liquid(self, temperature: float) -> Liquid:
        """Liquid of this temperature. Source: refrigerant.properties; viscosity of R-454B: refrigerant.liquid-blend-viscosity."""
        tables, x = self.tables, self._place(temperature)
        return Liquid(exp2(tables.liquid_density.at(x)), tables.liquid_enthalpy.at(x), exp2(tables.liquid_viscosity.at(x)))

    def liquid_density(self, temperature: float) -> float:
        """Density of saturated liquid. Source: refrigerant.properties."""
        return exp2(self.tables.liquid_density.at(self._place(temperature)))

    def liquid_enthalpy(self, temperature: float) -> float:
        """Specific enthalpy of saturated liquid. Source: refrigerant.properties."""
        return self.tables.liquid_enthalpy.at(self._place(temperature))

    def liquid_specific_heat(self, temperature: float) -> float:
        """Specific heat of liquid, J/(kg K): the slope of the saturated liquid's enthalpy by temperature. Source: refrigerant.properties."""
        return self.tables.liquid_enthalpy.slope(self._place(temperature)) * LOG2_E / (self.tables.edge - temperature)

    def vapor(self, dew: float, superheat: float) -> Vapor:
        """Vapor at the pressure of a dew point, superheated by so many K. Source: refrigerant.properties."""
        tables, x, y = self.tables, self._place(dew), self._across(superheat)
        pressure = exp2(tables.dew_pressure.at(x))
        density = pressure * exp2(tables.vapor_density.at(x, y))
        return Vapor(pressure, density, tables.vapor_enthalpy.at(x, y), exp2(tables.vapor_viscosity.at(x, y)))

    def vapor_density(self, dew: float, superheat: float) -> float:
        """Only the density of `vapor`."""
        x = self._place(dew)
        return exp2(self.tables.dew_pressure.at(x) + self.tables.vapor_density.at(x, self._across(superheat)))

    def vapor_entropy(self, dew: float, superheat: float) -> float:
        """Specific entropy of vapor, J/(kg K), at the pressure of a dew point, superheated by so many K. Source: refrigerant.properties."""
        return self.tables.vapor_entropy.at(self._place(dew), self._across(superheat))

    def compressed(self, evaporating: float, superheat: float, dew: float, efficiency: float) -> float:
        """Superheat, K, above a dew point of vapor that was compressed to its pressure from another dew point and superheat.

        h2 = h1 + (h2s - h1)/efficiency, where h2s stands at the entropy of the start. Source: refrigerant.properties.
        Raises: OutsideProperties where the vapor would be below its dew point or more than 100 K above.
        """
        x, y, end = self._place(evaporating), self._across(superheat), self._place(dew)
        enthalpy, entropy = self.tables.vapor_enthalpy, self.tables.vapor_entropy
        start = enthalpy.at(x, y)
        u = _reaching(entropy, "entropy", end, entropy.at(x, y), _USUAL_ACROSS)
        rise = (enthalpy.at(end, u) - start) / efficiency
        return SUPERHEAT_SCALE * (exp(_reaching(enthalpy, "enthalpy", end, start + rise, u - log(efficiency))) - 1.0)

    def _place(self, temperature: float) -> float:
        coldest, hottest = self.reach
        if not coldest <= temperature <= hottest:
            raise OutsideProperties("temperature", temperature, self.least_temperature, self.greatest_temperature)
        return -log2(self.tables.edge - temperature)

    def _across(self, superheat: float) -> float:
        if not -SLACK <= superheat <= MOST_SUPERHEAT * (1.0 + SLACK):
            raise OutsideProperties("superheat", superheat, 0.0, MOST_SUPERHEAT)
        return log1p(superheat / SUPERHEAT_SCALE if superheat > 0.0 else 0.0)


def glide(bubble: float, dew: float) -> float:
    """Dew point less bubble point of one pressure, K; zero for a pure refrigerant. Source: refrigerant.bubble-and-dew."""
    return dew - bubble if dew - bubble > LEAST_GLIDE else 0.0


def _reaching(table: Surface, what: str, x: float, wanted: float, near: float) -> float:
    """Where across the table its figure is the wanted one, sought from a place near it. Raises: OutsideProperties where it is nowhere."""
    y = table.across(x, wanted, near)
    if not 0.0 <= y <= _MOST_ACROSS:
        raise OutsideProperties(what, wanted, table.at(x, 0.0), table.at(x, _MOST_ACROSS))
    return y


def _refrigerant(row: Mapping[str, float | str | bool], tables: PropertyTables) -> Refrigerant:
    limit = row.get("lower_flammability_limit")
    least, greatest = tables.least_temperature, tables.greatest_temperature
    ends = -log2(tables.edge - least), -log2(tables.edge - greatest)
    hottest_dew = tables.dew_pressure.at(ends[1])
    return Refrigerant(
        name=row["refrigerant"],  # type: ignore[arg-type]
        safety_group=row["safety_group"],  # type: ignore[arg-type]
        lower_flammability_limit=None if limit is None else Density(float(limit)),
        concentration_limit=Density.of(float(row["concentration_limit"]), "lb/1000ft3"),
        least_temperature=Temperature(least),
        greatest_temperature=Temperature(greatest),
        greatest_condensing=Temperature(tables.bubble_temperature.at(hottest_dew)),
        reach=(least * (1.0 - SLACK), greatest * (1.0 + SLACK)),
        bubble_pressures=(exp2(tables.bubble_pressure.at(ends[0])), exp2(tables.bubble_pressure.at(ends[1]))),
        dew_pressures=(exp2(tables.dew_pressure.at(ends[0])), exp2(hottest_dew)),
        tables=tables,
    )


@cache
def refrigerants() -> Mapping[RefrigerantName, Refrigerant]:
    """Every refrigerant by name, once its tables are filled."""
    filled = start_tables().refrigerants
    return {one.name: one for one in (_refrigerant(row, filled[str(row["refrigerant"])]) for row in SAFETY_TABLE.rows)}


def refrigerant_named(name: RefrigerantName) -> Refrigerant:
    """The refrigerant of this name."""
    return refrigerants()[name]
