"""Everything that is worked out for one question, in SI, before it is put into words."""

import msgspec

from kneewall.calculations.water_loop_flow.answered import FlowRequired
from kneewall.calculations.water_loop_flow.heat import Water
from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.calculations.water_loop_flow.source import TankCycle
from kneewall.calculations.water_loop_flow.states import Situation, State
from kneewall.calculations.water_loop_flow.surge import Surge
from kneewall.physics.loops import Layout


class Found(msgspec.Struct, frozen=True):
    """The states of the loop and what follows from them.

    `least` and `greatest`: at the least and the greatest pressure of the supply (the same but for a pressure tank); `losses` by link and gauge
    `pressures` by node belong to the least, Pa; `starved`: the loop draws more than the tank's pump delivers; `valve`: the control valve's pipe;
    `shut`: gauge pressures with it shut, Pa, None where water runs round it; `calling`: the units that call; `held`: pipes whose
    check valve holds water back; `greatest_velocities`: in each pipe at
    the greatest pressure, m/s, without their signs.
    """

    question: WaterLoopQuestion
    water: Water
    situation: Situation
    layout: Layout
    least: State
    losses: list[float]
    pressures: dict[str, float]
    greatest: State
    starved: bool
    calls: list[tuple[list[str], State]]
    held: tuple[int, ...]
    required: list[FlowRequired]
    valve: int | None
    shut: dict[str, float] | None
    surge: Surge | None
    cycle: TankCycle | None
    calling: list[str]
    greatest_velocities: list[float]
