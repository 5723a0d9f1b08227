"""The liquid line: friction, height and heat gain in every made tube, and whether liquid still arrives at the valve."""

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
LiquidFigures = tuple[Velocity, PressureDrop, float | None, bool, TemperatureDifference | None, list[BrokenLimit]]
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
    if len(states) == 1:
        return [_candidate(leg, liquid, None, bounds) for leg, liquid in zip(legs, cooling, strict=True)]
    heating = liquid_figures(refrigerant, states[1], legs, bounds)
    return [_candidate(leg, liquid, heated, bounds) for leg, liquid, heated in zip(legs, cooling, heating, strict=True)]


def warmed(state: ModeState, tube: Tube, length: float, air: float | None) -> float:
    """Temperature, K, of the liquid at the end of a bare line in air of a temperature in K. Source: refrigerant-line-sizing.heat-gain."""
    start = state.liquid_temperature
    if air is None or air <= start:
        return start
    transfer = rules.SURFACE_COEFFICIENT * pi * tube.nominal_size * length
    return air - (air - start) * exp(-transfer / (state.mass_flow * state.liquid_specific_heat))


def bubble_drop(refrigerant: Refrigerant, state: ModeState, friction: float) -> float | None:
    """Fall of the bubble temperature, K, by friction; None where friction alone takes half of the pressure.

    T_bub(p) - T_bub(p - dp). Source: refrigerant-line-sizing.saturation-drop.
    """
    before = state.liquid_pressure
    if friction > before / 2.0 or before - friction < refrigerant.bubble_pressures[0]:
        return None
    return state.condensing - refrigerant.bubble_temperature(before - friction)


def at_valve(refrigerant: Refrigerant, state: ModeState, friction: float, temperature: float) -> tuple[bool, float | None]:
    """Whether liquid of a temperature, K, boils before the valve, and else its subcooling there, K (None where the tables end above).

    T_bub(p - dp - rho g H) - T. Source: refrigerant-line-sizing.subcooling-left, refrigerant-line-sizing.lift.
    """
    pressure, (least, most) = state.liquid_pressure - friction - state.liquid_lift, refrigerant.bubble_pressures
    if pressure < least or temperature > refrigerant.greatest_temperature:
        return True, None
    if pressure > most:
        return False, None
    left = refrigerant.bubble_temperature(pressure) - temperature
    if left >= 0.0:
        return False, left
    return (True, None) if left < -AT_BUBBLE else (False, 0.0)


def liquid_figures(refrigerant: Refrigerant, state: ModeState, legs: list[Leg], bounds: LiquidBounds) -> list[LiquidFigures]:
    """What the full flow does in each tube: velocity, friction with accessories, loss, whether it boils, subcooling left and the limits it breaks.

    The equivalent length has friction, the actual one is warmed.
    """
    found, hottest, warm = [], bounds.hottest, state.liquid_temperature
    losses = tube_losses(legs, state.mass_flow, state.liquid_density, state.liquid_viscosity)
    for (tube, _), (velocity, loss) in zip(legs, losses, strict=True):
        friction = loss + bounds.accessories
        fall = bubble_drop(refrigerant, state, friction)
        if hottest is not None:
            warm = warmed(state, tube, bounds.actual_length, hottest)
        flashes, left = at_valve(refrigerant, state, friction, warm)
        breaks: list[BrokenLimit] = []
        if flashes:
            breaks.append("flashing")
        elif left is not None and left < bounds.least_subcooling:
            breaks.append("subcooling")
        if fall is None:
            breaks.append("drop-too-large")
        elif fall > bounds.most_loss:
            breaks.append("loss")
        if velocity > bounds.fastest:
            breaks.append("velocity")
        subcooling = None if left is None else TemperatureDifference(left)
        found.append((Velocity(velocity), PressureDrop(friction), fall, flashes, subcooling, breaks))
    return found


def _candidate(leg: Leg, liquid: LiquidFigures, heated: LiquidFigures | None, bounds: LiquidBounds) -> LiquidCandidate:
    (tube, length), (velocity, friction, fall, flashes, left, breaks) = leg, liquid
    rated = GaugePressure(_STRESS * tube.strength)
    heating = None
    if heated is not None:
        heating = LiquidHeatingFigures(velocity=heated[0], pressure_drop=heated[1], flashes=heated[3], subcooling_left=heated[4])
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
        saturation_drop=None if fall is None else TemperatureDifference(fall),
        subcooling_left=left,
        flashes=flashes,
        heating=heating,
        breaks=breaks,
    )
