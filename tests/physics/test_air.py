"""Moist air against psychrolib, an independent implementation of the handbook's psychrometrics."""

import psychrolib
import pytest

from kneewall.kernel.quantity import Length, Temperature
from kneewall.kernel.refusal import Refusal
from kneewall.physics import air

psychrolib.SetUnitSystem(psychrolib.SI)
STATES = [(-20.0, 0.8), (0.0, 0.5), (12.8, 0.95), (21.1, 0.0), (25.0, 0.5), (48.0, 0.3)]


@pytest.mark.parametrize("altitude", [0.0, 500.0, 2000.0, -100.0])
@pytest.mark.parametrize(("celsius", "humidity"), STATES)
def test_density(celsius: float, humidity: float, altitude: float) -> None:
    """Agreement to 1e-6, pressure at altitude included."""
    pressure = psychrolib.GetStandardAtmPressure(altitude)
    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity, pressure)
    got = air.air_of(air.AirState(temperature=Temperature(celsius + 273.15), altitude=Length(altitude), relative_humidity=humidity))
    assert got.density == pytest.approx(psychrolib.GetMoistAirDensity(celsius, ratio, pressure), rel=1e-6)


@pytest.mark.parametrize(("celsius", "humidity"), STATES)
def test_saturation_and_humidity(celsius: float, humidity: float) -> None:
    assert air.saturation_pressure(celsius + 273.15) == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=1e-9)
    assert air.humidity_ratio(celsius + 273.15, humidity, 101325) == pytest.approx(
        psychrolib.GetHumRatioFromRelHum(celsius, humidity, 101325), rel=1e-6, abs=1e-7
    )


@pytest.mark.parametrize(("dry", "wet"), [(26.7, 19.4), (23.9, 17.2), (12.8, 12.2), (1.0, -2.0), (40.0, 40.0)])
def test_wet_bulb(dry: float, wet: float) -> None:
    got = air.humidity_ratio_from_wet_bulb(dry + 273.15, wet + 273.15, 101325)
    assert got == pytest.approx(psychrolib.GetHumRatioFromTWetBulb(dry, wet, 101325), rel=1e-6)


@pytest.mark.parametrize("celsius", [-30.0, -5.0, 0.5, 20.0, 45.0])
def test_dew_point_is_the_inverse_of_saturation(celsius: float) -> None:
    assert air.dew_point(air.saturation_pressure(celsius + 273.15)) == pytest.approx(celsius + 273.15, abs=1e-6)


def test_standard_air_is_the_default() -> None:
    """0.075 lb/ft3 (common practice) is dry air at 70 degF and sea level to 0.2 %."""
    assert air.air_of(None).density == pytest.approx(air.air_of(air.AirState()).density, rel=0.002)


def test_viscosity_against_coolprop() -> None:
    """CoolProp's dry air at 294.26 K and one atmosphere: 1.826e-5 Pa.s; Sutherland's law is 0.4 % lower."""
    from CoolProp.CoolProp import PropsSI

    for kelvin in (255.0, 294.26, 320.0):
        assert air.air_viscosity(kelvin) == pytest.approx(PropsSI("V", "T", kelvin, "P", 101325, "Air"), rel=0.008)


@pytest.mark.parametrize(("celsius", "ratio"), [(-5.0, 0.002), (13.0, 0.0087), (26.7, 0.0112), (40.0, 0.02)])
def test_enthalpy(celsius: float, ratio: float) -> None:
    assert air.moist_air_enthalpy(celsius + 273.15, ratio) == pytest.approx(psychrolib.GetMoistAirEnthalpy(celsius, ratio), rel=1e-9)


@pytest.mark.parametrize(
    ("fahrenheit", "humidity", "altitude", "refused"),
    [(200.0, 1.0, 15000.0, True), (117.0, 1.0, 0.0, True), (113.0, 1.0, 0.0, False), (140.0, 0.3, 0.0, False)],
)
def test_air_that_cannot_be_in_a_house_is_refused(fahrenheit: float, humidity: float, altitude: float, refused: bool) -> None:
    """Saturation pressure by psychrolib: a tenth of an atmosphere at 115 degF; at 200 degF and 15,000 ft it exceeds the whole pressure of the air."""
    celsius = (fahrenheit - 32) / 1.8
    share = humidity * psychrolib.GetSatVapPres(celsius) / psychrolib.GetStandardAtmPressure(altitude * 0.3048)
    assert (share > 0.1) == refused
    state = air.AirState(temperature=Temperature(celsius + 273.15), altitude=Length(altitude * 0.3048), relative_humidity=humidity)
    if refused:
        with pytest.raises(Refusal) as found:
            air.air_of(state)
        assert found.value.faults[0].pointer == "/air/relative_humidity"
    else:
        assert air.air_of(state).density > 0


@pytest.mark.parametrize(("kelvin", "humidity"), [(300.0, 1.0), (320.0, 0.5), (319.3, 0.98)])
def test_humidity_moves_viscosity_by_no_more_than_said(kelvin: float, humidity: float) -> None:
    """CoolProp's humid air: 4 % at most where a tenth of the pressure is water vapor."""
    from CoolProp.CoolProp import HAPropsSI

    assert air.air_viscosity(kelvin) == pytest.approx(HAPropsSI("mu", "T", kelvin, "P", 101325, "R", humidity), rel=0.04)
