"""Flow in a network of pipes and coils between `supply` and `discharge`, whatever its layout.

The unknowns are the flows around independent loops, so water is conserved at every junction by construction, and pipes in series are one. What each
link loses rises with its flow, so the flows sought are those at which a convex function is least: Newton's method with exact slopes, its steps
shortened where they overshoot, comes to them from any start.
"""

from collections.abc import Callable, Sequence
from math import copysign
from operator import add, mul

from kneewall.kernel.rule import Rule, Source
from kneewall.physics.loops import SUPPLY, Layout, Run
from kneewall.physics.resistance import loss_and_slope

NETWORK = Rule(
    id="network.balance",
    says="At every junction as much water arrives as leaves, and along every way from supply to discharge the same pressure is lost; "
    "both are solved together until they hold to the last digits.",
    kind="formula",
    source=Source(title="Kirchhoff's laws for pipe networks in loop-flow form, solved by Newton's method, as in texts of pipe-network analysis"),
    standing="from-memory",
)

MOST_STEPS = 200
RELATIVE_STEP, ABSOLUTE_STEP = 1e-5, 1e-13
"""A Newton step that changes no run's flow by more than this share of itself is the last: the error left is the share's square."""
NEGLIGIBLE = 1e-9
"""Share of the largest flow below which a change counts for nothing."""

Drive = Callable[[float], tuple[float, float]]
"""Total flow, m3/s -> pressure of the supply above the discharge, at one height, Pa, and its slope, which is never positive."""


class NotConverged(ArithmeticError):
    """The flows did not stand still. No input is known that does this; it keeps an answer from being made of flows that do not balance."""


def solve(layout: Layout, drive: Drive, start: list[float] | None = None, lost: Sequence[float] | None = None) -> list[float]:
    """The flow around each loop, m3/s; loop 0 is the total from supply to discharge.

    `lost`: pressure that each link loses beside what its resistance says, from tail to head whatever the flow, Pa.
    Source: network.balance. Valid: losses that rise with flow, a drive that does not, and a positive drive at no flow.
    Raises: NotConverged.
    """
    flows = _first_guess(layout, drive) if start is None else start
    given = _around_loops(layout, lost)
    wanted, slopes = _unbalanced(layout, drive, flows, given)
    for _ in range(MOST_STEPS):
        step = solve_symmetric(slopes, wanted)
        ahead = list(map(add, flows, step))
        if _is_last(layout, drive, flows, step):
            return ahead
        descent = sum(map(mul, wanted, step))
        share = 1.0
        while True:
            wanted, slopes = _unbalanced(layout, drive, ahead, given)
            left = sum(map(mul, wanted, step))
            if left >= -0.5 * descent or share < 1e-12:
                break
            wall = _first_wall(layout, flows, step) if share == 1.0 else 1.0
            share *= wall if wall < 1.0 else max(0.1, min(0.7, descent / (descent - left)))
            ahead = [flow + share * change for flow, change in zip(flows, step, strict=True)]
        flows = ahead
    raise NotConverged(f"flows still change by {max(map(abs, step))} m3/s after {MOST_STEPS} steps")


def _is_last(layout: Layout, drive: Drive, flows: list[float], step: list[float]) -> bool:
    """Whether a step is so short that no slope changes on its way: no run's flow changes by much, no regulator's past the flow it is set to, and the
    drive stays on one piece of its curve.
    """
    largest, longest = max(map(abs, flows)), max(map(abs, step))
    negligible = ABSOLUTE_STEP + NEGLIGIBLE * largest
    if longest <= negligible:
        return True
    if longest > negligible + RELATIVE_STEP * largest:
        return False
    for run in layout.runs:
        flow, change = _in_run(run, flows), _in_run(run, step)
        if abs(change) <= negligible:
            continue
        if abs(change) > RELATIVE_STEP * abs(flow):
            return False
        for regulator in run.resistance.regulators:
            if (abs(flow) <= regulator.flow) != (abs(flow + change) <= regulator.flow):
                return False
    (_, before), (_, after) = drive(flows[0]), drive(flows[0] + step[0])
    return abs(after - before) <= 1e-4 * abs(before)


def _first_wall(layout: Layout, flows: list[float], step: list[float]) -> float:
    """The share of a step that is too long at which the first regulator passes the flow it is set to, beyond which its loss rises like a wall; 1 if none does."""
    share = 1.0
    for run in layout.runs:
        if run.resistance.regulators:
            flow, change = _in_run(run, flows), _in_run(run, step)
            for regulator in run.resistance.regulators:
                if change:
                    wall = (copysign(regulator.flow, change) - flow) / change * (1.0 + 1e-9)
                    if 0.0 < wall < share:
                        share = wall
    return share


def _in_run(run: Run, around: Sequence[float]) -> float:
    """What flows around the loops, or changes of them, amount to in one run."""
    total = 0.0
    for number, sign in run.loops:
        total += sign * around[number]
    return total


