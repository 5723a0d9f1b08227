"""Blower curves and component drops."""

import pytest
from scipy.interpolate import PchipInterpolator

from kneewall.kernel.quantity import Airflow, AirPressure
from kneewall.kernel.refusal import Refusal
from kneewall.physics.components import Component, component_drop
from kneewall.physics.fan import Blower, BlowerCurve, BlowerPoint
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


def test_a_table_that_wobbles_by_a_per_cent_is_smoothed() -> None:
    """scipy's isotonic regression, an independent implementation; 1200, 1208 and 1197, 1203 are pooled to 1204 and 1200 by hand."""
    from scipy.optimize import isotonic_regression

    airflows = [1200, 1208, 1197, 1203, 1150]
    curve = BlowerCurve(blower(*zip(airflows, (0.1, 0.2, 0.3, 0.4, 0.5), strict=True)), "/blower")
    expected = isotonic_regression(airflows, increasing=False).x
    assert [one * 60 / 0.3048**3 for one in curve.curve.y] == pytest.approx(list(expected), rel=1e-9)
    assert list(expected) == pytest.approx([1204, 1204, 1200, 1200, 1150])
    assert curve.rules[-1].id == "fan.blower-wobble"


@pytest.mark.parametrize(("airflow", "refused"), [(1011.9, True), (1009.9, False)])
def test_a_rise_of_more_than_a_per_cent_is_refused(airflow: float, refused: bool) -> None:
    """Also where it rises in steps: against the least airflow before it, not only its neighbour."""
    table = blower((1000, 0.1), ((1000 + airflow) / 2, 0.2), (airflow, 0.3), (800, 0.5))
    if refused:
        with pytest.raises(Refusal):
            BlowerCurve(table, "/blower")
    else:
        assert BlowerCurve(table, "/blower").curve.y[0] >= BlowerCurve(table, "/blower").curve.y[2]


def test_what_the_table_lacks_is_said() -> None:
    curve = BlowerCurve(blower((1000, 0.3), (900, 0.5)), "/blower")
    with pytest.raises(Refusal) as refused:
        curve.needed_static_pressure(Airflow.of(1120, "cfm"))
    assert "120 cfm too little" in str(refused.value.faults[0].detail)


@pytest.mark.parametrize(
    "points", [((1310, 0.2), (1255, 0.3), (1190, 0.4), (910, 0.7)), ((1200, 0.1), (1200, 0.3), (1190, 0.5), (700, 0.55)), ((1000, 0.3), (900, 0.5))]
)
def test_the_pressure_at_an_airflow_is_scipys(points: tuple[tuple[float, float], ...]) -> None:
    """scipy's bracketing root finder on scipy's monotone curve, over the strictly falling part of each table."""
    from scipy.optimize import brentq

    curve = BlowerCurve(blower(*points), "/blower")
    theirs = PchipInterpolator(curve.curve.x, curve.curve.y)
    for share in range(1, 20):
        airflow = curve.curve.y[-1] + (curve.curve.y[0] - curve.curve.y[-1]) * share / 20
        expected = brentq(lambda x, airflow=airflow: float(theirs(x)) - airflow, curve.lowest, curve.highest, xtol=1e-12)
        assert curve.static_pressure(airflow) == pytest.approx(expected, rel=1e-8)
