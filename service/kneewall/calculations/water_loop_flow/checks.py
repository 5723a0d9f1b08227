"""The checks on a water loop: enough water, not too cold, balanced, quiet, and air that can be carried out."""

from kneewall.calculations.water_loop_flow import cautions, rules
from kneewall.calculations.water_loop_flow.answered import FlowRequired, UnitOnLoop, WaterLoopResult
from kneewall.calculations.water_loop_flow.checks_at_rest import check_supply_at_rest
from kneewall.calculations.water_loop_flow.checks_of_fitting import check_fitted
from kneewall.calculations.water_loop_flow.checks_of_own_valves import check_own_valves
from kneewall.calculations.water_loop_flow.checks_of_pressure import check_pressures, check_pump, check_valve
from kneewall.calculations.water_loop_flow.checks_of_rating import check_ratings
from kneewall.calculations.water_loop_flow.describe import PURGE_VELOCITY
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.heat import ABOVE_FREEZING, greatest_rise
from kneewall.calculations.water_loop_flow.messages import LoopUnit
from kneewall.kernel.answer import EQUAL_WITHIN, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Number, Temperature, TemperatureDifference, WaterFlow, WaterVelocity

TOO_COLD, VERY_COLD, STRICTLY = (Temperature.of(degrees, "°F") for degrees in (35, 38, 42))
BALANCED_WITHIN = 1.10
FAR_ABOVE = 1.5
QUIET = WaterVelocity.of(4, "ft/s")
FASTEST = WaterVelocity.of(8, "ft/s")
FASTEST_IN_PLASTIC = WaterVelocity.of(5, "ft/s")
PLASTICS = ("pvc", "cpvc", "pex", "pe")


def check_loop(findings: Findings, found: Found, result: WaterLoopResult) -> None:
    """Make every check and say every caution that the loop calls for."""
    for unit, answered, required in zip(found.question.units, result.units, result.required, strict=True):
        if unit.id in found.calling:
            _check_flow(findings, found, answered, required)
            _check_too_much(findings, unit, answered)
            _check_leaving(findings, found, unit, answered)
    _check_balance(findings, found, result)
    _check_idle(findings, result)
    check_pressures(findings, found)
    check_supply_at_rest(findings, found)
    ratings = check_ratings(findings, found, result)
    check_own_valves(findings, found, ratings)
    check_valve(findings, found, result)
    check_pump(findings, found, result)
    _check_velocities(findings, found)
    _check_purge(findings, found)
    check_fitted(findings, found)
    if not found.least.settled or not found.greatest.settled:
        says = Phrase("The tees' losses do not settle at these flows and are left out: give them as tee-run and tee-branch.")
        findings.check("tees", "watch", rules.REQUIRED_FLOW, says)
    _say_cautions(findings, found)


def _check_flow(findings: Findings, found: Found, unit: UnitOnLoop, required: FlowRequired) -> None:
    name = f"flow of {unit.id}"
    if unit.flow < -1e-9:
        findings.check(name, "fails", rules.REVERSED, Phrase("Water runs backwards through {}: swap its ends.", unit.id), actual=unit.flow)
    elif required.flow is None:
        entering = found.question.entering_water
        findings.check(
            name, "fails", rules.LEAVING_LIMIT, actual=unit.flow,
            says=Phrase("Water enters {} at {}, already at or below its leaving limit: no flow is enough for heating.", unit.id, entering),
        )  # fmt: skip
    else:
        findings.at_least(
            name, unit.flow, required.flow, rules.REQUIRED_FLOW,
            meets=f"{unit.id} gets {{}} and needs {{}}.",
            breaks=f"{unit.id} gets {{}} but needs {{}}: larger pipe, less loss in valves and coil, or a stronger supply where pipes, units and tank are rated for it.",
        )  # fmt: skip


def _check_too_much(findings: Findings, unit: LoopUnit, answered: UnitOnLoop) -> None:
    """Far above the point of the unit's table the coil wears, and its drop is only drawn on."""
    flow = max(answered.flow, answered.flow_at_cut_out or answered.flow)
    if flow > FAR_ABOVE * unit.coil.flow * (1.0 + EQUAL_WITHIN):
        says = Phrase(
            "{} runs through {}, far above the {} of its table: the coil wears, and its drop is only drawn on from there. Fit a flow regulator or a "
            "balancing valve.", flow, unit.id, unit.coil.flow,
        )  # fmt: skip
        findings.check(f"too much water in {unit.id}", "watch", rules.TOO_MUCH, says, actual=flow, limit=unit.coil.flow)


