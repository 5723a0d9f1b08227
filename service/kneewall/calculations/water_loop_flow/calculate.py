"""Water-loop flow: what flows through every unit and pipe of a loop, and whether that is enough, safe and quiet.

The story: refuse what contradicts itself, turn pipes and coils into a network, find the flows at the least and the greatest pressure of the supply
and on every combination of calls, then shut the valve and look at the pressures, the surge, the pump and the air.
"""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.answered import WaterLoopResult
from kneewall.calculations.water_loop_flow.checks import check_loop
from kneewall.calculations.water_loop_flow.describe import result_of
from kneewall.calculations.water_loop_flow.faults import layout_faults, question_faults
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.heat import Water, required_flow
from kneewall.calculations.water_loop_flow.heights import heights_of
from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.calculations.water_loop_flow.piping import Piping, piping_of
from kneewall.calculations.water_loop_flow.source import PRECHARGE_BELOW_CUT_IN, TankCycle, tank_cycle, tank_drawdown
from kneewall.calculations.water_loop_flow.states import (
    Situation,
    State,
    cut_out_state,
    idle_links,
    least_state,
    least_state_held_back,
    losses_and_pressures,
    shut_pressures,
    situation_of,
)
from kneewall.calculations.water_loop_flow.surge import Surge, surge_of, way_back
from kneewall.calculations.water_loop_flow.tees import tees_of
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.refusal import refuse, refuse_any
from kneewall.physics import fittings, friction, network, water
from kneewall.physics.loops import DISCHARGE, SUPPLY, Layout, lay_out
from kneewall.physics.pipes import PIPE_MATERIAL
from kneewall.physics.water import Liquid


def loop_flow(question: WaterLoopQuestion) -> Answer[WaterLoopResult]:
    """Answer a water-loop question. Raises: Refusal where it contradicts itself or no water flows."""
    found = find(question)
    findings = Findings("water-loop-flow")
    _apply_rules(findings, found)
    result = result_of(found)
    check_loop(findings, found, result)
    return findings.answer(result)


def find(question: WaterLoopQuestion) -> Found:
    """Everything that is worked out for a question. Raises: Refusal."""
    properties = water.fluid_properties(question.fluid)
    liquid = water.liquid_at(properties, question.entering_water, "/entering_water")
    sizes, faults = question_faults(question, properties)
    refuse_any(faults)
    piping = piping_of(question, sizes, liquid)
    layout = lay_out(piping.links)
    refuse_any(layout_faults(question, layout))
    situation = situation_of(question, piping, _heights(question), liquid.density, tees_of(question, piping, liquid.density))
    units = [unit.id for unit in question.units]
    valve = _valve(question)
    shut = None if valve is None else shut_pressures(situation, layout, valve)
    calling = question.calls or units
    idle = idle_links(question, piping, calling)
    if idle:
        layout = _without(layout, idle)
    check_valves = _check_valves(question)
    held: tuple[int, ...] = ()
    if check_valves:
        layout, least, starved, held = least_state_held_back(situation, layout, idle, check_valves)
        if not layout.flows_through:
            raise refuse(
                f"/pipes/{held[-1]}", "its check valve stands against the water, which has no other way: swap from and to, or turn the valve"
            )
    else:
        least, starved = least_state(situation, layout)
    losses, gauge = losses_and_pressures(situation, layout, least)
    greatest = cut_out_state(situation, layout, least, gauge[SUPPLY]) if question.supply.kind == "pressure-tank" else least
    loop_water = Water(properties, liquid, question.fluid.kind == "water")
    return Found(
        question=question,
        water=loop_water,
        situation=situation,
        layout=layout,
        least=least,
        losses=losses,
        pressures=gauge,
        greatest=greatest,
        starved=starved,
        calls=_calls(situation, units, least, idle, check_valves),
        held=held,
        required=[required_flow(unit, question.loop, loop_water) for unit in question.units],
        valve=valve,
        shut=shut,
        surge=_surge(question, piping, greatest, liquid, valve, idle),
        cycle=_cycle(question, least, greatest),
        calling=calling,
        greatest_velocities=[abs(flow) / bore for flow, bore in zip(greatest.flows, piping.bores, strict=False)],
    )


def _heights(question: WaterLoopQuestion) -> dict[str, float]:
    stated = [(unit.start, unit.end, 0.0, f"/units/{i}") for i, unit in enumerate(question.units)]
    stated += [(pipe.start, pipe.end, float(pipe.rise), f"/pipes/{i}/rise") for i, pipe in enumerate(question.pipes) if pipe.rise is not None]
    if question.loop == "closed":
        stated.insert(0, (SUPPLY, DISCHARGE, 0.0, "/loop"))
    elif question.discharge is not None and question.discharge.elevation is not None:
        stated.append((SUPPLY, DISCHARGE, float(question.discharge.elevation), "/discharge/elevation"))
    stated += [
        (SUPPLY, unit.start, float(unit.elevation), f"/units/{i}/elevation") for i, unit in enumerate(question.units) if unit.elevation is not None
    ]
    level = [(pipe.start, pipe.end) for pipe in question.pipes if pipe.rise is None]
    heights, faults = heights_of(stated, level, SUPPLY)
    refuse_any(faults)
    return heights


