"""Splines against SciPy's: the same cubics, to the last digits."""

import random

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from kneewall.physics.spline import Through, curve, even_steps, inverse, surface

SAME = 1e-12


@pytest.mark.parametrize("count", [4, 5, 9, 90])
def test_a_spline_through_uneven_points_is_scipys(count: int) -> None:
    """Reference: scipy.interpolate.CubicSpline, not-a-knot ends."""
    draw = random.Random(count)
    x = sorted(draw.sample(range(1000), count))
    y = [draw.gauss(0.0, 1.0) for _ in x]
    ours, theirs = Through(x, y), CubicSpline(x, y)
    places = even_steps(x[0], x[-1], 500)
    assert [ours.at(place) for place in places] == pytest.approx(theirs(places), rel=SAME, abs=SAME * float(abs(theirs(places)).max()))


def test_a_curve_on_even_steps_is_scipys() -> None:
    """Reference: scipy.interpolate.CubicSpline, not-a-knot ends."""
    values = [random.Random(7).gauss(0.0, 1.0) for _ in range(40)]
    ours, theirs = curve(2.0, 5.0, values), CubicSpline(np.linspace(2.0, 5.0, 40), values)
    places = even_steps(2.0, 5.0 - 1e-9, 300)
    assert [ours.at(place) for place in places] == pytest.approx(theirs(places), rel=1e-9, abs=1e-9)


def test_a_surface_is_scipys_spline_one_way_and_then_the_other() -> None:
    """Reference: scipy.interpolate.CubicSpline along the columns, and along a row of what it gave."""
    values = np.random.default_rng(3).normal(size=(12, 8))
    ours = surface(2.0, 5.0, 3.0, values.tolist())
    down = CubicSpline(np.linspace(2.0, 5.0, 12), values, axis=0)
    for x in even_steps(2.0, 5.0 - 1e-9, 23):
        across = CubicSpline(np.linspace(0.0, 3.0, 8), down(x))
        for y in even_steps(0.0, 3.0 - 1e-9, 17):
            assert ours.at(x, y) == pytest.approx(float(across(y)), rel=1e-9, abs=1e-9)


def test_a_cubic_comes_back_whole() -> None:
    """By hand: a spline through points of 1 + 2x - x2 + x3/2 with such ends is that cubic, and its inverse leads back."""
    through = Through([0.0, 0.5, 2.0, 3.0, 4.5], [1.0 + 2.0 * x - x * x + 0.5 * x**3 for x in (0.0, 0.5, 2.0, 3.0, 4.5)])
    assert through.at(1.3) == pytest.approx(1.0 + 2.6 - 1.69 + 0.5 * 1.3**3, rel=SAME)
    back = inverse(through.at, 0.0, 4.5, 200)
    assert back.at(through.at(1.3)) == pytest.approx(1.3, abs=1e-6)


def test_a_curve_by_logarithms_is_the_curve() -> None:
    """Reference: scipy.interpolate.CubicSpline at numpy's log2; what is left below or above the range is nothing."""
    values = [random.Random(11).gauss(0.0, 1.0) for _ in range(40)]
    ours, theirs = curve(2.0, 5.0, values), CubicSpline(np.linspace(2.0, 5.0, 40), values)
    drops = [0.0, 3.0, 11.5, 26.0]
    found = ours.at_log2_less(31.0, drops, 5.0, 31.0)
    assert found == pytest.approx([float(theirs(np.log2(31.0 - drop))) for drop in drops], rel=1e-9, abs=1e-9)
    assert ours.at_log2_less(31.0, [0.0, 1.0, 26.0, 26.1], 5.0, 30.0)[0::3] == [None, None]
