"""The vapour line: what the gas does in every made tube, cooling and heating."""

from math import exp, sqrt

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.fitted import legs_of
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import BrokenLimit, HotGasFigures, OilReturn, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.kernel.quantity import GaugePressure, Length, Power, PressureDrop, TemperatureDifference, Velocity
from kneewall.physics.air import SEA_LEVEL_PRESSURE
from kneewall.physics.friction import friction_factor
from kneewall.physics.refrigerant import Refrigerant
from kneewall.physics.tubes import COOLEST_RATED, Tube, allowable_stress

GRAVITY = 9.80665
AT_LIMIT = 1.0 + 1e-9


def vapor_candidates(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant, states: list[ModeState]) -> list[VaporCandidate]:
    """Every tube that comes into question, smallest bore first."""
    limit = rules.USUAL_PENALTY if question.limits.vapor_penalty is None else question.limits.vapor_penalty
    stress = allowable_stress(max(COOLEST_RATED, *(state.vapor_temperature for state in states)))
    working = max(working_pressure(state) for state in states) - SEA_LEVEL_PRESSURE
    return [_candidate(refrigerant, states, tube, length, limit, stress, working) for tube, length in legs_of(question.temper, question.vapor_line)]


def working_pressure(state: ModeState) -> float:
    """What the vapour line stands in use, Pa absolute: heating, the condensing pressure; cooling, the standstill pressure of the low side."""
    return state.vapor_pressure if state.mode == "heating" else state.vapor_design_pressure


def gas_loss(state: ModeState, tube: Tube, length: float, share: float = 1.0) -> tuple[float, float]:
    """Velocity, m/s, and friction, Pa, of a share of the full flow over an equivalent length in m.

    dp = f L/D rho V^2/2. Source: friction.darcy-weisbach, friction.colebrook.
    """
    vapor = state.vapor
    flux = share * state.mass_flow / tube.area
    velocity = flux / vapor.density
    factor = friction_factor(flux * tube.inside_diameter / vapor.viscosity, tube.relative_roughness)
    return velocity, factor * length / tube.inside_diameter * flux * velocity / 2.0


def dew_drop(refrigerant: Refrigerant, state: ModeState, friction: float) -> float | None:
    """Fall of the dew temperature, K, by friction and height; None above 10 % of the pressure or where the tables end.

    T_dew(p) - T_dew(p - dp - rho g H). Source: refrigerant-line-sizing.saturation-drop.
    """
    drop = friction + state.vapor.density * GRAVITY * state.vapor_rise
    if drop > rules.MOST_DROP_SHARE * state.vapor_pressure or state.vapor_pressure - drop > refrigerant.dew_pressures[1]:
        return None
    return state.dew - refrigerant.dew_temperature(state.vapor_pressure - drop)


def least_oil_flux(state: ModeState, diameter: float) -> float:
    """Mass flux, kg/(m2 s), from which gas carries oil up a riser: 0.7225 sqrt(rho g D (rho_film - rho)), bore D in m.

    Source: refrigerant-line-sizing.oil-return. Valid: film denser than the gas.
    """
    density = state.vapor.density
    return 0.7225 * sqrt(density * GRAVITY * diameter * (state.film_density - density))


def oil_return(state: ModeState, tube: Tube) -> OilReturn:
    """The least capacity at which gas in this tube carries oil up, and the lowest stage over it less one."""
    least = state.capacity * least_oil_flux(state, tube.inside_diameter) * tube.area / state.mass_flow
    return OilReturn(minimum_capacity=Power(least), margin=state.lowest / least - 1.0)


def _candidate(
    refrigerant: Refrigerant, states: list[ModeState], tube: Tube, length: float, limit: float, stress: float | None, working: float
) -> VaporCandidate:
    cooling = states[0]
    velocity, friction = gas_loss(cooling, tube, length)
    drop = dew_drop(refrigerant, cooling, friction)
    oil = oil_return(cooling, tube)
    rated = None if stress is None else stress * tube.strength
    breaks = _broken(cooling, velocity, friction, drop, oil, limit, rules.MOST_SUCTION_VELOCITY)
    beyond = "drop-too-large" in breaks
    heating = None
    if len(states) > 1:
        heating, more = _hot_gas(refrigerant, states[1], tube, length, limit)
        breaks += [one for one in more if one not in breaks]
    if rated is None or rated * AT_LIMIT < working:
        breaks.append("pressure")
    return VaporCandidate(
        nominal_size=tube.nominal_size,
        inside_diameter=tube.inside_diameter,
        equivalent_length=Length(length),
        rated_pressure=None if rated is None else GaugePressure(rated),
        velocity=Velocity(velocity),
        pressure_drop=None if beyond else PressureDrop(friction),
        saturation_drop=None if drop is None else TemperatureDifference(drop),
        capacity_factor=None if drop is None else exp(-cooling.density_slope * drop),
        oil_return=oil,
        heating=heating,
        breaks=breaks,
    )


def _hot_gas(refrigerant: Refrigerant, state: ModeState, tube: Tube, length: float, limit: float) -> tuple[HotGasFigures, list[BrokenLimit]]:
    velocity, friction = gas_loss(state, tube, length)
    drop = dew_drop(refrigerant, state, friction)
    oil = oil_return(state, tube)
    breaks = _broken(state, velocity, friction, drop, oil, limit, rules.MOST_HOT_GAS_VELOCITY)
    figures = HotGasFigures(
        velocity=Velocity(velocity),
        pressure_drop=None if "drop-too-large" in breaks else PressureDrop(friction),
        saturation_drop=None if drop is None else TemperatureDifference(drop),
        oil_return=oil,
    )
    return figures, breaks


def _broken(
    state: ModeState, velocity: float, friction: float, drop: float | None, oil: OilReturn, limit: float, fastest: float
) -> list[BrokenLimit]:
    breaks: list[BrokenLimit] = []
    if drop is None and friction + state.vapor.density * GRAVITY * state.vapor_rise > rules.MOST_DROP_SHARE * state.vapor_pressure:
        breaks.append("drop-too-large")
    elif drop is not None and drop > limit * AT_LIMIT:
        breaks.append("loss")
    if velocity > fastest * AT_LIMIT:
        breaks.append("velocity")
    if state.vapor_rise > 0.0 and oil.margin < -1e-9:
        breaks.append("oil-return")
    return breaks
