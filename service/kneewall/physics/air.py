"""Moist air: density, viscosity, humidity and the pressure of the air at an altitude."""

from math import exp, log
from typing import Annotated

import msgspec

from kneewall.kernel.quantity import AbsolutePressure, Density, DynamicViscosity, Length, Temperature
from kneewall.kernel.question import Question, asked
from kneewall.kernel.refusal import refuse
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source

GAS_CONSTANT_DRY_AIR = 287.042
"""J/(kg K)"""
MASS_RATIO_WATER_TO_AIR = 0.621945
SEA_LEVEL_PRESSURE = 101325.0
SPECIFIC_HEAT_DRY_AIR = 1006.0
"""J/(kg K)"""
SPECIFIC_HEAT_VAPOR = 1860.0
"""J/(kg K)"""
HEAT_OF_VAPOR = 2501.0e3
"""J/kg at 0 degC"""

_HANDBOOK = Source(title="ASHRAE Handbook - Fundamentals, chapter 1, Psychrometrics", edition="2017", publisher="ASHRAE")

STANDARD_AIR = Rule(
    id="air.standard",
    says="Standard air weighs 0.075 lb/ft3 (about 70 degF, dry, at sea level) and has a viscosity of 0.0182 cP.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
MOIST_AIR = Rule(
    id="air.moist",
    says="Air pressure follows the standard atmosphere at the altitude; moist air is a mixture of perfect gases; water vapor saturates "
    "by the handbook's equations over ice and over water.",
    kind="formula",
    source=_HANDBOOK,
    standing="from-memory",
)
VISCOSITY = Rule(
    id="air.viscosity",
    says="The viscosity of air follows Sutherland's law. Humidity is left out: it lowers viscosity by 1 % in a room and by 4 % where a tenth of the pressure is water vapor.",
    kind="formula",
    source=Source(title="Sutherland's law with the constants of the U.S. Standard Atmosphere", edition="1976"),
    standing="from-memory",
)


class AirState(Question, frozen=True, kw_only=True):
    """The air in the duct. Leave it out for standard air (0.075 lb/ft3)."""

    temperature: Annotated[Temperature, asked("Dry-bulb temperature; 70 degF where it is left out", least="-40 degF", most="200 degF")] | None = None
    altitude: Annotated[Length, asked("Altitude above sea level; sea level where it is left out", least="-1500 ft", most="15000 ft")] | None = None
    relative_humidity: Annotated[float, asked("Relative humidity as a share of one", least=0.0, most=1.0)] = 0.0


class Air(msgspec.Struct, frozen=True):
    """Air as the formulas need it."""

    density: Density
    viscosity: DynamicViscosity
    rules: tuple[Rule, ...]


MOST_VAPOR = 0.1
"""Share of the pressure; saturated air at 115 degF and sea level."""
USUAL_TEMPERATURE = Temperature.of(70, "degF")
STANDARD = Air(Density.of(0.075, "lb/ft3"), DynamicViscosity.of(0.0182, "mPa.s"), (STANDARD_AIR,))


def air_of(state: AirState | None) -> Air:
    """The air of a stated state; standard air where none is stated. Source: air.moist, air.viscosity. Valid: water vapor up to a tenth of the pressure.

    Raises: Refusal beyond, where the viscosity of dry air no longer holds and at last no such air exists.
    """
    if state is None:
        return STANDARD
    temperature = USUAL_TEMPERATURE if state.temperature is None else state.temperature
    pressure = atmospheric_pressure(state.altitude or 0.0)
    vapor = state.relative_humidity * saturation_pressure(temperature)
    if vapor > MOST_VAPOR * pressure:
        sentence = (
            "at {} and {} above sea level it would put {} of water vapor into air of {}: more than a tenth is no air of a house, and is not answered"
        )
        raise refuse(
            "/air/relative_humidity", sentence, temperature, Length(state.altitude or 0.0), AbsolutePressure(vapor), AbsolutePressure(pressure)
        )
    ratio = humidity_ratio(temperature, state.relative_humidity, pressure)
    return Air(
        Density(moist_air_density(temperature, ratio, pressure)),
        DynamicViscosity(air_viscosity(temperature)),
        (MOIST_AIR, VISCOSITY),
    )


def atmospheric_pressure(altitude: float) -> float:
    """Pressure of the standard atmosphere, Pa: p = 101325 (1 - 2.25577e-5 z)^5.2559, altitude z in m. Source: air.moist."""
    return SEA_LEVEL_PRESSURE * float((1.0 - 2.25577e-5 * altitude) ** 5.2559)


def saturation_pressure(temperature: float) -> float:
    """Saturation pressure of water vapor over ice or water, Pa, at a temperature in K.

    ln p = C1/T + C2 + C3 T + C4 T^2 + C5 T^3 (+ C6 T^4 over ice) + C7 ln T, two sets of constants parted at the triple point.
    Source: air.moist, equations 5 and 6. Valid: 173.15 to 473.15 K.
    """
    t = temperature
    if t <= 273.16:
        exponent = -5.6745359e3 / t + 6.3925247 + t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 - 9.484024e-13 * t))) + 4.1635019 * log(t)
    else:
        exponent = -5.8002206e3 / t + 1.3914993 + t * (-4.8640239e-2 + t * (4.1764768e-5 - 1.4452093e-8 * t)) + 6.5459673 * log(t)
    return exp(exponent)


