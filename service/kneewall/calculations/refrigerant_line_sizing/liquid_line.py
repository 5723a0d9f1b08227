"""The liquid line: friction, height and heat gain in every made tube, and whether liquid still arrives at the valve."""

from collections.abc import Sequence
from math import exp, pi

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.fitted import legs_of
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import BrokenLimit, LiquidCandidate, LiquidHeatingFigures
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.calculations.refrigerant_line_sizing.vapor_line import AT_LIMIT
from kneewall.kernel.quantity import GaugePressure, Length, PressureDrop, TemperatureDifference, Velocity
from kneewall.physics.air import SEA_LEVEL_PRESSURE
from kneewall.physics.refrigerant import Refrigerant
from kneewall.physics.tubes import COOLEST_RATED, Leg, Tube, allowable_stress, tube_losses

AT_BUBBLE = 1e-6
"""K below the bubble point within which the liquid counts as just not boiling"""
LiquidFigures = tuple[Velocity, PressureDrop, TemperatureDifference | None, bool, TemperatureDifference | None, list[BrokenLimit]]
_STRESS = allowable_stress(COOLEST_RATED) or 0.0


class LiquidBounds:
    """What every size is held to, and what is the same in every size, found once for a question. Limits have their slack in them."""

    __slots__ = ("accessories", "actual_length", "fastest", "hottest", "least_subcooling", "most_loss", "static_pressure", "working_pressure")

    def __init__(self, question: RefrigerantLineSizingQuestion, states: list[ModeState]) -> None:
        limits = question.limits
        self.most_loss = (rules.USUAL_PENALTY if limits.liquid_penalty is None else limits.liquid_penalty) * AT_LIMIT
        self.least_subcooling = (rules.USUAL_SUBCOOLING if limits.least_subcooling is None else limits.least_subcooling) * (1.0 - 1e-9)
        self.actual_length = float(question.liquid_line.length)
        self.accessories = sum(one.pressure_drop for one in question.accessories)
        self.hottest = None if question.surroundings is None else question.surroundings.temperature
        self.fastest = liquid_velocity_limit(question) * AT_LIMIT
        self.static_pressure = PressureDrop(states[0].liquid_lift)
        self.working_pressure = max(state.liquid_pressure for state in states) - SEA_LEVEL_PRESSURE


def liquid_velocity_limit(question: RefrigerantLineSizingQuestion) -> Velocity:
    """How fast the liquid may move. Source: refrigerant-line-sizing.liquid-velocity."""
    solenoid = question.liquid_line.fittings.solenoid_valve > 0.0
    return rules.MOST_LIQUID_VELOCITY_WITH_SOLENOID if solenoid else rules.MOST_LIQUID_VELOCITY


def liquid_candidates(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant, states: list[ModeState]) -> list[LiquidCandidate]:
    """Every tube that comes into question, smallest bore first."""
    bounds = LiquidBounds(question, states)
    legs = legs_of(question.temper, question.liquid_line)
    cooling = liquid_figures(refrigerant, states[0], legs, bounds)
    heating = liquid_figures(refrigerant, states[1], legs, bounds) if len(states) > 1 else [None] * len(legs)
    return [_candidate(leg, liquid, heated, bounds) for leg, liquid, heated in zip(legs, cooling, heating, strict=True)]


def warmed(state: ModeState, tubes: Sequence[Tube], length: float, air: float | None) -> list[float]:
    """Temperature, K, of the liquid at the end of a bare line of each tube in air of a temperature in K.

    T_air - (T_air - T) exp(-h pi D L/(m c)). Source: refrigerant-line-sizing.heat-gain.
    """
    start = state.liquid_temperature
    if air is None or air <= start:
        return [start] * len(tubes)
    cooler, per_size = air - start, -rules.SURFACE_COEFFICIENT * pi * length / (state.mass_flow * state.liquid_specific_heat)
    return [air - cooler * exp(per_size * tube.nominal_size) for tube in tubes]


