"""Heat and moisture around the ducts: what the air gains, and whether a surface sweats."""

from dataclasses import dataclass
from math import exp

from kneewall.calculations.duct_system.losses import Run
from kneewall.calculations.duct_system.messages import DuctSystemQuestion
from kneewall.kernel.quantity import Power, Temperature, ThermalResistance
from kneewall.physics import ducts
from kneewall.physics.air import SPECIFIC_HEAT_DRY_AIR, Air

R = ThermalResistance.of(1.0, "ft2.h.degF/Btu")
COOLED_ROOM, HEATED_ROOM = Temperature.of(75, "degF"), Temperature.of(70, "degF")
SURFACE_RESISTANCE = {"foil": 1.32 * R, "dull": 0.68 * R}


@dataclass(frozen=True, slots=True)
class SectionHeat:
    """What happens to the air and the surface of one section."""

    gain: Power | None = None
    leaving: Temperature | None = None
    surface: Temperature | None = None
    least_r: ThermalResistance | None = None


def effective_resistance(nominal: float | None, side: str) -> float:
    """Effective resistance of a round insulated duct, m2.K/W, from the label's; bare where None. Source: duct-system.effective-resistance."""
    if not nominal:
        return 1.7 * R
    if side == "supply":
        return 2.2438 * R + 0.5619 * nominal
    return 2.0388 * R + 0.7053 * nominal


def leaving_temperature(entering: float, around: float, conductance: float, capacity_rate: float) -> float:
    """T_out = T_around - (T_around - T_in) exp(-UA/(m c)): K from K, W/K and W/K. Source: duct-system.heat-gain. Valid: capacity_rate > 0."""
    return around - (around - entering) * exp(-conductance / capacity_rate)


def surface_temperature(inside: float, around: float, resistance: float, jacket: str) -> float:
    """Temperature, K, of a jacket over insulation of `resistance`, m2.K/W. Source: duct-system.sweating."""
    film = SURFACE_RESISTANCE[jacket]
    return around - (around - inside) * film / (resistance + film)


def least_resistance(inside: float, around: float, dew_point: float, jacket: str) -> float | None:
    """The insulation, m2.K/W, whose surface is just at the dew point: R = R_s (T_dp - T_in)/(T_around - T_dp).

    None where no insulation helps (the air around is saturated); zero where nothing sweats. Source: duct-system.sweating.
    """
    if inside >= dew_point:
        return 0.0
    if dew_point >= around:
        return None
    return SURFACE_RESISTANCE[jacket] * (dew_point - inside) / (around - dew_point)


def share_lost(gain: float, mass_flow: float, supply: float) -> tuple[float, Temperature] | None:
    """The share of its sensible heat that air loses on the way, |Q|/(m c |T_room - T_supply|), and the room's temperature: W, kg/s and K.

    None where the supply air is neither colder nor warmer than a room, or the way helps. Source: duct-system.heat-share.
    """
    room = COOLED_ROOM if supply < HEATED_ROOM else HEATED_ROOM
    carried = mass_flow * SPECIFIC_HEAT_DRY_AIR * (room - supply)
    if HEATED_ROOM <= supply <= COOLED_ROOM or gain * carried <= 0.0:
        return None
    return gain / carried, room


def supply_heat(question: DuctSystemQuestion, runs: list[Run], flows: list[float], air: Air) -> dict[str, SectionHeat]:
    """For every supply section, from the unit outward. Nothing where surroundings or the supply air are not stated."""
    if question.surroundings is None or question.supply_air is None:
        return {}
    around, found = question.surroundings.temperature, {}
    arriving: dict[str, float] = {}
    for run, flow in zip(runs, flows, strict=True):
        section = run.node.section
        if section.side != "supply" or run.size is None:
            continue
        entering = question.supply_air.temperature if run.node.parent is None else arriving[section.toward_unit]
        nominal = section.insulation.nominal_r if section.insulation is not None else None
        conductance = ducts.duct_perimeter(run.size) * section.length / effective_resistance(nominal, "supply")
        capacity_rate = flow * air.density * SPECIFIC_HEAT_DRY_AIR
        leaving = arriving[section.id] = leaving_temperature(entering, around, conductance, capacity_rate)
        found[section.id] = SectionHeat(Power(capacity_rate * (leaving - entering)), Temperature(leaving), *_surface(question, entering, nominal))
    return found


def _surface(question: DuctSystemQuestion, inside: float, nominal: float | None) -> tuple[Temperature, ThermalResistance | None]:
    assert question.surroundings is not None
    around = question.surroundings
    surface = Temperature(surface_temperature(inside, around.temperature, nominal or 0.0, around.jacket))
    if around.dew_point is None:
        return surface, None
    least = least_resistance(inside, around.temperature, around.dew_point, around.jacket)
    return surface, None if least is None else ThermalResistance(least)
