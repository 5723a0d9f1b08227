"""Duct shapes, stretch and fittings against printed figures."""

import pytest

from kneewall.physics import duct_fittings, ducts
from kneewall.physics.air import STANDARD
from tests.outside import Outside

INCH = 0.0254


@pytest.mark.parametrize(
    ("sides", "printed", "source"),
    [
        ((10, 6), 8.4, "handbook table of equivalent diameters"),
        ((24, 10), 16.6, "handbook table of equivalent diameters"),
        ((300 / 25.4, 500 / 25.4), 420 / 25.4, "open web reference, 300 x 500 mm"),
    ],
)
def test_rectangular_equivalents(sides: tuple[float, float], printed: float, source: str) -> None:
    got = ducts.rectangular_equivalent(sides[0] * INCH, sides[1] * INCH) / INCH
    Outside(printed, source, "from-memory", 0.005, "three digits are printed").check(got)


def test_flat_oval_is_between_round_and_flat() -> None:
    """A circle is its own equivalent within 1 % (1.55 (pi/4)^0.625 / pi^0.25 = 1.0013, by hand), and a longer oval carries more."""
    assert ducts.oval_equivalent(8 * INCH, 8 * INCH) == pytest.approx(8 * INCH, rel=0.01)
    assert ducts.oval_equivalent(20 * INCH, 8 * INCH) > ducts.oval_equivalent(14 * INCH, 8 * INCH)


@pytest.mark.parametrize(("inches", "stretch", "factor"), [(6.22, 0.70, 8.95), (6.0, 0.70, 9.17)])
def test_stretch_of_a_handbook_example(inches: float, stretch: float, factor: float) -> None:
    """30 % slack: about 795 % above taut, a factor of 8.95, which by the handbook's own formula belongs to 158 mm; 9.17 at 6 in by hand:
    1 + 58 x 0.30 x exp(-0.126 x 6) = 1 + 17.4 x 0.4695 = 9.17."""
    Outside(factor, "ASHRAE Handbook - Fundamentals, ch. 21, example quoted in a note", "published", 0.005, "three digits").check(
        ducts.stretch_factor(inches * INCH, stretch)
    )


@pytest.mark.parametrize(
    ("flow", "gradient", "roughness", "stretch"),
    [(0.5, 0.8, 9e-5, None), (0.05, 0.5, 9e-4, None), (20.0, 8.0, 9e-4, None), (0.1, 0.8, 9e-4, 0.96), (0.2, 2.0, 9e-4, 0.55)],
)
def test_the_diameter_of_a_loss_loses_it(flow: float, gradient: float, roughness: float, stretch: float | None) -> None:
    """Put into `fluids.one_phase_dP` (general-purpose library, Colebrook solved by Clamond's method), the diameter gives the loss back."""
    import fluids

    diameter = ducts.diameter_for_gradient(flow, gradient, roughness, STANDARD, stretch)
    density, viscosity = float(STANDARD.density), float(STANDARD.viscosity)
    taut = fluids.one_phase_dP(flow * density, density, viscosity, diameter, roughness=roughness, L=1.0, Method="Clamond")
    assert taut * (1.0 if stretch is None else ducts.stretch_factor(diameter, stretch)) == pytest.approx(gradient, rel=1e-9)


@pytest.mark.parametrize("stretch", [None, 1.0, 0.9, 0.6])
def test_diameter_and_loss_agree_from_laminar_to_turbulent(stretch: float | None) -> None:
    """From Reynolds numbers of some hundreds, through both borders of the transition, to some ten thousand."""
    for step in range(400):
        flow = 0.0005 * 1.02**step
        diameter = ducts.diameter_for_gradient(flow, 0.05, 9e-4, STANDARD, stretch)
        assert ducts.duct_gradient(flow, diameter, 9e-4, STANDARD, stretch) == pytest.approx(0.05, rel=1e-9)
        assert ducts.diameter_for_gradient(flow, 0.05, 9e-4, STANDARD, stretch, near=1.3 * diameter) == pytest.approx(diameter, rel=1e-9)


def test_borda_carnot() -> None:
    """(1 - A1/A2)^2 with A1/A2 = 1/2 is 0.25, by hand; `fluids.diffuser_sharp` with its Crane method is the same formula."""
    import fluids

    loss = duct_fittings.fitting_loss(duct_fittings.DuctFitting(fitting="expansion-abrupt", area_ratio=2.0))
    assert loss.coefficient == pytest.approx(0.25)
    assert loss.coefficient == pytest.approx(fluids.diffuser_sharp(Di1=1.0, Di2=2.0**0.5))


@pytest.mark.parametrize(
    ("name", "ratio", "angle", "printed"),
    [
        ("elbow-smooth", 1.0, None, 0.22),
        ("elbow-smooth", 1.5, 45.0, 0.15 * 0.60),
        ("elbow-segmented", 0.75, None, 0.54),
        ("elbow-mitred", None, 45.0, 0.34),
    ],
)
def test_elbows_of_the_duct_design_manual(name: str, ratio: float | None, angle: float | None, printed: float) -> None:
    """HVAC Systems Duct Design, SMACNA, 4th edition, Table A-7: printed rows are exact."""
    loss = duct_fittings.fitting_loss(duct_fittings.DuctFitting(fitting=name, radius_ratio=ratio, angle=angle))  # type: ignore[arg-type]
    assert loss.coefficient == pytest.approx(printed)


def test_equal_split_at_right_angles_loses_both_velocity_pressures() -> None:
    """rho/2 (Vc^2 + Vb^2 - 2 Vc Vb cos 90): with Vc = Vb it is two velocity pressures, by hand."""
    loss = duct_fittings.fitting_loss(duct_fittings.DuctFitting(fitting="takeoff"))
    assert loss.takeoff_cosine == pytest.approx(0.0, abs=1e-12)
