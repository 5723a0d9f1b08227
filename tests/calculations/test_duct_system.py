"""The duct system against an independent solution of the same network, a hand calculation, and its own answers fed back."""

import copy
from typing import Any

import fluids
import numpy
import pytest
from scipy.optimize import fsolve

from kneewall.catalogue import all_calculations
from kneewall.kernel.refusal import Refusal
from tests.asking import answer, result, value
from tests.outside import Outside

CFM, INCH, FOOT, IN_WG = 0.3048**3 / 60, 0.0254, 0.3048, 249.08891
DENSITY, VISCOSITY = 0.075 * 0.45359237 / FOOT**3, 1.82e-5
EXAMPLES = {example.name: example.question for example in all_calculations()["duct-system"].examples}

WYE: dict[str, Any] = {
    "task": "analyse",
    "blower": {"points": [{"airflow": "700 cfm", "static_pressure": "0.1 inH2O"}, {"airflow": "550 cfm", "static_pressure": "0.5 inH2O"}]},
    "components": [{"name": "filter", "kind": "filter", "pressure_drop": "0.1 inH2O", "airflow": "600 cfm", "side": "return"}],
    "sections": [
        {"id": "trunk", "side": "supply", "toward_unit": "unit", "length": "20 ft", "size": {"shape": "round", "diameter": "12 in"}},
        {
            "id": "near",
            "side": "supply",
            "toward_unit": "trunk",
            "length": "10 ft",
            "size": {"shape": "round", "diameter": "9 in"},
            "fittings": [{"loss_coefficient": 0.8}],
            "outlet": {"airflow": "300 cfm", "pressure_drop": "0.02 inH2O"},
        },
        {
            "id": "far",
            "side": "supply",
            "toward_unit": "trunk",
            "length": "35 ft",
            "size": {"shape": "round", "diameter": "9 in"},
            "fittings": [{"fitting": "elbow-smooth", "count": 2}],
            "outlet": {"airflow": "300 cfm", "pressure_drop": "0.02 inH2O"},
        },
        {
            "id": "return",
            "side": "return",
            "toward_unit": "unit",
            "length": "15 ft",
            "size": {"shape": "round", "diameter": "14 in"},
            "outlet": {"airflow": "600 cfm", "pressure_drop": "0.03 inH2O"},
        },
    ],
}


def duct_drop(flow: float, inches: float, feet: float, coefficient: float) -> float:
    """Straight duct by `fluids`, fittings by C rho V^2/2: Pa from m3/s."""
    area = numpy.pi / 4 * (inches * INCH) ** 2
    straight = fluids.one_phase_dP(flow * DENSITY, DENSITY, VISCOSITY, inches * INCH, roughness=0.0003 * FOOT, L=feet * FOOT)
    return float(straight + coefficient * DENSITY / 2 * (flow / area) ** 2)


def independent_wye() -> tuple[float, float, float]:
    """Flows near and far and the static pressure, by scipy's general root finder on the equations written out."""

    def residuals(unknown: Any) -> list[float]:
        near, far, static = unknown
        total = near + far
        branch = duct_drop(near, 9, 10, 0.8) + 0.02 * IN_WG * (near / (300 * CFM)) ** 2
        other = duct_drop(far, 9, 35, 2 * 0.22) + 0.02 * IN_WG * (far / (300 * CFM)) ** 2
        filter_drop = 0.1 * IN_WG * (total / (600 * CFM)) ** (1 / 0.85)
        back = duct_drop(total, 14, 15, 0.0) + 0.03 * IN_WG * (total / (600 * CFM)) ** 2
        blower = (700 - 150 * (static / IN_WG - 0.1) / 0.4) * CFM
        return [branch - other, duct_drop(total, 12, 20, 0.0) + branch + filter_drop + back - static, (blower - total) * 1000]

    near, far, static = fsolve(residuals, [300 * CFM, 300 * CFM, 0.3 * IN_WG], xtol=1e-12)
    return float(near / CFM), float(far / CFM), float(static / IN_WG)


def test_flows_of_a_wye_agree_with_an_independent_solution() -> None:
    near, far, static = independent_wye()
    found = result("duct-system", WYE)
    flows = {outlet["id"]: value(outlet["airflow"], "cfm") for outlet in found["outlets"]}
    for got, expected in ((flows["near"], near), (flows["far"], far), (value(found["operating_point"]["static_pressure"], "inH2O"), static)):
        Outside(expected, "scipy.optimize.fsolve on the equations, losses by fluids", "computed", 1e-6, "seven digits are printed").check(got)


