"""Clashes on the water side: what the units need against what supply, pipes and valve let through; a leak of the loop against the pan."""

from collections.abc import Iterator
from math import sqrt
from typing import Any

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Duration, GaugePressure, WaterFlow
from kneewall.retrofit.loop_water import hung_unit, powered_valves, runs_to_hung_unit, still_fed
from kneewall.retrofit.results import Conflict
from kneewall.retrofit.stronger_supply import stronger_supply
from kneewall.retrofit.work import Work

GALLON_PER_MINUTE, PSI = 6.30901964e-5, 6894.757293168
LOOP_EXPONENT = 1.9


def water_and_supply(work: Work) -> Iterator[Conflict]:
    """Every unit's needed flow against the flow it gets. Source: retrofit-check.water-and-supply."""
    loop, result = work.asked("water_loop_flow"), work.result("water_loop_flow")
    if result is None:
        return
    names = ["water-loop-flow: units", "water-loop-flow: supply"]
    gets = {unit.id: unit.flow for unit in result.units}
    short = [(need.flow / gets[need.unit], need) for need in result.required if need.flow is not None and gets.get(need.unit, 0.0) > 0.0]
    short = [(ratio, need) for ratio, need in short if ratio > 1.0 + 1e-9]
    if not short:
        says = Phrase("Every unit gets the water it needs; together {} flow.", result.supply.flow)
        yield Conflict(conflict="water and supply", between=names, verdict="meets", says=says)
        return
    ratio, need = max(short, key=lambda pair: pair[0])
    by = WaterFlow(need.flow - gets[need.unit])
    says = Phrase("{} needs {} and gets {}.", need.unit, need.flow, gets[need.unit])
    yield Conflict(conflict="water and supply", between=names, verdict="fails", by=by, says=says, settle=_settle(loop, result, ratio))


def _settle(loop: Any, result: Any, ratio: float) -> Phrase:
    """The larger valve that lets the flow through, if the valve alone can; else the pressure it takes."""
    total = result.supply.pressure
    wanted = GaugePressure(total * ratio**LOOP_EXPONENT)
    if loop.control_valve is None or result.control_valve is None:
        return stronger_supply(loop, result, wanted)
    rest = (total - result.control_valve.pressure_drop) * ratio**LOOP_EXPONENT
    left = total - rest
    if left <= 0.0:
        return Phrase("Not the valve: pipes and coils alone would take {}. {}", GaugePressure(rest), stronger_supply(loop, result, wanted))
    flow = result.supply.flow * ratio / GALLON_PER_MINUTE
    cv = flow / sqrt(left / PSI)
    return Phrase("A control valve of Cv {} where {} is planned lets it through.", f"{cv:.1f}", f"{loop.control_valve.cv:.3g}")


def pan_and_loop_leak(work: Work) -> Iterator[Conflict]:
    """The pan is made for drops, a broken hose lets out the loop. Source: retrofit-check.pan-and-loop-leak."""
    drain, question, loop = work.result("condensate_drain"), work.asked("condensate_drain"), work.asked("water_loop_flow")
    pan = getattr(drain, "auxiliary_pan", None)
    if pan is None or pan.fills_with_loop_leak is None or not runs_to_hung_unit(work):
        return
    fills: Duration = pan.fills_with_loop_leak
    name, names = "pan and loop leak", ["condensate-drain: auxiliary pan", "water-loop-flow"]
    filling = Phrase("At the flow of {} in operation the pan is full in {}, and an open break passes more than that.", pan.loop_flow, fills)
    if not question.auxiliary_pan.leak_shutoff:
        says = Phrase("{} No drain of its size keeps up.", filling)
        settle = Phrase("A leak sensor low in the pan that closes a valve on the supply side of the unit and stops compressor and pump.")
        yield Conflict(conflict=name, between=names, verdict="fails", by=fills, says=says, settle=settle)
    elif question.auxiliary_pan.leak_valve == "leaving-side" or still_fed(loop, hung_unit(work)):
        says = Phrase(
            "{} The valve that the leak sensor shuts leaves a broken hose on the supply's pressure: it runs on.{}", filling, _open_ones(loop)
        )
        settle = Phrase(
            "Let the sensor close a valve between supply and unit too, with a check valve in its return where another unit shares the loop."
        )
        yield Conflict(conflict=name, between=names, verdict="fails", by=fills, says=says, settle=settle)
    elif question.auxiliary_pan.leak_valve_rests == "open":
        says = Phrase("{} The valve that the leak sensor shuts is open without power: cut off, it lets a broken hose run.", filling)
        settle = Phrase("A valve that is closed without power.")
        yield Conflict(conflict=name, between=names, verdict="fails", by=fills, says=says, settle=settle)
    elif question.auxiliary_pan.leak_valve_rests is None and still_fed(loop, hung_unit(work), surely=True):
        says = Phrase("{} The leak sensor shuts the valve between supply and unit, but it is not said how that valve stands without power.", filling)
        settle = Phrase("A valve that is closed without power; try that it closes well before the pan is full.")
        yield Conflict(conflict=name, between=names, verdict="watch", by=fills, says=says, settle=settle)
    else:
        says = Phrase("{} The leak sensor shuts the valve between supply and unit: try that it closes well before.", filling)
        yield Conflict(conflict=name, between=names, verdict="meets", by=fills, says=says)


def _open_ones(loop: Any) -> str:
    """The valves that do not count, named."""
    found = [pipe for pipe, valve in powered_valves(loop) if valve.rests == "open"]
    return f" A valve that is open without power does not count ({', '.join(found)})." if found else ""
