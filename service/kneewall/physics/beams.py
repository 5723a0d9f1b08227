"""Straight elastic beams: bending moment, deflection and slope of the spans that pipes, ducts and hanger channels make.

Every argument and result is plain SI: load N/m or N, span m, stiffness E I in N m2, moment N m, deflection m, slope in radians (metres per metre).
"""

from typing import NamedTuple

from kneewall.kernel.rule import Rule, Source

ELASTIC_BEAM = Rule(
    id="beams.elastic-bending",
    says="Moment, deflection and slope are those of a straight elastic beam on two supports in small bending, E I y'''' = w.",
    kind="formula",
    source=Source(title="Elementary theory of elastic beams, as in any text of strength of materials"),
    standing="computed",
)


class Section(NamedTuple):
    """What a cross-section brings to bending about its horizontal axis."""

    area: float
    """m2"""
    second_moment: float
    """m4"""
    modulus: float
    """m3, the smaller one of top and bottom"""


def rectangle_section(width: float, depth: float) -> Section:
    """A solid rectangle bent about its horizontal axis: A = b h, I = b h^3/12, S = b h^2/6. Sides in m."""
    return Section(width * depth, width * depth**3 / 12.0, width * depth**2 / 6.0)


def uniform_deflection(load: float, span: float, stiffness: float) -> float:
    """Midspan deflection of a uniform load on a simple span: d = 5 w L^4/(384 E I). Source: beams.elastic-bending."""
    return 5.0 * load * span**4 / (384.0 * stiffness)


def uniform_end_slope(load: float, span: float, stiffness: float) -> float:
    """Slope at the ends of a simple span under a uniform load: w L^3/(24 E I). Source: beams.elastic-bending."""
    return load * span**3 / (24.0 * stiffness)


def midspan_load_moment(load: float, span: float) -> float:
    """Greatest moment of one load at the middle of a simple span: M = P L/4. Source: beams.elastic-bending."""
    return load * span / 4.0


def two_loads_moment(load: float, inset: float) -> float:
    """Greatest moment of two equal loads, each `load`, at `inset` from either end of a simple span: M = P a.

    Source: beams.elastic-bending. Valid: 0 <= inset <= half the span.
    """
    return load * inset


def two_loads_deflection(load: float, inset: float, span: float, stiffness: float) -> float:
    """Midspan deflection of two equal loads, each `load`, at `inset` from either end of a simple span: d = P a (3 L^2 - 4 a^2)/(24 E I).

    Source: beams.elastic-bending. Valid: 0 <= inset <= half the span.
    """
    return load * inset * (3.0 * span * span - 4.0 * inset * inset) / (24.0 * stiffness)
