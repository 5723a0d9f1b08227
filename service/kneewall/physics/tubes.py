"""Copper tube for refrigerants: its nominal sizes, dimensions, weight and working pressure."""

from collections.abc import Sequence
from math import exp2, log2, pi, sqrt, trunc
from pathlib import Path
from typing import Literal

import msgspec

from kneewall.kernel.quantity import Dimension, GaugePressure, MassPerLength, Stress, Temperature
from kneewall.kernel.rule import Rule, Source
from kneewall.kernel.table import load_table
from kneewall.physics.friction import TURBULENT_FROM, colebrook, friction_factor
from kneewall.physics.spline import Cubic, curve, even_steps

Temper = Literal["annealed", "drawn"]

TUBE_TABLE = load_table(Path(__file__).parent / "tables" / "tube_dimensions.toml")
DIMENSIONS = TUBE_TABLE.rule
STRESS_TABLE = load_table(Path(__file__).parent / "tables" / "tube_stress.toml")
RATED_PRESSURE = STRESS_TABLE.rule
_stress_at = STRESS_TABLE.along("temperature", "stress")
WEIGHT = Rule(
    id="tubes.weight",
    says="A copper tube weighs its metal's cross-section times 0.323 lb/in3.",
    kind="formula",
    source=Source(title="Copper Tube Handbook, physical properties of copper C12200", publisher="Copper Development Association"),
    standing="from-memory",
)

COPPER_DENSITY = 8940.0
"""kg/m3"""
COPPER_ROUGHNESS = 1.5e-6
"""m; drawn tubing"""
SAME_SIZE = 1e-5
"""m within which a size asked for is the nominal size"""
COOLEST_RATED = Temperature.of(150, "degF")
"""Tube is never rated by a stress for cooler metal than this, because a line may stand in a hot attic."""
HOTTEST_RATED = Temperature.of(250, "degF")
_CURVE_TO, _NODES = 1e8, 160
_CURVE_FROM = log2(TURBULENT_FROM)
_CURVE_PER = (_NODES - 1) / (log2(_CURVE_TO) - _CURVE_FROM)


class Tube(msgspec.Struct, frozen=True, kw_only=True):
    """One made tube."""

    nominal_size: Dimension
    temper: Temper
    wall: Dimension
    inside_diameter: Dimension
    least_wall: Dimension
    greatest_diameter: Dimension
    area: float
    """Open cross-section, m2."""
    slenderness: float
    """Bore over open cross-section, 1/m: what the Reynolds number goes with."""
    place: float
    """Its share in where a Reynolds number stands on `turbulent`."""
    resistance: float
    """One over the bore and the square of the open cross-section, 1/m5: what friction goes with."""
    riser: float
    """Open cross-section times the root of the bore, m2.5: what the least flow that carries oil up goes with."""
    relative_roughness: float
    turbulent: tuple[Cubic, ...]
    """f/(D A2) of turbulent flow by log2 Re: the Colebrook equation solved beforehand, which is the same for every flow in this tube."""
    strength: float
    """Working pressure over allowable stress."""
    coolest_rating: GaugePressure
    """Working pressure of the brazed tube up to 150 degF."""
    weight: MassPerLength


def tube_losses(tubes: Sequence[Tube], lengths: Sequence[float], mass_flow: float, density: float, viscosity: float) -> list[float]:
    """Friction, Pa, of one flow of gas or liquid in each tube, smallest bore first, of an equivalent length, m; kg/s, kg/m3, Pa.s.

    dp = f L/D m^2/(2 rho A^2), Re = m D/(mu A), f within 1e-8 of `friction_factor`. Source: friction.darcy-weisbach, friction.colebrook.
    """
    per_viscosity, square = mass_flow / viscosity, mass_flow * mass_flow / (2.0 * density)
    by_flow = (log2(per_viscosity) - _CURVE_FROM) * _CURVE_PER
    frictions = []
    if by_flow + tubes[-1].place >= 0.0 and by_flow + tubes[0].place < _NODES - 1:
        for tube, length in zip(tubes, lengths, strict=True):
            place = by_flow + tube.place
            step = trunc(place)
            a, b, c, d = tube.turbulent[step]
            t = place - step
            frictions.append(square * length * (a + t * (b + t * (c + t * d))))
    else:
        for tube, length in zip(tubes, lengths, strict=True):
            factor = friction_factor(per_viscosity * tube.slenderness, tube.relative_roughness)
            frictions.append(square * length * tube.resistance * factor)
    return frictions


