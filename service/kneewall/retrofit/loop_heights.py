"""How high the hung unit's coil and the outlet stand above the supply of the loop, by the elevations of the job, where the loop itself does not say it."""

from collections.abc import Iterator
from typing import Any

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length
from kneewall.physics.loops import DISCHARGE, SUPPLY
from kneewall.retrofit.loop_water import hung_unit, names_on_loop
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.partial import Given
from kneewall.retrofit.results import Conflict
from kneewall.retrofit.work import Work

WITHIN = Length.of(1, "ft")
"""A coil stands somewhere in its unit, and a foot is less than half a psi."""


def coil_above_supply(question: RetrofitCheckQuestion) -> Length | None:
    """The height of the hung unit's water coil: where the unit hangs, or where its refrigerant lines end. Source: retrofit-check.loop-heights."""
    heights, stated = question.elevations, question.unit.loop_water
    hangs = question.refrigerant_line_sizing is None if stated is None else stated
    return _above_supply(heights.unit_base if hangs else heights.outdoor_unit, question)


def outlet_above_supply(question: RetrofitCheckQuestion) -> Length | None:
    """The height of the outlet of an open loop. Source: retrofit-check.loop-heights."""
    return _above_supply(question.elevations.loop_discharge, question)


def _above_supply(height: Length | None, question: RetrofitCheckQuestion) -> Length | None:
    base = question.elevations.loop_supply
    return None if height is None or base is None else Length(height - base)


def fill_heights(work: Work, given: Given) -> Given:
    """What the loop's question takes from the job's elevations: nothing where the rises of its pipes tell already."""
    coil, outlet, name = coil_above_supply(work.question), outlet_above_supply(work.question), hung_unit(work)
    if coil is not None:
        told = _told(given)
        given["units"] = [
            {**unit, "elevation": coil} if unit.get("id") == name and unit.get("from") not in told and "elevation" not in unit else unit
            for unit in given["units"]
        ]
    if outlet is None or given.get("loop") == "closed" or DISCHARGE in _told(given):
        return {}
    return {"discharge": {"elevation": outlet}}


def _told(given: Given) -> set[str]:
    """The nodes whose height above the supply follows from what the loop's question states."""
    ways = [(pipe.get("from"), pipe.get("to")) for pipe in given.get("pipes", []) if "rise" in pipe]
    ways += [(unit.get("from"), unit.get("to")) for unit in given["units"]]
    ways += [(SUPPLY, unit.get("from")) for unit in given["units"] if "elevation" in unit]
    if given.get("loop") == "closed" or "elevation" in given.get("discharge", {}):
        ways.append((SUPPLY, DISCHARGE))
    told = {SUPPLY}
    while further := {node for way in ways for node in way if node is not None and told & set(way)} - told:
        told |= further
    return told


def loop_and_elevations(work: Work) -> Iterator[Conflict]:
    """The heights of the loop against the elevations of the job. Source: retrofit-check.loop-heights."""
    loop, result = work.asked("water_loop_flow"), work.result("water_loop_flow")
    if loop is None:
        return
    heights: dict[str, Any] = {node.id: node.elevation for node in result.nodes}
    hung = next((unit for unit in loop.units if unit.id == hung_unit(work)), None)
    pairs = [("The coil of " + hung.id, heights.get(hung.start), coil_above_supply(work.question))] if hung is not None else []
    if loop.loop == "open":
        pairs.append(("The outlet", heights.get(DISCHARGE), outlet_above_supply(work.question)))
    for name, by_loop, by_job in pairs:
        if by_loop is None or by_job is None or abs(by_loop - by_job) <= WITHIN * (1.0 + 1e-9):
            continue
        by = Length(abs(by_loop - by_job))
        says = Phrase("{} stands {} above the loop's supply by the rises of its pipes, and {} by the elevations of the job.", name, by_loop, by_job)
        settle = Phrase("Correct one of them: pressures in the loop are worked out by the rises of its pipes.")
        yield Conflict(conflict="heights of the loop", between=["water-loop-flow", "elevations"], verdict="watch", by=by, says=says, settle=settle)


def lacks_loop_heights(work: Work) -> bool:
    """Whether a loop that says nothing of heights is worked out as level although the job knows some."""
    question, loop = work.question, work.asked("water_loop_flow")
    known = question.elevations.unit_base is not None or question.elevations.outdoor_unit is not None
    if loop is None or not known or not names_on_loop(question):
        return False
    told = any(pipe.rise is not None for pipe in loop.pipes) or any(unit.elevation is not None for unit in loop.units)
    return not told and getattr(loop.discharge, "elevation", None) is None
