"""The liquid line: friction, height and heat gain in every made tube, and whether liquid still arrives at the valve."""

from math import exp, pi

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.fitted import legs_of
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import BrokenLimit, LiquidCandidate, LiquidHeatingFigures
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.calculations.refrigerant_line_sizing.vapor_line import AT_LIMIT, GRAVITY
from kneewall.kernel.quantity import GaugePressure, Length, PressureDrop, TemperatureDifference, Velocity
from kneewall.physics.air import SEA_LEVEL_PRESSURE
from kneewall.physics.friction import friction_factor
from kneewall.physics.refrigerant import Refrigerant
from kneewall.physics.tubes import COOLEST_RATED, Tube, allowable_stress

AT_BUBBLE = 1e-6
"""K below the bubble point within which the liquid counts as just not boiling"""
_STRESS = allowable_stress(COOLEST_RATED) or 0.0


class LiquidBounds:
    """What every size is held to, found once for a question."""

    __slots__ = ("accessories", "fastest", "hottest", "least_subcooling", "most_loss", "working_pressure")

    def __init__(self, question: RefrigerantLineSizingQuestion, states: list[ModeState]) -> None:
        limits = question.limits
        self.most_loss = rules.USUAL_PENALTY if limits.liquid_penalty is None else limits.liquid_penalty
        self.least_subcooling = rules.USUAL_SUBCOOLING if limits.least_subcooling is None else limits.least_subcooling
        self.accessories = sum(one.pressure_drop for one in question.accessories)
        self.hottest = None if question.surroundings is None else question.surroundings.temperature
        self.fastest = liquid_velocity_limit(question)
        self.working_pressure = max(state.liquid_pressure for state in states) - SEA_LEVEL_PRESSURE


def liquid_velocity_limit(question: RefrigerantLineSizingQuestion) -> Velocity:
    """How fast the liquid may move. Source: refrigerant-line-sizing.liquid-velocity."""
    solenoid = question.liquid_line.fittings.solenoid_valve > 0.0
    return rules.MOST_LIQUID_VELOCITY_WITH_SOLENOID if solenoid else rules.MOST_LIQUID_VELOCITY


def liquid_candidates(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant, states: list[ModeState]) -> list[LiquidCandidate]:
    """Every tube that comes into question, smallest bore first."""
    bounds = LiquidBounds(question, states)
    actual = float(question.liquid_line.length)
    return [_candidate(refrigerant, states, tube, actual, length, bounds) for tube, length in legs_of(question.temper, question.liquid_line)]


def liquid_loss(state: ModeState, tube: Tube, length: float) -> tuple[float, float]:
    """Velocity, m/s, and friction, Pa, over an equivalent length in m. Source: friction.darcy-weisbach, friction.colebrook."""
    flux = state.mass_flow / tube.area
    velocity = flux / state.liquid_density
    factor = friction_factor(flux * tube.inside_diameter / state.liquid_viscosity, tube.relative_roughness)
    return velocity, factor * length / tube.inside_diameter * flux * velocity / 2.0


def warmed(state: ModeState, tube: Tube, length: float, air: float | None) -> float:
    """Temperature, K, of the liquid at the end of a bare line in air of a temperature in K. Source: refrigerant-line-sizing.heat-gain."""
    difference = 0.0 if air is None else air - state.liquid_temperature
    if difference <= 0.0:
        return state.liquid_temperature
    transfer = rules.SURFACE_COEFFICIENT * pi * tube.nominal_size * length
    return state.liquid_temperature + difference * (1.0 - exp(-transfer / (state.mass_flow * state.liquid_specific_heat)))


def bubble_drop(refrigerant: Refrigerant, state: ModeState, friction: float) -> float | None:
    """Fall of the bubble temperature, K, by friction; None where friction alone takes half of the pressure.

    T_bub(p) - T_bub(p - dp). Source: refrigerant-line-sizing.saturation-drop.
    """
    if friction > state.liquid_pressure / 2.0 or state.liquid_pressure - friction < refrigerant.bubble_pressures[0]:
        return None
    return state.condensing - refrigerant.bubble_temperature(state.liquid_pressure - friction)


