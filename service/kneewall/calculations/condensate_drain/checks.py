"""The checks on trap, line and heights; those on pan and pump stand in `pan_checks`."""

from kneewall.calculations.condensate_drain import codes, rules, trap
from kneewall.calculations.condensate_drain.codes import CodeText
from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.condensate_drain.pan_checks import check_pan, check_pump
from kneewall.calculations.condensate_drain.pan_heights import check_pan_heights
from kneewall.calculations.condensate_drain.place_checks import check_air, check_place, check_sag
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.kernel.answer import EQUAL_WITHIN, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length
from kneewall.physics.pipe_span import HungPipe


def check_all(findings: Findings, question: CondensateDrainQuestion, result: CondensateDrainResult, code: CodeText, pipe: HungPipe) -> None:
    """Every check that the question gives figures for."""
    _check_slope(findings, question, code)
    _check_size(findings, question, result, code)
    _check_flow(findings, result)
    findings.apply(*(_TRAP_RULES[offered.rule] for offered in result.trap.candidates))
    if question.trap is not None:
        _check_trap(findings, question, result)
    if question.vent is not None:
        _check_vent(findings, question)
    if result.elevations is not None:
        _check_heights(findings, question, result)
    check_sag(findings, question, result, pipe)
    check_air(findings, question, result)
    check_place(findings, question)
    if result.auxiliary_pan is not None and question.auxiliary_pan is not None:
        check_pan(findings, question.auxiliary_pan, result.auxiliary_pan, code)
        check_pan_heights(findings, question.auxiliary_pan, question.elevations, code)
    elif question.surroundings.place != "crawl-space":
        says = Phrase(
            "Nothing is said of what happens when this drain blocks. Over rooms the code wants one of: pan and drain, second drain, pan and switch, switch."
        )
        findings.check("protection", "watch", code.protection, says)
    if result.pump is not None:
        check_pump(findings, question, result.pump, code)


_TRAP_RULES = {
    rule.id: rule
    for rule in (
        rules.TRAP_BALANCE,
        rules.TRAP_INCH_MORE,
        rules.TRAP_TOTAL_DEPTH,
        rules.TRAP_BY_BLOWER,
        rules.TRAP_BLOW_THROUGH,
        rules.TRAP_BLOW_THROUGH_LEAST,
    )
}


def _check_slope(findings: Findings, question: CondensateDrainQuestion, code: CodeText) -> None:
    slope = question.run.slope
    if slope < codes.LEAST_SLOPE * (1.0 - EQUAL_WITHIN) and slope >= codes.PRINTED_PERCENT * (1.0 - EQUAL_WITHIN):
        says = Phrase("The line falls {}, the 1 % that the code prints, but less than its {}: take 1/8 in. per foot.", slope, codes.LEAST_SLOPE)
        findings.check("slope", "watch", code.slope, says, actual=slope, limit=codes.LEAST_SLOPE)
        return
    findings.at_least(
        "slope", slope, codes.LEAST_SLOPE, code.slope,
        meets="The line falls {}, at least the {} of the code.",
        breaks="The line falls {}, less than the {} of the code: lower its end or raise the unit.",
    )  # fmt: skip


def _check_size(findings: Findings, question: CondensateDrainQuestion, result: CondensateDrainResult, code: CodeText) -> None:
    size, least, outlet = question.pipe.nominal_size, result.pipe.minimum_size, question.pipe.pan_outlet_size
    if least is None:
        says = Phrase("{} has no figure for a line that drains {}: ask the authority which method it approves.", code.name, _capacity(question))
        findings.check("pipe size", "refer", code.size, says, actual=size)
    else:
        if code.single_by_table or (code.manifold_by_table and question.manifold_capacity is not None):
            findings.apply(codes.PIPE_BY_CAPACITY)
        findings.at_least(
            "pipe size", size, least, code.size,
            meets="The pipe is {} nominal, at least the {} of the code.",
            breaks="The pipe is {} nominal, below the {} of the code: take the larger.",
        )  # fmt: skip
    if question.manifold_capacity is not None and not code.manifold_by_table:
        says = Phrase("{} sizes a line that several units share by an approved method and has no table: ask the authority.", code.name)
        findings.check("shared line", "refer", code.size, says, actual=question.manifold_capacity)
    if outlet is not None:
        findings.at_least(
            "pipe not reduced", size, outlet, code.size,
            meets="The pipe is {}, no smaller than the pan's outlet of {}.",
            breaks="The pipe is {}, smaller than the pan's outlet of {}: never reduce a condensate line.",
        )  # fmt: skip


def _capacity(question: CondensateDrainQuestion) -> float:
    return question.cooling_capacity if question.manifold_capacity is None else question.manifold_capacity


def _check_flow(findings: Findings, result: CondensateDrainResult) -> None:
    line = result.line
    findings.apply(rules.MANNING)
    if line.fill_ratio is None:
        says = Phrase("The line would take {} at this slope and must take {}: it backs up.", line.full_capacity, line.flow)
        findings.check("flow in the line", "fails", rules.HALF_FULL, says, actual=line.flow, limit=line.full_capacity)
        return
    findings.at_most(
        "flow in the line", line.fill_ratio, 0.5, rules.HALF_FULL, otherwise="watch",
        meets="The water stands {} of the bore deep, under {}: flow never governs, slime and sag do.",
        breaks="The water stands {} of the bore deep, above {}: take a larger pipe.",
    )  # fmt: skip


