"""The trap that holds the pan's pressure: what balance asks, what published rules ask, and the deepest of them."""

from typing import NamedTuple

from kneewall.calculations.condensate_drain import rules
from kneewall.calculations.condensate_drain.messages import FanPosition
from kneewall.kernel.quantity import AirPressure
from kneewall.kernel.rule import Rule

INCH = 0.0254
WATER_COLUMN = INCH / AirPressure.of(1.0, "inH2O")
"""Height of water, m, that a pressure of one Pa holds up: 1 in for each in. w.c."""

MARGIN = INCH
LEAST_TOTAL_DEPTH = 3.0 * INCH
TOTAL_DEPTH_FACTOR = 2.5
LEAST_DEPTH_BY_BLOWER = 1.5 * INCH
BLOW_THROUGH_DROP = 0.5 * INCH


class TrapShape(NamedTuple):
    """Outlet drop H and seal depth J, m, and the rule that asks for them."""

    rule: Rule
    outlet_drop: float
    seal_depth: float


def balance(fan: FanPosition, head: float) -> TrapShape:
    """The trap that would just hold `head` (m of water), with nothing to spare.

    Draw-through: H = P, else suction holds the water in the pan, and J = P/2, as the inlet leg rises P/2 and the outlet leg falls P/2 at start-up.
    Blow-through: H = 0, J = P. Source: condensate-drain.trap-balance.
    """
    if fan == "draw-through":
        return TrapShape(rules.TRAP_BALANCE, head, head / 2.0)
    return TrapShape(rules.TRAP_BALANCE, 0.0, head)


def candidates(fan: FanPosition, head: float, capability: float | None) -> list[TrapShape]:
    """The traps that balance and the published rules ask for; `head` and the blower's `capability` in m of water.

    A rule that gives only a total depth, or only a seal, takes H from P + 1 in (draw-through) or 1/2 in (blow-through).
    """
    found = [balance(fan, head)]
    if fan == "draw-through":
        drop = head + MARGIN
        found.append(TrapShape(rules.TRAP_INCH_MORE, drop, drop / 2.0))
        found.append(TrapShape(rules.TRAP_TOTAL_DEPTH, drop, max(LEAST_TOTAL_DEPTH, TOTAL_DEPTH_FACTOR * head) - drop))
    else:
        drop = BLOW_THROUGH_DROP
        found.append(TrapShape(rules.TRAP_BLOW_THROUGH_LEAST, drop, head + MARGIN / 2.0))
        found.append(TrapShape(rules.TRAP_BLOW_THROUGH, drop, head + MARGIN))
    if capability is not None:
        found.append(TrapShape(rules.TRAP_BY_BLOWER, drop, max(LEAST_DEPTH_BY_BLOWER, capability)))
    return found


def deepest(shapes: list[TrapShape]) -> TrapShape:
    """The candidate with the greatest height; the first of equals."""
    return max(shapes, key=lambda shape: shape.outlet_drop + shape.seal_depth)
