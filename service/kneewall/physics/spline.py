"""Cubic splines on even steps, worked out once and looked up fast: a curve by one variable, a surface by two.

scipy finds the cubics; looking up is plain Python on tuples, several times faster for one point. Nodes reach beyond the range that is
offered, so that no look-up stands on the last node; the range itself is the caller's to hold.
"""

from collections.abc import Callable
from typing import Any

import msgspec
import numpy as np
from scipy.interpolate import CubicSpline

Cubic = tuple[float, float, float, float]
Bicubic = tuple[Cubic, Cubic, Cubic, Cubic]


class Curve(msgspec.Struct, frozen=True, gc=False):
    """y by x: for each step a cubic in the share of the step, lowest power first."""

    start: float
    per: float
    """Steps per unit of x."""
    cubics: tuple[Cubic, ...]

    def at(self, x: float) -> float:
        """y at x. Valid: between the first and the last node."""
        place = (x - self.start) * self.per
        step = int(place)
        a, b, c, d = self.cubics[step]
        t = place - step
        return a + t * (b + t * (c + t * d))


class Surface(msgspec.Struct, frozen=True, gc=False):
    """z by (x, y), y from zero: for each step of both a bicubic, by powers of y's share and within them of x's, lowest first."""

    start: float
    per: float
    per_across: float
    bicubics: tuple[tuple[Bicubic, ...], ...]

    def at(self, x: float, y: float) -> float:
        """z at (x, y). Valid: between the first and the last nodes."""
        place = (x - self.start) * self.per
        step = int(place)
        t = place - step
        place = y * self.per_across
        across = int(place)
        u = place - across
        (a, b, c, d), (e, f, g, h), (i, j, k, m), (n, o, p, q) = self.bicubics[step][across]
        return (
            a
            + t * (b + t * (c + t * d))
            + u * (e + t * (f + t * (g + t * h)) + u * (i + t * (j + t * (k + t * m)) + u * (n + t * (o + t * (p + t * q)))))
        )

    def across(self, x: float, z: float, near: float) -> float:
        """The y at which z stands at x, sought from a y near it: the cubic of each step by y, by Newton's method where z lies in it.

        Valid: z rises with y, and y lies between the first and the last nodes.
        """
        place = (x - self.start) * self.per
        step = int(place)
        t, row = place - step, self.bicubics[step]
        at = min(int(near * self.per_across), len(row) - 1)
        while True:
            (a, b, c, d), (e, f, g, h), (i, j, k, m), (n, o, p, q) = row[at]
            low = a + t * (b + t * (c + t * d)) - z
            slope = e + t * (f + t * (g + t * h))
            square = i + t * (j + t * (k + t * m))
            cube = n + t * (o + t * (p + t * q))
            if low > 0.0 and at > 0:
                at -= 1
            elif low + slope + square + cube < 0.0 and at < len(row) - 1:
                at += 1
            else:
                return (at + _root(low, slope, square, cube)) / self.per_across


def _root(low: float, slope: float, square: float, cube: float) -> float:
    """Where a rising cubic that bends little is zero, from its chord by Newton's method."""
    u = -low / (slope + square + cube)
    for _ in range(20):
        step = (low + u * (slope + u * (square + u * cube))) / (slope + u * (2.0 * square + u * 3.0 * cube))
        u -= step
        if abs(step) < 1e-13:
            break
    return u


def curve(start: float, stop: float, values: Any) -> Curve:
    """The spline through values at even steps from start to stop, both included."""
    powers = CubicSpline(np.arange(len(values)), values).c[::-1]
    return Curve(start, (len(values) - 1) / (stop - start), tuple(map(tuple, powers.T.tolist())))


def surface(start: float, stop: float, across: float, values: Any) -> Surface:
    """The bicubic spline through values[i, j]: even steps i from start to stop, even steps j from zero to `across`."""
    rows, columns = values.shape
    by_row = CubicSpline(np.arange(rows), values, axis=0).c[::-1]
    by_both = CubicSpline(np.arange(columns), by_row, axis=2).c[::-1]
    nested = by_both.transpose(3, 1, 0, 2).tolist()
    bicubics = tuple(tuple(tuple(map(tuple, cell)) for cell in row) for row in nested)
    return Surface(start, (rows - 1) / (stop - start), (columns - 1) / across, bicubics)  # type: ignore[arg-type]


def inverse(of: Callable[[float], float], start: float, stop: float, steps: int) -> Curve:
    """The curve that gives x back from a rising y = of(x), at even steps of y from of(start) to of(stop)."""
    dense = np.linspace(start, stop, 4 * steps)
    known = CubicSpline([of(x) for x in dense.tolist()], dense)
    low, high = of(start), of(stop)
    return curve(low, high, known(np.linspace(low, high, steps)))