def test_what_flows_in_flows_out() -> None:
    found = result("duct-system", EXAMPLES["analyse-the-upper-floor"])
    flows = {section["id"]: value(section["airflow"], "cfm") for section in found["sections"]}
    for side in ("supply", "return"):
        outlets = sum(value(outlet["airflow"], "cfm") for outlet in found["outlets"] if outlet["side"] == side)
        assert outlets == pytest.approx(flows[f"{side}-plenum"], rel=1e-6)
    assert flows["north-box"] == pytest.approx(sum(flows[name] for name in ("east-bedroom", "east-bath", "hall", "north-bedroom")), rel=1e-6)


def test_every_path_to_the_room_loses_the_same_when_the_air_has_settled() -> None:
    found = result("duct-system", EXAMPLES["analyse-the-upper-floor"])
    for side in ("supply", "return"):
        drops = [value(path["pressure_drop"], "inH2O") for path in found["paths"] if path["side"] == side]
        assert max(drops) == pytest.approx(min(drops), rel=1e-6)


def test_hand_calculation_of_a_sized_run() -> None:
    """One round run, 400 cfm, 10 in, 50 ft, C = 0.5, by hand: A = 0.5454 ft2, V = 733.4 fpm, Re = 8.56 D V = 62 800, e/D = 0.00036;
    Colebrook: 1/sqrt f = -2 log10(0.00036/3.7 + 2.51/(62 800 x 0.1458)) = 6.86, f = 0.02125; Pv = (733.4/4005)^2 = 0.03353;
    friction = 0.02125 x 600/10 x 0.03353 = 0.04275, fitting 0.01677, sum 0.0595 in. w.g."""
    section = {
        "id": "run",
        "side": "supply",
        "toward_unit": "unit",
        "length": "50 ft",
        "size": {"shape": "round", "diameter": "10 in"},
        "fittings": [{"loss_coefficient": 0.5}],
        "outlet": {"airflow": "400 cfm", "pressure_drop": "0 inH2O"},
    }
    found = result("duct-system", {"task": "analyse", "sections": [section]})
    assert value(found["sections"][0]["pressure_drop"], "inH2O") == pytest.approx(0.0595, rel=0.005)


def test_sizes_fed_back_to_be_analysed_give_the_design_pressure() -> None:
    """Without a blower the unit delivers the design air; with one outlet on each side the flows are the design flows, so both tasks must agree."""
    sections = [
        {"id": "out", "side": "supply", "toward_unit": "unit", "length": "30 ft", "outlet": {"airflow": "500 cfm", "pressure_drop": "0.03 inH2O"}},
        {"id": "back", "side": "return", "toward_unit": "unit", "length": "20 ft", "outlet": {"airflow": "500 cfm", "pressure_drop": "0.03 inH2O"}},
    ]
    sized = result("duct-system", {"task": "size", "friction_rate": "0.08 inH2O/100ft", "sections": sections})
    sizes = {section["id"]: section["size"] for section in sized["sections"]}
    again = [{**section, "size": sizes[section["id"]]} for section in sections]
    analysed = result("duct-system", {"task": "analyse", "sections": again})
    assert analysed["external_static_pressure"] == sized["external_static_pressure"]


@pytest.mark.parametrize("rate", [0.05, 0.08, 0.12])
def test_every_duct_loses_no_more_than_the_friction_rate(rate: float) -> None:
    question = {**EXAMPLES["three-runs-by-friction-rate"], "friction_rate": f"{rate} inH2O/100ft"}
    for section in result("duct-system", question)["sections"]:
        assert value(section["friction_rate"], "inH2O/100ft") <= rate * (1 + 1e-6)


def test_the_friction_rate_found_from_the_blower_uses_what_there_is() -> None:
    """The critical paths at that rate, before rounding up, lose what blower less components leave: so after rounding the system takes less, and not under half."""
    question = copy.deepcopy(EXAMPLES["size-the-upper-floor"])
    question["blower"]["points"] = [{"airflow": "1200 cfm", "static_pressure": "0.25 inH2O"}, {"airflow": "1100 cfm", "static_pressure": "0.3 inH2O"}]
    found = answer("duct-system", question)
    has = 0.275
    assert 0.5 * has < value(found["result"]["external_static_pressure"]["total"], "inH2O") <= has
    assert value(found["result"]["friction_rate"], "inH2O/100ft") < 0.18


def test_blower_that_cannot_is_refused_with_what_to_change() -> None:
    question = copy.deepcopy(EXAMPLES["size-the-upper-floor"])
    question["components"][0]["pressure_drop"] = "0.6 inH2O"
    with pytest.raises(Refusal) as refused:
        answer("duct-system", question)
    assert refused.value.faults[0].pointer == "/components"


