"""The liquid line: friction, height and heat gain in every made tube, and whether liquid still arrives at the valve."""

from collections.abc import Sequence
from math import exp, pi

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.fitted import fitted_tubes
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import BrokenLimit, LiquidCandidate, LiquidHeatingFigures
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.calculations.refrigerant_line_sizing.vapor_line import AT_LIMIT
from kneewall.kernel.quantity import Length, PressureDrop, TemperatureDifference, Velocity
from kneewall.physics.air import SEA_LEVEL_PRESSURE
from kneewall.physics.refrigerant import Refrigerant
from kneewall.physics.tubes import Tube, tube_losses

AT_BUBBLE = 1e-6
"""K below the bubble point within which the liquid counts as just not boiling"""
LiquidFigures = tuple[Velocity, PressureDrop, TemperatureDifference | None, bool, TemperatureDifference | None, list[BrokenLimit]]


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
    tubes, lengths = fitted_tubes(question.temper, question.liquid_line)
    cooling = liquid_figures(refrigerant, states[0], tubes, lengths, bounds)
    heated = liquid_figures(refrigerant, states[1], tubes, lengths, bounds) if len(states) > 1 else [None] * len(tubes)
    static, working, found = bounds.static_pressure, bounds.working_pressure, []
    for tube, length, (velocity, friction, drop, flashes, left, breaks), hot in zip(tubes, lengths, cooling, heated, strict=True):
        heating = None
        if hot is not None:
            hot_velocity, hot_friction, hot_drop, hot_flashes, hot_left, hot_breaks = hot
            heating = LiquidHeatingFigures(
                velocity=hot_velocity, pressure_drop=hot_friction, saturation_drop=hot_drop, subcooling_left=hot_left, flashes=hot_flashes
            )
            for broken in hot_breaks:
                if broken not in breaks:
                    breaks.append(broken)
        if tube.coolest_rating * AT_LIMIT < working:
            breaks.append("pressure")
        found.append(
            LiquidCandidate(
                nominal_size=tube.nominal_size,
                inside_diameter=tube.inside_diameter,
                equivalent_length=Length(length),
                rated_pressure=tube.coolest_rating,
                velocity=velocity,
                pressure_drop=friction,
                static_pressure=static,
                saturation_drop=drop,
                subcooling_left=left,
                flashes=flashes,
                heating=heating,
                breaks=breaks,
            )
        )
    return found


def warmed(state: ModeState, tubes: Sequence[Tube], length: float, air: float | None) -> list[float]:
    """Temperature, K, of the liquid at the end of a bare line of each tube in air of a temperature in K.

    T_air - (T_air - T) exp(-h pi D L/(m c)). Source: refrigerant-line-sizing.heat-gain.
    """
    start = state.liquid_temperature
    if air is None or air <= start:
        return [start] * len(tubes)
    cooler, per_size = air - start, -rules.SURFACE_COEFFICIENT * pi * length / (state.mass_flow * state.liquid_specific_heat)
    return [air - cooler * exp(per_size * tube.nominal_size) for tube in tubes]


def boils(refrigerant: Refrigerant, pressure: float, bubble: float | None, temperature: float) -> bool:
    """Whether liquid of a temperature, K, that is not below its bubble point, K, boils; the pressure in Pa, no bubble point where the tables end.

    Above their end it does not, unless the liquid is hotter than they reach.
    """
    return bubble is not None or temperature > refrigerant.greatest_temperature or pressure < refrigerant.bubble_pressures[0]


def liquid_figures(
    refrigerant: Refrigerant, state: ModeState, tubes: Sequence[Tube], lengths: Sequence[float], bounds: LiquidBounds
) -> list[LiquidFigures]:
    """What the full flow does in each tube: velocity, friction with accessories, loss, whether it boils, subcooling left and the limits it breaks.

    The equivalent length has friction, the actual one is warmed. The loss, T_bub(p) - T_bub(p - dp), is left out where friction takes half of the pressure,
    the subcooling, T_bub(p - dp - rho g H) - T, where the liquid boils or the tables end above.
    Source: refrigerant-line-sizing.saturation-drop, refrigerant-line-sizing.subcooling-left, refrigerant-line-sizing.lift.
    """
    losses = tube_losses(tubes, lengths, state.mass_flow, state.liquid_density, state.liquid_viscosity)
    flow, accessories, condensing = state.mass_flow / state.liquid_density, bounds.accessories, state.condensing
    start = state.liquid_pressure - accessories
    end = start - state.liquid_lift
    on_the_level = refrigerant.bubble_temperatures_below(start, losses, state.liquid_pressure / 2.0)
    at_the_end = refrigerant.bubble_temperatures_below(end, losses)
    warm = warmed(state, tubes, bounds.actual_length, bounds.hottest)
    least, most_loss, fastest = bounds.least_subcooling, bounds.most_loss, bounds.fastest
    found = []
    for tube, loss, level, bubble, temperature in zip(tubes, losses, on_the_level, at_the_end, warm, strict=True):
        velocity = flow / tube.area
        breaks: list[BrokenLimit] = []
        subcooling: TemperatureDifference | None = None
        flashes = False
        if bubble is not None and temperature <= bubble + AT_BUBBLE:
            subcooling = TemperatureDifference(bubble - temperature if temperature < bubble else 0.0)
            if subcooling < least:
                breaks.append("subcooling")
        elif boils(refrigerant, end - loss, bubble, temperature):
            flashes = True
            breaks.append("flashing")
        drop = None if level is None else TemperatureDifference(condensing - level)
        if drop is None:
            breaks.append("drop-too-large")
        elif drop > most_loss:
            breaks.append("loss")
        if velocity > fastest:
            breaks.append("velocity")
        found.append((Velocity(velocity), PressureDrop(loss + accessories), drop, flashes, subcooling, breaks))
    return found
