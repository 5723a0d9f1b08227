"""The loops of a network: how pipes and coils between `supply` and `discharge` hang together, whatever their layout."""

from collections import defaultdict
from collections.abc import Collection, Sequence

import msgspec

from kneewall.physics.resistance import Resistance, in_series

SUPPLY, DISCHARGE = "supply", "discharge"


class Link(msgspec.Struct, frozen=True):
    """A pipe or a coil from node `tail` to node `head`."""

    id: str
    tail: str
    head: str
    resistance: Resistance


class Run(msgspec.Struct, frozen=True):
    """Links that carry the same flow: which (index, direction), the sum of which loops (number, direction), and what they lose together.

    `pairs`: every pair of its loops, the later first, with the product of their directions.
    """

    members: tuple[tuple[int, float], ...]
    loops: tuple[tuple[int, float], ...]
    pairs: tuple[tuple[int, int, float], ...]
    resistance: Resistance


class Layout(msgspec.Struct, frozen=True):
    """How the links hang together.

    `tree`: by node its neighbour towards the supply, the link between and its direction, in the order of the walk; `runs` carry flow, loop 0 being the
    way from supply to discharge (none where there is no such way); `apart` links are not joined to the supply at all. A link in no run is a dead end.
    """

    links: Sequence[Link]
    tree: dict[str, tuple[str, int, float]]
    loops: int
    runs: tuple[Run, ...]
    apart: tuple[int, ...]

    @property
    def flows_through(self) -> bool:
        """Whether the discharge can be reached from the supply."""
        return self.loops > 0

    def beyond(self, index: int) -> set[str] | None:
        """The nodes that the supply no longer reaches when a link is closed through which all the water runs; None for any other link."""
        if not any(index == member for run in self.runs if run.loops == ((0, 1.0),) for member, _ in run.members):
            return None
        cut: set[str] = set()
        for node, (neighbour, link, _) in self.tree.items():
            if link == index or neighbour in cut:
                cut.add(node)
        return cut


def lay_out(links: Sequence[Link], closed: Collection[int] = ()) -> Layout:
    """Find the loops of a network, leaving out closed links: a tree from the supply, then one loop for every link that is not in it."""
    touching: dict[str, list[tuple[int, str, float]]] = defaultdict(list)
    used = [False] * len(links)
    for index, link in enumerate(links):
        if index in closed:
            used[index] = True
        else:
            touching[link.tail].append((index, link.head, 1.0))
            touching[link.head].append((index, link.tail, -1.0))
    tree: dict[str, tuple[str, int, float]] = {}
    order = {SUPPLY: 0}
    waiting = [SUPPLY]
    for node in waiting:
        for index, other, sign in touching[node]:
            if other not in order:
                order[other] = len(order)
                tree[other] = node, index, sign
                used[index] = True
                waiting.append(other)
    left = [index for index, done in enumerate(used) if not done]
    apart = tuple([index for index in left if links[index].tail not in order])
    if DISCHARGE not in order:
        return Layout(links, tree, 0, (), apart)
    loops = [_way_round(tree, order, DISCHARGE, SUPPLY)]
    for index in left:
        if index not in apart:
            loops.append(_way_round(tree, order, links[index].tail, links[index].head))
            loops[-1][index] = 1.0
    for number in range(len(loops) - 1, 1, -1):
        loops[number] = _shorter(loops[number], loops[number - 1])
    return Layout(links, tree, len(loops), _runs(links, loops), apart)


def _way_round(tree: dict[str, tuple[str, int, float]], order: dict[str, int], tail: str, head: str) -> dict[int, float]:
    """The links and directions by which a loop's flow goes from `head` back to `tail` through the tree, whose nodes come after those toward the supply."""
    way = {}
    while head != tail:
        if order[head] > order[tail]:
            head, index, sign = tree[head]
            way[index] = -sign
        else:
            tail, index, sign = tree[tail]
            way[index] = sign
    return way


def _shorter(loop: dict[int, float], other: dict[int, float]) -> dict[int, float]:
    """A loop, or what is left of it when another is taken off, if that is shorter: neighbours share a link then, not the whole way from the supply."""
    shared = loop.keys() & other.keys()
    if 2 * len(shared) <= len(other) or any(loop[index] != other[index] for index in shared):
        return loop
    left = {index: sign for index, sign in loop.items() if index not in shared}
    left.update([(index, -sign) for index, sign in other.items() if index not in shared])
    return left


def _runs(links: Sequence[Link], loops: Sequence[dict[int, float]]) -> tuple[Run, ...]:
    carried: list[list[tuple[int, float]]] = [[] for _ in links]
    for number, loop in enumerate(loops):
        for index, sign in loop.items():
            carried[index].append((number, sign))
    groups: dict[tuple[tuple[int, float], ...], list[tuple[int, float]]] = {}
    for index, through in enumerate(carried):
        if through:
            first = through[0][1]
            key = tuple(through if first > 0.0 else [(number, -sign) for number, sign in through])
            if key in groups:
                groups[key].append((index, first))
            else:
                groups[key] = [(index, first)]
    return tuple(
        [Run(tuple(members), key, _pairs(key), in_series([links[index].resistance for index, _ in members])) for key, members in groups.items()]
    )


def _pairs(loops: tuple[tuple[int, float], ...]) -> tuple[tuple[int, int, float], ...]:
    if len(loops) == 1:
        return ((loops[0][0], loops[0][0], 1.0),)
    return tuple([(number, other, sign * other_sign) for place, (number, sign) in enumerate(loops) for other, other_sign in loops[: place + 1]])
