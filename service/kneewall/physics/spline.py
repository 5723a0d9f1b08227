"""Cubic splines, worked out once and looked up fast: a curve by one variable and a surface by two on even steps.

Looking up is plain Python on tuples, several times faster for one point than a numeric library. Nodes reach beyond the range that is offered,
so that no look-up stands on the last node; the range itself is the caller's to hold.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from math import inf, log2, trunc

import msgspec

Cubic = tuple[float, float, float, float]
Bicubic = tuple[float, ...]
"""Sixteen factors: by powers of y's share and within them of x's, lowest first."""


class Curve(msgspec.Struct, frozen=True, gc=False):
    """y by x: for each step a cubic in the share of the step, lowest power first."""

    start: float
    per: float
    """Steps per unit of x."""
    cubics: tuple[Cubic, ...]

    def at(self, x: float) -> float:
        """y at x. Valid: between the first and the last node."""
        place = (x - self.start) * self.per
        step = trunc(place)
        a, b, c, d = self.cubics[step]
        t = place - step
        return a + t * (b + t * (c + t * d))

    def at_log2_less(self, value: float, drops: Iterable[float], least: float, most: float) -> list[float | None]:
        """y at the logarithm to base 2 of a value less each drop, without a call for each; None where what is left is not from `least` to `most`."""
        start, per, cubics = self.start, self.per, self.cubics
        found: list[float | None] = []
        for drop in drops:
            left = value - drop
            if least <= left <= most:
                place = (log2(left) - start) * per
                step = trunc(place)
                a, b, c, d = cubics[step]
                t = place - step
                found.append(a + t * (b + t * (c + t * d)))
            else:
                found.append(None)
        return found

    def slope(self, x: float) -> float:
        """dy/dx at x. Valid: as `at`."""
        place = (x - self.start) * self.per
        step = trunc(place)
        _, b, c, d = self.cubics[step]
        t = place - step
        return self.per * (b + t * (2.0 * c + 3.0 * t * d))


class Surface(msgspec.Struct, frozen=True, gc=False):
    """z by (x, y), y from zero: for each step of both a bicubic."""

    start: float
    per: float
    per_across: float
    bicubics: tuple[tuple[Bicubic, ...], ...]

    def at(self, x: float, y: float) -> float:
        """z at (x, y). Valid: between the first and the last nodes."""
        place = (x - self.start) * self.per
        step = trunc(place)
        t = place - step
        place = y * self.per_across
        across = trunc(place)
        u = place - across
        a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q = self.bicubics[step][across]
        return (
            a
            + t * (b + t * (c + t * d))
            + u * (e + t * (f + t * (g + t * h)) + u * (i + t * (j + t * (k + t * m)) + u * (n + t * (o + t * (p + t * q)))))
        )

    def across(self, x: float, z: float, near: float) -> float:
        """The y at which z stands at x, sought from a y near it: the cubic of each step by y, by Newton's method where z lies in it.

        Infinite, by its sign, where z lies before the first node or beyond the last. Valid: z rises with y.
        """
        place = (x - self.start) * self.per
        t, row = place - trunc(place), self.bicubics[trunc(place)]
        at = min(trunc(near * self.per_across), len(row) - 1)
        while True:
            a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q = row[at]
            low = a + t * (b + t * (c + t * d)) - z
            slope = e + t * (f + t * (g + t * h))
            square = i + t * (j + t * (k + t * m))
            cube = n + t * (o + t * (p + t * q))
            step = -1 if low > 0.0 else 1 if low + slope + square + cube < 0.0 else 0
            if not step:
                return (at + _root(low, slope, square, cube)) / self.per_across
            at += step
            if not 0 <= at < len(row):
                return step * inf


def _root(low: float, slope: float, square: float, cube: float) -> float:
    """Where a rising cubic that bends little is zero, from its chord by Newton's method: what a step of 1e-5 leaves is far below its square."""
    u = -low / (slope + square + cube)
    for _ in range(20):
        step = (low + u * (slope + u * (square + u * cube))) / (slope + u * (2.0 * square + u * 3.0 * cube))
        u -= step
        if -1e-5 < step < 1e-5:
            break
    return u