def test_a_tighter_duct_gets_less_air_and_its_neighbours_more() -> None:
    narrow = copy.deepcopy(WYE)
    narrow["sections"][2]["size"]["diameter"] = "8 in"
    before, after = ({outlet["id"]: outlet["ratio"] for outlet in result("duct-system", question)["outlets"]} for question in (WYE, narrow))
    assert after["far"] < before["far"]
    assert after["near"] > before["near"]


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        (lambda q: q["sections"][1].update(toward_unit="nowhere"), "/sections/1/toward_unit"),
        (lambda q: q["sections"][0].update(toward_unit="far"), "/sections/0/toward_unit"),
        (lambda q: q["sections"][2].update(id="near"), "/sections/2/id"),
        (lambda q: q["sections"][3].update(toward_unit="trunk"), "/sections/3/toward_unit"),
        (lambda q: q["sections"][1].pop("size"), "/sections/1/size"),
        (lambda q: q["sections"][1].pop("outlet"), "/sections/1/outlet"),
        (lambda q: q["sections"][1]["fittings"][0].update(equivalent_length="10 ft"), "/sections/1/fittings/0"),
    ],
)
def test_what_is_not_a_tree_is_refused_where_it_is_wrong(change: Any, pointer: str) -> None:
    question = copy.deepcopy(WYE)
    change(question)
    with pytest.raises(Refusal) as refused:
        answer("duct-system", question)
    assert pointer in [fault.pointer for fault in refused.value.faults]


def test_heat_of_an_attic_duct_of_a_textbook() -> None:
    """Square duct 0.15 m, 0.1 m3/s of air entering at 85 degC, walls at 70 degC, 10 m long: leaves at 75.7 degC (a textbook exercise; inputs read in a copy,
    answer from memory). The film by Dittus-Boelter with the exercise's air (rho 0.994, c 1008, k 0.0299, nu 2.097e-5, Pr 0.7154) is part of the check, not of the service."""
    from kneewall.calculations.duct_system.heat import leaving_temperature

    velocity, diameter = 0.1 / 0.15**2, 0.15
    film = 0.0299 / diameter * 0.023 * (velocity * diameter / 2.097e-5) ** 0.8 * 0.7154**0.3
    got = leaving_temperature(85.0, 70.0, film * 4 * 0.15 * 10, 0.1 * 0.994 * 1008)
    Outside(75.7, "textbook exercise on an attic duct", "from-memory", 0.005, "three digits are printed").check(got)


@pytest.mark.parametrize(
    ("around", "humidity", "foil", "dull"), [(80, 0.8, 3.59, 1.85), (85, 0.7, 2.32, 1.19), (90, 0.6, 1.61, 0.83), (95, 0.5, 1.13, 0.58)]
)
def test_insulation_that_does_not_sweat(around: float, humidity: float, foil: float, dull: float) -> None:
    """R = R_s (T_dp - T_in)/(T_around - T_dp) with the dew point by psychrolib, 55 degF air inside: an independent dew point, the formula by hand."""
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    kelvin = (around - 32) / 1.8 + 273.15
    dew = psychrolib.GetTDewPointFromRelHum(kelvin - 273.15, humidity) + 273.15
    section = {**WYE["sections"][1], "toward_unit": "unit"}
    for jacket, least in (("foil", foil), ("dull", dull)):
        surroundings = {"temperature": {"value": kelvin, "unit": "K"}, "dew_point": {"value": dew, "unit": "K"}, "jacket": jacket}
        found = result(
            "duct-system", {"task": "analyse", "sections": [section], "surroundings": surroundings, "supply_air": {"temperature": "55 degF"}}
        )
        assert value(found["sections"][0]["least_r"], "ft2.h.degF/Btu") == pytest.approx(least, abs=0.006)


@pytest.mark.parametrize(("nominal", "verdict"), [(1.60, "fails"), (1.62, "meets")])
def test_sweating_just_below_and_above_its_limit(nominal: float, verdict: str) -> None:
    section = {**WYE["sections"][1], "toward_unit": "unit", "insulation": {"nominal_r": f"{nominal} R"}}
    surroundings = {"temperature": "90 degF", "dew_point": "74.24 degF", "jacket": "foil"}
    found = answer("duct-system", {"task": "analyse", "sections": [section], "surroundings": surroundings, "supply_air": {"temperature": "55 degF"}})
    assert next(check["verdict"] for check in found["checks"] if check["check"].startswith("sweating")) == verdict


def test_leakage_of_a_printed_class() -> None:
    """Leakage class 12 at 1 in. w.g. is 12 cfm per 100 ft2 by definition (SMACNA HVAC Air Duct Leakage Test Manual): a round duct of 38.2 ft and 10 in, seal class C,
    has 100 ft2; its mean pressure is set by the outlet, 1 in. w.g. less the velocity pressure, plus half its own loss."""
    section = {
        "id": "run",
        "side": "supply",
        "toward_unit": "unit",
        "length": "38.197 ft",
        "size": {"shape": "round", "diameter": "10 in"},
        "leakage_class": "C",
        "outlet": {"airflow": "300 cfm", "pressure_drop": "1 inH2O"},
    }
    found = result("duct-system", {"task": "analyse", "sections": [section]})
    mean = (
        1.0 + value(found["sections"][0]["pressure_drop"], "inH2O") / 2 - DENSITY / 2 * (300 * CFM / (numpy.pi / 4 * (10 * INCH) ** 2)) ** 2 / IN_WG
    )
    assert value(found["leakage"]["supply"], "cfm") == pytest.approx(12 * mean**0.65, rel=1e-4)


