"""Copper tube against printed dimensions, weights and working pressures."""

import math
import random

import fluids
import pytest

from kneewall.kernel.quantity import Dimension, Temperature
from kneewall.physics.tubes import Temper, Tube, rated_pressure, tube_losses, tubes_named, tubes_of
from tests.outside import Outside

PRINTED_RATINGS = {
    (0.25, 0.030): 1195, (0.375, 0.032): 836, (0.5, 0.032): 618, (0.625, 0.035): 525, (0.75, 0.035): 435, (0.75, 0.042): 537,
    (0.875, 0.045): 495, (1.125, 0.050): 420, (1.375, 0.055): 373, (1.625, 0.060): 347,
}  # fmt: skip


def _made(temper: str, size: float, wall: float) -> Tube:
    return next(tube for tube in tubes_named(temper, Dimension.of(size, "in")) if tube.wall.to("in") == pytest.approx(wall))  # type: ignore[arg-type]


@pytest.mark.parametrize(("size", "wall"), PRINTED_RATINGS)
def test_working_pressure_of_annealed_tube(size: float, wall: float) -> None:
    got = rated_pressure(_made("annealed", size, wall), Temperature.of(150, "degF"))
    assert got is not None
    source = "working-pressure sheet for ASTM B280 annealed tube at 150 degF, issuer not established"
    Outside(PRINTED_RATINGS[size, wall], source, "published", 0.002, "printed to 1 psi").check(got.to("psig"))


@pytest.mark.parametrize(
    ("size", "psi"), [(0.375, 775), (0.5, 662), (0.625, 613), (0.75, 537), (0.875, 495), (1.125, 420), (1.375, 373), (1.625, 347)]
)
def test_drawn_tube_is_rated_as_annealed_because_brazing_anneals(size: float, psi: float) -> None:
    got = rated_pressure(tubes_named("drawn", Dimension.of(size, "in"))[0], Temperature.of(150, "degF"))
    assert got is not None
    Outside(psi, "gas supplier's pressure-rating sheet, copper of Type L and ACR at 150 degF", "published", 0.002, "printed to 1 psi").check(
        got.to("psig")
    )


@pytest.mark.parametrize(
    ("size", "weight"), [(0.375, 0.126), (0.5, 0.198), (0.625, 0.285), (0.75, 0.362), (0.875, 0.455), (1.125, 0.655), (1.375, 0.884), (1.625, 1.14)]
)
def test_weight_of_drawn_tube(size: float, weight: float) -> None:
    tube = tubes_named("drawn", Dimension.of(size, "in"))[0]
    Outside(weight, "ASTM B280-20, Table 1", "published", 0.005, "printed to three figures").check(tube.weight.to("lb/ft"))


@pytest.mark.parametrize(("size", "inside"), [("1/4 in", 0.190), ("5/16 in", 0.248), ("1/2 in", 0.436), ("7/8 in", 0.785), ("1-5/8 in", 1.505)])
def test_inside_diameter_of_annealed_tube(size: str, inside: float) -> None:
    """ASTM B280, table reproduced: inside diameters as printed there, to 0.001 in (5/16 in is 0.2485)."""
    assert tubes_named("annealed", Dimension.read(size))[0].inside_diameter.to("in") == pytest.approx(inside, abs=0.00051)


@pytest.mark.parametrize(("degrees", "psi"), [(100, 5100), (150, 5100), (175, 5000), (200, 4900), (250, 4800)])
def test_stress_falls_with_temperature_and_never_exceeds_that_at_150(degrees: float, psi: float) -> None:
    """Copper Tube Handbook (Copper Development Association), allowable stress of annealed tube; 175 degF halfway between two printed rows."""
    tube = tubes_of("annealed")[0]
    got, at_150 = rated_pressure(tube, Temperature.of(degrees, "degF")), rated_pressure(tube, Temperature.of(150, "degF"))
    assert got is not None and at_150 is not None
    assert got / at_150 == pytest.approx(psi / 5100, rel=1e-12)


def test_no_rating_above_the_hottest_printed_temperature() -> None:
    assert rated_pressure(tubes_of("annealed")[0], Temperature.of(250.1, "degF")) is None


def test_sizes_that_are_not_made() -> None:
    assert tubes_named("drawn", Dimension.read("5/16 in")) == ()
    assert tubes_named("annealed", Dimension.read("1 in")) == ()
    assert [tube.wall.to("in") for tube in tubes_named("annealed", Dimension.read("3/4 in"))] == pytest.approx([0.042, 0.035])


@pytest.mark.parametrize("temper", ["annealed", "drawn"])
def test_friction_in_a_tube_is_colebrooks(temper: Temper) -> None:
    """Reference: the Colebrook equation solved by `fluids`, at Reynolds numbers over and beyond those worked out beforehand; laminar 64/Re."""
    draw = random.Random(temper)
    for tube in tubes_of(temper):
        for reynolds in [1500.0, 4000.0, 9.9e7, 1.1e8, *(10.0 ** draw.uniform(3.61, 8.5) for _ in range(20))]:
            viscosity, density = 1.2e-5, 40.0
            mass_flow = reynolds * viscosity * tube.area / tube.inside_diameter
            (friction,) = tube_losses([tube], [10.0], mass_flow, density, viscosity)
            factor = fluids.friction.Colebrook(reynolds, 1.5e-6 / tube.inside_diameter) if reynolds > 2000.0 else 64.0 / reynolds
            velocity = mass_flow / density / (math.pi / 4.0 * tube.inside_diameter**2)
            assert friction == pytest.approx(factor * 10.0 / tube.inside_diameter * density * velocity**2 / 2.0, rel=1e-7)
