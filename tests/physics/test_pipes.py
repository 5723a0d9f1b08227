"""Pipe data against figures that stand elsewhere."""

import pytest
from fluids.piping import nearest_pipe

from kneewall.kernel.quantity import Dimension, MassPerLength
from kneewall.physics.pipes import PIPE_SIZES, fraction, not_made, pipe_size
from tests.outside import Outside


def size(material: str, inches: float):  # type: ignore[no-untyped-def]
    found = pipe_size(material, Dimension.of(inches, "in"))  # type: ignore[arg-type]
    assert found is not None
    return found


@pytest.mark.parametrize(("nominal", "outside"), [(0.5, 0.840), (0.75, 1.050), (1, 1.315), (1.25, 1.660), (1.5, 1.900), (2, 2.375), (3, 3.5)])
def test_iron_pipe_sizes_agree_with_an_independent_library(nominal: float, outside: float) -> None:
    """ASME B36.10M as `fluids.nearest_pipe` has it; plastic pipe of schedules 40 and 80 has the same outside diameter and a smaller bore."""
    _, bore, reference, _ = nearest_pipe(NPS=nominal, schedule="40")
    steel = size("steel-schedule-40", nominal)
    Outside(reference, "fluids.nearest_pipe, ASME B36.10M", "computed", 2e-3, "metric rounding to 0.1 mm").check(steel.outside_diameter)
    Outside(bore, "fluids.nearest_pipe, ASME B36.10M", "computed", 5e-3, "metric rounding of the wall").check(steel.inside_diameter)
    assert steel.outside_diameter.to("in") == pytest.approx(outside, abs=1e-9)
    for material in ("pvc-schedule-40", "pvc-schedule-80", "cpvc-schedule-40", "cpvc-schedule-80"):
        plastic = size(material, nominal)
        assert plastic.outside_diameter == steel.outside_diameter
        assert plastic.inside_diameter < bore


@pytest.mark.parametrize(("inches", "per_foot"), [(0.5, 0.439), (0.75, 0.831), (1, 1.178), (1.25, 1.567), (1.5, 2.111), (2, 3.374)])
def test_type_k_copper_full_of_water_weighs_what_is_printed(inches: float, per_foot: float) -> None:
    """Tube and water in lb/ft, printed beside the support spacings of MSS SP-58 in a web copy (published, document title not visible)."""
    tube = size("copper-type-k", inches)
    full = MassPerLength(tube.empty_mass + tube.bore * 998.0)
    Outside(per_foot, "weights beside MSS SP-58 spacings, web copy", "published", 0.015, "density of copper is rounded").check(full.to("lb/ft"))


@pytest.mark.parametrize(
    ("material", "inches", "gallons"),
    [("pe-dr-11", 1.25, 7.3), ("pe-dr-11", 1.5, 9.6), ("pe-dr-11", 2, 15.0)],
)
def test_contents_follow_from_the_bore(material: str, inches: float, gallons: float) -> None:
    """Hand calculation: gal per 100 ft = 0.0408 d^2 * 100, d at 1.06 times the least wall of ASTM D3035 (a trade table prints 8.0, 10.9 and 18.0)."""
    contents = size(material, inches).bore * 30.48 / 0.003785411784
    Outside(gallons, "0.0408 gal/ft per in2 of bore squared", "computed", 0.01, "two digits").check(contents)


def test_a_size_is_the_same_size_in_other_units() -> None:
    assert pipe_size("copper-type-l", Dimension.read("31.75 mm")) is pipe_size("copper-type-l", Dimension.read("1-1/4 in"))


@pytest.mark.parametrize("material", PIPE_SIZES)
def test_every_pipe_is_hollow_and_grows_with_its_name(material: str) -> None:
    sizes = PIPE_SIZES[material]
    assert all(0 < one.inside_diameter < one.outside_diameter for one in sizes)
    assert list(sizes) == sorted(sizes, key=lambda one: one.inside_diameter)


def test_a_size_that_is_not_made_is_named_with_those_that_are() -> None:
    assert pipe_size("pex", Dimension.of(3, "in")) is None
    assert "1-1/4" in not_made("pex", "/pipes/0/nominal_size").detail.shown("ip")
    assert [fraction(Dimension.of(inches, "in")) for inches in (0.375, 2, 2.5)] == ["3/8", "2", "2-1/2"]
