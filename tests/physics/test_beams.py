"""Beam formulas against a numerical integration of the beam equation, and against what a channel maker's manual says of them."""

from collections.abc import Callable

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
# Held level at the far end: the far end's moment is w L^2/8, which makes the slope there nought.
END_SPAN = UNIFORM - LOAD * SPAN**2 / 8.0 * STATIONS / SPAN
INNER_SPAN = UNIFORM - LOAD * SPAN**2 / 12.0


@pytest.mark.parametrize(
    ("moment", "greatest", "deflection"),
    [
        (UNIFORM, beams.uniform_moment(LOAD, SPAN), beams.uniform_deflection(LOAD, SPAN, STIFFNESS)),
        (MIDSPAN, beams.midspan_load_moment(POINT, SPAN), beams.midspan_load_deflection(POINT, SPAN, STIFFNESS)),
        (TWO_LOADS, beams.two_loads_moment(POINT, INSET), beams.two_loads_deflection(POINT, INSET, SPAN, STIFFNESS)),
        (END_SPAN, beams.end_span_moment(LOAD, SPAN), beams.end_span_deflection(LOAD, SPAN, STIFFNESS)),
        (INNER_SPAN, beams.inner_span_moment(LOAD, SPAN), beams.inner_span_deflection(LOAD, SPAN, STIFFNESS)),
    ],
)
def test_moment_and_deflection_of_every_span(moment: np.ndarray, greatest: float, deflection: float) -> None:
    """Source of the reference: the beam equation, integrated numerically in this test (the moments are statics)."""
    Outside(float(np.max(np.abs(moment))), "statics", "computed", 1e-9, "the same arithmetic").check(greatest)
    Outside(_integrated(moment)[0], "beam equation, integrated in this test", "computed", 1e-6, "numerical step").check(deflection)


@pytest.mark.parametrize(("moment", "formula"), [(UNIFORM, beams.uniform_end_slope), (END_SPAN, beams.end_span_slope)])
def test_end_slopes(moment: np.ndarray, formula: Callable[[float, float, float], float]) -> None:
    """Source of the reference: the beam equation, integrated numerically in this test."""
    Outside(_integrated(moment)[1], "beam equation, integrated in this test", "computed", 1e-6, "numerical step").check(
        formula(LOAD, SPAN, STIFFNESS)
    )


def test_midspan_load_of_half_the_size_sags_to_eight_tenths() -> None:
    """A maker's beam table says: for one load at midspan take half the load, its deflection times 0.8 (common practice, one maker's manual)."""
    ratio = beams.midspan_load_deflection(LOAD * SPAN / 2.0, SPAN, STIFFNESS) / beams.uniform_deflection(LOAD, SPAN, STIFFNESS)
    Outside(0.8, "note to a channel maker's beam table", "common-practice", 1e-9, "exact").check(ratio)


def test_pipe_section() -> None:
    """NPS 1, Schedule 40 steel pipe: 1.315 in outside, 1.049 in inside; A 0.494 in2, I 0.0873 in4, S 0.1328 in3 (ASME B36.10 tables, from memory)."""
    section = beams.tube_section(1.315, 1.049)
    for got, printed in zip(section, (0.494, 0.0873, 0.1328), strict=True):
        Outside(printed, "ASME B36.10 pipe tables", "from-memory", 0.002, "three digits are printed").check(got)


def test_rafter_section() -> None:
    """A 2x6 is 1.5 x 5.5 in: S 7.563 in3, I 20.80 in4 (NDS Supplement, section properties of sawn lumber, from memory)."""
    section = beams.rectangle_section(1.5, 5.5)
    Outside(20.80, "NDS Supplement Table 1B", "from-memory", 0.0005, "four digits are printed").check(section.second_moment)
    Outside(7.563, "NDS Supplement Table 1B", "from-memory", 0.0005, "four digits are printed").check(section.modulus)
