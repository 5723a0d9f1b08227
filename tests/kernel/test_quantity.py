"""Quantities: reading, refusing, converting."""

import msgspec
import pint
import pytest

from kneewall.kernel.quantity import (
    AbsolutePressure,
    Airflow,
    AirPressure,
    Dimension,
    Duration,
    FrictionRate,
    GaugePressure,
    Length,
    Number,
    ShortDuration,
    Slope,
    Temperature,
    TemperatureDifference,
    ThermalResistance,
    Vacuum,
    kinds,
)
from kneewall.kernel.wire import write_json, write_msgpack

SAME_SIZE = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("kind", "text", "si"),
    [
        (Dimension, "1-1/8 in", 0.028575),
        (Dimension, "1 1/8 in", 0.028575),
        (Dimension, "7/16 in", 0.0111125),
        (Length, "-2.5 ft", -0.762),
        (Slope, "1/8 in/ft", 0.125 / 12),
        (Airflow, "400 cfm", 400 * 0.3048**3 / 60),
        (Airflow, "1.7e3 m3/h", 1700 / 3600),
        (AirPressure, "0.5 in. w.g.", 124.544455),
        (Temperature, "32 °F", 273.15),
        (Temperature, "-40 degC", 233.15),
        (TemperatureDifference, "18 degF", 10.0),
        (AbsolutePressure, "500 micron", 66.6612),
        (GaugePressure, "30 psi", 206842.7),
        (Airflow, "1,150 cfm", 1150 * 0.3048**3 / 60),
        (Airflow, "12,000.5 cfm", 12000.5 * 0.3048**3 / 60),
        (AirPressure, ".1 inH2O", 24.90889),
        (AirPressure, "0.30000000000000004 inH2O", 74.72667),
        (Dimension, '8"', 0.2032),
        (Dimension, '1-1/8"', 0.028575),
        (FrictionRate, "0.08 in. w.c./100 ft", 0.08 * 249.08891 / 30.48),
        (FrictionRate, "0.08 in. w.g./100 ft", 0.08 * 249.08891 / 30.48),
        (ThermalResistance, "8 ft²·h·°F/Btu", 8 * 0.3048**2 * 3600 / 1.8 / 1055.05585),
    ],
)
def test_reads_what_the_trade_writes(kind: type, text: str, si: float) -> None:
    """Expected values by the definitions of the units: inch 25.4 mm, pound and standard gravity, conventional water column 249.0889 Pa, 500 micron of mercury 66.66 Pa."""
    assert kind.read(text) == pytest.approx(si, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "given", "told"),
    [
        (Airflow, 400, "number, a space and a unit"),
        (Airflow, "400", "number, a space and a unit"),
        (Airflow, "400 gpm", "use one of cfm"),
        (Airflow, "400cfm", "number, a space and a unit"),
        (Airflow, "nan cfm", "number, a space and a unit"),
        (Airflow, "inf cfm", "number, a space and a unit"),
        (Airflow, "1_000 cfm", "number, a space and a unit"),
        (Airflow, "12,00 cfm", "number, a space and a unit"),
        (Airflow, "0,500 cfm", "number, a space and a unit"),
        (Airflow, "1,0000 cfm", "number, a space and a unit"),
        (Airflow, "1. cfm", "number, a space and a unit"),
        (Airflow, ". cfm", "number, a space and a unit"),
        (Airflow, '8"', "number, a space and a unit"),
        (Dimension, '"', "number, a space and a unit"),
        (Dimension, '8""', "number, a space and a unit"),
        (Airflow, "٤ cfm", "number, a space and a unit"),
        (Airflow, "9**9**9 cfm", "number, a space and a unit"),
        (Airflow, "1/0 cfm", "number, a space and a unit"),
        (Airflow, {"value": "400", "unit": "cfm"}, "must be a number"),
        (Airflow, {"value": True, "unit": "cfm"}, "must be a number"),
        (Airflow, {"value": 400}, "number, a space and a unit"),
        (Airflow, {"value": 400, "unit": "cfm", "extra": 1}, "number, a space and a unit"),
        (Airflow, {"value": 1e19, "unit": "cfm"}, "too large"),
        (Airflow, {"value": float("nan"), "unit": "cfm"}, "too large"),
        (GaugePressure, "30 psia", "use one of psig"),
        (AbsolutePressure, "30 psig", "use one of psia"),
        (Temperature, "10 delta_degF", "use one of degF"),
    ],
)
def test_refuses_the_rest_and_says_what_fits(kind: type, given: object, told: str) -> None:
    with pytest.raises(ValueError, match=r".") as refused:
        kind.read(given)
    assert told in str(refused.value)


