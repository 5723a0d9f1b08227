"""More pressure at the supply of a water loop: tried on the loop itself before it is advised, against what pipes, units and tank are rated for."""

from typing import Any

from msgspec.structs import replace

from kneewall.calculations.water_loop_flow import CALCULATION
from kneewall.kernel.answer import Check
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import GaugePressure, Length
from kneewall.kernel.refusal import Refusal
from kneewall.physics.constants import STANDARD_GRAVITY

OF_PRESSURE = ("pressure at rest", "pipe rating", "peak pressure", "rating of ", "peak from ")
"""How the names of the loop's checks begin that a higher pressure can break."""


def stronger_supply(loop: Any, result: Any, wanted: GaugePressure) -> Phrase:
    """What raising the supply to `wanted` would do, in a sentence. Source: retrofit-check.stronger-supply."""
    now, supply = result.supply.pressure, loop.supply
    if supply.kind == "pressure-tank" and now < supply.cut_in * (1.0 - 1e-9):
        return Phrase("A pump that delivers more than {} at that pressure, or larger pipe in the slowest stretch.", supply.pump_flow)
    tried = raised(loop, Length((wanted - now) / (result.fluid.density * STANDARD_GRAVITY)), wanted)
    if tried is None:
        return Phrase("Larger pipe in the slowest stretch: the {} that it would take at the supply are more than any such loop is made for.", wanted)
    if any(check.check == "pump keeps up" and check.verdict == "fails" for check in tried.checks):
        return Phrase("A pump that delivers more than {} at {}, or larger pipe in the slowest stretch.", supply.pump_flow, wanted)
    broken = [check for check in tried.checks if check.verdict == "fails" and check.check.startswith(OF_PRESSURE)]
    if broken:
        return Phrase(
            "Larger pipe in the slowest stretch. About {} at the supply, where there are {} now, would do it too but is too much for the loop: {}",
            wanted, now, broken[0].says,
        )  # fmt: skip
    plates = _plates(loop, tried.checks)
    return Phrase("About {} at the supply where there are {} now, or larger pipe in the slowest stretch.{}", wanted, now, plates)


def raised(loop: Any, head: Length, wanted: GaugePressure) -> Any:
    """The answer of the loop with its supply raised: a tank's switch by as much at both ends, a pump's whole curve. None beyond what a question may state."""
    supply = loop.supply
    try:
        if supply.kind == "fixed-pressure":
            higher = replace(supply, pressure=wanted)
        elif supply.kind == "pressure-tank":
            higher = replace(supply, cut_in=wanted, cut_out=GaugePressure(supply.cut_out + wanted - supply.cut_in), precharge=None)
        else:
            higher = replace(supply, points=[replace(point, head=Length(point.head + head)) for point in supply.points])
        return CALCULATION.function(replace(loop, supply=higher))
    except (Refusal, ValueError):  # what no question may state either
        return None


def _plates(loop: Any, checks: list[Check]) -> Phrase | str:
    """What is still to be read off: the ratings that nobody stated."""
    names = [unit.id for unit in loop.units if unit.rated_pressure is None]
    if loop.supply.kind == "pressure-tank" and loop.supply.rated_pressure is None:
        names.append("the tank")
    if not names:
        return ""
    at_rest = next((check.actual for check in checks if check.check in ("pressure at rest", "pipe rating")), None)
    if at_rest is None:
        return Phrase(" The plates of {} must allow it.", ", ".join(names))
    return Phrase(" The pipes bear it; the plates of {} must allow {}.", ", ".join(names), at_rest)