def _around_loops(layout: Layout, lost: Sequence[float] | None) -> list[float]:
    around = [0.0] * layout.loops
    if lost is not None:
        for run in layout.runs:
            together = sum([direction * lost[index] for index, direction in run.members])
            for number, sign in run.loops:
                around[number] -= sign * together
    return around


def _unbalanced(layout: Layout, drive: Drive, flows: list[float], given: list[float]) -> tuple[list[float], list[list[float]]]:
    """Around each loop the pressure that is not lost yet, and the slopes of what is lost (lower triangle)."""
    count = layout.loops
    wanted = given[:]
    slopes = [[0.0] * (row + 1) for row in range(count)]
    pressure, fall = drive(flows[0])
    wanted[0] += pressure
    slopes[0][0] = -fall
    for run in layout.runs:
        loops = run.loops
        loss, slope = loss_and_slope(run.resistance, _in_run(run, flows))
        for number, sign in loops:
            wanted[number] -= sign * loss
        for number, other, sign in run.pairs:
            slopes[number][other] += sign * slope
    return wanted, slopes


def solve_symmetric(matrix: list[list[float]], right: list[float]) -> list[float]:
    """Solve A x = b for a symmetric positive definite A given by its lower triangle, by the square-root-free Cholesky form A = L D L'."""
    count = len(right)
    if count == 1:
        return [right[0] / matrix[0][0]]
    if count == 2:
        (first,), (across, second) = matrix
        share = across / first
        last = (right[1] - share * right[0]) / (second - share * across)
        return [right[0] / first - share * last, last]
    solution = right[:]
    lower: list[list[float]] = []
    pivots: list[float] = []
    for i in range(count):
        row = matrix[i][:]
        for j in range(i):
            entry = row[j]
            if entry:
                share = entry / pivots[j]
                solution[i] -= share * solution[j]
                row[i] -= share * entry
                for k in range(j + 1, i):
                    row[k] -= entry * lower[k][j]
                row[j] = share
        lower.append(row)
        pivots.append(row[i])
    for i in range(count - 1, -1, -1):
        value = solution[i] / pivots[i]
        for j in range(i + 1, count):
            value -= lower[j][i] * solution[j]
        solution[i] = value
    return solution


def _first_guess(layout: Layout, drive: Drive) -> list[float]:
    """Flows as if every run lost in proportion: first at the rate of a usual flow, then at the rate of the flow so found.

    Where losses go with the power 1.85 of the flow, one loop is hit exactly if the rate is changed by the power 0.46 of the flow. A regulator that is
    past the flow it is set to holds that flow.
    """
    start = [drive(0.0)[0]] + [0.0] * (layout.loops - 1)
    usual, rates = [], []
    for run in layout.runs:
        flow = run.resistance.usual_flow
        usual.append(flow)
        rates.append(loss_and_slope(run.resistance, flow)[0] / flow)
    flows = solve_symmetric(_rates_around(layout, rates), start)
    for place, run in enumerate(layout.runs):
        flow = _in_run(run, flows)
        walls = [one for one in run.resistance.regulators if abs(flow) > one.flow]
        if walls:
            rates[place] += walls[0].steepness
            for number, sign in run.loops:
                start[number] += sign * copysign(walls[0].steepness * walls[0].flow, flow)
        else:
            rates[place] *= max(abs(flow) / usual[place], 1e-3) ** 0.46
    return solve_symmetric(_rates_around(layout, rates), start)


def _rates_around(layout: Layout, rates: Sequence[float]) -> list[list[float]]:
    slopes = [[0.0] * (row + 1) for row in range(layout.loops)]
    for run, rate in zip(layout.runs, rates, strict=True):
        for number, other, sign in run.pairs:
            slopes[number][other] += sign * rate
    return slopes


def link_flows(layout: Layout, flows: list[float]) -> list[float]:
    """The flow in each link from its tail to its head, m3/s; nothing in dead ends."""
    found = [0.0] * len(layout.links)
    for run in layout.runs:
        flow = _in_run(run, flows)
        for index, direction in run.members:
            found[index] = direction * flow
    return found


def link_losses(layout: Layout, flows: Sequence[float], lost: Sequence[float] | None = None) -> list[float]:
    """What each link loses from its tail to its head, Pa, at the flow in each link; `lost` as in `solve`."""
    losses = [loss_and_slope(link.resistance, flow)[0] if flow else 0.0 for link, flow in zip(layout.links, flows, strict=True)]
    return losses if lost is None else [loss + more for loss, more in zip(losses, lost, strict=True)]


def pressures(layout: Layout, losses: Sequence[float], root: str = SUPPLY) -> dict[str, float]:
    """Pressure at every node that the tree reaches, Pa above that at its root, all reduced to one height, from the loss in each link."""
    found = {root: 0.0}
    for node, (neighbour, index, direction) in layout.tree.items():
        found[node] = found[neighbour] - direction * losses[index]
    return found
