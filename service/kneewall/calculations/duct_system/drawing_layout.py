"""Where each section stands in the drawing of its tree.

Air goes down the sheet: return grilles on top, the unit, then the supply. Every section has a row of its own. Sections in series keep the lane of the one before,
branches step one lane outward; where that would take too many lanes the part with the most sections keeps its lane as well, so that 200 sections
never need more than eight.
"""

from dataclasses import dataclass, field

from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult, SectionAnswer, Side
from kneewall.kernel.svg import Point

MOST_LANES = 5
FIRST_LANE, LANE = 14.0, 13.0


@dataclass(slots=True, eq=False)
class Spot:
    """A section in the drawing, or the unit, which has no answer. `outer` are the sections that go on from it."""

    name: str
    found: SectionAnswer | None = None
    is_box: bool = False
    toward: "Spot | None" = None
    outer: list["Spot"] = field(default_factory=list)
    weight: int = 1
    lane: int = 0
    y: float = 0.0
    on_critical_path: bool = False
    size: str = ""
    name_within: float = 0.0
    name_above: bool = False

    @property
    def x(self) -> float:
        """The place of its lane."""
        return FIRST_LANE + LANE * self.lane

    def line(self) -> list[Point]:
        """From the section toward the unit to this one."""
        assert self.toward is not None
        start, end = (self.toward.x, self.toward.y), (self.x, self.y)
        return [start, end] if start[0] == end[0] else [start, (start[0], end[1]), end]


def side_of(question: DuctSystemQuestion, result: DuctSystemResult, side: Side) -> tuple[Spot, list[Spot]]:
    """The unit as the foot of one side's tree, and that side's sections from the top of the sheet to its bottom."""
    unit = Spot("unit")
    spots = {
        section.id: Spot(section.id, found, is_box=section.kind != "duct")
        for section, found in zip(question.sections, result.sections, strict=True)
        if section.side == side
    }
    for section in question.sections:
        if section.side == side:
            spot = spots[section.id]
            spot.toward = spots.get(section.toward_unit, unit)
            spot.toward.outer.append(spot)
    critical = result.critical_path.supply if side == "supply" else result.critical_path.return_
    for path in result.paths:
        if path.outlet == critical:
            for name in path.sections:
                spots[name].on_critical_path = True
    _settle_lanes(unit)
    rows = _rows(unit)
    return unit, rows[::-1] if side == "return" else rows


def _settle_lanes(unit: Spot) -> None:
    ordered = [unit]
    for spot in ordered:  # grows while it is walked: every section after the one toward the unit
        ordered.extend(spot.outer)
    for spot in reversed(ordered[1:]):
        assert spot.toward is not None
        spot.toward.weight += spot.weight
    if _lanes(ordered, keep_heaviest=False) > MOST_LANES:
        _lanes(ordered, keep_heaviest=True)


def _lanes(ordered: list[Spot], *, keep_heaviest: bool) -> int:
    """Give every section its lane; the outermost."""
    for spot in ordered:
        keeps = len(spot.outer) == 1 or keep_heaviest
        heaviest = max(spot.outer, key=lambda one: one.weight, default=None)
        for one in spot.outer:
            one.lane = spot.lane + (0 if keeps and one is heaviest else 1)
    return max(spot.lane for spot in ordered)


def _rows(unit: Spot) -> list[Spot]:
    """Every section after the one toward the unit; what keeps its lane comes last, so that its line passes the branches."""
    rows: list[Spot] = []
    waiting = [unit]
    while waiting:
        spot = waiting.pop()
        rows.append(spot)
        in_order = sorted(spot.outer, key=lambda one: -one.lane)
        waiting.extend(reversed(in_order))
    return rows[1:]
