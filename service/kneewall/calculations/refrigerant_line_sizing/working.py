"""The working of the lines that were taken, mode by mode."""

from kneewall.calculations.refrigerant_line_sizing import choice, rules
from kneewall.calculations.refrigerant_line_sizing.charge import flammability_limit, release_height
from kneewall.calculations.refrigerant_line_sizing.liquid_line import LiquidBounds, warmed
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import LiquidCandidate, LiquidHeatingFigures, RefrigerantLineSizingResult, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState, states_of
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Figure, Phrase
from kneewall.kernel.quantity import (
    AbsolutePressure,
    Density,
    DynamicViscosity,
    Length,
    MassFlow,
    PressureDrop,
    Temperature,
    TemperatureDifference,
)
from kneewall.kernel.rule import Rule
from kneewall.physics import refrigerant, tubes
from kneewall.physics.constants import QUARTER_PI
from kneewall.physics.friction import DARCY_WEISBACH, friction_factor


def working(question: RefrigerantLineSizingQuestion, answer: Answer[RefrigerantLineSizingResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    result = answer.result
    lines: list[WorkingLine] = []
    gas, liquid = _taken(result)
    states = states_of(question)
    bounds = LiquidBounds(question, states)
    for state in states:
        lines += [*_state_lines(question, state), *_gas_lines(state, gas), *_liquid_lines(question, state, liquid, bounds)]
    return lines + _around_lines(question, result)


def _taken(result: RefrigerantLineSizingResult) -> tuple[VaporCandidate, LiquidCandidate]:
    gas, liquid = result.vapor_line, result.liquid_line
    return (
        next((one for one in gas.candidates if one.inside_diameter == gas.recommended_inside_diameter), None) or choice.nearest(gas.candidates),
        next((one for one in liquid.candidates if one.inside_diameter == liquid.recommended_inside_diameter), None)
        or choice.nearest(liquid.candidates),
    )


def _line(step: str, formula: str, value: Figure, rule: Rule, substituted: str, *figures: Figure) -> WorkingLine:
    return WorkingLine(step=step, formula=formula, substituted=Phrase(substituted, *figures), value=value, rule=rule.id)


def _state_lines(question: RefrigerantLineSizingQuestion, state: ModeState) -> list[WorkingLine]:
    fluid, mode = refrigerant.refrigerant_named(question.refrigerant), state.mode
    per_mass = state.vapor.enthalpy - fluid.liquid_enthalpy(state.liquid_temperature)
    return [
        _line(
            f"{mode}: gas", "density at dew point and superheat", Density(state.vapor.density), refrigerant.PROPERTIES,
            "dew point {} at {}, gas at {}", Temperature(state.dew), AbsolutePressure(state.vapor_pressure), Temperature(state.vapor_temperature),
        ),
        _line(
            f"{mode}: liquid", "T = T_bubble - subcooling", Temperature(state.liquid_temperature), refrigerant.BUBBLE_AND_DEW,
            "{} at {}, less {}", Temperature(state.condensing), AbsolutePressure(state.liquid_pressure), TemperatureDifference(state.condensing - state.liquid_temperature),
        ),
        _line(
            f"{mode}: flow", "m = Q/(h_gas - h_liquid)", MassFlow(state.mass_flow), rules.MASS_FLOW,
            "{} over {} Btu/lb ({} kJ/kg)", state.capacity, per_mass / 2326.0, per_mass / 1000.0,
        ),
    ]  # fmt: skip


def _gas_lines(state: ModeState, taken: VaporCandidate) -> list[WorkingLine]:
    figures = taken if state.mode == "cooling" else taken.heating
    assert figures is not None
    mode, bore = state.mode, taken.inside_diameter
    reynolds = state.mass_flow / (QUARTER_PI * bore * state.vapor.viscosity)
    factor = friction_factor(reynolds, tubes.COPPER_ROUGHNESS / bore)
    lines = [
        _line(f"{mode}: gas velocity", "V = m/(rho A)", figures.velocity, rules.GAS_VELOCITY, "in {}, bore {}", taken.nominal_size, bore),
        _line(
            f"{mode}: gas friction factor", "Colebrook at Re = 4 m/(pi D mu)", factor, DARCY_WEISBACH,
            "Re {}, viscosity {}", reynolds, DynamicViscosity(state.vapor.viscosity),
        ),
    ]  # fmt: skip
    if figures.pressure_drop is not None:
        lines.append(
            _line(
                f"{mode}: gas friction",
                "dp = f Leq/D rho V^2/2",
                figures.pressure_drop,
                DARCY_WEISBACH,
                "f {}, Leq {}",
                factor,
                taken.equivalent_length,
            )
        )
    if figures.saturation_drop is not None and figures.pressure_drop is not None:
        static = PressureDrop(state.vapor_lift)
        lines.append(
            _line(
                f"{mode}: gas loss", "T_dew(p) - T_dew(p - dp - rho g H)", figures.saturation_drop, rules.SATURATION_DROP,
                "p {}, dp {}, rho g H {}", AbsolutePressure(state.vapor_pressure), figures.pressure_drop, static,
            )
        )  # fmt: skip
    lines.append(
        _line(
            f"{mode}: oil return", "Q_min = Q G_min A/m, G_min = 0.7225 sqrt(rho g D (rho_film - rho))", figures.oil_return.minimum_capacity, rules.OIL_RETURN,
            "film {}, gas {}, bore {}; lowest stage {}", Density(state.film_density), Density(state.vapor.density), bore, state.lowest,
        )
    )  # fmt: skip
    return lines


def _liquid_lines(question: RefrigerantLineSizingQuestion, state: ModeState, taken: LiquidCandidate, bounds: LiquidBounds) -> list[WorkingLine]:
    figures = taken if state.mode == "cooling" else taken.heating
    assert figures is not None
    mode = state.mode
    tube = next(tube for tube in tubes.tubes_of(question.temper) if tube.inside_diameter == taken.inside_diameter)
    arrives = Temperature(warmed(state, [tube], question.liquid_line.length, bounds.hottest)[0])
    static = PressureDrop(state.liquid_lift)
    lines = [
        _line(
            f"{mode}: liquid friction", "dp = f Leq/D rho V^2/2 + accessories", figures.pressure_drop, DARCY_WEISBACH,
            "in {}, Leq {}, V {}, accessories {}", taken.nominal_size, taken.equivalent_length, figures.velocity, PressureDrop(bounds.accessories),
        ),
        *_liquid_loss(state, figures),
        _line(
            f"{mode}: liquid height", "rho g H, H positive where the liquid rises", static, rules.LIFT,
            "{} over {}", Density(state.liquid_density), Length(state.liquid_rise),
        ),
    ]  # fmt: skip
    if figures.subcooling_left is not None:
        lines.append(
            _line(
                f"{mode}: subcooling left", "T_bubble(p - dp - rho g H) - T at the valve", figures.subcooling_left, rules.SUBCOOLING_LEFT,
                "p {}, dp {}, rho g H {}, liquid arrives at {}", AbsolutePressure(state.liquid_pressure), figures.pressure_drop, static, arrives,
            )
        )  # fmt: skip
    return lines


def _liquid_loss(state: ModeState, figures: LiquidCandidate | LiquidHeatingFigures) -> list[WorkingLine]:
    if figures.saturation_drop is None:
        return []
    start = AbsolutePressure(state.liquid_pressure)
    formula = "T_bubble(p) - T_bubble(p - dp)"
    return [_line(f"{state.mode}: liquid loss", formula, figures.saturation_drop, rules.SATURATION_DROP, "p {}, dp {}", start, figures.pressure_drop)]


def _around_lines(question: RefrigerantLineSizingQuestion, result: RefrigerantLineSizingResult) -> list[WorkingLine]:
    lines: list[WorkingLine] = []
    charge, leak, insulation = result.charge, result.leak_safety, result.insulation
    if charge is not None:
        lines.append(
            _line(
                "charge of the lines", "pi/4 D^2 rho L, both lines, actual length", charge.lines, rules.CHARGE,
                "liquid {} over {}, gas {} over {}", charge.liquid_per_length, question.liquid_line.length, charge.vapor_per_length, question.vapor_line.length,
            )
        )  # fmt: skip
    limit = flammability_limit(question, refrigerant.refrigerant_named(question.refrigerant))
    if leak.limit_mass is not None and question.room is not None:
        lines.append(
            _line(
                "room", "min(2.5 LFL^1.25 h sqrt A, 0.75 LFL h A), in kg and m", leak.limit_mass, rules.ROOM_AREA,
                "LFL {}, h {}, A {}", limit, Length(release_height(question.room)), question.room.floor_area,
            )
        )  # fmt: skip
    if insulation is not None and insulation.surface_temperature is not None and question.surroundings is not None:
        lines.append(
            _line(
                "insulation", "Ta - (Ta - T)(1/h)/(r2 ln(r2/r1)/k + 1/h)", insulation.surface_temperature, rules.SURFACE_TEMPERATURE,
                "Ta {}, T {}, r2 ln(r2/r1)/k {}", question.surroundings.temperature, insulation.line_temperature, insulation.cylinder_resistance,
            )
        )  # fmt: skip
    return lines
