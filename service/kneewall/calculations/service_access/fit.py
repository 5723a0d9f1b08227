"""Whether a box passes through a rectangle."""

from math import sqrt
from typing import Literal, NamedTuple

Passes = Literal["straight", "turned", "no"]
WITHIN = 1e-9


class Box(NamedTuple):
    """A box, sides in m."""

    length: float
    width: float
    height: float


class Way(NamedTuple):
    """One way of moving the box: the face that goes through, longer side first, and the side that points along the way. All in m."""

    long: float
    short: float
    leading: float


def ways(box: Box) -> tuple[Way, Way, Way]:
    """The three faces that can go first."""
    a, b, c = sorted(box)
    return Way(b, a, c), Way(c, a, b), Way(c, b, a)


def clearance(way: Way, long: float, short: float) -> float:
    """What is spare, m, on the tighter side when a face goes straight through a rectangle; below zero is missing."""
    return min(long - way.long, short - way.short)


def goes_straight(way: Way, long: float, short: float) -> bool:
    """Whether a face goes through with its sides parallel to the rectangle's."""
    return way.long <= long * (1.0 + WITHIN) and way.short <= short * (1.0 + WITHIN)


def goes_turned(way: Way, long: float, short: float) -> bool:
    """Whether a face goes through when it is turned in the plane of the rectangle.

    With face p x q, p >= q, and rectangle a x b, a >= b: q <= b and, where p > a, b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2))/(p^2 + q^2).
    Source: service-access.turned-through.
    """
    p, q, a, b = way.long, way.short, long, short
    if goes_straight(way, a, b):
        return True
    if q > b * (1.0 + WITHIN) or p <= a:
        return False
    square = p * p + q * q
    return b * (1.0 + WITHIN) >= (2.0 * p * q * a + (p * p - q * q) * sqrt(square - a * a)) / square


def best_clearance(box: Box, long: float, short: float) -> float:
    """The greatest spare width, m, of the three faces; below zero is missing."""
    return max(clearance(way, long, short) for way in ways(box))


def passes(box: Box, long: float, short: float) -> Passes:
    """Whether any face goes straight through, or only turned, or not at all."""
    if any(goes_straight(way, long, short) for way in ways(box)):
        return "straight"
    return "turned" if any(goes_turned(way, long, short) for way in ways(box)) else "no"


def least_leading(box: Box, long: float, short: float) -> float | None:
    """The shortest side that can point along the way, m, while its face goes through straight or turned."""
    return min((way.leading for way in ways(box) if goes_turned(way, long, short)), default=None)
