"""How high every node lies above the supply, from the rises that are stated."""

from collections.abc import Iterable

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length
from kneewall.kernel.refusal import Fault

SAME_HEIGHT = 1e-6
"""m, relative to the heights added up; unit conversion leaves less."""


def heights_of(
    stated: Iterable[tuple[str, str, float, str]], open_rises: Iterable[tuple[str, str]], root: str
) -> tuple[dict[str, float], list[Fault]]:
    """Height of every node above `root`, m, and the pipes whose rise contradicts the others.

    `stated`: tail, head, rise and pointer; coils are level. `open_rises`: pipes of which nothing is said; they are level, unless the others say otherwise.
    Nodes stand in groups whose heights are known against each other, until a rise joins two of them.
    """
    above, groups = {root: 0.0}, {root: [root]}
    faults = []
    for tail, head, rise, pointer in (*stated, *[(tail, head, 0.0, None) for tail, head in open_rises]):
        for node in (tail, head):
            if node not in above:
                above[node], groups[node] = 0.0, [node]
        low, high = groups[tail], groups[head]
        known = above[head] - above[tail]
        if low is not high:
            for node in high:
                above[node] += rise - known
                groups[node] = low
            low += high
        elif pointer is not None and abs(known - rise) > SAME_HEIGHT * (1.0 + abs(known)):
            says = Phrase("climbs {}, but by the other rises its end lies {} above its start: the loop does not close", Length(rise), Length(known))
            faults.append(Fault(pointer=pointer, detail=says))
    base = above[root]
    return {node: height - base for node, height in above.items()}, faults
