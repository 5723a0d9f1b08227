"""Beam formulas against a numerical integration of the beam equation, and against what a channel maker's manual says of them."""

import numpy as np
import pytest

from kneewall.physics import beams
from tests.outside import Outside

SPAN, STIFFNESS, LOAD, POINT, INSET = 2.4, 370.0, 31.0, 55.0, 0.35
STATIONS = np.linspace(0.0, SPAN, 200_001)


def _integrated(moment: np.ndarray) -> tuple[float, float]:
    """Greatest deflection and end slope of a simple span from its moments: y'' = -M/(E I) integrated twice by trapezoids, y = 0 at both ends."""
    step = STATIONS[1]
    curvature = moment / STIFFNESS
    slope = np.concatenate(([0.0], np.cumsum((curvature[1:] + curvature[:-1]) / 2.0) * step))
    height = np.concatenate(([0.0], np.cumsum((slope[1:] + slope[:-1]) / 2.0) * step))
    start = height[-1] / SPAN
    return float(np.max(start * STATIONS - height)), float(start)


UNIFORM = LOAD / 2.0 * STATIONS * (SPAN - STATIONS)
MIDSPAN = POINT / 2.0 * np.minimum(STATIONS, SPAN - STATIONS)
TWO_LOADS = POINT * np.minimum(np.minimum(STATIONS, INSET), SPAN - STATIONS)


@pytest.mark.parametrize(
    ("moment", "greatest"), [(MIDSPAN, beams.midspan_load_moment(POINT, SPAN)), (TWO_LOADS, beams.two_loads_moment(POINT, INSET))]
)
def test_greatest_moment(moment: np.ndarray, greatest: float) -> None:
    """Source of the reference: statics, the greatest of the moments along the span."""
    Outside(float(np.max(moment)), "statics", "computed", 1e-9, "the same arithmetic").check(greatest)


@pytest.mark.parametrize(
    ("moment", "deflection"),
    [
        (UNIFORM, beams.uniform_deflection(LOAD, SPAN, STIFFNESS)),
        (TWO_LOADS, beams.two_loads_deflection(POINT, INSET, SPAN, STIFFNESS)),
    ],
)
def test_deflection_of_every_span(moment: np.ndarray, deflection: float) -> None:
    """Source of the reference: the beam equation, integrated numerically in this test."""
    Outside(_integrated(moment)[0], "beam equation, integrated in this test", "computed", 1e-6, "numerical step").check(deflection)


def test_end_slope() -> None:
    """Source of the reference: the beam equation, integrated numerically in this test."""
    got = beams.uniform_end_slope(LOAD, SPAN, STIFFNESS)
    Outside(_integrated(UNIFORM)[1], "beam equation, integrated in this test", "computed", 1e-6, "numerical step").check(got)


def test_rafter_section() -> None:
    """A 2x6 is 1.5 x 5.5 in: S 7.563 in3, I 20.80 in4 (NDS Supplement, section properties of sawn lumber, from memory)."""
    section = beams.rectangle_section(1.5, 5.5)
    Outside(20.80, "NDS Supplement Table 1B", "from-memory", 0.0005, "four digits are printed").check(section.second_moment)
    Outside(7.563, "NDS Supplement Table 1B", "from-memory", 0.0005, "four digits are printed").check(section.modulus)