class Through:
    """The cubic spline through points with rising x, four at least: twice smooth, one cubic over the first two steps and one over the last two.

    The slopes s at the points follow from h_i s_(i-1) + 2 (h_(i-1) + h_i) s_i + h_(i-1) s_(i+1) = 3 (h_i d_(i-1) + h_(i-1) d_i), h the steps
    and d the rises over them, closed at both ends by the third derivative that does not jump ("not-a-knot").
    """

    def __init__(self, x: Sequence[float], y: Sequence[float]) -> None:
        self.x = x
        self.cubics = _cubics(x, y)

    def at(self, x: float) -> float:
        """y at x, between the ends."""
        step = min(max(bisect_right(self.x, x) - 1, 0), len(self.cubics) - 1)
        a, b, c, d = self.cubics[step]
        t = (x - self.x[step]) / (self.x[step + 1] - self.x[step])
        return a + t * (b + t * (c + t * d))


def even_steps(start: float, stop: float, nodes: int) -> list[float]:
    """So many numbers at even steps from start to stop, both included."""
    step = (stop - start) / (nodes - 1)
    return [*(start + step * place for place in range(nodes - 1)), stop]


def curve(start: float, stop: float, values: Sequence[float]) -> Curve:
    """The spline through values at even steps from start to stop, both included."""
    return Curve(start, (len(values) - 1) / (stop - start), tuple(_cubics(range(len(values)), values)))


def surface(start: float, stop: float, across: float, values: Sequence[Sequence[float]]) -> Surface:
    """The bicubic spline through values[i][j]: even steps i from start to stop, even steps j from zero to `across`."""
    rows, columns = len(values), len(values[0])
    by_column = [_cubics(range(rows), column) for column in zip(*values, strict=True)]
    bicubics = tuple(tuple(_bicubics([cubics[step] for cubics in by_column])) for step in range(rows - 1))
    return Surface(start, (rows - 1) / (stop - start), (columns - 1) / across, bicubics)


def inverse(of: Callable[[float], float], start: float, stop: float, steps: int) -> Curve:
    """The curve that gives x back from a rising y = of(x), at even steps of y from of(start) to of(stop)."""
    dense = even_steps(start, stop, 4 * steps)
    known = Through([of(x) for x in dense], dense)
    low, high = of(start), of(stop)
    return curve(low, high, [known.at(y) for y in even_steps(low, high, steps)])


def _bicubics(cubics: Sequence[Cubic]) -> list[Bicubic]:
    """Cubics at even steps across: each of their factors runs along a spline of its own."""
    along = [_cubics(range(len(cubics)), factors) for factors in zip(*cubics, strict=True)]
    return [tuple(factor for power in zip(*four, strict=True) for factor in power) for four in zip(*along, strict=True)]


def _cubics(x: Sequence[float], y: Sequence[float]) -> list[Cubic]:
    """For each step a cubic in the share of the step, lowest power first."""
    h = [after - before for before, after in pairwise(x)]
    slopes = _slopes(h, [(after - before) / step for (before, after), step in zip(pairwise(y), h, strict=True)])
    found = []
    for step, (start, end), (before, after) in zip(h, pairwise(slopes), pairwise(y), strict=True):
        b, e, rise = step * start, step * end, after - before
        found.append((before, b, 3.0 * rise - 2.0 * b - e, b + e - 2.0 * rise))
    return found


def _slopes(h: Sequence[float], d: Sequence[float]) -> list[float]:
    """The slopes at the points, by elimination: `above` and `right` are what is left of each row once the slope before it is gone."""
    last = len(h)
    both = h[0] + h[1]
    above, right = [both / h[1]], [((h[0] + 2.0 * both) * h[1] * d[0] + h[0] * h[0] * d[1]) / (both * h[1])]
    for i in range(1, last):
        pivot = 2.0 * (h[i - 1] + h[i]) - h[i] * above[-1]
        above.append(h[i - 1] / pivot)
        right.append((3.0 * (h[i] * d[i - 1] + h[i - 1] * d[i]) - h[i] * right[-1]) / pivot)
    both = h[-1] + h[-2]
    end = (h[-1] * h[-1] * d[-2] + (2.0 * both + h[-1]) * h[-2] * d[-1]) / both
    slopes = [(end - both * right[-1]) / (h[-2] - both * above[-1])]
    for over, value in zip(reversed(above), reversed(right), strict=True):
        slopes.append(value - over * slopes[-1])
    return slopes[::-1]
