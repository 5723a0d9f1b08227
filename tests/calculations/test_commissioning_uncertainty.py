"""The propagated uncertainty against a Monte Carlo of the same measurement (JCGM 101), with its own formulas, psychrolib and CoolProp."""

from typing import Any

import numpy as np
import psychrolib
import pytest
from CoolProp.CoolProp import PropsSI

from tests.asking import result, value

DRAWS = 6000
"""The standard deviation of 6000 draws is itself known to 1/sqrt(2 x 6000) = 0.9 %; three of those and the second-order terms make the 4 % below."""
WITHIN = 0.04
CFM, GPM, PSI, INCH_WATER = 0.3048**3 / 60, 231 * 0.0254**3 / 60, 6894.757, 249.0889
Draws = np.ndarray[Any, np.dtype[np.float64]]

QUESTION: dict[str, Any] = {
    "mode": "cooling",
    "altitude": "2000 ft",
    "air_side": {
        "static_pressure": {"return": "0.25 inH2O", "supply": "0.25 inH2O"},
        "blower": {"points": [{"airflow": "1400 cfm", "static_pressure": "0.1 inH2O"}, {"airflow": "1000 cfm", "static_pressure": "0.9 inH2O"}]},
        "split": {"entering": {"dry_bulb": "76 degF", "wet_bulb": "64 degF"}, "leaving": {"dry_bulb": "59 degF", "wet_bulb": "53 degF"}},
        "uncertainty": {"static_pressure": "0.03 inH2O", "blower_table": 0.04, "dry_bulb": "0.8 degF", "wet_bulb": "0.5 degF"},
    },
    "water_side": {
        "entering": "60 degF",
        "leaving": "72 degF",
        "coil": {"flow": "8 gpm", "pressure_drop": "5 psi", "exponent": 2.0},
        "pressure_drop": "5.0 psi",
        "no_flow_pressure_drop": "1.0 psi",
        "power": "2300 W",
        "uncertainty": {"temperature": "0.5 degF", "pressure_drop": "0.2 psi", "coil_table": 0.03, "power": 0.03},
    },
    "refrigerant_side": {
        "refrigerant": "R-32",
        "suction_pressure": "120 psig",
        "suction_temperature": "55 degF",
        "liquid_pressure": "270 psig",
        "liquid_temperature": "80 degF",
        "uncertainty": {"suction_pressure": "3.5 psi", "liquid_pressure": "7 psi", "temperature": "1 degF"},
    },
    "tightness": {
        "pressure_test": {
            "first": {"pressure": "450 psig", "temperature": "70 degF"},
            "last": {"pressure": "440 psig", "temperature": "60 degF"},
            "duration": "2 h",
            "instruments": "different",
        },
        "uncertainty": {"pressure": "1.5 psi", "temperature": "1.2 degF"},
    },
    "condensate": {
        "pour_test": {"poured": "1 gal", "collected": "0.95 gal", "duration": "6 min"},
        "uncertainty": {"volume": 0.05},
    },
}


def kelvin(fahrenheit: Draws | float) -> Any:
    return (fahrenheit + 459.67) / 1.8