def test_a_splitter_box_costs_what_the_quoted_lengths_say() -> None:
    """Quoted from Manual D, group 11: a box is worth 60 ft of duct at 700 fpm in the branch; at a friction rate of 0.08 in. w.g./100 ft that is 0.048 in. w.g.,
    and 30 ft or 0.024 at 500 fpm. One coefficient of 1.5 gives 0.046 and 0.023: within 8 %."""
    for fpm, feet in ((500, 30), (600, 40), (700, 60), (800, 75)):
        loss = 1.5 * (fpm / 4005) ** 2
        assert loss == pytest.approx(feet * 0.0008, rel=0.08)
    sections = copy.deepcopy(EXAMPLES["analyse-the-upper-floor"]["sections"])
    with_box = result("duct-system", {**EXAMPLES["analyse-the-upper-floor"], "sections": sections})
    hall = next(section for section in with_box["sections"] if section["id"] == "hall")
    velocity_pressure = (value(hall["velocity"], "fpm") / 4005) ** 2
    assert value(hall["fitting_loss"], "inH2O") == pytest.approx((1.5 + 2 * 0.42) * velocity_pressure, rel=0.005)


@pytest.mark.parametrize(
    ("airflow", "regime"), [("7.5 cfm", "laminar"), ("10 cfm", "transitional"), ("15.2 cfm", "transitional"), ("15.6 cfm", "turbulent")]
)
def test_so_little_air_that_the_flow_is_uncertain_is_said(airflow: str, regime: str) -> None:
    """Re = 8.56 D V for standard air (SMACNA HVAC Systems Duct Design): in a 6 in duct, 0.19635 ft2, 2000 is at 7.65 cfm and 4000 at 15.3."""
    section = {
        "id": "run", "side": "supply", "toward_unit": "unit", "length": "10 ft", "size": {"shape": "round", "diameter": "6 in"},
        "outlet": {"airflow": airflow, "pressure_drop": "0.02 inH2O"},
    }  # fmt: skip
    found = answer("duct-system", {"task": "analyse", "sections": [section]})
    assert found["result"]["sections"][0]["regime"] == regime
    assert ("flow regime" in {check["check"] for check in found["checks"]}) == (regime == "transitional")


THIN_AIR = {"altitude": "7000 ft", "temperature": "70 degF"}
THIN_SHARE = (1 - 6.8754e-6 * 7000) ** 5.2559 * 101325 / (287.055 * 294.261) / DENSITY
"""Standard atmosphere and the law of perfect gases: 0.7705 of 0.075 lb/ft3."""


def test_thin_air_weakens_blower_and_quadratic_losses_alike() -> None:
    """Fan laws: at the same speed and airflow dp goes with density. Where all else is quadratic (outlets of all but no duct, a component of power 2), density
    cancels: the same air flows, at a static pressure lower by the density, 0.7705 at 7000 ft and 70 degF, by hand."""
    question = copy.deepcopy(WYE)
    question["components"] = [{"name": "coil", "exponent": 2.0, "pressure_drop": "0.1 inH2O", "airflow": "600 cfm"}]
    for section in question["sections"]:
        section.update(length="0.1 ft", fittings=[])
        section["size"]["diameter"] = "20 in"
    low, high = (result("duct-system", one)["operating_point"] for one in (question, {**question, "air": THIN_AIR}))
    assert value(high["airflow"], "cfm") == pytest.approx(value(low["airflow"], "cfm"), rel=1e-4)
    assert value(high["static_pressure"], "inH2O") == pytest.approx(THIN_SHARE * value(low["static_pressure"], "inH2O"), rel=1e-3)


def test_thin_air_never_makes_a_house_easier_to_duct() -> None:
    """Blower and ducts thin alike, friction a little less (its factor rises), so the friction rate found per standard density cannot grow."""
    question = copy.deepcopy(EXAMPLES["size-the-upper-floor"])
    question["blower"]["points"] = [{"airflow": "1200 cfm", "static_pressure": "0.25 inH2O"}, {"airflow": "1100 cfm", "static_pressure": "0.3 inH2O"}]
    low, high = (value(result("duct-system", one)["friction_rate"], "inH2O/100ft") for one in (question, {**question, "air": THIN_AIR}))
    assert high < THIN_SHARE * low
