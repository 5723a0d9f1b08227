"""Blower curves and component drops."""

import pytest
from scipy.interpolate import PchipInterpolator

from kneewall.kernel.quantity import Airflow, AirPressure
from kneewall.kernel.refusal import Refusal
from kneewall.physics.fan import Blower, BlowerCurve, BlowerPoint, Component, component_drop
from kneewall.physics.monotone import MonotoneCubic

SETS = [([0, 1, 2, 4], [5, 4, 4, 0]), ([0, 0.1, 0.5, 0.6, 2], [1200, 1190, 1100, 800, 790]), ([1, 3], [2, 1]), ([0, 1, 2], [0, 3, 1])]


@pytest.mark.parametrize(("x", "y"), SETS)
def test_monotone_cubic_is_scipys(x: list[float], y: list[float]) -> None:
    """scipy's PchipInterpolator, value and slope, to rounding."""
    ours, theirs = MonotoneCubic(x, y), PchipInterpolator(x, y)
    for at in [x[0] + (x[-1] - x[0]) * share / 20 for share in range(21)]:
        assert ours.at(at)[0] == pytest.approx(float(theirs(at)), rel=1e-12, abs=1e-12)
        if at not in x:
            assert ours.at(at)[1] == pytest.approx(float(theirs.derivative()(at)), rel=1e-9, abs=1e-9)


def blower(*points: tuple[float, float]) -> Blower:
    return Blower(points=[BlowerPoint(airflow=Airflow.of(cfm, "cfm"), static_pressure=AirPressure.of(wg, "inH2O")) for cfm, wg in points])


def test_filter_follows_its_power() -> None:
    """Doubling the air through a filter of exponent 1/0.85 (Modelica Buildings library, air filters) multiplies its drop by 2^(1/0.85) = 2.260."""
    one = Component(name="filter", kind="filter", pressure_drop=AirPressure(25.0), airflow=Airflow(0.5))
    assert component_drop(one, 1.0) == pytest.approx(25.0 * 2.260, rel=1e-3)


def test_a_humped_table_is_read_on_its_falling_limb() -> None:
    curve = BlowerCurve(blower((200, 0.5), (400, 0.6), (600, 0.55), (800, 0.3)), "/blower")
    assert curve.static_pressure(Airflow.of(600, "cfm")) == pytest.approx(AirPressure.of(0.55, "inH2O"), rel=1e-6)
    assert curve.static_pressure(Airflow.of(300, "cfm")) is None


def test_nothing_is_read_beyond_the_table() -> None:
    curve = BlowerCurve(blower((1000, 0.3), (900, 0.5)), "/blower")
    assert curve.static_pressure(Airflow.of(1001, "cfm")) is None
    assert curve.static_pressure(Airflow.of(899, "cfm")) is None
    assert curve.static_pressure(Airflow.of(900, "cfm")) == pytest.approx(AirPressure.of(0.5, "inH2O"), rel=1e-6)


def test_a_table_that_rises_twice_is_refused_with_the_entry_at_fault() -> None:
    with pytest.raises(Refusal) as refused:
        BlowerCurve(blower((1000, 0.2), (1050, 0.3), (900, 0.5)), "/blower")
    assert refused.value.faults[0].pointer == "/blower/points/1"