def _check_leaving(findings: Findings, found: Found, unit: LoopUnit, answered: UnitOnLoop) -> None:
    if unit.cooling is not None:
        _check_rise(findings, found, unit, answered)
    if unit.heating is None:
        return
    name, leaving = f"leaving water of {unit.id}", answered.leaving_water.heating
    freezing = Temperature(found.water.properties.freezing)
    if leaving is None:
        says = Phrase("At {} the water in {} would freeze: it cannot give up {}.", answered.flow, unit.id, answered.heat_absorbed)
        findings.check(name, "fails", rules.LEAVING_LIMIT, says, actual=answered.flow)
    elif not found.water.plain:
        findings.at_least(
            name, leaving, Temperature(freezing + ABOVE_FREEZING), rules.LEAVING_LIMIT,
            meets=f"Water leaves {unit.id} at {{}} in heating, not below {{}}, 10 °F above the freezing point.",
            breaks=f"Water leaves {unit.id} at {{}} in heating, below {{}}, 10 °F above the freezing point: more flow or more antifreeze.",
        )  # fmt: skip
    else:
        _check_plain_water(findings, name, unit, leaving)
    if leaving is not None and unit.leaving_limit is not None:
        findings.at_least(
            f"leaving limit of {unit.id}", leaving, unit.leaving_limit, rules.LEAVING_LIMIT,
            meets=f"Water leaves {unit.id} at {{}}, within its own limit of {{}}.",
            breaks=f"Water leaves {unit.id} at {{}}, below its own limit of {{}}: more flow.",
        )  # fmt: skip


def _check_plain_water(findings: Findings, name: str, unit: LoopUnit, leaving: Temperature) -> None:
    slack = EQUAL_WITHIN * leaving
    if leaving < TOO_COLD - slack:
        findings.check(
            name, "fails", rules.LEAVING_LIMIT, actual=leaving, limit=TOO_COLD,
            says=Phrase("Water leaves {} at {} in heating, below {}: the coil will freeze. More flow, or a closed loop with antifreeze.", unit.id, leaving, TOO_COLD),
        )  # fmt: skip
    elif leaving < VERY_COLD - slack:
        findings.check(
            name, "watch", rules.LEAVING_LIMIT, actual=leaving, limit=VERY_COLD,
            says=Phrase("Water leaves {} at {} in heating, below {}: a little less flow freezes the coil. Raise the flow.", unit.id, leaving, VERY_COLD),
        )  # fmt: skip
    elif leaving < STRICTLY - slack:
        findings.check(
            name, "watch", rules.LEAVING_LIMIT, actual=leaving, limit=STRICTLY,
            says=Phrase("Water leaves {} at {} in heating; makers allow that, the strict rule wants {}.", unit.id, leaving, STRICTLY),
        )  # fmt: skip
    else:
        says = Phrase("Water leaves {} at {} in heating, not below {}.", unit.id, leaving, STRICTLY)
        findings.check(name, "meets", rules.LEAVING_LIMIT, says, actual=leaving, limit=STRICTLY)


def _check_rise(findings: Findings, found: Found, unit: LoopUnit, answered: UnitOnLoop) -> None:
    name, leaving = f"rise in {unit.id}", answered.leaving_water.cooling
    limit = TemperatureDifference(greatest_rise(unit, found.question.loop))
    if leaving is None:
        says = Phrase(
            "At {} the water in {} would get hotter than is known or safe when it takes {}.", answered.flow, unit.id, answered.heat_rejected
        )
        findings.check(name, "fails", rules.RISE, says, actual=answered.flow)
        return
    findings.at_most(
        name, TemperatureDifference(leaving - found.question.entering_water), limit, rules.RISE, otherwise="watch" if unit.greatest_rise is None else "fails",
        meets=f"Cooling warms the water in {unit.id} by {{}}, within {{}}.",
        breaks=f"Cooling warms the water in {unit.id} by {{}}, more than {{}}: more flow, or the unit loses capacity.",
    )  # fmt: skip


