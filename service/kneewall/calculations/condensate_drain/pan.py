"""The auxiliary pan: what the code asks of it, whether it takes in the trap, and how long it holds."""

from kneewall.calculations.condensate_drain.codes import CodeText
from kneewall.calculations.condensate_drain.gravity_line import full_flow
from kneewall.calculations.condensate_drain.messages import AuxiliaryPan
from kneewall.calculations.condensate_drain.results import PanAnswer
from kneewall.kernel.quantity import Dimension, Duration, Length, Slope, Volume, WaterFlow
from kneewall.physics.pipe_span import hung_pipe

EACH_SIDE = Dimension.of(3, "in")
LOOP_FLOW_PER_WATT = WaterFlow.of(3, "gpm") / (12000 * 0.29307107)
PAN_DRAIN = hung_pipe("pvc-schedule-40", Dimension.of(0.75, "in"))
assert PAN_DRAIN is not None
PAN_DRAIN_CAPACITY = WaterFlow(full_flow(PAN_DRAIN.inside, Slope.of(0.125, "in/ft"), 0.009))


def pan_answer(asked: AuxiliaryPan, code: CodeText, condensate: float, capacity: float) -> PanAnswer:
    """The pan's least sizes by the code, and the times in which it fills; `condensate` in m3/s, `capacity` in W.

    Source: the code's pan rule, condensate-drain.trap-over-pan, condensate-drain.loop-leak.
    """
    unit, pan, drain, figures = asked.unit, asked.pan, asked.drain, code.pan
    loop = WaterFlow(LOOP_FLOW_PER_WATT * capacity) if asked.loop_flow is None else asked.loop_flow
    volume = None if pan is None else pan.length * pan.width * pan.depth
    least: dict[str, Dimension | None] = {}
    if figures is not None:
        least = {
            "minimum_length": Dimension(unit.length + figures.larger),
            "minimum_width": Dimension(unit.width + figures.larger),
            "minimum_depth": figures.depth,
            "minimum_thickness": None if pan is None else figures.thickness.get(pan.material),
            "cautious_length": Dimension(unit.length + 2.0 * EACH_SIDE),
            "cautious_width": Dimension(unit.width + 2.0 * EACH_SIDE),
        }
    return PanAnswer(
        **least,
        length_over_trap=None if asked.trap_reach is None else Dimension(unit.length + asked.trap_reach + EACH_SIDE / 2.0),
        drain_end=None if drain is None else Length(drain.outlet - drain.slope * drain.length),
        volume=None if volume is None else Volume(volume),
        fills_with_condensate=None if volume is None or condensate <= 1e-12 else Duration(volume / condensate),
        fills_with_loop_leak=None if volume is None else Duration(volume / loop),
        loop_flow=None if volume is None else loop,
        pan_drain_capacity=None if volume is None else PAN_DRAIN_CAPACITY,
    )
