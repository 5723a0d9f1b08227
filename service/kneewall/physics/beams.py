"""Straight elastic beams: bending moment, deflection and slope of the spans that pipes, ducts and hanger channels make.

Every argument and result is plain SI: load N/m or N, span m, stiffness E I in N m2, moment N m, deflection m, slope in radians (metres per metre).
"""

from math import pi, sqrt
from typing import NamedTuple

from kneewall.kernel.rule import Rule, Source

ELASTIC_BEAM = Rule(
    id="beams.elastic-bending",
    says="Moment, deflection and slope are those of a straight elastic beam in small bending, E I y'''' = w. A span that ends at the last hanger "
    "of a continuous run counts as simply supported at that end and held level at the other.",
    kind="formula",
    source=Source(title="Elementary theory of elastic beams, as in any text of strength of materials"),
    standing="computed",
)


_END_SPAN_PLACE = (1.0 + sqrt(33.0)) / 16.0
END_SPAN_SAG = _END_SPAN_PLACE * (1.0 - 3.0 * _END_SPAN_PLACE**2 + 2.0 * _END_SPAN_PLACE**3) / 48.0
"""greatest deflection of an end span over w L^4/(E I), 1/184.6, where its slope is nought, 0.4215 L from the end"""


class Section(NamedTuple):
    """What a cross-section brings to bending about its horizontal axis."""

    area: float
    """m2"""
    second_moment: float
    """m4"""
    modulus: float
    """m3, the smaller one of top and bottom"""


def tube_section(outside: float, inside: float) -> Section:
    """A round tube: A = pi (D^2 - d^2)/4, I = pi (D^4 - d^4)/64, S = 2 I/D. Diameters in m. Valid: 0 <= inside < outside."""
    second_moment = pi / 64.0 * (outside**4 - inside**4)
    return Section(pi / 4.0 * (outside**2 - inside**2), second_moment, 2.0 * second_moment / outside)


def rectangle_section(width: float, depth: float) -> Section:
    """A solid rectangle bent about its horizontal axis: A = b h, I = b h^3/12, S = b h^2/6. Sides in m."""
    return Section(width * depth, width * depth**3 / 12.0, width * depth**2 / 6.0)


def uniform_moment(load: float, span: float) -> float:
    """Greatest moment of a uniform load on a simple span: M = w L^2/8. Source: beams.elastic-bending."""
    return load * span * span / 8.0


def uniform_deflection(load: float, span: float, stiffness: float) -> float:
    """Midspan deflection of a uniform load on a simple span: d = 5 w L^4/(384 E I). Source: beams.elastic-bending."""
    return 5.0 * load * span**4 / (384.0 * stiffness)


def uniform_end_slope(load: float, span: float, stiffness: float) -> float:
    """Slope at the ends of a simple span under a uniform load: w L^3/(24 E I). Source: beams.elastic-bending."""
    return load * span**3 / (24.0 * stiffness)


def end_span_moment(load: float, span: float) -> float:
    """Greatest moment of a uniform load on the end span of a continuous run, at the hanger before last: M = w L^2/8. Source: beams.elastic-bending."""
    return load * span * span / 8.0


def end_span_deflection(load: float, span: float, stiffness: float) -> float:
    """Greatest deflection of a uniform load on the end span of a continuous run, 0.4215 L from its end: d = w L^4/(184.6 E I).

    Source: beams.elastic-bending.
    """
    return END_SPAN_SAG * load * span**4 / stiffness


def end_span_slope(load: float, span: float, stiffness: float) -> float:
    """Slope at the last hanger of a continuous run under a uniform load: w L^3/(48 E I). Source: beams.elastic-bending."""
    return load * span**3 / (48.0 * stiffness)


def inner_span_moment(load: float, span: float) -> float:
    """Greatest moment of a uniform load on an inner span of a long continuous run: M = w L^2/12. Source: beams.elastic-bending."""
    return load * span * span / 12.0


def inner_span_deflection(load: float, span: float, stiffness: float) -> float:
    """Midspan deflection of a uniform load on an inner span of a long continuous run: d = w L^4/(384 E I). Source: beams.elastic-bending."""
    return load * span**4 / (384.0 * stiffness)


def midspan_load_moment(load: float, span: float) -> float:
    """Greatest moment of one load at the middle of a simple span: M = P L/4. Source: beams.elastic-bending."""
    return load * span / 4.0


def midspan_load_deflection(load: float, span: float, stiffness: float) -> float:
    """Deflection under one load at the middle of a simple span: d = P L^3/(48 E I). Source: beams.elastic-bending."""
    return load * span**3 / (48.0 * stiffness)


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
