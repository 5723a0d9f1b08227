"""The vapor line: what the gas does in every made tube, cooling and heating."""

from math import exp

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.fitted import legs_of
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import BrokenLimit, HotGasFigures, OilReturn, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.kernel.quantity import GaugePressure, Length, Power, PressureDrop, TemperatureDifference, Velocity
from kneewall.physics.air import SEA_LEVEL_PRESSURE
from kneewall.physics.refrigerant import Refrigerant
from kneewall.physics.tubes import COOLEST_RATED, Leg, Tube, allowable_stress, tube_losses

AT_LIMIT = 1.0 + 1e-9
GasFigures = tuple[Velocity, PressureDrop | None, TemperatureDifference | None, OilReturn, list[BrokenLimit]]


def vapor_candidates(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant, states: list[ModeState]) -> list[VaporCandidate]:
    """Every tube that comes into question, smallest bore first."""
    limit = rules.USUAL_PENALTY if question.limits.vapor_penalty is None else question.limits.vapor_penalty
    stress = allowable_stress(max(COOLEST_RATED, *(state.vapor_temperature for state in states)))
    working = max(working_pressure(state) for state in states) - SEA_LEVEL_PRESSURE
    legs = legs_of(question.temper, question.vapor_line)
    cooling = gas_figures(refrigerant, states[0], legs, limit, rules.MOST_SUCTION_VELOCITY)
    heating = gas_figures(refrigerant, states[1], legs, limit, rules.MOST_HOT_GAS_VELOCITY) if len(states) > 1 else [None] * len(legs)
    return [_candidate(leg, states[0], gas, hot, stress, working) for leg, gas, hot in zip(legs, cooling, heating, strict=True)]


def working_pressure(state: ModeState) -> float:
    """What the vapor line stands in use, Pa absolute: heating, the condensing pressure; cooling, the standstill pressure of the low side."""
    return state.vapor_pressure if state.mode == "heating" else state.vapor_design_pressure


def dew_drops(refrigerant: Refrigerant, state: ModeState, frictions: list[float]) -> list[float | None]:
    """Fall of the dew temperature, K, by each friction, Pa, and by height; None above 10 % of the pressure or where the tables end.

    T_dew(p) - T_dew(p - dp - rho g H). Source: refrigerant-line-sizing.saturation-drop.
    """
    start, dew = state.vapor_pressure - state.vapor_lift, state.dew
    least = (1.0 - rules.MOST_DROP_SHARE) * state.vapor_pressure
    left = refrigerant.dew_temperatures([start - friction for friction in frictions], least)
    return [None if one is None else dew - one for one in left]


def least_oil_flow(state: ModeState, tube: Tube) -> float:
    """Mass flow, kg/s, from which gas carries oil up a riser: A 0.7225 sqrt(rho g D (rho_film - rho)).

    Source: refrigerant-line-sizing.oil-return. Valid: film denser than the gas.
    """
    return state.oil_flux * tube.riser


def gas_figures(refrigerant: Refrigerant, state: ModeState, legs: list[Leg], limit: float, fastest: float) -> list[GasFigures]:
    """What the full flow does in each tube: velocity, friction, loss, oil return and the limits it breaks; limit in K, fastest in m/s.

    Friction is left out where it takes more than the figures hold for, the loss also where the tables end.
    """
    rises, most_loss, most_velocity = state.vapor_rise > 0.0, limit * AT_LIMIT, fastest * AT_LIMIT
    velocities, frictions = tube_losses(legs, state.mass_flow, state.vapor.density, state.vapor.viscosity)
    falls, too_large = dew_drops(refrigerant, state, frictions), rules.MOST_DROP_SHARE * state.vapor_pressure - state.vapor_lift
    found = []
    for (tube, _), velocity, friction, fall in zip(legs, velocities, frictions, falls, strict=True):
        least = state.oil_capacity * tube.riser
        margin = state.lowest / least - 1.0
        breaks: list[BrokenLimit] = []
        lost: PressureDrop | None = PressureDrop(friction)
        drop: TemperatureDifference | None = None
        if fall is not None:
            drop = TemperatureDifference(fall)
            if fall > most_loss:
                breaks.append("loss")
        elif friction > too_large:
            lost = None
            breaks.append("drop-too-large")
        if velocity > most_velocity:
            breaks.append("velocity")
        if rises and margin < -1e-9:
            breaks.append("oil-return")
        found.append((Velocity(velocity), lost, drop, OilReturn(minimum_capacity=Power(least), margin=margin), breaks))
    return found


def _candidate(leg: Leg, cooling: ModeState, gas: GasFigures, hot: GasFigures | None, stress: float | None, working: float) -> VaporCandidate:
    (tube, length), (velocity, friction, drop, oil, breaks) = leg, gas
    rated = None if stress is None else GaugePressure(stress * tube.strength)
    heating = None
    if hot is not None:
        heating = HotGasFigures(velocity=hot[0], pressure_drop=hot[1], saturation_drop=hot[2], oil_return=hot[3])
        if hot[4]:
            breaks += [one for one in hot[4] if one not in breaks]
    if rated is None or rated * AT_LIMIT < working:
        breaks.append("pressure")
    return VaporCandidate(
        nominal_size=tube.nominal_size,
        inside_diameter=tube.inside_diameter,
        equivalent_length=Length(length),
        rated_pressure=rated,
        velocity=velocity,
        pressure_drop=friction,
        saturation_drop=drop,
        capacity_factor=None if drop is None else exp(-cooling.density_slope * drop),
        oil_return=oil,
        heating=heating,
        breaks=breaks,
    )
