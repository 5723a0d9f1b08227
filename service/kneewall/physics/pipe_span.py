"""A horizontal pipe between two supports: what it weighs, how far it sags, and whether a drain still falls all the way."""

from bisect import bisect_left
from math import pi
from pathlib import Path
from typing import Literal

from kneewall.kernel.quantity import Dimension, LinearLoad, Slope, Stress, Temperature
from kneewall.kernel.rule import Rule, Source
from kneewall.kernel.table import load_table
from kneewall.physics.beams import uniform_deflection, uniform_end_slope
from kneewall.physics.constants import STANDARD_GRAVITY
from kneewall.physics.pipes import PIPE_SIZES, PipeMaterial

HungMaterial = Literal[
    "copper-type-k",
    "copper-type-l",
    "copper-type-m",
    "pvc-schedule-40",
    "pvc-schedule-80",
    "cpvc-schedule-40",
    "cpvc-schedule-80",
    "cpvc-cts",
    "abs-schedule-40",
    "pex",
    "pe-dr-11",
    "pe-dr-13.5",
    "steel-schedule-40",
    "galvanized-steel-schedule-40",
]
"""Pipe that is hung: every pipe of `pipes` but hose, and ABS, which is drain pipe only."""

WATER_DENSITY = 999.0
"""kg/m3, cold water: 8.337 lb per gallon"""
ABS_DENSITY = 1050.0
THOUSANDTH_OF_AN_INCH = 2.54e-5

_TABLES = Path(__file__).parent / "tables"
ABS_SIZES = load_table(_TABLES / "pipe_abs.toml")
MODULUS_TABLE = load_table(_TABLES / "plastic_modulus.toml")
PLASTIC_MODULUS = MODULUS_TABLE.rule

SIMPLE_SPAN = Rule(
    id="pipe-span.simple-span",
    says="Between two hangers a pipe full of water bends as a beam on two supports, which is the worse of the usual cases: sag 5 w L^4/(384 E I) "
    "in the middle, slope w L^3/(24 E I) at the hangers. Where that slope exceeds the fall of a drain, the water stands in the middle of the span.",
    kind="formula",
    source=Source(title="Beam theory: uniformly loaded simple beam"),
    standing="computed",
)


class HungPipe:
    """A pipe as the hangers know it. SI: modulus Pa, weights N/m, second moment of area m4."""

    __slots__ = ("empty_weight", "full_weight", "inside", "material", "outside", "rule", "second_moment", "substance")

    def __init__(self, material: str, outside: Dimension, inside: Dimension, density: float, rule: Rule) -> None:
        self.material = material
        self.substance = material.partition("-")[0]
        self.outside = outside
        self.inside = inside
        self.rule = rule
        bore, ring = pi / 4.0 * inside * inside, pi / 4.0 * (outside * outside - inside * inside)
        self.empty_weight = LinearLoad(ring * density * STANDARD_GRAVITY)
        self.full_weight = LinearLoad(self.empty_weight + bore * WATER_DENSITY * STANDARD_GRAVITY)
        self.second_moment = pi / 64.0 * (outside**4 - inside**4)

    def stiffness(self, temperature: float) -> float | None:
        """Elastic modulus, Pa, at a temperature in K; None where we know none.

        Source: pipe-span.plastic-modulus; metals as in pipes.material. Valid: up to 140 degF for PVC and PE, 180 degF for CPVC; not for PEX and ABS.
        """
        return modulus(self.substance, temperature)


def _hung() -> dict[str, dict[int, HungPipe]]:
    found: dict[str, dict[int, HungPipe]] = {}
    for material, sizes in PIPE_SIZES.items():
        found[material] = {
            _key(one.nominal_size): HungPipe(material, one.outside_diameter, one.inside_diameter, one.wall.density, one.rule) for one in sizes
        }
    found["abs-schedule-40"] = {
        _key(Dimension.of(float(row["nominal_size"]), "in")): HungPipe(
            "abs-schedule-40", Dimension.of(float(row["outside_diameter"]), "in"), Dimension.of(float(row["inside_diameter"]), "in"), ABS_DENSITY, ABS_SIZES.rule
        )
        for row in ABS_SIZES.rows
    }  # fmt: skip
    return found


def _key(size: float) -> int:
    return round(size / THOUSANDTH_OF_AN_INCH)


def _moduli() -> dict[str, tuple[list[float], list[float]]]:
    found: dict[str, tuple[list[float], list[float]]] = {}
    for substance in ("pvc", "cpvc", "pe"):
        known = [row for row in MODULUS_TABLE.rows if substance in row]
        found[substance] = (
            [Temperature.of(float(row["temperature"]), "degF") for row in known],
            [Stress.of(float(row[substance]), "psi") for row in known],
        )
    return found


HUNG_PIPES = _hung()
_MODULI = _moduli()
_METAL = {sizes[0].wall.substance.removeprefix("galvanized-"): float(sizes[0].wall.elastic_modulus) for sizes in PIPE_SIZES.values()}
PLASTICS = frozenset(("pvc", "cpvc", "abs", "pex", "pe"))


def hung_pipe(material: HungMaterial | PipeMaterial, nominal_size: float) -> HungPipe | None:
    """The pipe of this material and nominal size, m; None where it is not made or not in the table."""
    return HUNG_PIPES[material].get(_key(nominal_size))


def modulus(substance: str, temperature: float) -> float | None:
    """Elastic modulus, Pa, of a pipe's substance at a temperature in K; None where we know none. Source: pipe-span.plastic-modulus."""
    if substance in ("copper", "steel", "galvanized"):
        return _METAL["copper" if substance == "copper" else "steel"]
    known = _MODULI.get(substance)
    if known is None or temperature > known[0][-1] + 1e-9:
        return None
    temperatures, values = known
    at = bisect_left(temperatures, temperature)
    if at == 0:
        return values[0]
    at = min(at, len(values) - 1)
    share = (temperature - temperatures[at - 1]) / (temperatures[at] - temperatures[at - 1])
    return values[at - 1] + share * (values[at] - values[at - 1])


def hottest_known(substance: str) -> Temperature | None:
    """The highest temperature at which a plastic's stiffness is known; None for metals and for plastics whose stiffness we do not know at all."""
    known = _MODULI.get(substance)
    return None if known is None else Temperature(known[0][-1])


def slope_at_support(weight: float, span: float, modulus: float, second_moment: float) -> Slope:
    """Slope of a full pipe at its hangers on a simple span. N/m, m, Pa, m4. Source: pipe-span.simple-span."""
    return Slope(uniform_end_slope(weight, span, modulus * second_moment))


def sag_between(weight: float, span: float, modulus: float, second_moment: float) -> Dimension:
    """Sag in the middle of a simple span. N/m, m, Pa, m4. Source: pipe-span.simple-span."""
    return Dimension(uniform_deflection(weight, span, modulus * second_moment))


def span_that_drains(weight: float, slope: float, modulus: float, second_moment: float) -> float:
    """The longest span, m, at which a pipe hung at `slope` still falls everywhere: (24 E I s/w)^(1/3). N/m, -, Pa, m4. Source: pipe-span.simple-span."""
    return float((24.0 * modulus * second_moment * slope / weight) ** (1.0 / 3.0))
