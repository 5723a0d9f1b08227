"""How much water the coil makes: from air states where they are given, else from the capacity."""

from kneewall.calculations.condensate_drain import rules
from kneewall.calculations.condensate_drain.messages import CoilAir, CondensateDrainQuestion
from kneewall.calculations.condensate_drain.results import Condensate
from kneewall.kernel.quantity import MassFlow, Number, Power, WaterFlow
from kneewall.kernel.refusal import Fault, fault
from kneewall.kernel.rule import Rule
from kneewall.physics import air
from kneewall.physics.pipe_span import WATER_DENSITY

HEAT_OF_CONDENSATION = 2468.0e3
"""J/kg, water at about 57 degF: 1061 Btu/lb"""
HEAT_OF_CONDENSATE = 4.186e3
"""J/(kg K)"""
PINTS_PER_TON = WaterFlow.of(3.0, "pint/h")
TON = Power.of(1.0, "ton")


def water_in(state: CoilAir, pressure: float) -> float:
    """Mass of water per mass of dry air, at a pressure in Pa: ((2501 - 2.326 t*) f Ws* - 1.006 (t - t*))/(2501 + 1.86 t - 4.186 t*), in degC.

    f raises the saturation pressure: the coil takes a small difference of two ratios, so half a percent of each counts.
    Source: air.moist, equation 33; condensate-drain.enhancement. Valid: wet bulb above freezing.
    """
    t, wet = state.dry_bulb - 273.15, state.wet_bulb - 273.15
    saturated = air.humidity_ratio(state.wet_bulb, enhancement(wet, pressure), pressure)
    return ((2501.0 - 2.326 * wet) * saturated - 1.006 * (t - wet)) / (2501.0 + 1.86 * t - 4.186 * wet)


def enhancement(celsius: float, pressure: float) -> float:
    """By how much more vapor saturates air than a vacuum: f = 1.00062 + 3.14e-8 p + 5.6e-7 t^2, Pa and degC. Source: condensate-drain.enhancement."""
    return 1.00062 + 3.14e-8 * pressure + 5.6e-7 * celsius * celsius


def from_air(airflow: float, entering: CoilAir, leaving: CoilAir, before: float, after: float, pressure: float) -> tuple[Condensate, list[Fault]]:
    """The water made between two air states and the water in each: m = q/v (W1 - W2), v the volume of the entering air per mass of dry air. SI.

    Source: condensate-drain.water-from-air.
    """
    if after > before:
        return _condensate(0.0, 1.0, None), [fault("/leaving_air", "carries more water than the entering air; a cooling coil only takes water out")]
    volume = air.GAS_CONSTANT_DRY_AIR * entering.dry_bulb * (1.0 + before / air.MASS_RATIO_WATER_TO_AIR) / pressure
    dry_air = airflow / volume
    water = dry_air * (before - after)
    total = dry_air * (
        air.moist_air_enthalpy(entering.dry_bulb, before) - air.moist_air_enthalpy(leaving.dry_bulb, after)
    ) - water * HEAT_OF_CONDENSATE * (leaving.wet_bulb - 273.15)
    if total <= 0.0:
        return _condensate(0.0, 1.0, None), [fault("/leaving_air", "holds no less heat than the entering air: this coil does not cool")]
    return _condensate(water, 1.0 - water * HEAT_OF_CONDENSATION / total, total), []


def from_capacity(question: CondensateDrainQuestion) -> Condensate:
    """The water made by a capacity: m = Q (1 - SHR)/h_fg, or 3 pints/h per ton where no ratio is given. Source: condensate-drain.water-from-capacity."""
    capacity, ratio = question.cooling_capacity, question.sensible_heat_ratio
    if ratio is None:
        water = capacity / TON * PINTS_PER_TON * WATER_DENSITY
        return _condensate(water, 1.0 - water * HEAT_OF_CONDENSATION / capacity, None)
    return _condensate(capacity * (1.0 - ratio) / HEAT_OF_CONDENSATION, ratio, None)


def water_made(question: CondensateDrainQuestion) -> tuple[Condensate, tuple[Rule, ...], list[Fault]]:
    """The water made, the rules it rests on, and what is missing in the air states or cannot be."""
    airflow, entering, leaving = question.airflow, question.entering_air, question.leaving_air
    if airflow is None and entering is None and leaving is None:
        return from_capacity(question), (rules.WATER_FROM_CAPACITY,), []
    pressure = air.atmospheric_pressure(question.altitude or 0.0)
    before, faults = _water_known("entering_air", entering, pressure)
    after, more = _water_known("leaving_air", leaving, pressure)
    faults += more
    if airflow is None:
        faults.append(_missing("airflow"))
    if question.sensible_heat_ratio is not None:
        faults.append(fault("/sensible_heat_ratio", "follows from the air states; leave one or the other out"))
    if faults or airflow is None or entering is None or leaving is None:
        return from_capacity(question), (rules.WATER_FROM_CAPACITY,), faults
    made, faults = from_air(airflow, entering, leaving, before, after, pressure)
    return made, (rules.WATER_FROM_AIR, rules.ENHANCEMENT, air.MOIST_AIR), faults


def _water_known(name: str, state: CoilAir | None, pressure: float) -> tuple[float, list[Fault]]:
    """The water in the air of a field, and what is wrong with it."""
    if state is None:
        return 0.0, [_missing(name)]
    if state.wet_bulb > state.dry_bulb + 1e-9:
        return 0.0, [fault(f"/{name}/wet_bulb", "{} is above the dry bulb of {}", state.wet_bulb, state.dry_bulb)]
    water = water_in(state, pressure)
    return water, [] if water >= 0.0 else [fault(f"/{name}/wet_bulb", "{} is lower than dry air of {} can have", state.wet_bulb, state.dry_bulb)]


def _missing(name: str) -> Fault:
    return fault(f"/{name}", "is missing: air flow, entering and leaving air go together")


def _condensate(water: float, ratio: float, total: float | None) -> Condensate:
    return Condensate(
        mass_flow=MassFlow(water),
        volume_flow=WaterFlow(water / WATER_DENSITY),
        sensible_heat_ratio=Number(ratio),
        coil_capacity=None if total is None else Power(total),
    )
