"""Refrigerant tables against CoolProp used directly, published charts and fitted correlations."""

import random
import sys
import threading
from functools import partial
from typing import Any, get_args

import pytest
from CoolProp import CoolProp
from scipy.optimize import brentq

from kneewall.kernel.quantity import GaugePressure, Temperature
from kneewall.physics.by_coolprop.refrigerants import FLUIDS, Mixed, mixed_viscosity
from kneewall.physics.refrigerant import (
    OutsideProperties,
    Refrigerant,
    RefrigerantName,
    glide,
    refrigerant_named,
    refrigerants,
)
from tests.outside import Outside

TABLE_WITHIN = 1e-4
"""The tables promise 0.01 % of the library they were made from."""
ATMOSPHERE = 101325.0
NAMES = get_args(RefrigerantName)


def _temperatures(refrigerant: Refrigerant, count: int) -> list[float]:
    ends = [refrigerant.least_temperature, refrigerant.greatest_temperature]
    draw = random.Random(refrigerant.name)
    return [*map(float, ends), *(draw.uniform(*ends) for _ in range(count))]


def _flash(state: Any, quality: float, temperature: float) -> bool:
    """Whether CoolProp's own flash converges there: for blends it fails at isolated points, which the tables bridge."""
    state.unspecify_phase()
    try:
        state.update(CoolProp.QT_INPUTS, quality, temperature)
    except ValueError:
        return False
    return True


@pytest.mark.parametrize("name", NAMES)
def test_saturation_is_coolprops(name: RefrigerantName) -> None:
    """Reference: CoolProp's flash at random temperatures over the whole range, within 0.01 % (enthalpy: of 200 kJ/kg)."""
    refrigerant, state = refrigerant_named(name), CoolProp.AbstractState("HEOS", FLUIDS[name].name)
    compared = 0
    for temperature in _temperatures(refrigerant, 60):
        if _flash(state, 0.0, temperature):
            compared += 1
            assert refrigerant.bubble_pressure(temperature) == pytest.approx(state.p(), rel=TABLE_WITHIN)
            assert refrigerant.bubble_temperature(state.p()) == pytest.approx(temperature, rel=TABLE_WITHIN / 10)
            assert refrigerant.liquid_density(temperature) == pytest.approx(state.rhomass(), rel=TABLE_WITHIN)
            assert refrigerant.liquid_enthalpy(temperature) == pytest.approx(state.hmass(), rel=0, abs=20.0)
            if name != "R-454B":
                assert refrigerant.liquid(temperature).viscosity == pytest.approx(state.viscosity(), rel=TABLE_WITHIN)
        if _flash(state, 1.0, temperature):
            assert refrigerant.vapor(temperature, 0.0).pressure == pytest.approx(state.p(), rel=TABLE_WITHIN)
            assert refrigerant.dew_temperature(state.p()) == pytest.approx(temperature, rel=TABLE_WITHIN / 10)
    assert compared > 50


