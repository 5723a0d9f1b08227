"""What happens when the control valve shuts: the wave's way back, the surge and the peak."""

import itertools
from collections.abc import Mapping, Sequence

import msgspec

from kneewall.calculations.water_loop_flow.messages import LoopControlValve
from kneewall.calculations.water_loop_flow.piping import Piping
from kneewall.physics.hammer import critical_time, passed_on, stopped_at_once, stopped_slowly, wave_speed
from kneewall.physics.loops import SUPPLY
from kneewall.physics.pipes import PipeSize
from kneewall.physics.water import Liquid, plain_water


class Surge(msgspec.Struct, frozen=True):
    """The wave before a closing valve. SI.

    `way`: the links on the way of the largest flow back to the supply, the valve's own first; `rises`: the surge in each pipe on the way.
    """

    way: tuple[int, ...]
    length: float
    speed: float
    critical_time: float
    rises: dict[int, float]
    slow: bool

    @property
    def rise(self) -> float:
        """The surge at the valve, Pa."""
        return self.rises[self.way[0]]


def speed_in(size: PipeSize, liquid: Liquid, sound: float) -> float:
    """Speed of a pressure wave in a pipe, m/s, with the speed of sound in water. Source: hammer.wave-speed."""
    return wave_speed(sound, liquid.density * sound * sound, size.wall.elastic_modulus, size.inside_diameter, size.thickness)


def way_back(piping: Piping, flows: Sequence[float], start: int, goal: str = SUPPLY) -> tuple[int, ...]:
    """The links from `start` against the flow to the goal, at every junction the one that brings most."""
    largest: dict[str, tuple[float, int]] = {}
    for index, (link, flow) in enumerate(zip(piping.links, flows, strict=True)):
        if flow:
            end = link.head if flow > 0.0 else link.tail
            largest[end] = max(largest.get(end, (0.0, 0)), (abs(flow), index))
    way = [start]
    node = piping.links[start].tail if flows[start] > 0.0 else piping.links[start].head
    while node != goal and node in largest and largest[node][1] not in way:
        index = largest[node][1]
        way.append(index)
        node = piping.links[index].tail if flows[index] > 0.0 else piping.links[index].head
    return tuple(way)


def surge_of(control: LoopControlValve, piping: Piping, lengths: Sequence[float], flows: Sequence[float], liquid: Liquid, valve: int) -> Surge:
    """The surge when the valve stops the flow. Coils count with no length, being short.

    Source: hammer.joukowsky, hammer.critical-time, hammer.slow-closing, hammer.junction.
    """
    way = way_back(piping, flows, valve)
    pipes = [index for index in way if index < len(piping.sizes)]
    water = plain_water()
    sound = water.speed_of_sound(max(liquid.temperature, water.freezing))
    meeting = _meeting(piping, pipes)
    speeds = {index: speed_in(piping.sizes[index], liquid, sound) for index in set(pipes).union(*meeting)}
    velocities = {index: abs(flows[index]) / piping.bores[index] for index in pipes}
    back = critical_time((lengths[index], speeds[index]) for index in pipes)
    rise = stopped_at_once(liquid.density, speeds[valve], velocities[valve])
    slow = control.closing_time is not None and control.closing_time > back
    if slow and control.closing_time is not None:
        rise = min(rise, stopped_slowly(liquid.density, [(lengths[index], velocities[index]) for index in pipes], control.closing_time))
        rises = dict.fromkeys(pipes, rise)
    else:
        rises = _along(piping, pipes, meeting, speeds, rise)
    return Surge(way, sum([lengths[index] for index in pipes]), speeds[valve], back, rises, slow)


def _meeting(piping: Piping, pipes: Sequence[int]) -> list[set[int]]:
    """The pipes that meet where each pipe of the way is joined to the next; across a coil only the two."""
    at: dict[str, set[int]] = {}
    for index in range(len(piping.sizes)):
        link = piping.links[index]
        at.setdefault(link.tail, set()).add(index)
        at.setdefault(link.head, set()).add(index)
    found = []
    for before, after in itertools.pairwise(pipes):
        last, link = piping.links[before], piping.links[after]
        joined = {before, after}
        for node in (last.tail, last.head):
            if node in (link.tail, link.head):
                joined |= at[node]
        found.append(joined)
    return found


def _along(piping: Piping, pipes: Sequence[int], meeting: Sequence[set[int]], speeds: Mapping[int, float], rise: float) -> dict[int, float]:
    """The wave in each pipe on its way: at every junction it goes on with 2 (A1/a1)/sum(A/a) of its height. Source: hammer.junction."""
    rises = {pipes[0]: rise}
    for before, after, joined in zip(pipes, pipes[1:], meeting, strict=False):
        rise *= passed_on(piping.bores[before] / speeds[before], [piping.bores[index] / speeds[index] for index in joined])
        rises[after] = rise
    return rises
