"""Friction in full round conduits, for air, water and refrigerant alike."""

from math import log, log10
from typing import Literal

from kneewall.kernel.rule import Rule, Source
from kneewall.physics.constants import QUARTER_PI

Regime = Literal["laminar", "transitional", "turbulent"]

LAMINAR_BELOW = 2000.0
TURBULENT_FROM = 4000.0
PER_LOG = 2.0 / log(10.0)
"""What the Colebrook equation's 2 log10 is in natural logarithms."""

DARCY_WEISBACH = Rule(
    id="friction.darcy-weisbach",
    says="The pressure lost to friction is the Darcy friction factor times length over diameter times the velocity pressure.",
    kind="formula",
    source=Source(title="Darcy-Weisbach equation; course notebook CE414 in an open repository, examination"),
    standing="published",
)
COLEBROOK = Rule(
    id="friction.colebrook",
    says="From Reynolds number 4000 up the friction factor satisfies the Colebrook equation, solved until it no longer changes; "
    "up to 2000 it is 64/Re; between, a smooth cubic joins the two with the same value and slope at both ends.",
    kind="formula",
    source=Source(
        title="Turbulent flow in pipes, with particular reference to the transition region",
        edition="1939",
        publisher="Institution of Civil Engineers",
    ),
    standing="from-memory",
)


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """The Darcy friction factor of a full round conduit.

    laminar: f = 64/Re; turbulent: 1/sqrt f = -2 log10(e/3.7 + 2.51/(Re sqrt f)), where e is roughness over diameter.
    Source: friction.colebrook. Valid: Re > 0, 0 <= e <= 0.1.
    Departs: between Re 2000 and 4000, where neither law holds, a cubic in Re meets both with equal slope.
    """
    if reynolds >= TURBULENT_FROM:
        x, _ = colebrook(reynolds, relative_roughness)
        return 1.0 / (x * x)
    return friction_factor_and_slope(reynolds, relative_roughness)[0]


def friction_factor_and_slope(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    """The Darcy friction factor and its slope by Reynolds number, for Newton's method. Source and range as `friction_factor`."""
    if reynolds <= LAMINAR_BELOW:
        return 64.0 / reynolds, -64.0 / (reynolds * reynolds)
    if reynolds >= TURBULENT_FROM:
        return _colebrook_and_slope(reynolds, relative_roughness)
    span = TURBULENT_FROM - LAMINAR_BELOW
    start, start_slope = 64.0 / LAMINAR_BELOW, -64.0 / LAMINAR_BELOW**2
    end, end_slope = _colebrook_and_slope(TURBULENT_FROM, relative_roughness)
    t = (reynolds - LAMINAR_BELOW) / span
    rise, bend_start, bend_end = end - start, start_slope * span, end_slope * span
    square = 3.0 * rise - 2.0 * bend_start - bend_end
    cube = bend_start + bend_end - 2.0 * rise
    return start + t * (bend_start + t * (square + t * cube)), (bend_start + t * (2.0 * square + 3.0 * t * cube)) / span


def colebrook(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    """x = 1/sqrt f of turbulent flow, and s, so that the loss f q^2 rises with the power 2/(1 + s) of the flow q.

    x from the Haaland start by two Newton steps (error below 1e-11 of x); s = (2/ln 10) b/(e/3.7 + b x), b = 2.51/Re.
    Source: friction.colebrook. Valid: Re from 4000 up, 0 <= e <= 0.1.
    """
    a, b = relative_roughness / 3.7, 2.51 / reynolds
    x = -1.8 * log10(a**1.11 + 6.9 / reynolds)
    inside = a + b * x
    x -= (x + 2.0 * log10(inside)) / (1.0 + PER_LOG * b / inside)
    inside = a + b * x
    x -= (x + 2.0 * log10(inside)) / (1.0 + PER_LOG * b / inside)
    return x, PER_LOG * b / (a + b * x)


def _colebrook_and_slope(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    x, share = colebrook(reynolds, relative_roughness)
    return 1.0 / (x * x), -2.0 * share / (reynolds * x * x * (1.0 + share))


def regime(reynolds: float) -> Regime:
    """Which law holds at this Reynolds number."""
    if reynolds <= LAMINAR_BELOW:
        return "laminar"
    return "transitional" if reynolds < TURBULENT_FROM else "turbulent"


def turbulent_factor(relative_roughness: float) -> float:
    """The friction factor of fully turbulent flow, f_T = 0.25 / log10(e/3.7)^2, to which loss coefficients of fittings are referred.

    Source: friction.colebrook at infinite Reynolds number. Valid: 0 < e <= 0.1.
    """
    return 0.25 / log10(relative_roughness / 3.7) ** 2


def pressure_gradient(flow: float, diameter: float, roughness: float, density: float, viscosity: float) -> float:
    """Pressure lost per length of round conduit, in Pa/m, from SI: flow m3/s, diameter and roughness m, density kg/m3, viscosity Pa.s.

    dp/L = f rho V^2 / (2 D), V = 4 q / (pi D^2). Source: friction.darcy-weisbach. Valid: flow > 0.
    """
    velocity = flow / (QUARTER_PI * diameter * diameter)
    reynolds = density * velocity * diameter / viscosity
    return friction_factor(reynolds, roughness / diameter) * density * velocity * velocity / (2.0 * diameter)
