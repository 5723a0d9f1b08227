"""The checks on a water loop's pressures: coils kept full, the control valve and the pump."""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.answered import ValveOnLoop, WaterLoopResult
from kneewall.calculations.water_loop_flow.checks_at_rest import fallen_pressures
from kneewall.calculations.water_loop_flow.checks_of_closing import check_closing
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.messages import LoopControlValve
from kneewall.calculations.water_loop_flow.source import ATMOSPHERE
from kneewall.kernel.answer import Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Duration, GaugePressure, PressureDrop, WaterFlow
from kneewall.physics.constants import STANDARD_GRAVITY
from kneewall.physics.hammer import stopped_at_once
from kneewall.physics.loops import DISCHARGE, lay_out

BETTER_THAN = GaugePressure.of(5, "psig")
ONE_MINUTE = Duration.of(1, "min")
USUAL_LIFTING_DROP = PressureDrop.of(5, "psi")


def check_pressures(findings: Findings, found: Found) -> None:
    """Whether every coil stays above the atmosphere with the valve open and shut."""
    _check_coils(findings, "coils kept full, valve open", found, found.pressures)
    if found.shut is not None:
        fallen = fallen_pressures(found) if found.question.supply.check_valve is False else None
        _check_coils(findings, "coils kept full, valve shut", found, found.shut if fallen is None else fallen)
    elif found.valve is not None:
        says = Phrase("With the valve shut water still runs round it: the valve does not stop this loop.")
        findings.check("valve shuts", "fails", rules.ABOVE_ATMOSPHERE, says)


def _check_coils(findings: Findings, name: str, found: Found, pressures: dict[str, float]) -> None:
    ends = [(pressures[node], unit.id) for unit in found.question.units for node in (unit.start, unit.end) if node in pressures]
    if not ends:
        return
    lowest, unit = min(ends)
    pressure = GaugePressure(lowest)
    verdict: Verdict
    if lowest >= BETTER_THAN * (1 - 1e-9):
        verdict, says = "meets", Phrase("The lowest pressure at a coil is {} ({}), not below {}.", pressure, unit, BETTER_THAN)
    elif lowest > 0.0:
        verdict, says = "watch", Phrase("At {} the pressure falls to {}; {} would keep the coil surely full.", unit, pressure, BETTER_THAN)
    else:
        verdict, says = "fails", Phrase(
            "At {} the pressure falls to {}, not above the atmosphere: the coil draws air. Put the valve and any regulator on the leaving "
            "side, low down, or raise the pressure as far as pipes, units and tank are rated for; {} is wanted.", unit, pressure, BETTER_THAN,
        )  # fmt: skip
    findings.check(name, verdict, rules.ABOVE_ATMOSPHERE, says, actual=pressure, limit=BETTER_THAN)


def check_valve(findings: Findings, found: Found, result: WaterLoopResult) -> None:
    """The control valve: the drop that lifts it, how it closes, what it leaves behind it."""
    control, valve = found.question.control_valve, result.control_valve
    if control is not None and valve is None:
        says = Phrase("No water runs through {}: the valve controls nothing there.", control.on)
        findings.check("valve in the way", "fails", rules.COMMON_VALVE, says)
    if control is None or valve is None or found.valve is None or found.surge is None:
        return
    _check_lifting(findings, control, valve)
    assert found.surge is not None
    side = ", on the side the water comes from."
    check_closing(findings, "closing", "The valve", found.surge, control.closing_time, control.arrester, side)
    _check_vacuum(findings, found)


def _check_lifting(findings: Findings, control: LoopControlValve, valve: ValveOnLoop) -> None:
    if control.minimum_pressure_drop is not None:
        findings.at_least(
            "valve lifts", valve.pressure_drop, control.minimum_pressure_drop, rules.LIFTING_DROP,
            meets="The valve drops {}, at least the {} that lifts it.",
            breaks="The valve drops {}, less than the {} that lifts it: it will chatter or stay shut. Take a smaller Cv or a motorized valve.",
        )  # fmt: skip
    elif control.body == "pilot-operated":
        says = Phrase(
            "The valve drops {}; pilot-operated bodies need 0.5 to {}: give its minimum pressure drop from its data.",
            valve.pressure_drop,
            USUAL_LIFTING_DROP,
        )
        findings.check("valve lifts", "watch", rules.LIFTING_DROP, says, actual=valve.pressure_drop)


def _check_vacuum(findings: Findings, found: Found) -> None:
    """Whether the water beyond the shut valve hangs below it, and whether it tears off when the valve shuts at once."""
    assert found.valve is not None and found.surge is not None
    if found.shut is None:
        return
    pipe = found.question.pipes[found.valve]
    end = pipe.end if found.greatest.flows[found.valve] >= 0.0 else pipe.start
    if not found.surge.slow:
        _check_column(findings, found, end)
    if found.question.loop == "closed":
        return
    hang = found.situation.heights[end] - found.situation.heights[DISCHARGE]
    after = GaugePressure(found.situation.back - found.situation.density * STANDARD_GRAVITY * found.situation.heights[end])
    if hang > 0.0 and after < 0.0:
        says = Phrase(
            "The discharge lies below the valve and draws the water behind it down to {} when it shuts: a slow valve or a vacuum breaker prevents that.",
            after,
        )
        findings.check("vacuum behind valve", "watch", rules.VACUUM_AFTER, says, actual=after)