def _check_trap(findings: Findings, question: CondensateDrainQuestion, result: CondensateDrainResult) -> None:
    assert question.trap is not None
    head = question.pan_static_pressure * trap.WATER_COLUMN
    least = trap.balance(question.fan_position, head)
    pairs = (
        ("outlet drop of the trap", question.trap.outlet_drop, least.outlet_drop, result.trap.outlet_drop, "the pan never drains while the fan runs"),
        ("seal of the trap", question.trap.seal_depth, least.seal_depth, result.trap.seal_depth, "the fan blows or sucks it empty"),
    )
    for name, actual, floor, wanted, outcome in pairs:
        if actual <= floor * (1.0 + EQUAL_WITHIN):
            says = Phrase("The trap has {} and the pressure takes {}: {}. Make it {}.", actual, Dimension(floor), outcome, wanted)
            findings.check(name, "fails", rules.TRAP_BALANCE, says, actual=actual, limit=Dimension(floor))
            continue
        findings.at_least(
            name, actual, wanted, _TRAP_RULES[result.trap.governing_rule], otherwise="watch",
            meets="The trap has {}, at least the {} of the deepest rule.",
            breaks="The trap has {} and will hold, but with less to spare than the {} of the deepest rule.",
        )  # fmt: skip


def _check_vent(findings: Findings, question: CondensateDrainQuestion) -> None:
    if question.vent == "before-trap":
        says = Phrase("A vent before the trap lets air past it on a {} unit: cap it, or move it after the trap.", question.fan_position)
        findings.check("vent", "fails", rules.VENT, says, actual="before-trap")
    elif question.vent == "none":
        says = Phrase("Without a vent after the trap a long line can lock air: put one there, open above the pan's rim.")
        findings.check("vent", "watch", rules.VENT, says, actual="none")
    else:
        findings.check("vent", "meets", rules.VENT, Phrase("The vent stands after the trap; keep it open above the pan's rim."), actual="after-trap")


def _check_heights(findings: Findings, question: CondensateDrainQuestion, result: CondensateDrainResult) -> None:
    found = result.elevations
    assert found is not None and question.elevations is not None
    findings.apply(rules.AIR_GAP)
    if found.margin < -1e-9 and question.pump is not None and _pump_lifts(question, result):
        says = Phrase("The run would end {} too low by gravity; the pump lifts the water, and only what flows after its highest point needs a fall.",
                      Dimension(-found.margin))  # fmt: skip
        findings.check("fall to the receiver", "meets", rules.PUMP_LIFT, says, actual=found.end_of_run, limit=_needed(question, result))
    elif question.run.slope <= 0.0 < question.run.length:
        says = Phrase("The run does not fall ({}): gravity does not carry the water along it, at whatever height it ends.", question.run.slope)
        findings.check("fall to the receiver", "fails", rules.FALL, says, actual=found.end_of_run, limit=_needed(question, result))
    elif found.margin >= -1e-9:
        says = Phrase("The run ends {} above the rim's air gap: gravity does it.", found.margin)
        findings.check("fall to the receiver", "meets", rules.FALL, says, actual=found.end_of_run, limit=_needed(question, result))
    else:
        says = Phrase(
            "The run ends at {}, {} too low for rim and air gap: raise the pan outlet to {}, use a lower receiver, or pump.",
            found.end_of_run, Dimension(-found.margin), found.lowest_pan_outlet,
        )  # fmt: skip
        findings.check("fall to the receiver", "fails", rules.FALL, says, actual=found.end_of_run, limit=_needed(question, result))
    if found.clear_height is not None:
        outside = result.pipe.outside_diameter
        height = result.trap.overall_height
        if question.trap is not None:
            height = Dimension(question.trap.outlet_drop + question.trap.seal_depth + outside)
        findings.at_least(
            "room for the trap", found.clear_height, height, rules.CLEARANCE,
            meets="There are {} below the pan outlet and the trap takes {}.",
            breaks="There are {} below the pan outlet and the trap takes {}: hang the unit higher.",
        )  # fmt: skip


def _pump_lifts(question: CondensateDrainQuestion, result: CondensateDrainResult) -> bool:
    """Whether the pump is known to lift the water high enough, over the receiver's rim and air gap."""
    pump, found = question.pump, result.pump
    if pump is None or found is None or pump.rated_lift is None or found.static_lift is None:
        return False
    over = pump.highest_point is None or pump.highest_point >= _needed(question, result) - 1e-9
    return over and pump.rated_lift >= found.static_lift * (1.0 - EQUAL_WITHIN)


def _needed(question: CondensateDrainQuestion, result: CondensateDrainResult) -> Length:
    assert question.elevations is not None and result.elevations is not None
    return Length(question.elevations.receiver_rim + result.elevations.air_gap)
