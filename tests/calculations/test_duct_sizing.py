"""Duct sizing against figures from outside, at its limits, and where it must refuse."""

import fluids
import pytest

from kneewall.kernel.refusal import Refusal
from tests.asking import answer, result, value, verdicts
from tests.outside import Outside

TRADE_CATALOGUE = {50: 5, 100: 6, 150: 7, 200: 8, 250: 9, 300: 9, 500: 11, 700: 12, 900: 14, 1100: 15, 1300: 16, 1500: 16, 1700: 17, 1900: 18}


@pytest.mark.parametrize(("airflow", "size"), TRADE_CATALOGUE.items())
def test_round_sizes_of_a_trade_catalogue(airflow: int, size: int) -> None:
    """Round galvanized duct at 0.10 in. w.g./100 ft: a duct maker's sizing table; common practice, read in a trade catalogue. Nominal sizes are exact."""
    found = result("duct-sizing", {"airflow": f"{airflow} cfm", "friction_rate": "0.1 inH2O/100ft"})
    assert value(found["size"]["diameter"], "in") == size


def test_friction_of_a_handbook_example() -> None:
    """Rectangular 22 x 22 in, 5400 cfm: 0.145 in. w.g./100 ft."""
    question = {
        "airflow": "5400 cfm",
        "duct": {"material": "galvanized-steel", "shape": "rectangular"},
        "size": {"shape": "rectangular", "width": "22 in", "height": "22 in"},
    }
    expected = Outside(
        0.145, "handbook duct-sizing example (copy; it prints 24 x 24 but its 24.1 in equivalent is 22 x 22)", "published", 0.10, "read off a chart"
    )
    expected.check(value(result("duct-sizing", question)["friction_rate"], "inH2O/100ft"))


@pytest.mark.parametrize(("diameter", "airflow"), [(4, 40), (6, 110), (8, 260), (10, 480), (16, 1400), (30, 6000)])
def test_friction_agrees_with_an_independent_library(diameter: float, airflow: float) -> None:
    """The whole chain against `fluids.one_phase_dP` (general-purpose library, Colebrook solved by Clamond's method)."""
    question = {"airflow": f"{airflow} cfm", "size": {"shape": "round", "diameter": f"{diameter} in"}}
    got = value(result("duct-sizing", question, units="si")["friction_rate"], "Pa/m")
    cfm, inch, foot = 0.3048**3 / 60, 0.0254, 0.3048
    density = 0.075 * 0.45359237 / foot**3
    reference = fluids.one_phase_dP(airflow * cfm * density, density, 1.82e-5, diameter * inch, roughness=0.0003 * foot, L=1.0)
    Outside(reference, "fluids.one_phase_dP", "computed", 1e-6, "seven digits are printed").check(got)


def test_a_size_fed_back_agrees() -> None:
    chosen = answer("duct-sizing", {"airflow": "1150 cfm", "friction_rate": "0.07 inH2O/100ft"})["result"]
    fed_back = answer("duct-sizing", {"airflow": "1150 cfm", "size": chosen["size"]})["result"]
    assert {name: fed_back[name] for name in ("velocity", "friction_rate", "reynolds_number")} == {
        name: chosen[name] for name in ("velocity", "friction_rate", "reynolds_number")
    }


@pytest.mark.parametrize(("velocity", "verdict"), [("699.9 fpm", "watch"), ("700 fpm", "meets"), ("700.1 fpm", "meets")])
def test_noise_just_below_at_and_above_the_usual_velocity(velocity: str, verdict: str) -> None:
    """The area in ft2 of a 12 x 12 in duct is one, so cfm and fpm are the same number."""
    airflow = {"699.9 fpm": "700.1 cfm", "700 fpm": "700 cfm", "700.1 fpm": "699.9 cfm"}[velocity]
    question = {
        "airflow": airflow,
        "duct": {"shape": "rectangular"},
        "size": {"shape": "rectangular", "width": "12 in", "height": "12 in"},
        "place": "supply-branch",
    }
    assert verdicts("duct-sizing", question)["noise"] == verdict


def test_flexible_duct_outside_the_tested_sizes_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        result("duct-sizing", {"airflow": "2500 cfm", "duct": {"material": "flexible"}, "size": {"shape": "round", "diameter": "18 in"}})
    assert refused.value.kind == "cannot-answer"
    assert refused.value.faults[0].pointer == "/size"
