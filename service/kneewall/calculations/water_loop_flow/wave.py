"""How far the wave from a closing valve goes: into every pipe that hangs together with it, junction by junction."""

from collections.abc import Collection, Sequence

from kneewall.calculations.water_loop_flow.piping import Piping
from kneewall.physics.hammer import at_junction
from kneewall.physics.loops import DISCHARGE, SUPPLY


def spread(piping: Piping, eases: Sequence[float], valve: int, before: str, rise: float, idle: Collection[int] = ()) -> dict[int, float]:
    """The highest surge in each pipe that the wave reaches from the valve, Pa, junction by junction from the node `before` it.

    A coil joins the pipes at its ends into one junction; supply and discharge hold their pressure. `eases`: A/a of each pipe, m s.
    Source: hammer.junction.
    """
    junction_of, meeting_at = _junctions(piping, idle)
    ends = [(junction_of[link.tail], junction_of[link.head]) for link in piping.links[: len(eases)]]
    held = (junction_of.get(SUPPLY), junction_of.get(DISCHARGE))
    heights: dict[int, float] = {}
    first = junction_of[before]
    waiting, seen = [first], {first}
    for here in waiting:
        if here in held:
            heights[here] = 0.0
            continue
        arriving = eases[valve] * rise if here == first else 0.0
        meeting = 0.0
        for index in meeting_at[here]:
            ease = eases[index]
            meeting += ease
            tail, head = ends[index]
            other = head if tail == here else tail
            if index == valve:
                continue
            if other in heights:
                arriving += ease * heights[other]
            elif other not in seen:
                seen.add(other)
                waiting.append(other)
        heights[here] = at_junction(arriving, meeting)
    rises = {
        index: max(heights.get(tail, 0.0), heights.get(head, 0.0)) for index, (tail, head) in enumerate(ends) if tail in heights or head in heights
    }
    rises[valve] = max(rise, heights[first])
    return rises


def _junctions(piping: Piping, idle: Collection[int]) -> tuple[dict[str, int], list[list[int]]]:
    """The junction of every node, nodes at the ends of a coil being one, and the pipe ends that meet at each."""
    junction_of: dict[str, int] = {}
    meeting_at: list[list[int]] = []
    pipes = len(piping.sizes)
    for index, link in enumerate(piping.links):
        for node in (link.tail, link.head):
            if node not in junction_of:
                junction_of[node] = len(meeting_at)
                meeting_at.append([])
            if index < pipes:
                meeting_at[junction_of[node]].append(index)
        if index >= pipes and index not in idle:
            one, other = junction_of[link.tail], junction_of[link.head]
            if one != other:
                meeting_at[one] += meeting_at[other]
                junction_of.update([(node, one) for node, number in junction_of.items() if number == other])
    return junction_of, meeting_at