def tubes_of(temper: Temper) -> tuple[Tube, ...]:
    """Every made tube of a temper, smallest bore first."""
    return _TUBES[temper]


def tubes_named(temper: Temper, nominal_size: float) -> tuple[Tube, ...]:
    """The tubes of this nominal size (outside diameter, m): none where it is not made, two where two walls are made."""
    return tuple(tube for tube in _TUBES[temper] if abs(tube.nominal_size - nominal_size) < SAME_SIZE)


def tube_weight(outside_diameter: float, wall: float) -> float:
    """Mass per length, kg/m, of copper tube of the given dimensions in m: rho pi t (D - t). Source: tubes.weight."""
    return COPPER_DENSITY * pi * wall * (outside_diameter - wall)


def allowable_stress(temperature: float) -> float | None:
    """Allowable stress of annealed copper, Pa, at a temperature in K; None above 250 degF.

    Linear between the printed temperatures. Source: tubes.rated-pressure. Departs: 150 degF is taken where the metal is cooler.
    """
    if temperature > HOTTEST_RATED + 1e-9:
        return None
    metal = COOLEST_RATED if temperature <= COOLEST_RATED else HOTTEST_RATED if temperature >= HOTTEST_RATED else Temperature(temperature)
    stress = _stress_at(round(metal.to("degF"), 9))
    return None if stress is None else Stress.of(stress, "psi")


def rated_pressure(tube: Tube, temperature: float) -> GaugePressure | None:
    """Working pressure of a brazed tube at a metal temperature in K: P = 2 S t/(D - 0.8 t); None above 250 degF.

    Source: tubes.rated-pressure. Valid: to 250 degF.
    """
    stress = allowable_stress(temperature)
    return None if stress is None else GaugePressure(stress * tube.strength)


def _tube(row: dict[str, float | str | bool]) -> Tube:
    size, wall, least, greatest = (Dimension.of(float(row[name]), "in") for name in ("nominal_size", "wall", "least_wall", "greatest_diameter"))
    inside = Dimension(size - 2.0 * wall)
    area, roughness = pi / 4.0 * inside * inside, COPPER_ROUGHNESS / inside
    resistance, strength = 1.0 / (inside * area * area), 2.0 * least / (greatest - 0.8 * least)
    places = even_steps(_CURVE_FROM, log2(_CURVE_TO), _NODES)
    return Tube(
        nominal_size=size,
        temper=row["temper"],  # type: ignore[arg-type]
        wall=wall,
        inside_diameter=inside,
        least_wall=least,
        greatest_diameter=greatest,
        area=area,
        slenderness=inside / area,
        place=log2(inside / area) * _CURVE_PER,
        resistance=resistance,
        riser=area * sqrt(inside),
        relative_roughness=roughness,
        turbulent=curve(places[0], places[-1], [resistance / colebrook(exp2(place), roughness)[0] ** 2 for place in places]).cubics,
        strength=strength,
        coolest_rating=GaugePressure(_COOLEST_STRESS * strength),
        weight=MassPerLength(tube_weight(size, wall)),
    )


_COOLEST_STRESS = allowable_stress(COOLEST_RATED) or 0.0
_MADE = sorted((_tube(row) for row in TUBE_TABLE.rows), key=lambda tube: tube.inside_diameter)
_TUBES: dict[str, tuple[Tube, ...]] = {temper: tuple(tube for tube in _MADE if tube.temper == temper) for temper in ("annealed", "drawn")}