def _without(layout: Layout, idle: tuple[int, ...]) -> Layout:
    left = lay_out(layout.links, idle)
    if not left.flows_through:
        raise refuse("/calls", "when only these units call, the other units' own valves leave the water no way")
    return left


def _check_valves(question: WaterLoopQuestion) -> list[int]:
    return [index for index, pipe in enumerate(question.pipes) for valve in pipe.valves if valve.kind == "check"]


def _calls(
    situation: Situation, units: list[str], least: State, least_idle: tuple[int, ...], check_valves: list[int]
) -> list[tuple[list[str], State]]:
    """The state on each combination of calls: every one of up to three units, else each unit alone and all together."""
    together = [units] if len(units) > 1 else []
    pairs = [[a, b] for i, a in enumerate(units) for b in units[i + 1 :]] if len(units) == 3 else []
    combinations = [*[[unit] for unit in units], *pairs, *together]
    if not any(unit.own_valve for unit in situation.question.units):
        return [(calling, least) for calling in combinations]
    states: dict[tuple[int, ...], State | None] = {least_idle: least}
    found = []
    for calling in combinations:
        idle = idle_links(situation.question, situation.piping, calling)
        if idle not in states:
            layout = lay_out(situation.piping.links, idle)
            if layout.flows_through and check_valves:
                layout, held_back, _, _ = least_state_held_back(situation, layout, idle, check_valves)
                states[idle] = held_back if layout.flows_through else None
            else:
                states[idle] = least_state(situation, layout)[0] if layout.flows_through else None
        state = states[idle]
        if state is not None:
            found.append((calling, state))
    return found


def _valve(question: WaterLoopQuestion) -> int | None:
    if question.control_valve is None:
        return None
    return [pipe.id for pipe in question.pipes].index(question.control_valve.on)


def _surge(question: WaterLoopQuestion, piping: Piping, state: State, liquid: Liquid, valve: int | None, idle: tuple[int, ...]) -> Surge | None:
    if question.control_valve is None or valve is None or not state.flows[valve]:
        return None
    lengths, way = [pipe.length for pipe in question.pipes], way_back(piping, state.flows, valve)
    return surge_of(question.control_valve.closing_time, piping, lengths, state.flows, liquid.density, way, idle)


def _cycle(question: WaterLoopQuestion, least: State, greatest: State) -> TankCycle | None:
    supply = question.supply
    if supply.tank_volume is None or supply.cut_in is None or supply.cut_out is None or supply.pump_flow is None:
        return None
    precharge = max(0.0, supply.cut_in - PRECHARGE_BELOW_CUT_IN) if supply.precharge is None else float(supply.precharge)
    drawdown = tank_drawdown(supply.tank_volume, precharge, supply.cut_in, supply.cut_out)
    return tank_cycle(drawdown, supply.pump_flow, (least.total + greatest.total) / 2.0)


def _apply_rules(findings: Findings, found: Found) -> None:
    question = found.question
    findings.apply(water.fluid_rule(question.fluid), network.NETWORK, friction.DARCY_WEISBACH, friction.COLEBROOK)
    findings.apply(*[size.rule for size in found.situation.piping.sizes])
    findings.apply(PIPE_MATERIAL, rules.HEAT_BALANCE, rules.REQUIRED_FLOW, rules.COIL, rules.ONE_STATE)
    used = set().union(*[pipe.fittings for pipe in question.pipes])
    if used & fittings.SOLDERED:
        findings.apply(fittings.WROUGHT_SOLDER)
    if used:
        findings.apply(fittings.LOSS_COEFFICIENT)
    if found.situation.tees is not None:
        findings.apply(fittings.TEES)
    kinds = {valve.kind for pipe in question.pipes for valve in pipe.valves}
    if kinds or question.control_valve is not None:
        findings.apply(fittings.VALVE_COEFFICIENT)
    if "strainer" in kinds:
        findings.apply(rules.STRAINER)
    if "flow-regulator" in kinds:
        findings.apply(rules.FLOW_REGULATOR)
    if question.supply.points:
        findings.apply(rules.PUMP_CURVE)
    if found.cycle is not None:
        findings.apply(rules.TANK_DRAWDOWN)
    if found.surge is not None:
        findings.apply(*found.surge.rules)
