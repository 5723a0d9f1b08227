"""Ducts: their shapes, surfaces, sizes and the loss per length of straight duct."""

from math import exp, log, log10, pi, sqrt
from pathlib import Path
from typing import Annotated, Literal

import msgspec

from kneewall.kernel.quantity import Dimension, FrictionRate, Length
from kneewall.kernel.question import Question, asked
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source
from kneewall.kernel.table import load_table
from kneewall.physics.air import Air
from kneewall.physics.friction import PER_LOG, TURBULENT_FROM, pressure_gradient

Material = Literal["galvanized-steel", "spiral-steel", "fibrous-glass-board", "lined-steel", "flexible"]
Shape = Literal["round", "rectangular", "flat-oval"]

ROUGHNESS_TABLE = load_table(Path(__file__).parent / "tables" / "duct_roughness.toml")
ROUGHNESS = ROUGHNESS_TABLE.rule
_ROUGHNESS: dict[str, float] = {row["material"]: Length.of(row["roughness"], "ft") for row in ROUGHNESS_TABLE.rows}  # type: ignore[arg-type,misc]

RECTANGULAR_EQUIVALENT = Rule(
    id="ducts.rectangular-equivalent",
    says="A rectangular duct a by b loses as much at the same flow as a round one of 1.30 (a b)^0.625/(a + b)^0.25.",
    kind="formula",
    source=Source(title="HVAC Systems Duct Design", clause="Table 14-2, heading; equation of 1948", publisher="SMACNA"),
    standing="published",
)
OVAL_EQUIVALENT = Rule(
    id="ducts.flat-oval-equivalent",
    says="A flat oval duct loses as much at the same flow as a round one of 1.55 A^0.625/P^0.25, A its area and P its perimeter.",
    kind="formula",
    source=Source(title="ASHRAE Handbook - Fundamentals, chapter Duct Design, flat oval equation of 1975", publisher="ASHRAE"),
    standing="from-memory",
)
FLEXIBLE_STRETCH = Rule(
    id="ducts.flexible-stretch",
    says="A flexible duct that is not pulled out straight loses more by the factor 1 + 0.58 K exp(-0.126 D), D in inches, "
    "K the percent by which it is shorter than when fully extended. Laboratories differ by a factor of two.",
    kind="formula",
    source=Source(title="ASHRAE Handbook - Fundamentals, chapter 21, equations 22 and 23, read in a quotation", publisher="ASHRAE"),
    standing="published",
)
NOMINAL_ROUND = Rule(
    id="ducts.nominal-round",
    says="Round metal duct is made in whole inches from 3 to 20 and in even inches to 60; flexible duct in 4 to 10, 12, 14, 16, 18 and 20 in. Sizes are rounded up.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)

USUAL_FRICTION_RATE = (FrictionRate.of(0.06, "inH2O/100ft"), FrictionRate.of(0.18, "inH2O/100ft"))
"""What is usual in houses: below it ducts grow large, above it they are heard."""
TESTED_FLEXIBLE = (Dimension.of(4, "in"), Dimension.of(16, "in"))

ROUND_METAL = tuple(Dimension.of(inches, "in") for inches in (*range(3, 21), *range(22, 62, 2)))
ROUND_FLEXIBLE = tuple(Dimension.of(inches, "in") for inches in (4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20))


class Duct(Question, frozen=True, kw_only=True):
    """What a duct is made of and how it is shaped."""

    material: Annotated[Material, msgspec.Meta(description="The duct's inside surface")] = "galvanized-steel"
    shape: Annotated[Shape, msgspec.Meta(description="Cross-section; flexible duct is round")] = "round"
    fixed_side: (
        Annotated[Dimension, asked("A side that cannot change: a rectangular duct's height or an oval's minor axis", least="2 in", most="96 in")]
        | None
    ) = None
    stretch: (
        Annotated[float, asked("Flexible only: installed length over fully extended length; 0.96 where it is left out", least=0.55, most=1.0)] | None
    ) = None


class DuctSize(Question, frozen=True, kw_only=True, omit_defaults=True):
    """A duct's inside size: a diameter, a width and height, or an oval's axes."""

    shape: Annotated[Shape, msgspec.Meta(description="Cross-section")]
    diameter: Annotated[Dimension, asked("Round: diameter", least="1 in", most="120 in")] | None = None
    width: Annotated[Dimension, asked("Rectangular: width", least="1 in", most="240 in")] | None = None
    height: Annotated[Dimension, asked("Rectangular: height", least="1 in", most="240 in")] | None = None
    major: Annotated[Dimension, asked("Flat oval: major axis", least="1 in", most="240 in")] | None = None
    minor: Annotated[Dimension, asked("Flat oval: minor axis", least="1 in", most="240 in")] | None = None


_SIZE_RULES: dict[str, tuple[Rule, ...]] = {"round": (), "rectangular": (RECTANGULAR_EQUIVALENT,), "flat-oval": (OVAL_EQUIVALENT,)}
DEFAULT_STRETCH = 0.96
_STRETCH_FADES = 4.96
"""1/m: how fast the loss by stretch fades with the diameter."""


def roughness_of(material: Material) -> float:
    """Absolute roughness, m. Source: ducts.roughness."""
    return _ROUGHNESS[material]


def rectangular_equivalent(a: float, b: float) -> float:
    """Round diameter of equal flow, friction and length: De = 1.30 (a b)^0.625/(a + b)^0.25. Source: ducts.rectangular-equivalent."""
    return 1.30 * (a * b) ** 0.625 / (a + b) ** 0.25  # type: ignore[no-any-return]


def oval_area(major: float, minor: float) -> float:
    """Area of a flat oval: pi a^2/4 + a (A - a)."""
    return pi * minor * minor / 4.0 + minor * (major - minor)


def oval_equivalent(major: float, minor: float) -> float:
    """Round diameter of equal flow, friction and length: De = 1.55 A^0.625/P^0.25, P = pi a + 2 (A - a). Source: ducts.flat-oval-equivalent."""
    perimeter = pi * minor + 2.0 * (major - minor)
    return 1.55 * oval_area(major, minor) ** 0.625 / perimeter**0.25  # type: ignore[no-any-return]


def equivalent_diameter(size: DuctSize) -> float:
    """The round diameter that loses as much at the same flow."""
    if size.diameter is not None:
        return size.diameter
    if size.width is not None and size.height is not None:
        return rectangular_equivalent(size.width, size.height)
    assert size.major is not None and size.minor is not None
    return oval_equivalent(size.major, size.minor)


def duct_area(size: DuctSize) -> float:
    """The open cross-section, m2."""
    if size.diameter is not None:
        return pi / 4.0 * size.diameter * size.diameter
    if size.width is not None and size.height is not None:
        return size.width * size.height
    assert size.major is not None and size.minor is not None
    return oval_area(size.major, size.minor)


def duct_perimeter(size: DuctSize) -> float:
    """The perimeter of the cross-section, m."""
    if size.diameter is not None:
        return pi * size.diameter
    if size.width is not None and size.height is not None:
        return 2.0 * (size.width + size.height)
    assert size.major is not None and size.minor is not None
    return pi * size.minor + 2.0 * (size.major - size.minor)


def size_rules(size: DuctSize) -> tuple[Rule, ...]:
    """The rule by which a size is turned into a round diameter."""
    return _SIZE_RULES[size.shape]


def stretch_factor(diameter: float, stretch: float) -> float:
    """By how much more a flexible duct loses than when fully extended: 1 + 58 (1 - stretch) exp(-0.00496 D), D in mm.

    Source: ducts.flexible-stretch. Valid: 4 to 16 in, stretch 0.55 to 1.
    """
    return 1.0 + 58.0 * (1.0 - stretch) * exp(-_STRETCH_FADES * diameter)


def duct_gradient(flow: float, diameter: float, roughness: float, air: Air, stretch: float | None) -> float:
    """Pressure lost per length of straight duct, Pa/m. `diameter` is the equivalent round one; `stretch` only for flexible duct. SI throughout."""
    taut = pressure_gradient(flow, diameter, roughness, air.density, air.viscosity)
    return taut if stretch is None else taut * stretch_factor(diameter, stretch)


def diameter_for_gradient(flow: float, gradient: float, roughness: float, air: Air, stretch: float | None, near: float | None = None) -> float:
    """The round diameter, m, at which `flow` loses `gradient` (Pa/m): the inverse of `duct_gradient`.

    Where the flow is turbulent at the diameter of `turbulent_diameter`, that is it: the gradient falls steadily with the diameter. Else the secant on
    ln D, where the gradient is nearly a straight line, goes on from there. `near`: a diameter to start from.
    Source: friction.darcy-weisbach, friction.colebrook.
    """
    start = turbulent_diameter(flow, gradient, roughness, air, stretch, near)
    if 4.0 / pi * flow * air.density >= TURBULENT_FROM * start * air.viscosity:
        return start
    x, slope, wanted = log(start), -5.0, log(gradient)
    here = log(duct_gradient(flow, start, roughness, air, stretch)) - wanted
    for _ in range(60):
        step = max(-1.0, min(1.0, here / slope))
        x -= step
        if abs(step) < 1e-10:
            break
        ahead = log(duct_gradient(flow, exp(x), roughness, air, stretch)) - wanted
        slope, here = (here - ahead) / step if abs(step) > 1e-7 else slope, ahead
    return exp(x)


def turbulent_diameter(flow: float, gradient: float, roughness: float, air: Air, stretch: float | None, near: float | None = None) -> float:
    """The round diameter, m, at which `flow` loses `gradient` (Pa/m) if it is turbulent.

    With u = sqrt(2 dp/L / rho), V = u sqrt D / sqrt f, so the Colebrook equation gives 1/sqrt f = -2 log10(roughness/(3.7 D) + 2.51 nu/(u D^1.5))
    without solving, and D follows from D^2.5 / sqrt f = 4 q/(pi u) by Newton's method on ln D, whose error is squared at every step.
    A flexible duct takes the gradient over its stretch factor.
    Source: friction.darcy-weisbach, friction.colebrook.
    """
    u = sqrt(2.0 * gradient / air.density)
    wanted, rough, smooth = 4.0 / pi * flow / u, roughness / 3.7, 2.51 * air.viscosity / (air.density * u)
    taut, bend = 1.0, 0.0
    diameter = near or float((wanted / 7.0) ** 0.4)
    for _ in range(60):
        if stretch is not None:
            factor = stretch_factor(diameter, stretch)
            taut, bend = sqrt(factor), 0.5 * _STRETCH_FADES * diameter * (1.0 - 1.0 / factor)
        root = sqrt(diameter)
        by_roughness, by_viscosity = rough / diameter, smooth * taut / (diameter * root)
        x = -2.0 * log10(by_roughness + by_viscosity)
        if x < 1.0:
            x = 1.0
        slope = 2.5 + bend + PER_LOG * (1.0 + (0.5 + bend) * by_viscosity / (by_roughness + by_viscosity)) / x
        grows = float((wanted * taut / (diameter * diameter * root * x)) ** (1.0 / slope))
        diameter *= grows
        if -1e-6 < grows - 1.0 < 1e-6:
            break
    return diameter


def diameter_for_velocity(flow: float, velocity: float) -> float:
    """The round diameter, m, at which `flow` has `velocity`."""
    return sqrt(flow / (pi / 4.0 * velocity))
