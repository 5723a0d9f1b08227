"""Air and water held against each other: airflow and water flow by heat balance, and what is left over between the two sides."""

from dataclasses import dataclass

from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.air_side import AirSide
from kneewall.calculations.commissioning_check.estimate import Estimate, combined, difference, product, quotient
from kneewall.calculations.commissioning_check.water_side import WaterSide

NO_POWER = "Air-side against water-side heat: give water side › power, all the electric power the unit takes."
NO_SIDE = "Air-side against water-side heat: it needs both sides, each with its temperatures."


@dataclass(slots=True)
class Heat:
    """Heat on each side. SI; positive as the mode wants it: from the air and into the water in cooling."""

    sensible: Estimate | None = None
    air: Estimate | None = None
    water: Estimate | None = None
    expected_water: Estimate | None = None
    """What the water must carry by the air's heat and the electric power."""
    left_over: Estimate | None = None
    condensate: Estimate | None = None
    """kg/s that the air gave up"""


def work_out_heat(air: AirSide | None, water: WaterSide | None, mode: m.Mode, missing: list[str]) -> Heat:
    """Heat of each side, and each side's flow by the other's heat.

    Cooling: water = air + power. Heating: water = air - power. Source: commissioning-check.balance.
    """
    found = Heat()
    if air is not None and air.airflow_by is not None:
        flow = air.airflows[air.airflow_by]
        found.sensible = None if air.sensible_per_volume is None else product(flow, air.sensible_per_volume)
        found.air = None if air.total_per_volume is None else product(flow, air.total_per_volume)
        found.condensate = None if air.water_per_volume is None else product(flow, air.water_per_volume)
    if water is not None and water.flow_by is not None and water.heat_per_flow is not None:
        found.water = product(water.flows[water.flow_by], water.heat_per_flow)
    if air is None or water is None:
        missing.append(NO_SIDE)
        return found
    if water.power is None:
        missing.append(NO_POWER)
        return found
    sign = 1.0 if mode == "cooling" else -1.0
    if found.air is not None:
        found.expected_water = combined(found.air.value + sign * water.power.value, (1.0, found.air), (sign, water.power))
        _water_flow(water, found.expected_water, missing)
    if found.water is not None:
        _airflow(air, combined(found.water.value - sign * water.power.value, (1.0, found.water), (-sign, water.power)), missing)
    if found.water is not None and found.expected_water is not None:
        found.left_over = difference(found.water, found.expected_water)
    return found


def _water_flow(water: WaterSide, heat: Estimate, missing: list[str]) -> None:
    """q = Q / (rho cp dT). Source: commissioning-check.balance."""
    flow = None if water.heat_per_flow is None else quotient(heat, water.heat_per_flow)
    if flow is None:
        missing.append(
            "Water flow by heat balance: the water's temperature change is no larger than its own uncertainty, or a heat runs the wrong way."
        )
    else:
        water.flows["heat-balance"] = flow


def _airflow(air: AirSide, heat: Estimate, missing: list[str]) -> None:
    """q = Q / (heat per volume of air). Source: commissioning-check.balance."""
    if air.total_per_volume is None:
        return
    flow = quotient(heat, air.total_per_volume)
    if flow is None:
        missing.append("Airflow by heat balance: the change of the air is no larger than its own uncertainty, or a heat runs the wrong way.")
    else:
        air.airflows["water-heat"] = flow
