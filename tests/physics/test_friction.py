"""The friction factor against the general-purpose library `fluids`, its slope against differences, and its direction."""

from itertools import pairwise

import fluids
import pytest

from kneewall.physics.friction import friction_factor, friction_factor_and_slope, pressure_gradient, turbulent_factor

ROUGHNESS = [0.0, 1e-6, 1e-4, 1e-3, 1e-2, 0.05]


@pytest.mark.parametrize("relative", ROUGHNESS)
@pytest.mark.parametrize("reynolds", [1.0, 500.0, 2000.0, 4000.0, 1e4, 7.3e4, 1e6, 1e8])
def test_friction_factor_agrees_with_fluids(reynolds: float, relative: float) -> None:
    """`fluids.friction_factor` with Colebrook solved by Clamond's method, and 64/Re below: agreement to 1e-6."""
    reference = 64 / reynolds if reynolds <= 2000 else fluids.friction_factor(Re=reynolds, eD=relative, Method="Clamond")
    assert friction_factor(reynolds, relative) == pytest.approx(reference, rel=1e-6)


@pytest.mark.parametrize("relative", ROUGHNESS)
def test_converged_to_the_colebrook_equation_itself(relative: float) -> None:
    """Put back into 1/sqrt f = -2 log10(e/3.7 + 2.51/(Re sqrt f)), the factor satisfies it to 1e-10."""
    from math import log10, sqrt

    for reynolds in (4e3, 2e4, 3e5, 5e7):
        x = 1 / sqrt(friction_factor(reynolds, relative))
        assert x == pytest.approx(-2 * log10(relative / 3.7 + 2.51 * x / reynolds), rel=1e-10)


@pytest.mark.parametrize("relative", ROUGHNESS)
@pytest.mark.parametrize("reynolds", [800.0, 2100.0, 3000.0, 3900.0, 4100.0, 5e4])
def test_slope_is_the_slope(reynolds: float, relative: float) -> None:
    step = reynolds * 1e-6
    difference = (friction_factor(reynolds + step, relative) - friction_factor(reynolds - step, relative)) / (2 * step)
    assert friction_factor_and_slope(reynolds, relative)[1] == pytest.approx(difference, rel=1e-4, abs=1e-12)


@pytest.mark.parametrize("relative", ROUGHNESS)
def test_more_flow_more_loss_without_a_jump(relative: float) -> None:
    """From laminar through transition to turbulent the loss f Re^2 rises at every step and never jumps."""
    losses = [friction_factor(re, relative) * re * re for re in range(1500, 5000, 5)]
    assert all(1.0 < after / before < 1.02 for before, after in pairwise(losses))


def test_fully_turbulent_factor() -> None:
    """At a Reynolds number of 1e12 `fluids` gives the same factor."""
    assert turbulent_factor(0.002) == pytest.approx(fluids.friction_factor(Re=1e12, eD=0.002), rel=1e-6)


def test_water_pipe_of_a_textbook() -> None:
    """Smooth duct, 0.35 m3/s of air at 1.145 kg/m3 and 1.655e-5 m2/s: D 0.267 m gives f 0.0180 and a loss of 20 m of air in 150 m.

    Inputs: an open collection of worked textbook examples, fluid mechanics, chapter 8, example 4; the printed diameter from memory. Three digits are printed.
    """
    gradient = pressure_gradient(0.35, 0.267, 0.0, 1.145, 1.655e-5 * 1.145)
    assert gradient * 150 / (1.145 * 9.81) == pytest.approx(20, rel=0.01)