@pytest.mark.parametrize("name", NAMES)
def test_saturation_temperature_leads_back_from_saturation_pressure(name: RefrigerantName) -> None:
    """Property: one is the other's inverse, within 0.0001 K, so that a small pressure drop keeps its fall of temperature."""
    refrigerant = refrigerant_named(name)
    for temperature in _temperatures(refrigerant, 200):
        assert refrigerant.bubble_temperature(refrigerant.bubble_pressure(temperature)) == pytest.approx(temperature, rel=0, abs=1e-4)
        assert refrigerant.dew_temperature(refrigerant.vapor(temperature, 0.0).pressure) == pytest.approx(temperature, rel=0, abs=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_superheated_vapor_is_coolprops(name: RefrigerantName) -> None:
    """Reference: CoolProp at the dew point's pressure and the superheated temperature, gas imposed, within 0.01 %."""
    refrigerant, state = refrigerant_named(name), CoolProp.AbstractState("HEOS", FLUIDS[name].name)
    draw = random.Random(name)
    for dew in _temperatures(refrigerant, 60):
        if not _flash(state, 1.0, dew):
            continue
        pressure, superheat = state.p(), draw.choice([0.0, draw.uniform(0, 10), draw.uniform(0, 100), 100.0])
        state.specify_phase(CoolProp.iphase_gas)
        state.update(CoolProp.PT_INPUTS, pressure, dew + superheat)
        vapor = refrigerant.vapor(dew, superheat)
        assert vapor.density == pytest.approx(state.rhomass(), rel=TABLE_WITHIN)
        assert vapor.enthalpy == pytest.approx(state.hmass(), rel=0, abs=20.0)
        assert refrigerant.vapor_entropy(dew, superheat) == pytest.approx(state.smass(), rel=TABLE_WITHIN)
        assert vapor.viscosity == pytest.approx(state.viscosity(), rel=TABLE_WITHIN)


@pytest.mark.parametrize("name", ["R-32", "R-410A", "R-22", "R-134a", "R-290"])
def test_specific_heat_of_saturated_liquid_is_coolprops(name: RefrigerantName) -> None:
    """Reference: the difference quotient of CoolProp's saturated enthalpy over 0.02 K, within 0.01 %."""
    refrigerant, fluid = refrigerant_named(name), FLUIDS[name].name
    for temperature in _temperatures(refrigerant, 20)[2:]:
        low, high = (CoolProp.PropsSI("H", "T", temperature + side, "Q", 0, fluid) for side in (-0.01, 0.01))
        assert refrigerant.liquid_specific_heat(temperature) == pytest.approx((high - low) / 0.02, rel=TABLE_WITHIN)


R32_TABLE = {
    -40: (1.777, 1176.941, 5.053), -20: (4.060, 1118.825, 11.109), 0: (8.139, 1054.531, 21.997), 10: (11.081, 1019.295, 30.101),
    20: (14.759, 981.336, 40.66), 30: (19.283, 939.85, 54.468), 40: (24.781, 893.546, 72.782), 50: (31.403, 840.116, 97.817),
}  # fmt: skip


@pytest.mark.parametrize("celsius", R32_TABLE)
def test_r32_against_a_published_saturation_table(celsius: int) -> None:
    source, temperature = "saturation table of R-32 in a chemical supplier's reference appendix", celsius + 273.15
    refrigerant = refrigerant_named("R-32")
    pressure, liquid, vapor = R32_TABLE[celsius]
    Outside(pressure * 1e5, source, "published", 0.003, "another equation of state").check(refrigerant.bubble_pressure(temperature))
    Outside(liquid, source, "published", 0.005, "another equation of state").check(refrigerant.liquid_density(temperature))
    Outside(vapor, source, "published", 0.01, "another equation of state").check(refrigerant.vapor(temperature, 0.0).density)


@pytest.mark.parametrize(("fahrenheit", "psig"), [(32, 100.8), (40, 118.0), (100, 317.2)])
def test_r410a_against_a_charging_chart(fahrenheit: float, psig: float) -> None:
    got = refrigerant_named("R-410A").bubble_pressure(Temperature.of(fahrenheit, "degF"))
    absolute = GaugePressure.of(psig, "psig") + ATMOSPHERE
    Outside(absolute, "pressure-temperature chart in an equipment maker's manual", "common-practice", 0.01, "charts differ by 1 %").check(got)


@pytest.mark.parametrize(("celsius", "megapascal"), [(0, 0.7044), (17, 1.237), (30, 1.796), (40, 2.332), (50, 2.974)])
def test_r410a_against_a_metric_chart(celsius: float, megapascal: float) -> None:
    """Gauge figures of a second maker's chart, whose zero is the technical atmosphere (0.0981 MPa)."""
    got = refrigerant_named("R-410A").bubble_pressure(celsius + 273.15)
    Outside(megapascal * 1e6 + 98066.5, "second maker's chart", "common-practice", 0.01, "charts differ by 1 %").check(got)


def test_r454b_against_a_data_sheet() -> None:
    """Bubble pressure 15.708 bar and liquid 984.6 kg/m3 at 25 degC; at one atmosphere bubble -50.5, dew -49.5 degC, vapor 3.565 kg/m3."""
    refrigerant, source = refrigerant_named("R-454B"), "refrigerant data sheet, issuer not established"
    Outside(15.708e5, source, "published", 0.01, "another mixing model").check(refrigerant.bubble_pressure(298.15))
    Outside(984.6, source, "published", 0.005, "another mixing model").check(refrigerant.liquid_density(298.15))
    dew = refrigerant.dew_temperature(ATMOSPHERE)
    assert dew - 273.15 == pytest.approx(-49.5, abs=0.5)
    Outside(3.565, source, "published", 0.005, "another mixing model").check(refrigerant.vapor(dew, 0.0).density)


@pytest.mark.parametrize(("celsius", "micropascal"), [(-10, 180.6), (10, 140.8), (25, 116.8), (40, 96.3), (50, 84.1)])
def test_liquid_viscosity_of_r454b_is_mixed_from_its_components(celsius: float, micropascal: float) -> None:
    """By hand from CoolProp's pure components: exp(0.8292 ln mu(R-32) + 0.1708 ln mu(R-1234yf)); a blend lies between its components."""
    temperature = celsius + 273.15
    pure = [CoolProp.PropsSI("V", "T", temperature, "Q", 0, name) for name in ("R32", "R1234yf")]
    got = refrigerant_named("R-454B").liquid(temperature).viscosity
    assert got == pytest.approx(pure[0] ** 0.8292 * pure[1] ** 0.1708, rel=TABLE_WITHIN)
    assert min(pure) < got < max(pure)
    Outside(
        micropascal * 1e-6, "logarithmic mixing of pure-fluid correlations, worked beside the service", "computed", 0.001, "printed to 0.1"
    ).check(got)


@pytest.mark.parametrize(("celsius", "within"), [(-10, 0.02), (10, 0.02), (40, 0.01), (50, 0.01)])
def test_the_mixing_rule_gives_the_fitted_viscosity_of_r410a(celsius: float, within: float) -> None:
    """The rule on R-32/R-125 (mole fractions 0.6976/0.3024 of the 50/50 blend by mass) against the correlation fitted to R-410A itself, in CoolProp."""
    mixed = mixed_viscosity(Mixed((("R32", 0.6976), ("R125", 0.3024))), celsius + 273.15)
    fitted = CoolProp.PropsSI("V", "T", celsius + 273.15, "Q", 0, "R410A")
    Outside(fitted, "viscosity correlation fitted to R-410A, CoolProp", "computed", within, "a mixing rule").check(mixed)


def _glide(name: RefrigerantName, pressure: float) -> float:
    refrigerant = refrigerant_named(name)
    return glide(refrigerant.bubble_temperature(pressure), refrigerant.dew_temperature(pressure))


@pytest.mark.parametrize(("name", "fahrenheit", "printed"), [("R-454B", 40, 2.66), ("R-454B", 110, 2.61), ("R-407C", 40, 11.1), ("R-407C", 110, 8.9)])
def test_glide(name: RefrigerantName, fahrenheit: float, printed: float) -> None:
    """Dew less bubble temperature from CoolProp worked beside the service, to the printed digit; R-410A has next to none."""
    refrigerant = refrigerant_named(name)
    pressure = refrigerant.bubble_pressure(Temperature.of(fahrenheit, "degF"))
    by_dew = refrigerant.vapor(Temperature.of(fahrenheit, "degF"), 0.0).pressure
    got = [1.8 * _glide(name, pressure), 1.8 * _glide(name, by_dew)]
    assert any(one == pytest.approx(printed, abs=0.15) for one in got)
    assert 0.0 < _glide("R-410A", 1e6) < 0.3
    assert abs(_glide("R-32", 1e6)) < 1e-3


@pytest.mark.parametrize("name", NAMES)
def test_beyond_the_range_is_refused_with_the_range(name: RefrigerantName) -> None:
    refrigerant = refrigerant_named(name)
    least, greatest = refrigerant.least_temperature, refrigerant.greatest_temperature
    for temperature in (least - 0.01, greatest + 0.01, float("nan"), float("inf")):
        for look_up in (refrigerant.bubble_pressure, partial(refrigerant.vapor, superheat=0.0), refrigerant.liquid_density, refrigerant.liquid):
            with pytest.raises(OutsideProperties) as refused:
                look_up(temperature)
            assert (refused.value.least, refused.value.most) == (least, greatest)
    for pressure in (0.0, -1.0, refrigerant.bubble_pressures[0] * 0.999, refrigerant.bubble_pressures[1] * 1.001, float("nan")):
        with pytest.raises(OutsideProperties):
            refrigerant.bubble_temperature(pressure)
    for superheat in (-0.01, 100.01, float("nan")):
        with pytest.raises(OutsideProperties):
            refrigerant.vapor(280.0, superheat)
    refrigerant.vapor(least, 0.0), refrigerant.vapor(greatest, 100.0)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(
    ("evaporating", "superheat", "dew", "efficiency"), [(268.0, 6.0, 305.0, 0.7), (280.0, 0.0, 310.0, 1.0), (285.0, 25.0, 325.0, 0.85)]
)
def test_compressed_vapor_is_coolprops(name: RefrigerantName, evaporating: float, superheat: float, dew: float, efficiency: float) -> None:
    """Reference: CoolProp alone: s1 and h1, h2s at s1 and the pressure of the other dew point, h2 = h1 + (h2s - h1)/efficiency, T at h2; within 0.02 K."""
    state = CoolProp.AbstractState("HEOS", FLUIDS[name].name)
    low, high = _dew_pressure(state, evaporating), _dew_pressure(state, dew)
    state.specify_phase(CoolProp.iphase_gas)
    state.update(CoolProp.PT_INPUTS, low, evaporating + superheat)
    start, entropy = state.hmass(), state.smass()

    def above_entropy(temperature: float) -> float:
        state.update(CoolProp.PT_INPUTS, high, temperature)
        return float(state.smass()) - entropy

    above_entropy(brentq(above_entropy, dew - 1.0, dew + 110.0, xtol=1e-9))
    end = start + (state.hmass() - start) / efficiency

    def above_enthalpy(temperature: float) -> float:
        state.update(CoolProp.PT_INPUTS, high, temperature)
        return float(state.hmass()) - end

    wanted = brentq(above_enthalpy, dew - 1.0, dew + 110.0, xtol=1e-9) - dew
    assert refrigerant_named(name).compressed(evaporating, superheat, dew, efficiency) == pytest.approx(wanted, abs=0.02)


def _dew_pressure(state: Any, dew: float) -> float:
    assert _flash(state, 1.0, dew)
    return float(state.p())


@pytest.mark.parametrize("name", NAMES)
def test_vapor_compressed_to_its_own_pressure_is_as_it_was(name: RefrigerantName) -> None:
    refrigerant = refrigerant_named(name)
    for dew in (230.0, 275.0, 330.0):
        for superheat in (0.0, 0.5, 7.0, 45.0, 99.9):
            assert refrigerant.compressed(dew, superheat, dew, 0.7) == pytest.approx(superheat, abs=1e-8)
    with pytest.raises(OutsideProperties):
        refrigerant.compressed(230.0, 90.0, 330.0, 0.7)


def test_superheat_and_subcooling_from_gauges() -> None:
    """By hand for R-410A at sea level: 118 psig + 14.696 = 132.7 psia, dew about 40 degF on the charts, so a 52 degF line has 12 degF of superheat;
    317.2 psig, bubble 100 degF on the chart, so a 90 degF line has 10 degF of subcooling."""
    refrigerant = refrigerant_named("R-410A")
    suction, liquid = GaugePressure.of(118.0, "psig"), GaugePressure.of(317.2, "psig")
    assert 1.8 * (Temperature.of(52, "degF") - refrigerant.dew_temperature(suction + ATMOSPHERE)) == pytest.approx(12.0, abs=0.5)
    assert 1.8 * (refrigerant.bubble_temperature(liquid + ATMOSPHERE) - Temperature.of(90, "degF")) == pytest.approx(10.0, abs=0.5)


def test_tables_are_immutable_and_give_threads_the_same_answers() -> None:
    refrigerant = refrigerant_named("R-454B")
    with pytest.raises(AttributeError):
        refrigerant.tables.edge = 1.0  # type: ignore[misc]
    temperatures = [230.0 + 0.01 * step for step in range(8000)]
    expected = [refrigerant.vapor(one, 10.0).density for one in temperatures]
    found: list[list[float]] = []
    switch = sys.getswitchinterval()
    sys.setswitchinterval(1e-5)
    threads = [threading.Thread(target=lambda: found.append([refrigerant.vapor(one, 10.0).density for one in temperatures])) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    sys.setswitchinterval(switch)
    assert found == [expected] * 4


def test_every_refrigerant_has_its_tables() -> None:
    assert tuple(refrigerants()) == NAMES == tuple(FLUIDS)
