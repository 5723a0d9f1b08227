"""Choosing nominal sizes for a friction rate, and finding the friction rate that blower and components leave."""

from math import exp, inf, log, pi

from kneewall.calculations.duct_system.losses import Run, open_run, run_of
from kneewall.calculations.duct_system.tree import Node
from kneewall.kernel.quantity import AirPressure, Dimension, FrictionRate
from kneewall.kernel.refusal import Fault, Refusal, refuse
from kneewall.physics import ducts
from kneewall.physics.air import Air
from kneewall.physics.duct_sizes import INCH, LARGEST_SIDE, sizes_for
from kneewall.physics.ducts import DuctSize

LEAST_RATE, MOST_RATE = FrictionRate.of(0.005, "inH2O/100ft"), ducts.USUAL_FRICTION_RATE[1]
"""Between these a friction rate is found: never above what is usual in houses, however strong the blower."""
CLOSE = 1e-6
BOX_WIDTHS, BOX_LENGTHS = (2.0, 3.0), 2.0
"""A splitter box: its width in widths of its entrance, its greatest length in its own widths."""


def chosen_sizes(nodes: list[Node], friction_rate: float, air: Air) -> list[Run]:
    """Nominal sizes that lose no more than `friction_rate` (Pa/m) in every duct; sizes already there are kept. Raises: Refusal."""
    sizes = {node.section.id: node.section.size or _nominal(node, friction_rate, air) for node in nodes if node.section.size or not _is_box(node)}
    for node in nodes:
        if node.section.id not in sizes:
            assert node.parent is not None
            sizes[node.section.id] = box_size(node, sides(sizes[node.parent.section.id]), largest_collar(node, sizes))
    return [run_of(node, sizes[node.section.id], air) for node in nodes]


def _is_box(node: Node) -> bool:
    """Whether its size follows from what enters it and what leaves it."""
    return node.section.kind == "splitter-box" and node.parent is not None


def _nominal(node: Node, friction_rate: float, air: Air) -> DuctSize:
    area = 0.0 if node.velocity_limit is None else node.design_airflow / node.velocity_limit
    try:
        return sizes_for(node.duct, _by_friction(node, friction_rate, air), area)[0]
    except Refusal as refusal:
        raise Refusal([Fault(pointer=node.pointer + one.pointer, detail=one.detail) for one in refusal.faults]) from None


def sides(size: DuctSize) -> tuple[float, float]:
    """How wide and how high a duct is, m."""
    if size.diameter is not None:
        return size.diameter, size.diameter
    if size.width is not None and size.height is not None:
        return size.width, size.height
    assert size.major is not None and size.minor is not None
    return size.major, size.minor


def largest_collar(box: Node, sizes: dict[str, DuctSize]) -> float:
    """The height, m, of the highest duct that leaves a box; ducts without a size do not count."""
    return max((sides(sizes[child.section.id])[1] for child in box.children if child.section.id in sizes), default=0.0)


