"""The hung unit on its water loop: which of the loop's units it is, whether loop water runs to where it hangs, and whether a valve can stop a leak there."""

from typing import Any

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.refusal import Fault
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.partial import Given
from kneewall.retrofit.work import Work


def hung_unit(work: Work) -> str | None:
    """The id of the hung unit among the units of the loop: as stated, else the first."""
    named = work.question.unit.loop_unit
    return named if named is not None else next(iter(names_on_loop(work.question)), None)


def names_on_loop(question: RetrofitCheckQuestion) -> list[str]:
    """The ids of the loop's units as the part states them; none where the job has no loop."""
    units = getattr(question.water_loop_flow, "units", None) or []
    return [unit.id for unit in units if unit.id is not None]


def unknown_loop_unit(question: RetrofitCheckQuestion) -> list[Fault]:
    """The fault of a hung unit that the loop does not have. A job without a loop may name its unit all the same."""
    names, named = names_on_loop(question), question.unit.loop_unit
    if named is None or not names or named in names:
        return []
    return [Fault(pointer="/unit/loop_unit", detail=Phrase("names no unit of the loop: {}", ", ".join(names)))]


def runs_to_hung_unit(work: Work) -> bool:
    """Whether loop water can run into the pan: as stated; else where no refrigerant lines lead from the hung unit to another that holds the water coil."""
    if work.asked("water_loop_flow") is None:
        return False
    stated = work.question.unit.loop_water
    return work.question.refrigerant_line_sizing is None if stated is None else stated


def powered_valves(loop: Any) -> list[tuple[str, Any]]:
    """Every valve that a sensor can shut, with the pipe in which it sits."""
    control = [] if loop.control_valve is None else [(loop.control_valve.on, loop.control_valve)]
    return control + [(pipe.id, valve) for pipe in loop.pipes for valve in pipe.valves if valve.kind in ("motorized", "solenoid")]


def still_fed(loop: Any, name: str | None, *, surely: bool = False) -> bool:
    """Whether the supply still reaches a unit once every valve that closes by itself is shut: forward through its feed or backward through its return.

    A break has water from both ends; only check valves hold it back. A valve sits at the leaving end of its pipe. One that is open without power does not
    count; `surely`: nor does one of which that is not said.
    """
    shut = {pipe for pipe, valve in powered_valves(loop) if valve.rests == "closed" or (valve.rests is None and not surely)}
    ways = [(pipe.start, pipe.end) for pipe in loop.pipes if pipe.id not in shut]
    ways += [(pipe.end, pipe.start) for pipe in loop.pipes if pipe.id not in shut and not _holds_back(pipe)]
    ways += [way for unit in loop.units if unit.id != name for way in ((unit.start, unit.end), (unit.end, unit.start))]
    reached = {"supply"} if loop.loop == "open" else {"supply", "discharge"}
    while further := {end for start, end in ways if start in reached} - reached:
        reached |= further
    return any(unit.id == name and {unit.start, unit.end} & reached for unit in loop.units)


def _holds_back(pipe: Any) -> bool:
    return any(valve.kind == "check" for valve in pipe.valves) or any("check" in fitting and count > 0 for fitting, count in pipe.fittings.items())


def leak_valve(loop: Any, name: str | None) -> Given:
    """Where the valve stands that a leak sensor can shut, seen from the hung unit, and how it rests, in the form of the drain's question."""
    if not powered_valves(loop):
        return {}
    if still_fed(loop, name):
        return {"leak_valve": "leaving-side"}
    return {"leak_valve": "supply-side", "leak_valve_rests": None if still_fed(loop, name, surely=True) else "closed"}
