"""A smooth curve through points that never overshoots them: monotone piecewise cubics."""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise


class MonotoneCubic:
    """A piecewise cubic through points with rising x, monotone wherever the points are (Fritsch and Butland's slopes). Only between its ends."""

    __slots__ = ("slopes", "x", "y")

    def __init__(self, x: Sequence[float], y: Sequence[float]) -> None:
        """Through the points (x, y), x strictly rising, two points at least."""
        self.x, self.y = list(x), list(y)
        self.slopes = _slopes(self.x, self.y)

    def at(self, x: float) -> tuple[float, float]:
        """Value and slope at `x`. Beyond the ends the end's tangent, so that a search may pass there; its result must not stay there."""
        if x <= self.x[0]:
            return self.y[0] + self.slopes[0] * (x - self.x[0]), self.slopes[0]
        if x >= self.x[-1]:
            return self.y[-1] + self.slopes[-1] * (x - self.x[-1]), self.slopes[-1]
        i = bisect_right(self.x, x) - 1
        h = self.x[i + 1] - self.x[i]
        t = (x - self.x[i]) / h
        rise = self.y[i + 1] - self.y[i]
        start, end = h * self.slopes[i], h * self.slopes[i + 1]
        square, cube = 3.0 * rise - 2.0 * start - end, start + end - 2.0 * rise
        return self.y[i] + t * (start + t * (square + t * cube)), (start + t * (2.0 * square + 3.0 * t * cube)) / h


def _slopes(x: list[float], y: list[float]) -> list[float]:
    steps = [b - a for a, b in pairwise(x)]
    rises = [(b - a) / h for a, b, h in zip(y, y[1:], steps, strict=False)]
    if len(x) == 2:
        return [rises[0], rises[0]]
    inner = [_inner(steps[i], steps[i + 1], rises[i], rises[i + 1]) for i in range(len(rises) - 1)]
    return [_end(steps[0], steps[1], rises[0], rises[1]), *inner, _end(steps[-1], steps[-2], rises[-1], rises[-2])]


def _inner(h0: float, h1: float, d0: float, d1: float) -> float:
    if d0 * d1 <= 0.0:
        return 0.0
    w0, w1 = 2.0 * h1 + h0, h1 + 2.0 * h0
    return (w0 + w1) / (w0 / d0 + w1 / d1)


def _end(h0: float, h1: float, d0: float, d1: float) -> float:
    slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
    if slope * d0 <= 0.0:
        return 0.0
    return 3.0 * d0 if d0 * d1 < 0.0 and abs(slope) > abs(3.0 * d0) else slope