def test_every_factor_is_pints() -> None:
    """pint works the factors out; here a few kinds are worked out again by pint's own conversion of a whole quantity."""
    for kind, unit, expression in (
        (Airflow, "cfm", "ft**3/min"),
        (AirPressure, "inH2O", "inH2O"),
        (Length, "ft", "ft"),
        (GaugePressure, "psig", "psi"),
    ):
        assert kind.of(7.0, unit) == pytest.approx(SAME_SIZE.Quantity(7.0, expression).to_base_units().magnitude, rel=1e-12)


def test_what_is_written_is_read_back_unchanged() -> None:
    for kind in kinds():
        for system in ("ip", "si"):
            written = kind(0.731).plain(system)  # type: ignore[arg-type]
            assert kind.read(written).plain(system) == written  # type: ignore[arg-type]


def test_what_a_sentence_prints_is_read() -> None:
    """Four figures are printed."""
    for kind in kinds():
        for system in ("ip", "si"):
            for si in (0.731, 1234.5):
                assert kind.read(kind(si).shown(system)) == pytest.approx(si, rel=6e-4, abs=0.03), kind  # type: ignore[arg-type]


@pytest.mark.parametrize(("seconds", "shown"), [
    (59.0, "59 s"), (60.0, "1 min"), (61.2, "1.02 min"), (7194.0, "119.9 min"), (7200.0, "2 h"), (86400.0, "24 h"),
])  # fmt: skip
def test_times_are_said_as_people_say_them(seconds: float, shown: str) -> None:
    assert {Duration(seconds).shown("ip"), Duration(seconds).shown("si")} == {shown}
    assert ShortDuration(seconds).shown("ip").endswith(" s")


@pytest.mark.parametrize(("kind", "text", "ip", "si"), [
    (Length, "1 in", "1 in", "25.4 mm"), (Length, "0.5 ft", "6 in", "152.4 mm"), (Length, "11-15/16 in", "11-15/16 in", "303.2 mm"),
    (Length, "4.583 in", "4.583 in", "116.4 mm"), (Length, "12 in", "1 ft", "304.8 mm"), (Length, "17.66 ft", "17.66 ft", "5.383 m"),
    (Length, "-1-1/2 in", "-1-1/2 in", "-38.1 mm"), (Length, "0 in", "0 ft", "0 m"), (Length, "1 m", "3.281 ft", "1 m"),
    (Dimension, "30 in", "30 in", "762 mm"), (Dimension, "1.25 in", "1-1/4 in", "31.75 mm"), (Dimension, "7/64 in", "0.1094 in", "2.778 mm"),
    (Slope, "1/8 in/ft", "1/8 in per ft", "10.42 mm/m"), (Slope, "0.25 in/ft", "1/4 in per ft", "20.83 mm/m"), (Slope, "1 %", "0.12 in per ft", "10 mm/m"),
])  # fmt: skip
def test_lengths_and_falls_are_said_as_the_trade_says_them(kind: type[Length], text: str, ip: str, si: str) -> None:
    """By hand: 1 in = 25.4 mm, 12 in = 1 ft, 1/8 in per 12 in = 10.42 mm/m, 1 % of 12 in = 0.12 in. What is said is read back, to its four figures."""
    quantity = kind.read(text)
    assert (quantity.shown("ip"), quantity.shown("si")) == (ip, si)
    assert kind.read(ip) == pytest.approx(quantity, rel=1e-3) == kind.read(si)


def test_what_rounding_leaves_of_nothing_is_nothing() -> None:
    assert [Length(left).shown("ip") for left in (1e-16, -1e-16, -0.0)] == ["0 ft"] * 3
    assert Temperature(273.15 + 6e-14).shown("si") == "0 °C"


def test_a_vacuum_is_told_in_pascal() -> None:
    """500 micron of mercury are 66.66 Pa, by the definition of the millimetre of mercury, 133.3224 Pa."""
    assert Vacuum.read("500 micron").shown("si") == "66.66 Pa absolute"


@pytest.mark.parametrize(
    ("number", "left"),
    [(2.0 / 3.0, b"0.6666667"), (24540.048275, b"24540.05"), (12345678.9, b"1.234568e+07"), (-0.0, b"0"), (1e-12, b"1e-12"), (2.0, b"2")],
)
def test_a_number_without_a_unit_leaves_with_seven_digits(number: float, left: bytes) -> None:
    """Rounded by hand."""
    assert write_json["ip"]([Number(number)]) == b"[" + left + b"]"
    assert msgspec.msgpack.decode(write_msgpack["si"](Number(number))) == float(left)
    for endless in (float("inf"), float("nan")):
        for write in (write_json["ip"], write_msgpack["ip"]):
            with pytest.raises(ArithmeticError):
                write(Number(endless))


def test_arithmetic_gives_plain_numbers() -> None:
    assert type(Length(2.0) * Length(3.0)) is float