def bubble_drops(refrigerant: Refrigerant, state: ModeState, frictions: list[float]) -> list[float | None]:
    """Fall of the bubble temperature, K, by each friction, Pa; None where friction alone takes half of the pressure.

    T_bub(p) - T_bub(p - dp). Source: refrigerant-line-sizing.saturation-drop.
    """
    start, bubble = state.liquid_pressure, state.condensing
    left = refrigerant.bubble_temperatures([start - friction for friction in frictions], start / 2.0)
    return [None if one is None else bubble - one for one in left]


def at_valve(refrigerant: Refrigerant, pressure: float, bubble: float | None, temperature: float) -> tuple[bool, float | None]:
    """Whether liquid of a temperature, K, boils before the valve, and else its subcooling there, K (None where the tables end above).

    T_bub(p - dp - rho g H) - T, the pressure there in Pa and its bubble point. Source: refrigerant-line-sizing.subcooling-left, refrigerant-line-sizing.lift.
    """
    if temperature > refrigerant.greatest_temperature:
        return True, None
    if bubble is None:
        return pressure < refrigerant.bubble_pressures[0], None
    left = bubble - temperature
    if left >= 0.0:
        return False, left
    return (True, None) if left < -AT_BUBBLE else (False, 0.0)


def liquid_figures(refrigerant: Refrigerant, state: ModeState, legs: list[Leg], bounds: LiquidBounds) -> list[LiquidFigures]:
    """What the full flow does in each tube: velocity, friction with accessories, loss, whether it boils, subcooling left and the limits it breaks.

    The equivalent length has friction, the actual one is warmed.
    """
    velocities, losses = tube_losses(legs, state.mass_flow, state.liquid_density, state.liquid_viscosity)
    frictions = [loss + bounds.accessories for loss in losses]
    falls = bubble_drops(refrigerant, state, frictions)
    pressures = [state.liquid_pressure - state.liquid_lift - friction for friction in frictions]
    bubbles = refrigerant.bubble_temperatures(pressures)
    warm = warmed(state, [tube for tube, _ in legs], bounds.actual_length, bounds.hottest)
    least, most_loss, fastest = bounds.least_subcooling, bounds.most_loss, bounds.fastest
    found = []
    for velocity, friction, fall, pressure, bubble, temperature in zip(velocities, frictions, falls, pressures, bubbles, warm, strict=True):
        flashes, left = at_valve(refrigerant, pressure, bubble, temperature)
        breaks: list[BrokenLimit] = []
        if flashes:
            breaks.append("flashing")
        elif left is not None and left < least:
            breaks.append("subcooling")
        if fall is None:
            breaks.append("drop-too-large")
        elif fall > most_loss:
            breaks.append("loss")
        if velocity > fastest:
            breaks.append("velocity")
        drop, subcooling = None if fall is None else TemperatureDifference(fall), None if left is None else TemperatureDifference(left)
        found.append((Velocity(velocity), PressureDrop(friction), drop, flashes, subcooling, breaks))
    return found


def _candidate(leg: Leg, liquid: LiquidFigures, heated: LiquidFigures | None, bounds: LiquidBounds) -> LiquidCandidate:
    (tube, length), (velocity, friction, drop, flashes, left, breaks) = leg, liquid
    rated = GaugePressure(_STRESS * tube.strength)
    heating = None
    if heated is not None:
        heating = LiquidHeatingFigures(
            velocity=heated[0], pressure_drop=heated[1], saturation_drop=heated[2], flashes=heated[3], subcooling_left=heated[4]
        )
        if heated[5]:
            breaks += [one for one in heated[5] if one not in breaks]
    if rated * AT_LIMIT < bounds.working_pressure:
        breaks.append("pressure")
    return LiquidCandidate(
        nominal_size=tube.nominal_size,
        inside_diameter=tube.inside_diameter,
        equivalent_length=Length(length),
        rated_pressure=rated,
        velocity=velocity,
        pressure_drop=friction,
        static_pressure=bounds.static_pressure,
        saturation_drop=drop,
        subcooling_left=left,
        flashes=flashes,
        heating=heating,
        breaks=breaks,
    )
