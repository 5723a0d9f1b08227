"""The true flow in every section: Newton's method on the two trees and the blower.

Every section obeys p(toward unit) - p(far end) = drop(q); at every far end the flows in and out are equal; behind every outlet is the room. With the
drops replaced by their tangents the whole tree is linear, and each subtree is one line: flow = a + b * pressure at its near end. The lines are added up
from the outlets to the unit, the blower is met there, and the flows are handed back down. One pass is one exact Newton step, in a time that grows
with the number of sections only.
"""

from dataclasses import dataclass

from kneewall.calculations.duct_system.losses import Run
from kneewall.kernel.quantity import Airflow, AirPressure
from kneewall.kernel.refusal import refuse
from kneewall.physics.components import Component, component_drop_and_slope
from kneewall.physics.fan import BlowerCurve

MOST_STEPS = 200
LEAST_SHARE, MOST_SHARE = 0.2, 5.0
CONVERGED = 1e-10


@dataclass(slots=True)
class Branch:
    """A section as the solver sees it. Its drop at a flow near `flow` is linear + slope * flow; its flow is a + b * pressure at its near end."""

    run: Run
    parent: int
    flow: float
    velocity: float = 0.0
    linear: float = 0.0
    slope: float = 0.0
    a: float = 0.0
    b: float = 0.0
    beyond_a: float = 0.0
    beyond_b: float = 0.0
    pressure: float = 0.0


@dataclass(frozen=True, slots=True)
class Solved:
    """The flows, m3/s, in the order of the runs, the unit's airflow and the static pressure it works against, Pa."""

    flows: list[float]
    airflow: float
    static_pressure: float
    steps: int


@dataclass(slots=True)
class Unit:
    """Where the two trees meet: the air through it and the pressure across it."""

    airflow: float
    static_pressure: float


def solve(runs: list[Run], components: list[Component], blower: BlowerCurve | None, design_airflow: float) -> Solved:
    """The flows at which every section, the components and the blower agree. Without a blower the unit delivers the design airflow whatever it takes.

    Source: duct-system.network. Raises: Refusal where the blower's table does not reach the system, or no flow settles.
    """
    place = {run.node.section.id: index for index, run in enumerate(runs)}
    branches = [Branch(run, -1 if run.node.parent is None else place[run.node.parent.section.id], run.node.design_airflow) for run in runs]
    unit = Unit(design_airflow, 0.0)
    if blower is not None:
        unit.static_pressure = 0.5 * (blower.lowest + blower.highest)
        unit.airflow = blower.airflow_and_slope(unit.static_pressure)[0]
    for step in range(MOST_STEPS):
        _lines_from_the_outlets(branches)
        supply, return_ = _meet_at_the_unit(branches, components, blower, unit)
        if _flows_from_the_unit(branches, supply, return_) < CONVERGED:
            _refuse_beyond_table(runs, components, blower, unit)
            return Solved([branch.flow for branch in branches], unit.airflow, unit.static_pressure, step + 1)
    raise refuse("/sections", "no flow settles in this system; look for sizes or losses that cannot be meant")


def _lines_from_the_outlets(branches: list[Branch]) -> None:
    for branch in branches:
        branch.beyond_a = branch.beyond_b = 0.0
        branch.velocity = branch.flow / branch.run.area
    for branch in reversed(branches):
        run, flow = branch.run, branch.flow
        drop, slope = run.drop(flow, branches[branch.parent].velocity if branch.parent >= 0 else 0.0)
        if run.node.children:
            stiffness = 1.0 + branch.beyond_b * slope
            branch.linear, branch.slope = drop - slope * flow, slope
            branch.a = (branch.beyond_a - branch.beyond_b * branch.linear) / stiffness
            branch.b = branch.beyond_b / stiffness
        else:
            drop += run.outlet_resistance * flow * flow
            slope += 2.0 * run.outlet_resistance * flow
            branch.linear, branch.slope = drop - slope * flow, slope
            branch.a, branch.b = -branch.linear / slope, 1.0 / slope
        if branch.parent >= 0:
            toward = branches[branch.parent]
            toward.beyond_a += branch.a
            toward.beyond_b += branch.b


def _meet_at_the_unit(branches: list[Branch], components: list[Component], blower: BlowerCurve | None, unit: Unit) -> tuple[float, float]:
    """One Newton step of the unit's airflow and static pressure; the pressures it puts on the supply and on the return side."""
    sums = {"supply": [0.0, 0.0], "return": [0.0, 0.0]}
    for branch in branches:
        if branch.parent < 0:
            side = sums[branch.run.node.section.side]
            side[0] += branch.a
            side[1] += branch.b
    fixed = rising = 0.0
    for component in components:
        drop, slope = component_drop_and_slope(component, unit.airflow)
        fixed += drop - slope * unit.airflow
        rising += slope
    for a, b in sums.values():
        if b:
            fixed -= a / b
            rising += 1.0 / b
    if blower is not None:
        airflow, slope = blower.airflow_and_slope(unit.static_pressure)
        pressure = (fixed + rising * (airflow - slope * unit.static_pressure)) / (1.0 - rising * slope)
        wanted = airflow + slope * (pressure - unit.static_pressure)
        unit.airflow = min(max(wanted, LEAST_SHARE * unit.airflow), MOST_SHARE * unit.airflow)
    unit.static_pressure = fixed + rising * unit.airflow
    pushed = [(unit.airflow - a) / b if b else 0.0 for a, b in sums.values()]
    return pushed[0], pushed[1]


def _flows_from_the_unit(branches: list[Branch], supply: float, return_: float) -> float:
    """Hand the pressures down and take the new flows; the largest relative change."""
    change = 0.0
    for branch in branches:
        at_unit = supply if branch.run.node.section.side == "supply" else return_
        near = branches[branch.parent].pressure if branch.parent >= 0 else at_unit
        flow = branch.a + branch.b * near
        branch.pressure = near - branch.linear - branch.slope * flow
        change = max(change, abs(flow / branch.flow - 1.0))
        branch.flow = min(max(flow, LEAST_SHARE * branch.flow), MOST_SHARE * branch.flow)
    return change


def _refuse_beyond_table(runs: list[Run], components: list[Component], blower: BlowerCurve | None, unit: Unit) -> None:
    if blower is None:
        return
    slack = 1e-6 * blower.highest
    if unit.static_pressure > blower.highest + slack:
        least = Airflow(blower.curve.y[-1])
        needs = solve(runs, components, None, least).static_pressure
        sentence = "the blower's table ends with {} at {}, and for that air the system takes {}: {} are missing; wider ducts, freer fittings or a stronger blower"
        raise refuse("/blower", sentence, least, AirPressure(blower.highest), AirPressure(needs), AirPressure(needs - blower.highest))
    if unit.static_pressure < blower.lowest - slack:
        sentence = "the blower's table begins at {}, and the system takes only {} at {}: the table must begin lower to be read there"
        raise refuse("/blower", sentence, AirPressure(blower.lowest), AirPressure(unit.static_pressure), Airflow(unit.airflow))
