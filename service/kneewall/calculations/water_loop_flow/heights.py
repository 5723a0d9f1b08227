"""How high every node lies above the supply, from the rises that are stated."""

from collections.abc import Iterable

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length
from kneewall.kernel.refusal import Fault

SAME_HEIGHT = 1e-6
"""m, relative to the heights added up; unit conversion leaves less."""


class Heights:
    """Nodes in groups whose heights are known against each other."""

    def __init__(self) -> None:
        self.above: dict[str, tuple[str, float]] = {}

    def place(self, node: str) -> tuple[str, float]:
        """The node to which this one is referred, and its height above that."""
        height = 0.0
        while node in self.above:
            node, step = self.above[node]
            height += step
        return node, height

    def join(self, tail: str, head: str, rise: float) -> float | None:
        """Say that `head` lies `rise` above `tail`; where that was known already, by how much it is otherwise."""
        low, low_height = self.place(tail)
        high, high_height = self.place(head)
        if low == high:
            return high_height - low_height
        self.above[high] = (low, low_height + rise - high_height)
        return None


def heights_of(
    stated: Iterable[tuple[str, str, float, str]], open_rises: Iterable[tuple[str, str]], root: str
) -> tuple[dict[str, float], list[Fault]]:
    """Height of every node above `root`, m, and the pipes whose rise contradicts the others.

    `stated`: tail, head, rise and pointer; coils are level. `open_rises`: pipes of which nothing is said; they are level, unless the others say otherwise.
    """
    heights, faults, nodes = Heights(), [], [root]
    for tail, head, rise, pointer in stated:
        known = heights.join(tail, head, rise)
        if known is not None and abs(known - rise) > SAME_HEIGHT * (1.0 + abs(known)):
            says = Phrase("climbs {}, but by the other rises its end lies {} above its start: the loop does not close", Length(rise), Length(known))
            faults.append(Fault(pointer=pointer, detail=says))
        nodes += (tail, head)
    for tail, head in open_rises:
        heights.join(tail, head, 0.0)
        nodes += (tail, head)
    base = heights.place(root)[1]
    return {node: heights.place(node)[1] - base for node in nodes}, faults
