"""Refrigerant lines: what the refrigerant is in each mode, what it does in every made tube, which tube to take and what goes with it.

The story: find the states, try every tube for gas and for liquid, take the smallest that keeps every limit in both modes, then weigh the
charge, the leak and the insulation.
"""

from kneewall.calculations.refrigerant_line_sizing import cautions, choice, rules
from kneewall.calculations.refrigerant_line_sizing.around import check_charge, check_double_riser, check_insulation, check_leak, elevations
from kneewall.calculations.refrigerant_line_sizing.charge import leak_safety, line_charge
from kneewall.calculations.refrigerant_line_sizing.checks import (
    RULES_BY_MODE,
    check_choice,
    check_liquid,
    check_liquid_choice,
    check_taken,
    check_vapor,
)
from kneewall.calculations.refrigerant_line_sizing.double_riser import double_riser
from kneewall.calculations.refrigerant_line_sizing.fitted import NO_FITTINGS
from kneewall.calculations.refrigerant_line_sizing.insulation import line_insulation
from kneewall.calculations.refrigerant_line_sizing.liquid_line import liquid_candidates
from kneewall.calculations.refrigerant_line_sizing.messages import CoolingDuty, HeatingDuty, RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import (
    LineState,
    LiquidCandidate,
    LiquidLine,
    RefrigerantLineSizingResult,
    VaporCandidate,
    VaporLine,
)
from kneewall.calculations.refrigerant_line_sizing.states import ModeState, states_of
from kneewall.calculations.refrigerant_line_sizing.vapor_line import vapor_candidates
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.quantity import Density, GaugePressure, MassFlow, Temperature, TemperatureDifference
from kneewall.kernel.refusal import Fault, fault, refuse, refuse_any
from kneewall.physics import friction, refrigerant, tubes
from kneewall.physics.air import SEA_LEVEL_PRESSURE


def size_refrigerant_lines(question: RefrigerantLineSizingQuestion) -> Answer[RefrigerantLineSizingResult]:
    """Answer a question on refrigerant lines. Raises: Refusal where it contradicts itself or a state lies outside the tables."""
    refuse_contradictions(question)
    findings = Findings("refrigerant-line-sizing")
    fluid = refrigerant.refrigerant_named(question.refrigerant)
    states = states_of(question)
    gas, liquid = vapor_candidates(question, fluid, states), liquid_candidates(question, fluid, states)
    gas_design, liquid_design = choice.design_pressure(states, "vapor"), choice.design_pressure(states, "liquid")
    gas_taken, liquid_taken = choice.recommended(gas, gas_design), choice.recommended(liquid, liquid_design)
    gas_shown, liquid_shown = gas_taken or choice.nearest(gas), liquid_taken or choice.nearest(liquid)
    limit = rules.USUAL_PENALTY if question.limits.vapor_penalty is None else question.limits.vapor_penalty
    result = _result(question, fluid, states, (gas, gas_taken, gas_shown), (liquid, liquid_taken, liquid_shown), limit)
    _apply_rules(findings, question, states)
    if gas_taken is None:
        check_choice(findings, states, gas, gas_shown, limit, question.vapor_line.size is not None)
    else:
        check_taken(findings, "vapor line size", gas_taken, gas_design, question.vapor_line.size is not None)
    check_vapor(findings, question, states, gas_shown)
    if liquid_taken is None:
        check_liquid_choice(findings, liquid, question.liquid_line.size is not None)
    else:
        check_taken(findings, "liquid line size", liquid_taken, liquid_design, question.liquid_line.size is not None)
    check_liquid(findings, question, states, liquid_shown)
    _check_around(findings, question, result)
    return findings.answer(result)


def _result(
    question: RefrigerantLineSizingQuestion,
    fluid: refrigerant.Refrigerant,
    states: list[ModeState],
    gas: tuple[list[VaporCandidate], VaporCandidate | None, VaporCandidate],
    liquid: tuple[list[LiquidCandidate], LiquidCandidate | None, LiquidCandidate],
    limit: TemperatureDifference,
) -> RefrigerantLineSizingResult:
    """The result from each line's candidates, the one that was taken and the one that is looked at closer."""
    charge = line_charge(question, states[0], gas[2], liquid[2])
    if charge.total is not None and charge.total <= 0.0:
        raise refuse("/factory_charge/mass", "is less than what the lines it covers would hold of these sizes; give the charge from the plate")
    return RefrigerantLineSizingResult(
        states=[_state_shown(state) for state in states],
        vapor_line=VaporLine(
            recommended=None if gas[1] is None else gas[1].nominal_size,
            recommended_inside_diameter=None if gas[1] is None else gas[1].inside_diameter,
            candidates=gas[0],
        ),
        liquid_line=LiquidLine(
            recommended=None if liquid[1] is None else liquid[1].nominal_size,
            recommended_inside_diameter=None if liquid[1] is None else liquid[1].inside_diameter,
            candidates=liquid[0],
        ),
        double_riser=None if gas[1] or question.vapor_line.size else double_riser(question, fluid, states, limit),
        charge=charge,
        leak_safety=leak_safety(question, fluid, charge.total),
        insulation=line_insulation(question, gas[2].nominal_size),
        elevations=elevations(question),
    )