def _check_column(findings: Findings, found: Found, end: str) -> None:
    """The fall of pressure in the pipes behind a valve that shuts at once, against what water bears."""
    assert found.surge is not None
    piping, density = found.situation.piping, found.water.entering.density
    behind = [index for index, link in enumerate(piping.links[: len(piping.sizes)]) if end in (link.tail, link.head) and index != found.valve]
    if not behind:
        return
    fall = max(
        [stopped_at_once(density, found.situation.piping.speeds[index], abs(found.greatest.flows[index]) / piping.bores[index]) for index in behind]
    )
    if found.pressures[end] - fall > -ATMOSPHERE:
        return
    says = Phrase(
        "Behind the valve the pressure would fall by {} where it shuts at once, more than water bears: the column tears off and slams back. "
        "A slow valve, or one at the very end of the discharge, prevents that.", PressureDrop(fall),
    )  # fmt: skip
    findings.check("water column behind valve", "watch", rules.VACUUM_AFTER, says, actual=PressureDrop(fall))


def check_pump(findings: Findings, found: Found, result: WaterLoopResult) -> None:
    """The pump: whether it keeps up, how long it runs at a time, and whether it works within its curve."""
    supply = found.question.supply
    if found.cycle is not None and supply.pump_flow is not None:
        run = Duration(found.cycle.drawdown / supply.pump_flow)
        findings.at_least(
            "pump run", run, ONE_MINUTE, rules.CYCLING,
            meets="A full draw-down keeps the pump running {}, at least {}.",
            breaks="A full draw-down keeps the pump running {} only, not {}: a larger tank spares the pump.",
        )  # fmt: skip
        _check_keeping_up(findings, found, result, supply.pump_flow)
    if supply.points:
        _check_dead_head(findings, found)
        first, last = supply.points[0].flow, supply.points[-1].flow
        total = WaterFlow(found.least.total)
        if first * (1 - 1e-9) <= total <= last * (1 + 1e-9):
            says = Phrase("The pump works at {}, between the first and last points of its curve, {} and {}.", total, first, last)
            findings.check("pump curve", "meets", rules.PUMP_CURVE, says, actual=total)
        else:
            says = Phrase(
                "The pump would work at {}, outside its curve from {} to {}: the curve was drawn on, and the pump may be harmed.", total, first, last
            )
            findings.check("pump curve", "watch", rules.PUMP_CURVE, says, actual=total, limit=last if total > last else first)


def _check_dead_head(findings: Findings, found: Found) -> None:
    """A pump without a tank whose every way a valve can shut."""
    question, units = found.question, found.question.units
    if found.shut is not None and question.control_valve is not None:
        valves = f"the valve in {question.control_valve.on} shuts"
    elif all(unit.own_valve for unit in units) and not _runs_without_units(found):
        valves = "the units' own valves shut"
    else:
        return
    says = Phrase(
        "When {} the {} has no way: let the valve's end switch or the same call start and stop it, or fit a pressure switch or a bypass. Against a shut valve "
        "it heats its water and ruins its seal.", valves, question.supply.kind,
    )  # fmt: skip
    findings.check("pump against shut valve", "watch", rules.DEAD_HEAD, says)


def _runs_without_units(found: Found) -> bool:
    coils = range(len(found.question.pipes), len(found.layout.links))
    return lay_out(found.layout.links, (*coils, *found.held)).flows_through


def _check_keeping_up(findings: Findings, found: Found, result: WaterLoopResult, pump_flow: WaterFlow) -> None:
    cut_in = found.question.supply.cut_in
    if found.starved:
        says = Phrase(
            "The loop would draw more than the pump's {}: the tank runs down to {}, below the cut-in of {}, and the pump never stops.",
            pump_flow, result.supply.pressure, cut_in,
        )  # fmt: skip
        findings.check("pump keeps up", "fails", rules.CYCLING, says, actual=result.supply.pressure, limit=cut_in)
    elif found.cycle is not None and found.cycle.run_time is None:
        says = Phrase("The pump's {} match the draw between cut-in and cut-out: it runs without a stop while a unit calls.", pump_flow)
        findings.check("pump keeps up", "meets", rules.CYCLING, says, actual=pump_flow)
    else:
        says = Phrase("The pump's {} are more than the loop draws; it starts {} while a unit calls.", pump_flow, result.supply.cycles_per_hour)
        findings.check("pump keeps up", "meets", rules.CYCLING, says, actual=result.supply.flow, limit=pump_flow)