def box_size(node: Node, entrance: tuple[float, float], collar: float) -> DuctSize:
    """A splitter box as small as the rule permits, in even inches: twice as wide as its entrance, up to three times where its length asks for that, and 2 in
    higher than the entrance and every collar.

    `entrance`: width and height; both and `collar` in m. Source: duct-system.splitter-box. Raises: Refusal beyond 120 in.
    """
    wide, high = entrance
    by_length = node.section.length / BOX_LENGTHS
    least = max(BOX_WIDTHS[0] * wide, by_length if by_length <= BOX_WIDTHS[1] * wide else 0.0)
    width, height = (2 * -(-(wanted / INCH - 1e-9) // 2) * INCH for wanted in (least, max(high, collar) + 2.0 * INCH))
    if width > LARGEST_SIDE * INCH:
        raise refuse(
            f"{node.pointer}/size", "a box behind an entrance {} wide would be {} wide; split the air before it", Dimension(wide), Dimension(width)
        )
    return DuctSize(shape="rectangular", width=Dimension(width), height=Dimension(height))


def _by_friction(node: Node, friction_rate: float, air: Air) -> float:
    near = None if node.near is None else node.near[0] * float((node.near[1] / friction_rate) ** 0.2)
    diameter = ducts.diameter_for_gradient(node.design_airflow, friction_rate, ducts.roughness_of(node.duct.material), air, node.stretch, near)
    node.near = (diameter, friction_rate)
    return diameter


def rate_that_fits(nodes: list[Node], available: float, air: Air) -> float:
    """The friction rate, Pa/m, at which the worst supply path and the worst return path together lose what is available, before sizes are rounded up.

    A larger rate makes smaller ducts and more loss in ducts and fittings alike, so the loss rises with the rate and a secant on logarithms finds it.
    Where more than the usual most is available, the usual most is taken and the rest is left to spare.
    Source: duct-system.friction-rate. Raises: Refusal where even the largest ducts lose more than is available.
    """
    wanted, slope = log(available), 0.8
    x, fits = _within_range(wanted - log(_total_length(nodes))), -inf
    before: tuple[float, float] | None = None
    for _ in range(40):
        loss = log(_critical_loss(nodes, exp(x), air))
        if loss <= wanted + CLOSE:
            fits = max(fits, x)
        if before is not None:
            slope = min(max((loss - before[1]) / (x - before[0]), 0.1), 3.0)
        before = (x, loss)
        ahead = _within_range(x + (wanted - loss) / slope)
        if abs(ahead - x) < CLOSE:
            break
        x = ahead
    if fits == -inf:
        sentence = "outlets, fittings and long runs take {} even in the largest ducts, and blower and components leave {}: choose freer outlets and fittings, a larger filter or a stronger blower"
        raise refuse("/blower", sentence, AirPressure(exp(loss)), AirPressure(available))
    return exp(fits)


def _within_range(x: float) -> float:
    return min(max(x, log(LEAST_RATE)), log(MOST_RATE))


def _total_length(nodes: list[Node]) -> float:
    reach: dict[str, float] = {}
    longest = {"supply": 0.0, "return": 0.0}
    for node in nodes:
        before = 0.0 if node.parent is None else reach[node.parent.section.id]
        reach[node.section.id] = before + 1.5 * node.section.length
        longest[node.section.side] = max(longest[node.section.side], reach[node.section.id])
    return longest["supply"] + longest["return"]


def _critical_loss(nodes: list[Node], friction_rate: float, air: Air) -> float:
    reach: dict[str, tuple[float, float]] = {}
    worst = {"supply": 0.0, "return": 0.0}
    entrance: dict[str, float] = {}
    for node in nodes:
        run = _exact_run(node, friction_rate, air, entrance)
        entrance[node.section.id] = run.diameter
        before, velocity = (0.0, 0.0) if node.parent is None else reach[node.parent.section.id]
        flow = node.design_airflow
        loss = before + run.drop(flow, velocity)[0]
        reach[node.section.id] = (loss, flow / run.area)
        if node.section.outlet is not None:
            worst[node.section.side] = max(worst[node.section.side], loss + run.outlet_resistance * flow * flow)
    return worst["supply"] + worst["return"]


def _exact_run(node: Node, friction_rate: float, air: Air, entrance: dict[str, float]) -> Run:
    if node.section.size is not None:
        return run_of(node, node.section.size, air)
    if node.section.kind == "splitter-box" and node.parent is not None:
        across = entrance[node.parent.section.id]
        return run_of(node, box_size(node, (across, across), 0.0), air)
    diameter = _by_friction(node, friction_rate, air)
    if node.velocity_limit is not None:
        diameter = max(diameter, ducts.diameter_for_velocity(node.design_airflow, node.velocity_limit))
    if node.stretch is not None:
        diameter = min(max(diameter, ducts.TESTED_FLEXIBLE[0]), ducts.TESTED_FLEXIBLE[1])
    return open_run(node, None, diameter, pi / 4.0 * diameter * diameter, air)