def refuse_contradictions(question: RefrigerantLineSizingQuestion) -> None:
    """Raises: Refusal naming every field that contradicts another."""
    found = _duty_faults("/cooling", question.cooling)
    if question.heating is not None:
        found += _duty_faults("/heating", question.heating)
    for name, run in (("vapor_line", question.vapor_line), ("liquid_line", question.liquid_line)):
        if run.length < abs(question.indoor_above_outdoor) * (1.0 - 1e-9):
            found.append(fault(f"/{name}/length", "{} cannot bridge a height of {}", run.length, question.indoor_above_outdoor))
        if run.size is not None and not tubes.tubes_named(question.temper, run.size):
            made = ", ".join(dict.fromkeys(f"{tube.nominal_size.to('in'):g}" for tube in tubes.tubes_of(question.temper)))
            found.append(fault(f"/{name}/size", "{} tube is not made in {}; the outside diameters are {} in", question.temper, run.size, made))
    if question.lower_flammability_limit is not None and refrigerant.refrigerant_named(question.refrigerant).lower_flammability_limit is None:
        found.append(fault("/lower_flammability_limit", "{} does not burn; leave this out", question.refrigerant))
    room, air = question.room, question.surroundings
    if room is not None and room.release_height is not None and room.ceiling_height is not None and room.release_height > room.ceiling_height:
        found.append(fault("/room/release_height", "{} lies above the ceiling at {}", room.release_height, room.ceiling_height))
    if air is not None and air.dew_point is not None and air.dew_point > air.temperature:
        found.append(fault("/surroundings/dew_point", "{} cannot be above the air's temperature of {}", air.dew_point, air.temperature))
    refuse_any(found)


def _duty_faults(pointer: str, duty: CoolingDuty | HeatingDuty) -> list[Fault]:
    found = []
    if duty.minimum_capacity is not None and duty.minimum_capacity > duty.capacity * (1.0 + 1e-9):
        found.append(fault(f"{pointer}/minimum_capacity", "{} is above the full capacity of {}", duty.minimum_capacity, duty.capacity))
    if duty.condensing <= duty.evaporating:
        found.append(fault(f"{pointer}/condensing", "{} is not above the evaporating temperature of {}", duty.condensing, duty.evaporating))
    return found


def _state_shown(state: ModeState) -> LineState:
    return LineState(
        mode=state.mode,
        mass_flow=MassFlow(state.mass_flow),
        vapor_density=Density(state.vapor.density),
        vapor_temperature=Temperature(state.vapor_temperature),
        liquid_density=Density(state.liquid_density),
        glide=TemperatureDifference(state.glide),
        film_density=Density(state.film_density),
        riser=state.vapor_rise > 0.0,
        vapor_design_pressure=GaugePressure(state.vapor_design_pressure - SEA_LEVEL_PRESSURE),
    )


def _apply_rules(findings: Findings, question: RefrigerantLineSizingQuestion, states: list[ModeState]) -> None:
    findings.apply(refrigerant.PROPERTIES, refrigerant.BUBBLE_AND_DEW, tubes.DIMENSIONS, friction.DARCY_WEISBACH, friction.COLEBROOK)
    findings.apply(rules.MASS_FLOW, rules.SATURATION_DROP, rules.OIL_RETURN, rules.LIFT, rules.SMALLEST, rules.DESIGN_PRESSURE, rules.LEVEL_PITCH)
    for state in states:
        findings.apply(*RULES_BY_MODE[state.mode])
    if question.refrigerant == "R-454B":
        findings.apply(refrigerant.LIQUID_BLEND_VISCOSITY)
    if question.vapor_line.fittings != NO_FITTINGS or question.liquid_line.fittings != NO_FITTINGS:
        findings.apply(rules.FITTING_LENGTHS)
    if question.surroundings is not None:
        findings.apply(rules.HEAT_GAIN)


def _check_around(findings: Findings, question: RefrigerantLineSizingQuestion, result: RefrigerantLineSizingResult) -> None:
    if result.double_riser is not None:
        check_double_riser(findings, result.double_riser)
    if result.charge is not None:
        check_charge(findings, result.charge)
    check_leak(findings, question, result.leak_safety)
    if result.insulation is not None:
        check_insulation(findings, question, result.insulation)
    findings.caution(*cautions.EVERY)
