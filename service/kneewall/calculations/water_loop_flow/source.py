"""What each kind of supply gives: its pressure at any flow, and what a pressure tank makes of the pump's starts."""

from collections.abc import Callable, Sequence

import msgspec

from kneewall.calculations.water_loop_flow.messages import CurvePoint, LoopSupply
from kneewall.kernel.quantity import AbsolutePressure, GaugePressure
from kneewall.physics.constants import STANDARD_GRAVITY
from kneewall.physics.network import Drive

ATMOSPHERE = AbsolutePressure(101325.0)
PRECHARGE_BELOW_CUT_IN = GaugePressure.of(2, "psig")
STARVED_STEEPNESS = 1e15
"""Pa s/m3: a pump that delivers the same flow at any pressure, to 1e-7 gpm per psi."""

Curve = Callable[[float], tuple[float, float]]


class TankCycle(msgspec.Struct, frozen=True):
    """A pressure tank and its pump while the loop draws. SI; None where the pump never stops or never starts again."""

    drawdown: float
    run_time: float | None
    starts: float | None


def head_curve(points: Sequence[CurvePoint]) -> Curve:
    """A pump's head, m, and its slope by flow: straight between the points over the square of the flow, so that H = H0 - a q^2 is met exactly."""
    squares = [point.flow * point.flow for point in points]
    heads = [float(point.head) for point in points]
    falls = [(heads[i + 1] - heads[i]) / (squares[i + 1] - squares[i]) for i in range(len(points) - 1)]

    def head(flow: float) -> tuple[float, float]:
        if flow <= 0.0:
            return heads[0] - falls[0] * squares[0], 0.0
        square, piece = flow * flow, 0
        while piece < len(falls) - 1 and square > squares[piece + 1]:
            piece += 1
        return heads[piece] + falls[piece] * (square - squares[piece]), 2.0 * falls[piece] * flow

    return head


def supply_curve(supply: LoopSupply, density: float) -> Curve:
    """Gauge pressure at the node `supply`, Pa, and its slope, by flow; of a pressure tank at cut-in."""
    weight = density * STANDARD_GRAVITY
    if supply.kind in ("fixed-pressure", "pressure-tank"):
        steady = (float((supply.pressure if supply.kind == "fixed-pressure" else supply.cut_in) or 0.0), 0.0)
        return lambda _flow: steady
    head = head_curve(supply.points)
    if supply.kind == "circulator":
        base, fall = float(supply.fill_pressure or 0.0), 0.0
    else:
        base, fall = -weight * (supply.lift or 0.0), weight * (supply.drawdown or 0.0) / (supply.drawdown_flow or 1.0)

    def pressure(flow: float) -> tuple[float, float]:
        height, slope = head(flow)
        return base + weight * height - fall * max(flow, 0.0), weight * slope - (fall if flow > 0.0 else 0.0)

    return pressure


def drive_of(curve: Curve, back: float) -> Drive:
    """What drives the water: the supply's pressure less the pressure and height of the discharge, Pa."""

    def drive(flow: float) -> tuple[float, float]:
        pressure, slope = curve(flow)
        return pressure - back, slope

    return drive


def starved(pump_flow: float, about: float) -> Curve:
    """A pump whose flow is all there is: the pressure is what the loop needs for it. `about`: a pressure of that order, Pa."""
    return lambda flow: (about - STARVED_STEEPNESS * (flow - pump_flow), -STARVED_STEEPNESS)


def tank_drawdown(volume: float, precharge: float, cut_in: float, cut_out: float) -> float:
    """What a tank gives between cut-out and cut-in: V P1 (1/P2 - 1/P3) with absolute pressures. Arguments m3 and Pa gauge.

    Source: water-loop-flow.drawdown. Valid: precharge <= cut-in < cut-out.
    """
    return volume * (precharge + ATMOSPHERE) * (1.0 / (cut_in + ATMOSPHERE) - 1.0 / (cut_out + ATMOSPHERE))


def tank_cycle(drawdown: float, pump_flow: float, draw: float) -> TankCycle:
    """Run time, s, and starts, 1/s, at a steady draw: t_on = V/(Qp - Qd), t_off = V/Qd. Source: water-loop-flow.cycling."""
    if draw >= pump_flow:
        return TankCycle(drawdown, None, None)
    run = drawdown / (pump_flow - draw)
    return TankCycle(drawdown, run, 1.0 / (run + drawdown / draw))