def mixed_air(dry: Draws, wet: Draws, pressure: float) -> tuple[Draws, Draws]:
    """Dry mass per volume and enthalpy, one draw after the other, by psychrolib."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    celsius = [((t - 32) / 1.8, (w - 32) / 1.8) for t, w in zip(dry, wet, strict=True)]
    ratios = [psychrolib.GetHumRatioFromTWetBulb(t, w, pressure) for t, w in celsius]
    mass = [1 / psychrolib.GetMoistAirVolume(t, w, pressure) for (t, _), w in zip(celsius, ratios, strict=True)]
    enthalpy = [psychrolib.GetMoistAirEnthalpy(t, w) for (t, _), w in zip(celsius, ratios, strict=True)]
    return np.array(mass), np.array(enthalpy)


@pytest.fixture(scope="module")
def drawn() -> dict[str, Draws]:
    """Every figure drawn from its readings: normal, with the stated uncertainty as standard deviation, since any coverage factor scales both alike."""
    chance = np.random.default_rng(20)

    def read(mean: float, width: float) -> Draws:
        return chance.normal(mean, width, DRAWS)

    psychrolib.SetUnitSystem(psychrolib.SI)
    atmosphere = psychrolib.GetStandardAtmPressure(2000 * 0.3048)
    static = read(0.25, 0.03) + read(0.25, 0.03)
    thin = psychrolib.GetDryAirDensity((70 - 32) / 1.8, atmosphere) / (0.075 * 0.45359237 / 0.3048**3)
    airflow = (1400 - (static / thin - 0.1) * 500) * read(1, 0.04) * CFM
    dry_in, wet_in, dry_out, wet_out = read(76, 0.8), read(64, 0.5), read(59, 0.8), read(53, 0.5)
    mass, enthalpy_in = mixed_air(dry_in, wet_in, atmosphere)
    _, enthalpy_out = mixed_air(dry_out, wet_out, atmosphere)
    air = airflow * mass * (enthalpy_in - enthalpy_out)
    entering, leaving, power = read(60, 0.5), read(72, 0.5), read(2300, 0.03 * 2300)
    water_flow = 8 * np.sqrt((read(5.0, 0.2) - read(1.0, 0.2)) / 5) * read(1, 0.03) * GPM
    per_flow = PropsSI("D", "T", kelvin(entering), "P", 3e5, "Water") * PropsSI("C", "T", kelvin((entering + leaving) / 2), "P", 3e5, "Water")
    rise = (leaving - entering) / 1.8
    water = water_flow * per_flow * rise
    first, last = read(450, 1.5) * PSI + atmosphere, read(440, 1.5) * PSI + atmosphere
    return {
        "airflow": airflow,
        "airflow by water": airflow * (water - power) / air,
        "air heat": air,
        "water flow": water_flow,
        "water flow by balance": (air + power) / (per_flow * rise),
        "water heat": water,
        "left over": water - air - power,
        "superheat": kelvin(read(55, 1)) - PropsSI("T", "P", read(120, 3.5) * PSI + atmosphere, "Q", 1, "R32"),
        "subcooling": PropsSI("T", "P", read(270, 7) * PSI + atmosphere, "Q", 0, "R32") - kelvin(read(80, 1)),
        "drop": first * kelvin(read(60, 1.2)) / kelvin(read(70, 1.2)) - last,
        "lost": (read(1, 0.05) - read(0.95, 0.05 * 0.95)) * 231 * 0.0254**3,
    }


@pytest.fixture(scope="module")
def found() -> dict[str, tuple[float, float]]:
    """The same figures as answered: value and uncertainty in SI."""
    got = result("commissioning-check", QUESTION, units="si")
    by = {one["by"]: one for one in got["airflow"]["estimates"] + got["water_flow"]["estimates"]}
    balance, test = got["heat"]["balance"], got["tightness"]["pressure_test"]["drop"]

    def pair(figure: dict[str, Any], unit: str, scale: float, name: str = "measured") -> tuple[float, float]:
        return value(figure[name], unit) * scale, value(figure["uncertainty"], unit) * scale

    return {
        "airflow": pair(by["blower-table"], "L/s", 1e-3, "airflow"),
        "airflow by water": pair(by["water-heat"], "L/s", 1e-3, "airflow"),
        "air heat": pair(got["heat"]["air"], "kW", 1e3),
        "water flow": pair(by["coil-pressure-drop"], "L/s", 1e-3, "flow"),
        "water flow by balance": pair(by["heat-balance"], "L/s", 1e-3, "flow"),
        "water heat": pair(got["heat"]["water"], "kW", 1e3),
        "left over": pair(balance, "kW", 1e3, "difference"),
        "superheat": pair(got["superheat"], "K", 1),
        "subcooling": pair(got["subcooling"], "K", 1),
        "drop": pair(test, "kPa", 1e3),
        "lost": pair(got["condensate"]["lost"], "L", 1e-3),
    }


FIGURES = ["airflow", "air heat", "water flow", "water flow by balance", "water heat", "left over", "superheat", "subcooling", "drop", "lost"]


@pytest.mark.parametrize("figure", FIGURES)
def test_uncertainty_against_monte_carlo(figure: str, drawn: dict[str, Draws], found: dict[str, tuple[float, float]]) -> None:
    draws, (measured, uncertainty) = drawn[figure], found[figure]
    spread = float(np.std(draws))
    assert uncertainty == pytest.approx(spread, rel=WITHIN)
    assert abs(measured - float(np.mean(draws))) < 0.1 * spread


def test_airflow_by_the_waters_heat_against_monte_carlo(drawn: dict[str, Draws], found: dict[str, tuple[float, float]]) -> None:
    """It is a ratio: the blower's airflow, in both of the terms drawn above, cancels. A ratio's spread has second-order terms: 6 %."""
    measured, uncertainty = found["airflow by water"]
    spread = float(np.std(drawn["airflow by water"]))
    assert uncertainty == pytest.approx(spread, rel=0.06)
    assert abs(measured - float(np.mean(drawn["airflow by water"]))) < 0.15 * spread
