"""The whole job in thin air: blower, filter and pan feel the air that is there, not that of the makers' tables."""

import re

import pytest

from kneewall.retrofit.scenario import FIRST, MENDED
from tests.asking import answer, value
from tests.retrofit.test_retrofit_check import changed, conflict

THIN = {"altitude": "5000 ft"}
SHARE = 12.228 / 14.696
"""By hand: the standard atmosphere has 12.228 psia at 5,000 ft (24.90 inHg, U.S. Standard Atmosphere 1976) against 14.696 at sea level, at the same 70 degF."""
DRY = 0.07493 / 0.075
"""Dry air at 70 degF and sea level weighs 14.696 x 144/(53.35 x 529.67) = 0.07489 lb/ft3 by the handbook's gas constant, 0.1 % less than standard air."""


def test_the_blower_in_the_clash_is_the_blower_in_thin_air() -> None:
    """Fan laws: at the same airflow and speed pressure goes with density. 0.3411 in. w.c. in standard air is 0.2836 at 5,000 ft."""
    has = [
        float(match[1])
        for job in (FIRST, changed(FIRST, "air", to=THIN))
        if (match := re.search(r"the blower has ([\d.]+) in", conflict(job, "ducts and blower")["says"]))
    ]
    assert has[1] == pytest.approx(has[0] * SHARE * DRY, rel=2e-3)


def test_the_budget_takes_the_air_of_the_ducts() -> None:
    found = answer("retrofit-check", changed(MENDED, "air", to=THIN))["result"]
    assert value(found["questions"]["static-pressure-budget"]["air"]["altitude"], "ft") == 5000
    level = answer("retrofit-check", MENDED)["result"]["parts"]["static-pressure-budget"]["result"]
    thin = found["parts"]["static-pressure-budget"]["result"]
    expected = value(level["blower_static_pressure"], "inH2O") * SHARE * DRY
    assert value(thin["blower_static_pressure"], "inH2O") == pytest.approx(expected, rel=2e-3)


def test_the_pan_feels_components_in_the_air_that_is_there() -> None:
    """The return side before the fan as the ducts found it in that air, the filter twice, and the stated 0.24 in. w.c. of the coil."""
    found = answer("retrofit-check", changed(MENDED, "air", to=THIN))["result"]
    pressures = found["parts"]["duct-system"]["result"]["external_static_pressure"]
    expected = value(pressures["return"], "inH2O") + 2 * value(pressures["components"], "inH2O") + 0.24
    assert value(found["questions"]["condensate-drain"]["pan_static_pressure"], "inH2O") == pytest.approx(expected, rel=1e-6)
