"""What happens when the control valve shuts: the wave's way back, the surge and the peak."""

from collections.abc import Collection, Sequence

import msgspec

from kneewall.calculations.water_loop_flow.piping import Piping
from kneewall.calculations.water_loop_flow.wave import spread
from kneewall.kernel.quantity import ShortDuration
from kneewall.kernel.rule import Rule
from kneewall.physics import hammer
from kneewall.physics.hammer import critical_time, stopped_at_once, stopped_slowly
from kneewall.physics.loops import SUPPLY


class Surge(msgspec.Struct, frozen=True):
    """The wave before a closing valve. SI.

    `way`: the links on the way of the largest flow back to the supply, the valve's own first; `speed`: of the wave in the valve's own pipe;
    `rise`: the surge at the valve; `rises`: the highest surge in each pipe that the wave reaches.
    """

    way: tuple[int, ...]
    length: float
    speed: float
    critical_time: float
    rise: float
    rises: dict[int, float]
    slow: bool

    @property
    def rules(self) -> tuple[Rule, ...]:
        """The rules it follows from."""
        return hammer.WAVE_SPEED, hammer.JOUKOWSKY, hammer.CRITICAL_TIME, hammer.SLOW_CLOSING if self.slow else hammer.JUNCTION


def way_back(piping: Piping, flows: Sequence[float], start: int, goal: str = SUPPLY) -> tuple[int, ...]:
    """The links from `start` against the flow to the goal, at every junction the one that brings most."""
    links = piping.links
    bringing: dict[str, int] = {}
    for index, (link, flow) in enumerate(zip(links, flows, strict=True)):
        if flow:
            end = link.head if flow > 0.0 else link.tail
            if end not in bringing or abs(flow) >= abs(flows[bringing[end]]):
                bringing[end] = index
    way = [start]
    node = links[start].tail if flows[start] > 0.0 else links[start].head
    while node != goal and node in bringing and bringing[node] not in way:
        index = bringing[node]
        way.append(index)
        node = links[index].tail if flows[index] > 0.0 else links[index].head
    return tuple(way)


def surge_of(
    closing_time: ShortDuration | None,
    piping: Piping,
    lengths: Sequence[float],
    flows: Sequence[float],
    density: float,
    way: tuple[int, ...],
    idle: Collection[int] = (),
) -> Surge:
    """The surge when a valve in the first pipe of its way back to the supply stops the flow. Coils count with no length, being short; idle ones are shut.

    Source: hammer.joukowsky, hammer.critical-time, hammer.slow-closing, hammer.junction.
    """
    valve = way[0]
    pipes = [index for index in way if index < len(piping.sizes)]
    speeds = piping.speeds
    velocities = [abs(flows[index]) / piping.bores[index] for index in pipes]
    back = critical_time([(lengths[index], speeds[index]) for index in pipes])
    rise = stopped_at_once(density, speeds[valve], velocities[0])
    slow = closing_time is not None and closing_time > back
    link = piping.links[valve]
    eases = [bore / speed for bore, speed in zip(piping.bores, speeds, strict=True)]
    rises = spread(piping, eases, valve, link.tail if flows[valve] > 0.0 else link.head, rise, idle)
    if slow and closing_time is not None:
        segments = [(lengths[index], velocity) for index, velocity in zip(pipes, velocities, strict=True)]
        rise = min(rise, stopped_slowly(density, segments, closing_time))
        rises = dict.fromkeys(rises, rise)
    return Surge(way, sum([lengths[index] for index in pipes]), speeds[valve], back, rise, rises, slow)
