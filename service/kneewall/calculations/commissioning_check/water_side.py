"""The water side: flow by each way it can be known, and the heat in the water."""

from dataclasses import dataclass, field
from typing import Literal

from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.estimate import Estimate, Readings, combined, difference
from kneewall.kernel.quantity import Temperature
from kneewall.kernel.refusal import Fault, Refusal
from kneewall.physics.water import Liquid, Properties, fluid_properties, liquid_at, rated_water

WaterFlowWay = Literal["flow-meter", "coil-pressure-drop", "heat-balance"]
WATER_SIDE_WAYS: tuple[WaterFlowWay, ...] = ("flow-meter", "coil-pressure-drop")


@dataclass(slots=True)
class WaterSide:
    """What the water side comes to. SI."""

    readings: Readings
    freezing: float = 0.0
    entering: Estimate | None = None
    leaving: Estimate | None = None
    change: Estimate | None = None
    heat_per_flow: Estimate | None = None
    drop: Estimate | None = None
    power: Estimate | None = None
    flows: dict[WaterFlowWay, Estimate] = field(default_factory=dict)
    missing: list[str] = field(default_factory=list)

    @property
    def flow_by(self) -> WaterFlowWay | None:
        """Which of the flows known from the water side alone counts: a meter before the coil's pressure drop."""
        return next((way for way in WATER_SIDE_WAYS if way in self.flows), None)


def work_out_water(given: m.CommissioningWaterSide, mode: m.Mode, faults: list[Fault]) -> WaterSide:
    """Everything the water side gives by itself. Adds to `faults` what cannot be."""
    found = WaterSide(Readings("water_side", given.uncertainty))
    try:
        properties = fluid_properties(given.fluid, "/water_side/fluid")
        entering = _liquid(properties, given.entering, "entering", faults)
        leaving = _liquid(properties, given.leaving, "leaving", faults)
    except Refusal as refusal:
        faults += refusal.faults
        return found
    if entering is None or leaving is None:
        return found
    found.freezing = properties.freezing
    mean = properties.at(0.5 * (given.entering + given.leaving))
    _temperatures(found, given, mode, entering.density * mean.specific_heat)
    if given.flow is not None:
        found.flows["flow-meter"] = found.readings.take("water flow by meter", given.flow, "flow")
    _by_coil(found, given, mean)
    if given.power is not None:
        found.power = found.readings.take("electric power", given.power, "power")
    return found


def _liquid(properties: Properties, temperature: Temperature, name: str, faults: list[Fault]) -> Liquid | None:
    try:
        return liquid_at(properties, temperature, f"/water_side/{name}")
    except Refusal as refusal:
        faults += refusal.faults
        return None


def _temperatures(found: WaterSide, given: m.CommissioningWaterSide, mode: m.Mode, per_flow: float) -> None:
    """Heat per flow: rho cp dT, rho where the water enters, cp at its mean temperature; positive as the mode wants it. Source: commissioning-check.water-heat."""
    found.entering = found.readings.take("entering water", given.entering, "temperature")
    found.leaving = found.readings.take("leaving water", given.leaving, "temperature")
    warm, cold = (found.leaving, found.entering) if mode == "cooling" else (found.entering, found.leaving)
    found.change = difference(warm, cold)
    found.heat_per_flow = combined(per_flow * found.change.value, (per_flow, found.change))


def _by_coil(found: WaterSide, given: m.CommissioningWaterSide, liquid: Liquid) -> None:
    if given.pressure_drop is None:
        if given.coil is not None or given.flow is None:
            found.missing.append("Water flow by the coil's pressure drop: give water side › pressure drop between the coil's two ports.")
        return
    reading = found.readings.take("port difference, flowing", given.pressure_drop, "pressure_drop")
    if given.no_flow_pressure_drop is None:
        zero = found.readings.take("height and gauge error, not measured", 0.0, "zero")
        found.missing.append("Height and gauge error in the coil's pressure drop: read the same gauge at both ports with the water standing.")
    else:
        zero = found.readings.take("port difference, standing", given.no_flow_pressure_drop, "pressure_drop")
    found.drop = difference(reading, zero)
    if given.coil is None:
        found.missing.append("Water flow by the coil's pressure drop: give water side › coil, one point of the unit's table.")
    elif found.drop.low <= 0.0:
        found.missing.append("Water flow by the coil's pressure drop: the drop is no larger than its own uncertainty.")
    else:
        found.flows["coil-pressure-drop"] = coil_flow(found.readings, given.coil, found.drop, liquid)


def coil_flow(readings: Readings, coil: m.CommissioningCoil, drop: Estimate, liquid: Liquid) -> Estimate:
    """Flow by a coil's pressure drop: q = q0 (dp/(c dp0))^(1/n), c = (rho/rho0)^(n-1) (mu/mu0)^(2-n); dq/q = (1/n) d(dp)/dp.

    Source: commissioning-check.coil. Valid: dp > 0, n 1.5 to 2.3; above 2 viscosity plays no part.
    """
    n, rated = coil.exponent, rated_water()
    thicker = (liquid.density / rated.density) ** (n - 1.0) * (liquid.viscosity / rated.viscosity) ** max(0.0, 2.0 - n)
    flow = coil.flow * float((drop.value / (thicker * coil.pressure_drop)) ** (1.0 / n))
    table = readings.take("coil table, as a share", 1.0, "coil_table")
    return combined(flow, (flow / (n * drop.value), drop), (flow, table))
