"""The vapor line: what the gas does in every made tube, cooling and heating."""

from collections.abc import Sequence
from math import exp

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.fitted import fitted_tubes
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import BrokenLimit, HotGasFigures, OilReturn, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.kernel.quantity import GaugePressure, Length, Number, Power, PressureDrop, TemperatureDifference, Velocity
from kneewall.physics.air import SEA_LEVEL_PRESSURE
from kneewall.physics.refrigerant import Refrigerant
from kneewall.physics.tubes import Tube, allowable_stress, tube_losses

AT_LIMIT = 1.0 + 1e-9
GasFigures = tuple[Velocity, PressureDrop | None, TemperatureDifference | None, OilReturn, list[BrokenLimit]]


def vapor_candidates(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant, states: list[ModeState]) -> list[VaporCandidate]:
    """Every tube that comes into question, smallest bore first; rated for hot gas where there is a heating mode, since suction gas is cooler than any rating."""
    limit = rules.USUAL_PENALTY if question.limits.vapor_penalty is None else question.limits.vapor_penalty
    stress, working = allowable_stress(states[-1].vapor_temperature), working_pressure(states) - SEA_LEVEL_PRESSURE
    tubes, lengths = fitted_tubes(question.temper, question.vapor_line)
    cooling = gas_figures(refrigerant, states[0], tubes, lengths, limit, rules.MOST_SUCTION_VELOCITY)
    hot = gas_figures(refrigerant, states[1], tubes, lengths, limit, rules.MOST_HOT_GAS_VELOCITY) if len(states) > 1 else [None] * len(tubes)
    per_kelvin, found = -states[0].density_slope, []
    for tube, length, (velocity, friction, drop, oil, breaks), heated in zip(tubes, lengths, cooling, hot, strict=True):
        rated = None if stress is None else stress * tube.strength
        heating = None
        if heated is not None:
            hot_velocity, hot_friction, hot_drop, hot_oil, hot_breaks = heated
            heating = HotGasFigures(velocity=hot_velocity, pressure_drop=hot_friction, saturation_drop=hot_drop, oil_return=hot_oil)
            for broken in hot_breaks:
                if broken not in breaks:
                    breaks.append(broken)
        if rated is None or rated * AT_LIMIT < working:
            breaks.append("pressure")
        found.append(
            VaporCandidate(
                nominal_size=tube.nominal_size,
                inside_diameter=tube.inside_diameter,
                equivalent_length=Length(length),
                rated_pressure=None if rated is None else GaugePressure(rated),
                velocity=velocity,
                pressure_drop=friction,
                saturation_drop=drop,
                capacity_factor=None if drop is None else Number(exp(per_kelvin * drop)),
                oil_return=oil,
                heating=heating,
                breaks=breaks,
            )
        )
    return found


def working_pressure(states: Sequence[ModeState]) -> float:
    """The most that the vapor line stands in use, Pa absolute: heating, the condensing pressure; cooling, the standstill pressure of the low side."""
    return max([state.vapor_pressure if state.mode == "heating" else state.vapor_design_pressure for state in states])


def dew_points(refrigerant: Refrigerant, state: ModeState, frictions: list[float]) -> list[float | None]:
    """Dew temperature, K, that each friction, Pa, and the height leave; None where they take above 10 % of the pressure or where the tables end.

    T_dew(p - dp - rho g H). Source: refrigerant-line-sizing.saturation-drop.
    """
    least = (1.0 - rules.MOST_DROP_SHARE) * state.vapor_pressure
    return refrigerant.dew_temperatures_below(state.vapor_pressure - state.vapor_lift, frictions, least)


def least_oil_flow(state: ModeState, tube: Tube) -> float:
    """Mass flow, kg/s, from which gas carries oil up a riser: A 0.7225 sqrt(rho g D (rho_film - rho)).

    Source: refrigerant-line-sizing.oil-return. Valid: film denser than the gas.
    """
    return state.oil_flux * tube.riser


def gas_figures(
    refrigerant: Refrigerant, state: ModeState, tubes: Sequence[Tube], lengths: Sequence[float], limit: float, fastest: float
) -> list[GasFigures]:
    """What the full flow does in each tube: velocity, friction, loss, oil return and the limits it breaks; limit in K, fastest in m/s.

    Friction is left out where it takes more than the figures hold for, the loss also where the tables end.
    """
    rises, most_loss, most_velocity = state.vapor_rise > 0.0, limit * AT_LIMIT, fastest * AT_LIMIT
    dew, lowest, oil_capacity = state.dew, float(state.lowest), state.oil_capacity
    too_large = rules.MOST_DROP_SHARE * state.vapor_pressure - state.vapor_lift
    flow = state.mass_flow / state.vapor.density
    frictions = tube_losses(tubes, lengths, state.mass_flow, state.vapor.density, state.vapor.viscosity)
    found = []
    for tube, friction, left in zip(tubes, frictions, dew_points(refrigerant, state, frictions), strict=True):
        velocity, least = flow / tube.area, oil_capacity * tube.riser
        margin = lowest / least - 1.0
        breaks: list[BrokenLimit] = []
        lost: PressureDrop | None = PressureDrop(friction)
        drop: TemperatureDifference | None = None
        if left is not None:
            drop = TemperatureDifference(dew - left)
            if drop > most_loss:
                breaks.append("loss")
        elif friction > too_large:
            lost = None
            breaks.append("drop-too-large")
        if velocity > most_velocity:
            breaks.append("velocity")
        if rises and margin < -1e-9:
            breaks.append("oil-return")
        found.append((Velocity(velocity), lost, drop, OilReturn(minimum_capacity=Power(least), margin=Number(margin)), breaks))
    return found
