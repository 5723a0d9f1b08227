"""The states of the loop: at the least and the greatest supply pressure, on each combination of calls, and with the control valve shut."""

from collections.abc import Collection, Sequence
from math import sqrt

import msgspec

from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.calculations.water_loop_flow.piping import Piping
from kneewall.calculations.water_loop_flow.source import Curve, drive_of, starved, supply_curve
from kneewall.calculations.water_loop_flow.tees import TeeLosses
from kneewall.kernel.quantity import GaugePressure
from kneewall.kernel.refusal import refuse
from kneewall.physics.constants import STANDARD_GRAVITY
from kneewall.physics.loops import DISCHARGE, Layout, lay_out
from kneewall.physics.network import link_flows, link_losses, pressures, solve

AGAINST = 1e-9
"""m3/s, above which water counts as running against a pipe's direction."""


class State(msgspec.Struct, frozen=True):
    """One state of the loop: flows around loops and by link, m3/s.

    `lost`: what the tees lose in each link, Pa, None where there are none; `settled`: whether that agrees with the flows.
    """

    loops: list[float]
    flows: list[float]
    lost: list[float] | None = None
    settled: bool = True

    @property
    def total(self) -> float:
        """The flow from supply to discharge."""
        return self.loops[0]


class Situation(msgspec.Struct, frozen=True):
    """What the states of one question share. SI; `outlet`: gauge pressure at the node `discharge`, `back` the same with its height."""

    question: WaterLoopQuestion
    piping: Piping
    heights: dict[str, float]
    density: float
    curve: Curve
    back: float
    outlet: float
    tees: TeeLosses | None

    @property
    def static_supply(self) -> float:
        """Gauge pressure of the supply at no flow, Pa: of a pressure tank at cut-out."""
        return float(self.question.supply.cut_out or 0.0) if self.question.supply.kind == "pressure-tank" else self.curve(0.0)[0]

    def at_rest(self, height: float) -> float:
        """Gauge pressure, Pa, at a height in m above the supply that it holds at no flow: p - rho g H."""
        return self.static_supply - self.density * STANDARD_GRAVITY * height


def situation_of(question: WaterLoopQuestion, piping: Piping, heights: dict[str, float], density: float, tees: TeeLosses | None) -> Situation:
    """What the states share. Raises: Refusal where the supply cannot lift the water to the discharge."""
    curve = supply_curve(question.supply, density)
    stated = question.supply.fill_pressure if question.loop == "closed" else question.discharge.pressure if question.discharge else None
    outlet = float(stated or 0.0)
    back = outlet + density * STANDARD_GRAVITY * heights[DISCHARGE]
    start = curve(0.0)[0]
    if start <= back:
        raise refuse(
            "/supply",
            "no water flows: the supply gives {} before any flows, and the height and pressure of the discharge take {}",
            GaugePressure(start),
            GaugePressure(back),
        )
    return Situation(question, piping, heights, density, curve, back, outlet, tees)


def open_state(situation: Situation, layout: Layout, curve: Curve | None = None, start: list[float] | None = None) -> State:
    """The loop with its valve open, found from the flows around its loops in `start` where there are any."""
    drive = drive_of(situation.curve if curve is None else curve, situation.back)
    loops = solve(layout, drive, start)
    if situation.tees is not None:
        return State(*situation.tees.settle(layout, drive, loops))
    return State(loops, link_flows(layout, loops))


def losses_and_pressures(situation: Situation, layout: Layout, state: State) -> tuple[list[float], dict[str, float]]:
    """What each link loses, from its tail to its head, and the gauge pressure at every node, Pa."""
    losses = link_losses(layout, state.flows, state.lost)
    reduced = pressures(layout, losses)
    return losses, _gauge(situation, reduced, situation.back - reduced[DISCHARGE])


def _gauge(situation: Situation, reduced: dict[str, float], at_supply: float) -> dict[str, float]:
    weight = situation.density * STANDARD_GRAVITY
    heights = situation.heights
    found = {node: at_supply + pressure - weight * heights[node] for node, pressure in reduced.items()}
    if DISCHARGE in found:
        found[DISCHARGE] = situation.outlet
    return found


def least_state(situation: Situation, layout: Layout) -> tuple[State, bool]:
    """The state at the least supply pressure, and whether the loop draws a pressure tank's pump below its cut-in."""
    state = open_state(situation, layout)
    supply = situation.question.supply
    if supply.kind != "pressure-tank" or supply.pump_flow is None or state.total <= supply.pump_flow:
        return state, False
    less = supply.pump_flow / state.total
    return open_state(situation, layout, starved(supply.pump_flow, float(supply.cut_in or 0.0)), [less * flow for flow in state.loops]), True


def least_state_held_back(
    situation: Situation, layout: Layout, idle: tuple[int, ...], check_valves: Sequence[int]
) -> tuple[Layout, State, bool, tuple[int, ...]]:
    """The state at the least supply pressure with those check valves shut through which water would run back, and which they are.

    One at a time, the most against its direction first; one that is pressed open again opens. The layout is without them; where they leave no way it
    has no flow and the state is the last one that had.
    """
    state, starved = least_state(situation, layout)
    held: list[int] = []
    for _ in range(4 * len(check_valves)):
        _, at = losses_and_pressures(situation, layout, state)
        weight = situation.density * STANDARD_GRAVITY
        level = {node: pressure + weight * situation.heights[node] for node, pressure in at.items()}
        links = layout.links
        opened = [
            index for index in held if level.get(links[index].tail, 0.0) > level.get(links[index].head, level.get(links[index].tail, 0.0)) + 1.0
        ]
        back = min(check_valves, key=lambda index: state.flows[index])
        if opened:
            held.remove(opened[0])
        elif state.flows[back] < -AGAINST:
            held.append(back)
        else:
            break
        layout = lay_out(links, (*idle, *held))
        if not layout.flows_through:
            break
        state, starved = least_state(situation, layout)
    return layout, state, starved, tuple(held)


def cut_out_state(situation: Situation, layout: Layout, least: State, at_supply: float) -> State:
    """The state of a pressure tank at cut-out, found from that at the least, `at_supply`, Pa: flow goes about with the root of the pressure,
    unless regulators hold it.
    """
    full = (float(situation.question.supply.cut_out or 0.0), 0.0)
    held = any(abs(flow) > one.flow for link, flow in zip(layout.links, least.flows, strict=True) for one in link.resistance.regulators)
    more = 1.0 if held else sqrt((full[0] - situation.back) / (at_supply - situation.back))
    return open_state(situation, layout, lambda _flow: full, [more * flow for flow in least.loops])


def shut_pressures(situation: Situation, layout: Layout, valve: int) -> dict[str, float] | None:
    """Gauge pressure at every node with the control valve shut, Pa; None where water still finds a way round it."""
    beyond = layout.beyond(valve)
    if beyond is None:
        return None
    weight, before = situation.density * STANDARD_GRAVITY, situation.static_supply
    found = {node: (situation.back if node in beyond else before) - weight * height for node, height in situation.heights.items()}
    found[DISCHARGE] = situation.outlet
    return found


def idle_links(question: WaterLoopQuestion, piping: Piping, calling: Collection[str]) -> tuple[int, ...]:
    """Coils that their own valves shut off while these units call."""
    return tuple([piping.unit_link(number) for number, unit in enumerate(question.units) if unit.own_valve and unit.id not in calling])
