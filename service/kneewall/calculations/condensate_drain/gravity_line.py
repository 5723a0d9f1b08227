"""A sloped pipe as a gravity line: what it carries full, and how deep a small flow stands in it."""

from math import cos, pi, sin, sqrt

STEPS = 512
SHAPE = 6.0 / 13.0
"""The depth of a small flow goes with this power of it, so that the table below is nearly straight."""


def full_flow(diameter: float, slope: float, roughness: float) -> float:
    """Flow, m3/s, of a pipe that runs just full by its own slope: Q = (1/n) A R^(2/3) s^(1/2), R = d/4; none where it does not fall.

    `diameter` in m, `slope` as a ratio, `roughness` is Manning's n. Source: condensate-drain.manning.
    """
    if slope <= 0.0:
        return 0.0
    return pi / 4.0 * diameter * diameter * float((diameter / 4.0) ** (2.0 / 3.0)) * sqrt(slope) / roughness


def share_of_full(angle: float) -> float:
    """Flow over full flow at the wetted angle, rad: (a - sin a)^(5/3)/(2 pi a^(2/3))."""
    return float((angle - sin(angle)) ** (5.0 / 3.0) / (2.0 * pi * angle ** (2.0 / 3.0)))


def _depth(share: float) -> float:
    low, high = 1e-6, 5.2782
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if share_of_full(middle) < share else (low, middle)
    return (1.0 - cos(low / 2.0)) / 2.0


_DEPTHS = [0.0, *(_depth((step / STEPS) ** (1.0 / SHAPE)) for step in range(1, STEPS + 1)), 0.0]
_DEPTHS[-1] = _DEPTHS[-2]


def fill_ratio(share: float) -> float | None:
    """Depth over diameter at which a pipe carries this share of its full flow; None above it.

    Read from a table worked out once from `share_of_full`, closer than 1e-5. Source: condensate-drain.manning.
    """
    if share > 1.0:
        return None
    at = float(share**SHAPE) * STEPS
    step = int(at)
    return _DEPTHS[step] + (at - step) * (_DEPTHS[step + 1] - _DEPTHS[step])
