"""Pipe between hangers against hand calculations and first principles."""

from itertools import pairwise

import pytest

from kneewall.kernel.quantity import Dimension, Slope, Stress, Temperature
from kneewall.physics.pipe_span import HUNG_PIPES, HungPipe, hung_pipe, modulus, sag_between, slope_at_support, span_that_drains
from kneewall.physics.pipes import PLASTIC_SCHEDULE
from tests.outside import Outside

INCH = 0.0254
POUND_PER_FOOT = 0.45359237 * 9.80665 / 0.3048


def _pvc(outside: float, inside: float) -> HungPipe:
    return HungPipe("pvc-schedule-40", Dimension.of(outside, "in"), Dimension.of(inside, "in"), 1400.0, PLASTIC_SCHEDULE.rule)


SLOPES = [
    (1.05, 0.824, 48, (0.0112, 0.0145, 0.0166)),
    (1.05, 0.824, 36, (0.0047, 0.0061, 0.0070)),
    (1.315, 1.049, 48, (0.0074, 0.0096, 0.0110)),
]


@pytest.mark.parametrize(("outside", "inside", "span", "slopes"), SLOPES)
def test_slope_of_full_pvc_at_its_hangers(outside: float, inside: float, span: float, slopes: tuple[float, ...]) -> None:
    """w L^3/(24 E I), E 400, 310 and 270 ksi at 73, 120 and 140 degF (from memory), worked out beforehand and printed to 0.0001."""
    pipe = _pvc(outside, inside)
    for degrees, slope in zip((73, 120, 140), slopes, strict=True):
        stiff = pipe.stiffness(Temperature.of(degrees, "degF"))
        assert stiff is not None
        assert slope_at_support(pipe.full_weight, span * INCH, stiff, pipe.second_moment) == pytest.approx(slope, abs=0.0001)


@pytest.mark.parametrize(("share", "drains"), [(0.99, True), (1.01, False)])
def test_water_stands_just_where_the_span_is_too_long(share: float, drains: bool) -> None:
    """The elastic line of a simple beam y = w x (L^3 - 2 L x^2 + x^3)/(24 E I), laid on the slope: does its invert rise anywhere?"""
    pipe, stiff, slope = _pvc(1.05, 0.81), Stress.of(300, "ksi"), Slope.of(0.125, "in/ft")
    span = span_that_drains(pipe.full_weight, slope, stiff, pipe.second_moment) * share
    at = [span * step / 1000 for step in range(1001)]
    inverts = [-slope * x - pipe.full_weight * x * (span**3 - 2 * span * x * x + x**3) / (24 * stiff * pipe.second_moment) for x in at]
    assert all(after <= before for before, after in pairwise(inverts)) is drains


@pytest.mark.parametrize(("size", "weight"), [(0.5, 0.439), (0.75, 0.831), (1, 1.178), (1.25, 1.567), (1.5, 2.111), (2, 3.374)])
def test_weight_of_copper_tube_full_of_water(size: float, weight: float) -> None:
    """Type K copper tube and water, lb/ft."""
    pipe = hung_pipe("copper-type-k", Dimension.of(size, "in"))
    assert pipe is not None
    printed = Outside(
        weight, "table of type K tube and water printed beside hanger spacings (web copy, title not visible)", "published", 0.003, "printed to 0.001"
    )
    printed.check(pipe.full_weight / POUND_PER_FOOT)


@pytest.mark.parametrize(("size", "span", "sag"), [(1, 32, 0.29), (1, 48, 1.47), (2, 48, 0.45)])
def test_sag_of_polyethylene(size: float, span: float, sag: float) -> None:
    """SDR 11 full of water at its long-term modulus of 28 ksi: 5 w L^4/(384 E I) worked out beforehand with a bore of D - 2 D/11, ours is D - 2.12 D/11."""
    pipe = hung_pipe("pe-dr-11", Dimension.of(size, "in"))
    assert pipe is not None
    stiff = pipe.stiffness(Temperature.of(73, "degF"))
    assert stiff is not None
    assert sag_between(pipe.full_weight, span * INCH, stiff, pipe.second_moment) / INCH == pytest.approx(sag, rel=0.05)


def test_plastic_softens_with_heat() -> None:
    """PVC 400, 310 and 270 ksi at 73, 120 and 140 degF; from memory. Nothing beyond 140 degF, and the 73 degF figure below it."""
    for degrees, ksi in ((0, 400), (73, 400), (120, 310), (140, 270)):
        found = modulus("pvc", Temperature.of(degrees, "degF"))
        assert found == pytest.approx(Stress.of(ksi, "ksi"))
    assert modulus("pvc", Temperature.of(140.1, "degF")) is None
    assert modulus("pex", Temperature.of(73, "degF")) is None


def test_a_nominal_size_is_found_in_any_unit() -> None:
    for material, sizes in HUNG_PIPES.items():
        for thousandths in sizes:
            assert hung_pipe(material, thousandths * 25.4e-6) is sizes[thousandths]  # type: ignore[arg-type]
    assert hung_pipe("pvc-schedule-40", 0.01905 + 3e-5) is None
