"""Clash on the water side: what the units need against what supply, pipes and valve let through."""

from collections.abc import Iterator
from math import sqrt
from typing import Any

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import GaugePressure, WaterFlow
from kneewall.retrofit.results import Conflict
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
        return Phrase("About {} at the supply where there are {} now, or larger pipe in the slowest stretch.", wanted, total)
    rest = (total - result.control_valve.pressure_drop) * ratio**LOOP_EXPONENT
    left = total - rest
    if left <= 0.0:
        sentence = "Not the valve: pipes and coils alone would take {}. Larger pipe, or about {} at the supply where there are {} now."
        return Phrase(sentence, GaugePressure(rest), wanted, total)
    flow = result.supply.flow * ratio / GALLON_PER_MINUTE
    cv = flow / sqrt(left / PSI)
    return Phrase("A control valve of Cv {} where {} is planned lets it through.", f"{cv:.1f}", f"{loop.control_valve.cv:.3g}")
