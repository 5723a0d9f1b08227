"""Air at one of the two points of the split: what its temperatures say, each with its sensitivities."""

import msgspec

from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.estimate import Estimate, Readings, combined
from kneewall.kernel.refusal import Fault, fault
from kneewall.physics.air import (
    GAS_CONSTANT_DRY_AIR,
    MASS_RATIO_WATER_TO_AIR,
    SPECIFIC_HEAT_DRY_AIR,
    humidity_ratio_from_wet_bulb,
)

HEAT_OF_VAPOR = 2501e3
"""J/kg at 0 degC"""
SPECIFIC_HEAT_VAPOR = 1860.0
STEP = 0.01
"""K, over which the slope of the humidity ratio by wet bulb is taken"""


class AirThere(msgspec.Struct, frozen=True, gc=False):
    """Air at one point. SI, per kg of dry air; dry mass and heat capacity per m3 of this air. No humidity ratio where no wet bulb was given."""

    temperature: Estimate
    humidity_ratio: Estimate | None
    enthalpy: Estimate
    dry_mass: Estimate
    heat_capacity: Estimate


def air_there(readings: Readings, given: m.CommissioningAir, where: str, pressure: float, faults: list[Fault]) -> AirThere | None:
    """The air at one point, at a pressure in Pa; dry where no wet bulb is given. Adds to `faults` what cannot be."""
    temperature = readings.take(f"{where} dry bulb", given.dry_bulb, "dry_bulb")
    if given.wet_bulb is None:
        return _air(temperature, None, 0.0, pressure)
    pointer = f"/air_side/split/{where}/wet_bulb"
    if given.wet_bulb > given.dry_bulb + 1e-9:
        faults.append(fault(pointer, "{} is above the dry bulb of {}", given.wet_bulb, given.dry_bulb))
        return None
    ratio = humidity_ratio_from_wet_bulb(given.dry_bulb, given.wet_bulb, pressure)
    if ratio < 0.0:
        faults.append(fault(pointer, "{} is lower than dry air of {} can have", given.wet_bulb, given.dry_bulb))
        return None
    wet = readings.take(f"{where} wet bulb", given.wet_bulb, "wet_bulb")
    by_dry = (humidity_ratio_from_wet_bulb(given.dry_bulb + STEP, given.wet_bulb, pressure) - ratio) / STEP
    by_wet = (humidity_ratio_from_wet_bulb(given.dry_bulb, given.wet_bulb + STEP, pressure) - ratio) / STEP
    return _air(temperature, combined(ratio, (by_dry, temperature), (by_wet, wet)), ratio, pressure)


def _air(temperature: Estimate, ratio: Estimate | None, w: float, pressure: float) -> AirThere:
    """h = 1006 t + W (2501000 + 1860 t); dry mass per volume p/(R T (1 + W/0.621945)); heat capacity that times 1006 + 1860 W; t in degC.

    Source: air.moist, commissioning-check.air-heat.
    """
    kelvin = temperature.value
    t = kelvin - 273.15
    specific = SPECIFIC_HEAT_DRY_AIR + SPECIFIC_HEAT_VAPOR * w
    latent = HEAT_OF_VAPOR + SPECIFIC_HEAT_VAPOR * t
    mass = pressure / (GAS_CONSTANT_DRY_AIR * kelvin * (1.0 + w / MASS_RATIO_WATER_TO_AIR))
    by_t, by_w = -mass / kelvin, -mass / (MASS_RATIO_WATER_TO_AIR + w)
    return AirThere(
        temperature,
        ratio,
        _by_both(SPECIFIC_HEAT_DRY_AIR * t + w * latent, specific, latent, temperature, ratio),
        _by_both(mass, by_t, by_w, temperature, ratio),
        _by_both(mass * specific, by_t * specific, by_w * specific + mass * SPECIFIC_HEAT_VAPOR, temperature, ratio),
    )


def _by_both(value: float, by_t: float, by_w: float, temperature: Estimate, ratio: Estimate | None) -> Estimate:
    """A property of the air with its sensitivities to temperature and humidity ratio."""
    return combined(value, (by_t, temperature)) if ratio is None else combined(value, (by_t, temperature), (by_w, ratio))
