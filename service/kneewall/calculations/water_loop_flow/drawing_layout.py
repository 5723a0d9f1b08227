"""Where the nodes, pipes and units of any loop stand on a sheet: one row each, downward as the water runs, side by side in lanes where it divides."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from kneewall.physics.loops import SUPPLY


@dataclass(slots=True)
class Way:
    """A pipe or unit as drawn, between its `upper` and its `lower` node; the water runs down it unless `upward`."""

    index: int
    tail: str
    head: str
    upper: str = ""
    lower: str = ""
    lane: int = 0

    @property
    def upward(self) -> bool:
        """Whether the water runs from the lower node to the upper."""
        return self.upper == self.head


@dataclass(slots=True)
class Sheet:
    """The order of the rows (a node's name or a way), the lane of every node, what each node's bar spans, and how many lanes there are."""

    rows: list[str | Way]
    ways: list[Way]
    lane_of: dict[str, int] = field(default_factory=dict)
    bar_of: dict[str, tuple[int, int]] = field(default_factory=dict)
    lanes: int = 1


def sheet_of(links: Sequence[tuple[str, str, float]]) -> Sheet:
    """Lay out links (from, to, flow), whatever their layout. Links are followed as the water runs; where none does, as they are stated."""
    ways = [Way(index, head, tail) if flow < 0.0 else Way(index, tail, head) for index, (tail, head, flow) in enumerate(links)]
    order = order_of(ways)
    place = {node: number for number, node in enumerate(order)}
    for way in ways:
        way.upper, way.lower = (way.tail, way.head) if place[way.tail] < place[way.head] else (way.head, way.tail)
    ways.sort(key=lambda way: (place[way.lower], way.index))
    below: dict[str, list[Way]] = {node: [] for node in order}
    above: dict[str, list[Way]] = {node: [] for node in order}
    for way in ways:
        below[way.upper].append(way)
        above[way.lower].append(way)
    rows: list[str | Way] = []
    for node in order:
        rows += [way for way in above[node] if len(below[way.upper]) > 1]
        rows.append(node)
        if len(below[node]) == 1:
            rows += below[node]
    sheet = Sheet(rows, ways)
    _give_lanes(sheet, order, above, below)
    return sheet


def order_of(ways: Sequence[Way]) -> list[str]:
    """Every node once: each after those from which its water comes, branch by branch; where water runs round in a ring the ring is cut."""
    following: dict[str, list[str]] = {SUPPLY: []}
    waiting: dict[str, int] = {SUPPLY: 0}
    for way in ways:
        following.setdefault(way.tail, []).append(way.head)
        following.setdefault(way.head, [])
        waiting[way.head] = waiting.get(way.head, 0) + 1
    order: dict[str, None] = {}
    ready, seen = [SUPPLY], [SUPPLY]
    while len(order) < len(following):
        if not ready:
            ready.append(next(node for node in (*seen, *following) if node not in order))
        node = ready.pop()
        if node in order:
            continue
        order[node] = None
        for after in reversed(following[node]):
            seen.append(after)
            waiting[after] -= 1
            if waiting[after] <= 0 and after not in order:
                ready.append(after)
    return list(order)


def _give_lanes(sheet: Sheet, order: Sequence[str], above: dict[str, list[Way]], below: dict[str, list[Way]]) -> None:
    """Each way keeps a lane of its own from its upper node to its lower; the first to go on from a node takes the node's lane."""
    taken: set[int] = set()
    for node in order:
        ending = [way.lane for way in above[node]]
        taken.difference_update(ending)
        own = min(ending) if ending else _free(taken)
        lanes = [own]
        for number, way in enumerate(below[node]):
            way.lane = own if number == 0 else _free(taken)
            taken.add(way.lane)
            lanes.append(way.lane)
        sheet.lane_of[node] = own
        sheet.bar_of[node] = min([*ending, *lanes]), max([*ending, *lanes])
        sheet.lanes = max(sheet.lanes, sheet.bar_of[node][1] + 1)


def _free(taken: set[int]) -> int:
    return next(lane for lane in range(len(taken) + 1) if lane not in taken)