def humidity_ratio(temperature: float, relative_humidity: float, pressure: float) -> float:
    """Mass of water per mass of dry air: W = 0.621945 p_w/(p - p_w), p_w = phi p_ws(T). Temperatures in K, pressures in Pa. Source: air.moist."""
    vapor = relative_humidity * saturation_pressure(temperature)
    return MASS_RATIO_WATER_TO_AIR * vapor / (pressure - vapor)


def moist_air_density(temperature: float, ratio: float, pressure: float) -> float:
    """Mass of moist air per volume, kg/m3: rho = p (1 + W) / (R T (1 + W/0.621945)). Temperature in K, pressure in Pa. Source: air.moist."""
    return pressure * (1.0 + ratio) / (GAS_CONSTANT_DRY_AIR * temperature * (1.0 + ratio / MASS_RATIO_WATER_TO_AIR))


def moist_air_enthalpy(temperature: float, ratio: float) -> float:
    """Enthalpy of moist air, J per kg of dry air: h = 1006 t + W (2501000 + 1860 t), t in degC, temperature in K. Source: air.moist."""
    celsius = temperature - 273.15
    return SPECIFIC_HEAT_DRY_AIR * celsius + ratio * (HEAT_OF_VAPOR + SPECIFIC_HEAT_VAPOR * celsius)


def air_viscosity(temperature: float) -> float:
    """Dynamic viscosity of air, Pa.s: mu = 1.458e-6 T^1.5/(T + 110.4), T in K. Source: air.viscosity."""
    return 1.458e-6 * float(temperature**1.5) / (temperature + 110.4)


def humidity_ratio_from_wet_bulb(dry_bulb: float, wet_bulb: float, pressure: float) -> float:
    """Mass of water per mass of dry air from dry-bulb and wet-bulb temperatures, K, at a pressure in Pa.

    Above freezing W = ((2501 - 2.326 t*) Ws* - 1.006 (t - t*)) / (2501 + 1.86 t - 4.186 t*), temperatures in degC.
    Source: air.moist, equation 33 (35 over ice). Valid: wet bulb not above dry bulb; negative where no air has such a pair.
    """
    t, wet = dry_bulb - 273.15, wet_bulb - 273.15
    saturated = humidity_ratio(wet_bulb, 1.0, pressure)
    if wet >= 0.0:
        return ((2501.0 - 2.326 * wet) * saturated - 1.006 * (t - wet)) / (2501.0 + 1.86 * t - 4.186 * wet)
    return ((2830.0 - 0.24 * wet) * saturated - 1.006 * (t - wet)) / (2830.0 + 1.86 * t - 2.1 * wet)


def dew_point(vapor_pressure: float) -> float:
    """Temperature, K, at which air of this water-vapor pressure, Pa, begins to condense: the inverse of `saturation_pressure`.

    Newton's method on ln p, whose slope is nearly L/(R T^2). Source: air.moist. Valid: 10 Pa to 1 MPa.
    """
    wanted = log(vapor_pressure)
    t = 273.16 + 17.0 * (wanted - 6.4167) / (1.0 - 0.0585 * (wanted - 6.4167))
    for _ in range(30):
        here = log(saturation_pressure(t))
        slope = (log(saturation_pressure(t + 0.01)) - here) / 0.01
        step = (here - wanted) / slope
        t -= step
        if abs(step) < 1e-9:
            break
    return t
