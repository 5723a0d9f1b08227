"""Vibration isolators at every speed of the blower."""

from math import pi, sqrt

from kneewall.calculations.equipment_hanging.answers import Isolation
from kneewall.calculations.equipment_hanging.messages import Isolator
from kneewall.kernel.quantity import Number, RotationalSpeed
from kneewall.physics.constants import STANDARD_GRAVITY

REVOLUTION = float(RotationalSpeed.of(60, "rpm"))
"""one revolution a second, in the unit of RotationalSpeed inside"""
LEAST_RATIO = Number(sqrt(2.0))
RESONANT_WITHIN = 0.2
LEAST_EFFICIENCY = 0.8


def natural_frequency(static_deflection: float) -> float:
    """Hz: f = sqrt(g/d)/(2 pi), d in m. Source: equipment-hanging.isolation."""
    return sqrt(STANDARD_GRAVITY / static_deflection) / (2.0 * pi)


def transmissibility(ratio: float, damping: float) -> float | None:
    """Share of the force that passes: T = sqrt((1 + (2 z r)^2)/((1 - r^2)^2 + (2 z r)^2)); None at undamped resonance, where it has no limit.

    Source: equipment-hanging.isolation.
    """
    damped = (2.0 * damping * ratio) ** 2
    apart = (1.0 - ratio * ratio) ** 2 + damped
    return sqrt((1.0 + damped) / apart) if apart > 1e-18 else None


def isolation_at(speed: RotationalSpeed, frequency: float, isolator: Isolator) -> Isolation:
    """What the isolators do at one speed."""
    ratio = speed / REVOLUTION / frequency
    passed = transmissibility(ratio, isolator.damping_ratio)
    return Isolation(
        speed=speed,
        frequency_ratio=Number(ratio),
        transmissibility=None if passed is None else Number(passed),
        efficiency=None if passed is None else Number(1.0 - passed),
    )
