"""The refrigerant side: superheat by the dew point, subcooling by the bubble point, from gauges in the local atmosphere."""

from collections.abc import Callable
from dataclasses import dataclass, field

from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.estimate import Estimate, Readings, combined, difference
from kneewall.kernel.quantity import AbsolutePressure, GaugePressure
from kneewall.kernel.refusal import Fault, fault
from kneewall.physics.air import atmospheric_pressure
from kneewall.physics.refrigerant import OutsideProperties, refrigerant_named

STEP = 2e-3
"""Share of the absolute pressure over which the slope of the saturation curve is taken"""


@dataclass(slots=True)
class RefrigerantSide:
    """What the refrigerant side comes to. SI."""

    readings: Readings
    dew: Estimate | None = None
    superheat: Estimate | None = None
    bubble: Estimate | None = None
    subcooling: Estimate | None = None
    missing: list[str] = field(default_factory=list)


def work_out_refrigerant(given: m.CommissioningRefrigerantSide, altitude: float, faults: list[Fault]) -> RefrigerantSide:
    """Superheat T - T_dew(p + p_atm) and subcooling T_bubble(p + p_atm) - T. Source: refrigerant.bubble-and-dew. Adds to `faults` what cannot be."""
    found = RefrigerantSide(Readings("refrigerant_side", given.uncertainty))
    refrigerant = refrigerant_named(given.refrigerant)
    atmosphere = atmospheric_pressure(altitude)
    if given.suction_pressure is not None and given.suction_temperature is not None:
        pressure = found.readings.take("suction pressure", given.suction_pressure, "suction_pressure")
        found.dew = _saturation(refrigerant.dew_temperature, pressure, atmosphere, "suction_pressure", faults)
        if found.dew is not None:
            line = found.readings.take("suction line", given.suction_temperature, "temperature")
            found.superheat = difference(line, found.dew)
    else:
        found.missing.append("Superheat: it needs refrigerant side › suction pressure and suction temperature.")
    if given.liquid_pressure is not None and given.liquid_temperature is not None:
        pressure = found.readings.take("liquid pressure", given.liquid_pressure, "liquid_pressure")
        found.bubble = _saturation(refrigerant.bubble_temperature, pressure, atmosphere, "liquid_pressure", faults)
        if found.bubble is not None:
            line = found.readings.take("liquid line", given.liquid_temperature, "temperature")
            found.subcooling = difference(found.bubble, line)
    else:
        found.missing.append("Subcooling: it needs refrigerant side › liquid pressure and liquid temperature.")
    return found


def _saturation(curve: Callable[[float], float], gauge: Estimate, atmosphere: float, name: str, faults: list[Fault]) -> Estimate | None:
    """Saturation temperature and, by the slope of its curve, how far the gauge moves it."""
    pressure = gauge.value + atmosphere
    try:
        temperature = curve(pressure)
        below, above = pressure * (1.0 - STEP), pressure * (1.0 + STEP)
        slope = (_inside(curve, above, temperature) - _inside(curve, below, temperature)) / (above - below)
    except OutsideProperties as outside:
        faults.append(
            fault(
                f"/refrigerant_side/{name}",
                "{} is {} here; this refrigerant's saturation is known from {} to {}",
                GaugePressure(gauge.value),
                AbsolutePressure(pressure),
                AbsolutePressure(outside.least),
                AbsolutePressure(outside.most),
            )
        )
        return None
    return combined(temperature, (slope, gauge))


def _inside(curve: Callable[[float], float], pressure: float, otherwise: float) -> float:
    """The curve, or the end's own temperature where the step runs past the end."""
    try:
        return curve(pressure)
    except OutsideProperties:
        return otherwise
