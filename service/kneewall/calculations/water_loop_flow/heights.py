"""How high every node lies above the supply, from the rises that are stated."""

from collections.abc import Iterable

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length
from kneewall.kernel.refusal import Fault

SAME_HEIGHT = 1e-6
"""m, relative to the heights added up; unit conversion leaves less."""


class Heights:
    """Nodes in groups whose heights are known against each other; `above`: every node's height in its group, m."""

    def __init__(self) -> None:
        self.above: dict[str, float] = {}
        self.group: dict[str, list[str]] = {}

    def join(self, tail: str, head: str, rise: float) -> float | None:
        """Say that `head` lies `rise` above `tail`; where that was known already, by how much it is otherwise."""
        above, group = self.above, self.group
        for node in (tail, head):
            if node not in above:
                above[node], group[node] = 0.0, [node]
        low, high = group[tail], group[head]
        known = above[head] - above[tail]
        if low is high:
            return known
        for node in high:
            above[node] += rise - known
            group[node] = low
        low += high
        return None


def heights_of(
    stated: Iterable[tuple[str, str, float, str]], open_rises: Iterable[tuple[str, str]], root: str
) -> tuple[dict[str, float], list[Fault]]:
    """Height of every node above `root`, m, and the pipes whose rise contradicts the others.

    `stated`: tail, head, rise and pointer; coils are level. `open_rises`: pipes of which nothing is said; they are level, unless the others say otherwise.
    """
    heights, faults = Heights(), []
    for tail, head, rise, pointer in stated:
        known = heights.join(tail, head, rise)
        if known is not None and abs(known - rise) > SAME_HEIGHT * (1.0 + abs(known)):
            says = Phrase("climbs {}, but by the other rises its end lies {} above its start: the loop does not close", Length(rise), Length(known))
            faults.append(Fault(pointer=pointer, detail=says))
    for tail, head in open_rises:
        heights.join(tail, head, 0.0)
    base = heights.above[root]
    return {node: above - base for node, above in heights.above.items()}, faults
