"""What came, held against the take-off: short, over, damaged or missing, and the work that this stops."""

from kneewall.kernel.answer import Verdict
from kneewall.retrofit.materials import FROM_SHEET
from kneewall.retrofit.messages import Delivered
from kneewall.retrofit.results import DeliveryLine, Material, Stage
from kneewall.retrofit.stages import stage_of

SAME = 1e-6


def delivery(delivered: list[Delivered], needed: list[Material], stages: list[Stage]) -> list[DeliveryLine]:
    """One line per needed item and size, then what came without being on the list. Names match whatever their capitals and blanks."""
    came: dict[tuple[str, str], dict[str, float]] = {}
    for line in delivered:
        kept = came.setdefault(_key(line.item, line.size), {"good": 0.0, "damaged": 0.0})
        kept[line.condition] += line.quantity
    wanted: dict[tuple[str, str], list[Material]] = {}
    for material in needed:
        wanted.setdefault(_key(material.item, material.size), []).append(material)
    lines = [
        _line(materials, came.pop(key, {"good": 0.0, "damaged": 0.0}), stages)
        for key, materials in wanted.items()
        if key in came or _is_bought(materials[0])
    ]
    return lines + [_stray(line, came) for line in _first_of_each(delivered, came)]


def _is_bought(material: Material) -> bool:
    """A weight is said beside the sheet it belongs to; a piece that is made of the sheet may come ready-made, but nobody waits for it."""
    return not material.item.endswith(", weight") and material.order != FROM_SHEET


def _key(item: str, size: str) -> tuple[str, str]:
    return " ".join(item.lower().split()), " ".join(size.lower().split())


def _line(materials: list[Material], came: dict[str, float], stages: list[Stage]) -> DeliveryLine:
    needed, first = sum(material.quantity for material in materials), materials[0]
    good, damaged = came["good"], came["damaged"]
    enough = good >= needed - SAME
    if enough:
        condition = "over" if good > needed + SAME else "complete"
    else:
        condition = "damaged" if good + damaged >= needed - SAME else ("short" if good + damaged > 0.0 else "missing")
    verdict: Verdict = "meets" if enough else "fails"
    return DeliveryLine(
        item=first.item, size=first.size, needed=needed, received=good, damaged=damaged, unit=first.unit, condition=condition, verdict=verdict,
        stops=None if enough else stage_of(first, stages),
    )  # fmt: skip


def _first_of_each(delivered: list[Delivered], left: dict[tuple[str, str], dict[str, float]]) -> list[Delivered]:
    seen: set[tuple[str, str]] = set()
    found = []
    for line in delivered:
        key = _key(line.item, line.size)
        if key in left and key not in seen:
            seen.add(key)
            found.append(line)
    return found


def _stray(line: Delivered, came: dict[tuple[str, str], dict[str, float]]) -> DeliveryLine:
    kept = came[_key(line.item, line.size)]
    return DeliveryLine(
        item=line.item,
        size=line.size,
        needed=0.0,
        received=kept["good"],
        damaged=kept["damaged"],
        unit="",
        condition="not on the list",
        verdict="watch",
    )
