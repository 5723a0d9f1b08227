"""The heat balance of a unit: what it gives to the water or takes from it, the flow that needs, and how the water leaves."""

from dataclasses import dataclass

from kneewall.calculations.water_loop_flow.answered import FlowRequired, GovernedBy
from kneewall.calculations.water_loop_flow.messages import Loop, LoopDuty, LoopUnit
from kneewall.kernel.quantity import Temperature, TemperatureDifference, WaterFlow
from kneewall.physics.water import Liquid, Properties

LIMIT_FOR_WATER = Temperature.of(38, "°F")
ABOVE_FREEZING = TemperatureDifference.of(10, "delta_degF")
USUAL_RISE: dict[Loop, TemperatureDifference] = {
    "open": TemperatureDifference.of(15, "delta_degF"),
    "closed": TemperatureDifference.of(10, "delta_degF"),
}


@dataclass(frozen=True, slots=True)
class Water:
    """The fluid at the temperature at which it enters and is metered."""

    properties: Properties
    entering: Liquid
    plain: bool


def heat_rejected(duty: LoopDuty) -> float:
    """Heat given to the water in cooling, W: net capacity and all the power drawn for it. Source: water-loop-flow.heat-balance."""
    return duty.capacity + duty.power


def heat_absorbed(duty: LoopDuty) -> float:
    """Heat taken from the water in heating, W: net capacity less all the power drawn for it. Source: water-loop-flow.heat-balance."""
    return duty.capacity - duty.power


def leaving_limit(unit: LoopUnit, water: Water) -> float:
    """The lowest temperature at which the water may leave in heating, K. Source: water-loop-flow.leaving-limit."""
    if unit.leaving_limit is not None:
        return unit.leaving_limit
    return LIMIT_FOR_WATER if water.plain else water.properties.freezing + ABOVE_FREEZING


def greatest_rise(unit: LoopUnit, loop: Loop) -> float:
    """By how much the water may be warmed in cooling, K. Source: water-loop-flow.rise."""
    return USUAL_RISE[loop] if unit.greatest_rise is None else unit.greatest_rise


def flow_for(heat: float, change: float, water: Water) -> float:
    """The flow, m3/s, metered at the entering temperature, that carries `heat`, W, with a change of temperature, K: q = Q/(rho cp dT), cp at the mean.

    Source: water-loop-flow.heat-balance. Valid: both ends within the fluid's range.
    """
    mean = min(max(water.entering.temperature + change / 2.0, water.properties.freezing), water.properties.highest)
    return heat / (water.entering.density * water.properties.specific_heat(mean) * abs(change))


def leaving_temperature(heat: float, flow: float, water: Water) -> float | None:
    """The temperature, K, at which the water leaves when `heat`, W (negative: taken), goes into `flow`, m3/s; None where it would freeze or boil.

    T = T_in + Q/(rho q cp), cp at the mean temperature. Source: water-loop-flow.heat-balance.
    """
    if flow <= 0.0:
        return None
    carried = water.entering.density * flow
    change = heat / (carried * water.entering.specific_heat)
    for _ in range(2):
        leaving = water.entering.temperature + change
        if not water.properties.freezing < leaving <= water.properties.highest:
            return None
        change = heat / (carried * water.properties.specific_heat(water.entering.temperature + change / 2.0))
    return water.entering.temperature + change


def required_flow(unit: LoopUnit, loop: Loop, water: Water) -> FlowRequired:
    """The largest of the flows that the heat taken, the heat given and the unit itself need. Source: water-loop-flow.required-flow."""
    needs: list[tuple[float, GovernedBy]] = []
    if unit.minimum_flow is not None:
        needs.append((unit.minimum_flow, "unit-minimum"))
    if unit.heating is not None:
        fall = water.entering.temperature - leaving_limit(unit, water)
        if fall <= 0.0:
            return FlowRequired(unit=unit.id, governed_by="no-flow-suffices")
        needs.append((flow_for(heat_absorbed(unit.heating), -fall, water), "heat-absorbed"))
    if unit.cooling is not None:
        needs.append((flow_for(heat_rejected(unit.cooling), greatest_rise(unit, loop), water), "heat-rejected"))
    flow, governed_by = max(needs)
    return FlowRequired(unit=unit.id, flow=WaterFlow(flow), governed_by=governed_by)
