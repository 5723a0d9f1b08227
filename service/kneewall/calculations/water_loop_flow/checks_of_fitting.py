"""The checks of what sits in the pipes: which way the water runs through it, whether it shuts off the units, what counts as full bore."""

from collections import defaultdict

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.messages import LoopPipe
from kneewall.calculations.water_loop_flow.states import AGAINST
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length, WaterFlow
from kneewall.physics.fittings import LOSS_COEFFICIENT, Fitting
from kneewall.physics.loops import DISCHARGE, SUPPLY

FULL_BORE: tuple[Fitting, ...] = ("elbow-90", "tee-run", "tee-branch")
ONE_WAY = {"check": "check valve", "strainer": "strainer", "flow-regulator": "flow regulator", "solenoid": "solenoid valve"}


def check_fitted(findings: Findings, found: Found) -> None:
    """Every check of what sits in the pipes."""
    _check_direction(findings, found)
    _check_isolation(findings, found)
    _check_insert_fittings(findings, found)
    _check_climbs(findings, found)


def _check_climbs(findings: Findings, found: Found) -> None:
    """Pipes that would have to climb more than they are long: as stated, or by what the heights at their ends leave them."""
    heights = found.situation.heights
    short = [
        (pipe.id, climb, pipe.length)
        for pipe in found.question.pipes
        if (climb := Length(abs(heights[pipe.end] - heights[pipe.start]))) > pipe.length * (1.0 + 1e-6)
    ]
    if short:
        also = f" So with {', '.join(name for name, _, _ in short[1:])}." if short[1:] else ""
        says = Phrase("{} would have to climb {} and is {} long: its friction is understated; correct its length or the heights.{}", *short[0], also)
        findings.check("heights", "watch", rules.HEIGHTS, says, actual=short[0][1], limit=short[0][2])


def _check_direction(findings: Findings, found: Found) -> None:
    """Water against the direction of what passes it one way only: held back by a check valve, wrong through anything else."""
    lowest = [min(flow, other) for flow, other in zip(found.least.flows, found.greatest.flows, strict=True)]
    for index, pipe in enumerate(found.question.pipes):
        if index in found.held:
            says = Phrase(
                "Water would run backwards through {}: its check valve holds it, and nothing flows there. Where it should flow, swap from and to.",
                pipe.id,
            )
            findings.check(f"check valve in {pipe.id}", "watch", rules.REVERSED, says)
        elif lowest[index] < -AGAINST and (wrong := _one_way_in(found, pipe)):
            says = Phrase("Water runs backwards through {} ({}): turn it round, or swap from and to.", pipe.id, ", ".join(wrong))
            findings.check(f"direction of {pipe.id}", "fails", rules.REVERSED, says, actual=WaterFlow(lowest[index]))


def _one_way_in(found: Found, pipe: LoopPipe) -> list[str]:
    control = found.question.control_valve
    wrong = [ONE_WAY[valve.kind] for valve in pipe.valves if valve.kind in ONE_WAY]
    if control is not None and control.on == pipe.id and control.body in ("pilot-operated", "direct-acting"):
        wrong.append("control valve")
    return wrong


def _check_isolation(findings: Findings, found: Found) -> None:
    """Whether every unit can be shut off at each of its ends, by itself."""
    ends: dict[str, list[int]] = defaultdict(list)
    for index, link in enumerate(found.situation.piping.links):
        ends[link.tail].append(index)
        ends[link.head].append(index)
    first_unit = len(found.question.pipes)
    without = [
        unit.id
        for number, unit in enumerate(found.question.units)
        if not all(_shut_off(found, ends, node, {first_unit + number}) for node in (unit.start, unit.end))
    ]
    if without:
        says = Phrase("{} cannot be shut off on both sides: fit ball valves with hose connections toward the coil.", ", ".join(without))
        findings.check("isolation", "watch", rules.ISOLATION, says)
    else:
        findings.check("isolation", "meets", rules.ISOLATION, Phrase("Every unit can be shut off on both sides."))


def _shut_off(found: Found, ends: dict[str, list[int]], node: str, past: set[int]) -> bool:
    """Whether valves part a node from supply, discharge and every other unit, on all the ways that lead on from the links `past`."""
    if node in (SUPPLY, DISCHARGE):
        return False
    pipes = found.question.pipes
    for index in ends[node]:
        if index in past:
            continue
        if index >= len(pipes):
            return False
        pipe = pipes[index]
        past.add(index)
        if pipe.fittings.get("ball-valve", 0.0) > 0.0 or any(valve.kind == "isolation" for valve in pipe.valves):
            continue
        if not _shut_off(found, ends, pipe.end if pipe.start == node else pipe.start, past):
            return False
    return True


def _check_insert_fittings(findings: Findings, found: Found) -> None:
    """PEX with fittings that are counted as if they had the pipe's own bore."""
    names = [
        pipe.id
        for pipe, size in zip(found.question.pipes, found.situation.piping.sizes, strict=True)
        if size.wall.substance == "pex" and any(pipe.fittings.get(fitting) for fitting in FULL_BORE)
    ]
    if names:
        says = Phrase(
            "The fittings of {} count as full bore; insert (crimp) fittings in PEX lose about four times as much: count those as such.",
            ", ".join(names),
        )
        findings.check("PEX fittings", "watch", LOSS_COEFFICIENT, says)
