"""Figures with a band: what was read, how closely, and how that carries over to what follows from it, to first order."""

from math import hypot
from typing import NamedTuple

import msgspec

from kneewall.calculations.commissioning_check.accuracy import USUAL
from kneewall.kernel.quantity import Quantity


class Reading(NamedTuple):
    """One measured figure, SI; `share` where its uncertainty is a share of it; `stated` by whoever asked, or usual for the instrument."""

    name: str
    value: float
    uncertainty: float
    share: bool
    stated: bool


class Estimate:
    """A figure and, by reading, how far that reading's uncertainty moves it: sensitivity times uncertainty, signed.

    The signs keep figures that share a reading in step when they are combined. Source: commissioning-check.propagation.
    """

    __slots__ = ("_uncertainty", "moved", "value")

    def __init__(self, value: float, moved: dict[str, float]) -> None:
        self.value = value
        self.moved = moved
        self._uncertainty = -1.0

    @property
    def uncertainty(self) -> float:
        """The root of the sum of squares of what the readings move, worked out when it is first asked for."""
        if self._uncertainty < 0.0:
            self._uncertainty = hypot(*self.moved.values())
        return self._uncertainty

    @property
    def low(self) -> float:
        """Lower end of the band."""
        return self.value - self.uncertainty

    @property
    def high(self) -> float:
        """Upper end of the band."""
        return self.value + self.uncertainty


def combined(value: float, *terms: tuple[float, Estimate]) -> Estimate:
    """A figure worked out from others, each with the figure's own sensitivity to it: u^2 = sum of (s_i u_i)^2 over the readings.

    Source: commissioning-check.propagation.
    """
    sensitivity, first = terms[0]
    moved = {name: sensitivity * amount for name, amount in first.moved.items()}
    for sensitivity, term in terms[1:]:
        for name, amount in term.moved.items():
            if name in moved:
                moved[name] += sensitivity * amount
            else:
                moved[name] = sensitivity * amount
    return Estimate(value, moved)


def difference(one: Estimate, other: Estimate) -> Estimate:
    """One figure less another. Source: commissioning-check.propagation."""
    moved = dict(one.moved)
    for name, amount in other.moved.items():
        moved[name] = moved.get(name, 0.0) - amount
    return Estimate(one.value - other.value, moved)


def product(one: Estimate, other: Estimate) -> Estimate:
    """One figure times another. Source: commissioning-check.propagation."""
    return combined(one.value * other.value, (other.value, one), (one.value, other))


def quotient(one: Estimate, other: Estimate) -> Estimate | None:
    """One figure over another; None unless the upper is positive and the whole band of the lower too. Source: commissioning-check.propagation."""
    if one.value <= 0.0 or other.low <= 0.0:
        return None
    value = one.value / other.value
    return combined(value, (1.0 / other.value, one), (-value / other.value, other))


class Readings:
    """The readings of one part, in the order in which they are used."""

    __slots__ = ("part", "stated", "taken")

    def __init__(self, part: str, stated: msgspec.Struct | None) -> None:
        self.part, self.stated = part, stated
        self.taken: dict[str, Reading] = {}

    def take(self, name: str, value: float, field: str, most: float | None = None) -> Estimate:
        """A figure as it was read, its uncertainty the one stated for its instrument, else the usual one or `most`, whichever is less."""
        width: float | None = None if self.stated is None else getattr(self.stated, field)
        stated = width is not None
        if width is None:
            width = USUAL[self.part][field]
            if most is not None and most < width:
                width, stated = type(width)(most), True
        share = not isinstance(width, Quantity)
        self.taken[name] = Reading(name, value, width, share, stated)
        return Estimate(value, {name: width * abs(value) if share else width})
