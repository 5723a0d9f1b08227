"""How the weight is shared among four rods."""

from collections.abc import Iterable
from typing import NamedTuple

from kneewall.calculations.equipment_hanging.answers import Corner
from kneewall.calculations.equipment_hanging.messages import CentreOffset, EquipmentHangingQuestion

WATER = 62.4 * 157.08746384624
"""N/m3: 62.4 pounds of force per cubic foot"""

CORNERS: tuple[tuple[Corner, float, float], ...] = (
    ("front-right", 1.0, 1.0),
    ("front-left", 1.0, -1.0),
    ("back-right", -1.0, 1.0),
    ("back-left", -1.0, -1.0),
)


class Hung(NamedTuple):
    """What hangs, in N, and where its center stands: u along and v across, in half distances between rods."""

    dead: float
    water: float
    total: float
    u: float
    v: float


def hung_weight(question: EquipmentHangingQuestion) -> Hung:
    """The weight with the pan full, and the center of it all. Source: equipment-hanging.pan-full."""
    equipment, pan = question.equipment, question.pan
    along, across = _offset(equipment.centre_offset, 0.0, 0.0)
    water = 0.0 if pan is None else pan.length * pan.width * pan.depth * WATER
    dead: float = equipment.weight
    turning_along, turning_across = (dead + water) * along, (dead + water) * across
    for item in question.attached:
        weight = item.weight * item.share
        item_along, item_across = _offset(item.centre_offset, along, across)
        dead += weight
        turning_along += weight * item_along
        turning_across += weight * item_across
    total = dead + water
    half_total = total / 2.0
    return Hung(dead, water, total, turning_along / (half_total * question.rods.along), turning_across / (half_total * question.rods.across))


def _offset(offset: CentreOffset | None, along: float, across: float) -> tuple[float, float]:
    if offset is None:
        return along, across
    return 0.0 if offset.along is None else offset.along, 0.0 if offset.across is None else offset.across


def trapeze_share(u: float, v: float) -> float:
    """The share of the rod at (+1, +1) where two trapezes carry: (1 + u)(1 + v)/4. Source: equipment-hanging.rod-shares."""
    return (1.0 + u) * (1.0 + v) / 4.0


def rigid_share(u: float, v: float) -> float:
    """The share of the rod at (+1, +1) under a stiff frame on four equal springs: (1 + u + v)/4, or on the three that pull where one would push.

    Source: equipment-hanging.rod-shares. Valid: -1 <= u, v <= 1.
    """
    if abs(u) + abs(v) <= 1.0:
        return (1.0 + u + v) / 4.0
    if u >= 0.0 and v >= 0.0:
        return (u + v) / 2.0
    if u < 0.0 and v < 0.0:
        return 0.0
    return (1.0 - abs(u if v >= 0.0 else v)) / 2.0


def rod_shares(u: float, v: float) -> Iterable[tuple[Corner, float]]:
    """Every rod's share: the larger of the two models. Source: equipment-hanging.rod-shares."""
    found = []
    for corner, along, across in CORNERS:
        trapeze, rigid = trapeze_share(u * along, v * across), rigid_share(u * along, v * across)
        found.append((corner, trapeze if trapeze > rigid else rigid))
    return found


def slack_share(u: float, v: float) -> float:
    """The largest share of a rod under a stiff frame with one rod slack: (1 + min(|u|, |v|))/2.

    Source: equipment-hanging.slack-rod. Valid: -1 <= u, v <= 1.
    """
    return (1.0 + min(abs(u), abs(v))) / 2.0