def _check_balance(findings: Findings, found: Found, result: WaterLoopResult) -> None:
    shares = [
        (answered.flow / required.flow, answered, required)
        for answered, required in zip(result.units, result.required, strict=True)
        if required.flow is not None and required.unit in found.calling and answered.flow > 0.0
    ]
    if len(shares) < 2:
        return
    most, least = max(shares, key=lambda one: one[0]), min(shares, key=lambda one: one[0])
    spread = most[0] / least[0]
    if spread <= BALANCED_WITHIN * (1.0 + EQUAL_WITHIN):
        says = Phrase("Every unit has the same share of what it needs within {}.", BALANCED_WITHIN)
        findings.check("balance", "meets", rules.BALANCE, says, actual=Number(spread), limit=BALANCED_WITHIN)
        return
    says = Phrase(
        "{} has {} of the {} it needs, {} has {} of {}: fit a balancing valve at {} and set it by the measured flows.",
        most[1].id, most[1].flow, most[2].flow, least[1].id, least[1].flow, least[2].flow, most[1].id,
    )  # fmt: skip
    findings.check("balance", "watch", rules.BALANCE, says, actual=Number(spread), limit=BALANCED_WITHIN)


def _check_idle(findings: Findings, result: WaterLoopResult) -> None:
    """What one common valve wastes."""
    worst = max(result.calls, key=lambda call: call.idle_flow)
    if worst.idle_flow <= 0.0:
        return
    findings.check(
        "water for nothing", "watch", rules.COMMON_VALVE, actual=worst.idle_flow,
        says=Phrase("When only {} calls, {} runs through units that rest, out of {}: valves of their own would save it.", ", ".join(worst.calling), worst.idle_flow, worst.flow),
    )  # fmt: skip


def _check_velocities(findings: Findings, found: Found) -> None:
    quick = found.surge is not None and not found.surge.slow
    worst, limit, share = 0, FASTEST, -1.0
    for index, velocity in enumerate(found.greatest_velocities):
        plastic = quick and found.situation.piping.sizes[index].wall.substance in PLASTICS
        here = FASTEST_IN_PLASTIC if plastic else FASTEST
        if velocity / here > share:
            worst, limit, share = index, here, velocity / here
    name = found.question.pipes[worst].id
    fastest = WaterVelocity(found.greatest_velocities[worst])
    when = "" if found.greatest is found.least else " at cut-out"
    findings.at_most(
        "velocity", fastest, limit, rules.VELOCITY,
        meets=f"Water runs fastest for its pipe in {name}: {{}}{when}, within {{}}.",
        breaks=f"Water runs at {{}} in {name}{when}, above {{}}: it wears the pipe and hammers. Take a larger size, or hold the flow down to what is needed.",
    )  # fmt: skip
    loudest = max(found.greatest_velocities)
    name = found.question.pipes[found.greatest_velocities.index(loudest)].id
    findings.at_most(
        "noise", WaterVelocity(loudest), QUIET, rules.NOISE, otherwise="watch",
        meets=f"No pipe is faster than {{}} ({name}){when}, within the {{}} that stays quiet.",
        breaks=f"At {{}} in {name}{when} it is heard in quiet rooms; {{}} is not.",
    )  # fmt: skip


def _check_purge(findings: Findings, found: Found) -> None:
    bores = found.situation.piping.bores
    slow = [i for i, bore in enumerate(bores) if abs(found.least.flows[i]) < PURGE_VELOCITY * bore * (1.0 - EQUAL_WITHIN)]
    if not slow:
        says = Phrase("The loop's own flow reaches {} in every pipe and carries the air out.", PURGE_VELOCITY)
        findings.check("air", "meets", rules.PURGE, says, limit=PURGE_VELOCITY)
        return
    most = max(slow, key=lambda index: bores[index])
    names = ", ".join(found.question.pipes[index].id for index in slow)
    says = Phrase(
        "The loop's own flow stays below {} in {}: air stays there. Purge with a pump; the widest of them takes {}.",
        PURGE_VELOCITY, names, WaterFlow(PURGE_VELOCITY * bores[most]),
    )  # fmt: skip
    findings.check("air", "watch", rules.PURGE, says, limit=PURGE_VELOCITY)


def _say_cautions(findings: Findings, found: Found) -> None:
    question = found.question
    findings.caution(cautions.PRESSURE, cautions.FREEZING, cautions.WATER_DAMAGE, cautions.BALANCE_FIRST)
    if question.loop == "open":
        findings.caution(cautions.WATER_QUALITY, cautions.DISCHARGE, cautions.CROSS_CONNECTION)
        says = Phrase("Well, discharge and any joint with drinking water need the authority and licensed trades; nothing here decides that.")
        findings.check("licenses", "refer", rules.LICENCES, says)
    else:
        findings.caution(cautions.EXPANSION)
        if not found.water.plain:
            findings.caution(cautions.ANTIFREEZE)
    if question.control_valve is not None:
        if len(question.units) > 1:
            findings.caution(cautions.RELAYS)
        if question.control_valve.closing_time is not None:
            findings.caution(cautions.CLOSING)