def at_valve(refrigerant: Refrigerant, state: ModeState, friction: float, temperature: float) -> tuple[bool, float | None]:
    """Whether liquid of a temperature, K, boils before the valve, and else its subcooling there, K (None where the tables end above).

    T_bub(p - dp - rho g H) - T. Source: refrigerant-line-sizing.subcooling-left, refrigerant-line-sizing.lift.
    """
    pressure = state.liquid_pressure - friction - state.liquid_density * GRAVITY * state.liquid_rise
    if pressure < refrigerant.bubble_pressures[0] or temperature > refrigerant.greatest_temperature:
        return True, None
    if pressure > refrigerant.bubble_pressures[1]:
        return False, None
    left = refrigerant.bubble_temperature(pressure) - temperature
    return (True, None) if left < -AT_BUBBLE else (False, max(left, 0.0))


def _candidate(refrigerant: Refrigerant, states: list[ModeState], tube: Tube, actual: float, length: float, bounds: LiquidBounds) -> LiquidCandidate:
    cooling = states[0]
    velocity, friction = liquid_loss(cooling, tube, length)
    friction += bounds.accessories
    drop = bubble_drop(refrigerant, cooling, friction)
    flashes, left = at_valve(refrigerant, cooling, friction, warmed(cooling, tube, actual, bounds.hottest))
    rated = GaugePressure(_STRESS * tube.strength)
    breaks = _broken(velocity, drop, flashes, left, bounds)
    heating = None
    if len(states) > 1:
        heating, more = _heating(refrigerant, states[1], tube, actual, length, bounds)
        breaks += [one for one in more if one not in breaks]
    if rated * AT_LIMIT < bounds.working_pressure:
        breaks.append("pressure")
    return LiquidCandidate(
        nominal_size=tube.nominal_size,
        inside_diameter=tube.inside_diameter,
        equivalent_length=Length(length),
        rated_pressure=rated,
        velocity=Velocity(velocity),
        pressure_drop=PressureDrop(friction),
        static_pressure=PressureDrop(cooling.liquid_density * GRAVITY * cooling.liquid_rise),
        saturation_drop=None if drop is None else TemperatureDifference(drop),
        subcooling_left=None if left is None else TemperatureDifference(left),
        flashes=flashes,
        heating=heating,
        breaks=breaks,
    )


def _heating(
    refrigerant: Refrigerant, state: ModeState, tube: Tube, actual: float, length: float, bounds: LiquidBounds
) -> tuple[LiquidHeatingFigures, list[BrokenLimit]]:
    velocity, friction = liquid_loss(state, tube, length)
    friction += bounds.accessories
    drop = bubble_drop(refrigerant, state, friction)
    flashes, left = at_valve(refrigerant, state, friction, warmed(state, tube, actual, bounds.hottest))
    figures = LiquidHeatingFigures(
        velocity=Velocity(velocity),
        pressure_drop=PressureDrop(friction),
        subcooling_left=None if left is None else TemperatureDifference(left),
        flashes=flashes,
    )
    return figures, _broken(velocity, drop, flashes, left, bounds)


def _broken(velocity: float, drop: float | None, flashes: bool, left: float | None, bounds: LiquidBounds) -> list[BrokenLimit]:
    breaks: list[BrokenLimit] = []
    if flashes:
        breaks.append("flashing")
    elif left is not None and left < bounds.least_subcooling * (1.0 - 1e-9):
        breaks.append("subcooling")
    if drop is None:
        breaks.append("drop-too-large")
    elif drop > bounds.most_loss * AT_LIMIT:
        breaks.append("loss")
    if velocity > bounds.fastest * AT_LIMIT:
        breaks.append("velocity")
    return breaks
