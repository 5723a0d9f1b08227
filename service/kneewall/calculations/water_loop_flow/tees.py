"""Tees whose loss goes by how the flow divides: worked out from the flows, put into the network, and again until both agree."""

from collections.abc import Sequence

import msgspec

from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.calculations.water_loop_flow.piping import Piping
from kneewall.physics.fittings import SPLITTING, converging_branch, converging_run, diverging_branch, diverging_run
from kneewall.physics.loops import Layout
from kneewall.physics.network import Drive, link_flows, solve

MOST_ROUNDS = 40
AGREES_WITHIN = 1e-9
"""Change of the flows between two rounds, as a share of the total, at which the tees' losses have settled."""


class TeeLosses(msgspec.Struct, frozen=True):
    """The tees of a loop: which link has which of the four legs, the bore of every link, m2, and the links at every node."""

    legs: tuple[tuple[int, str], ...]
    bores: Sequence[float]
    tails: Sequence[str]
    heads: Sequence[str]
    density: float

    def settle(self, layout: Layout, drive: Drive, loops: list[float]) -> tuple[list[float], list[float], list[float], bool]:
        """Flows around loops and in links, what the tees lose in each link, Pa from tail to head, and whether all of it agrees.

        Where it does not settle the flows are those without the tees' losses, which then count for nothing.
        """
        bare = loops
        lost = [0.0] * len(self.tails)
        share = 1.0
        change = before = float("inf")
        for _ in range(MOST_ROUNDS):
            now = self.losses(link_flows(layout, loops))
            lost = [old + share * (new - old) for old, new in zip(lost, now, strict=True)]
            ahead = solve(layout, drive, loops, lost)
            before, change = change, max([abs(a - b) for a, b in zip(ahead, loops, strict=True)])
            loops = ahead
            if change <= AGREES_WITHIN * share * abs(loops[0]):
                return loops, link_flows(layout, loops), lost, True
            if change > 0.5 * before:
                share = max(0.1, 0.7 * share)
        return bare, link_flows(layout, bare), [0.0] * len(lost), False

    def losses(self, flows: Sequence[float]) -> list[float]:
        """What the tees lose in each link at these flows, Pa from tail to head. Source: fittings.tees."""
        lost = [0.0] * len(self.tails)
        for index, leg in self.legs:
            flow = flows[index]
            if not flow:
                continue
            toward_head = flow > 0.0
            diverging = leg.startswith("diverging")
            node = (self.tails if diverging == toward_head else self.heads)[index]
            loss = self._leg_loss(flows, index, leg, node)
            lost[index] += loss if toward_head else -loss
        return lost

    def _leg_loss(self, flows: Sequence[float], index: int, leg: str, node: str) -> float:
        """Loss of one leg of the tee at a node: K rho (q/A)^2/2 of the leg that carries all the flow."""
        arriving = self._at(node, flows, 1.0)
        leaving = self._at(node, flows, -1.0)
        diverging = leg.startswith("diverging")
        whole, parts = (arriving, leaving) if diverging else (leaving, arriving)
        total = sum([flow for flow, _, _ in parts])
        bore = max(whole)[1] if whole else self.bores[index]
        others = [(flow, other_bore) for flow, other_bore, link in parts if link != index]
        own = abs(flows[index]) / total
        if leg.endswith("branch"):
            ratio = (self.bores[index] / bore) ** 0.5
            coefficient = diverging_branch(own, ratio) if diverging else converging_branch(own, ratio)
        else:
            ratio = ((max(others)[1] if others else self.bores[index]) / bore) ** 0.5
            coefficient = diverging_run(1.0 - own, ratio) if diverging else converging_run(1.0 - own)
        return coefficient * self.density / 2.0 * (total / bore) ** 2

    def _at(self, node: str, flows: Sequence[float], sign: float) -> list[tuple[float, float, int]]:
        """Flow, bore and number of the links that bring water to a node (sign 1) or take it away (sign -1)."""
        found = []
        for index, flow in enumerate(flows):
            toward = sign * flow
            if (toward > 0.0 and self.heads[index] == node) or (toward < 0.0 and self.tails[index] == node):
                found.append((abs(flow), self.bores[index], index))
        return found


def tees_of(question: WaterLoopQuestion, piping: Piping, density: float) -> TeeLosses | None:
    """The tees of a loop that go by the division of flow; None where there are none."""
    with_tees = [(index, pipe) for index, pipe in enumerate(question.pipes) if not SPLITTING.isdisjoint(pipe.fittings)]
    legs = tuple([(index, fitting) for index, pipe in with_tees for fitting, count in pipe.fittings.items() if count and fitting in SPLITTING])
    if not legs:
        return None
    bores = [*piping.bores, *[_coil_bore(question, piping, number) for number in range(len(question.units))]]
    return TeeLosses(legs, bores, [link.tail for link in piping.links], [link.head for link in piping.links], density)


def _coil_bore(question: WaterLoopQuestion, piping: Piping, number: int) -> float:
    """The bore of a pipe that meets the unit stands for the coil's own."""
    unit = question.units[number]
    nodes = (unit.start, unit.end)
    return next(
        (bore for pipe, bore in zip(question.pipes, piping.bores, strict=True) if pipe.start in nodes or pipe.end in nodes), max(piping.bores)
    )
