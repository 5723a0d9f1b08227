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


def checks(question: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {check["check"]: check for check in answer("duct-system", question)["checks"]}


def sections_of(question: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {section["id"]: section for section in question["sections"]}


@pytest.mark.parametrize(("fpm", "verdict"), [(763, "fails"), (765, "meets")])
def test_a_velocity_asked_for_holds_for_given_sizes(fpm: int, verdict: str) -> None:
    """By hand: without a blower 600 cfm through the 12 in trunk, 0.7854 ft2, move at 763.9 fpm; the branches, 0.4418 ft2, are slower."""
    question = {key: given for key, given in WYE.items() if key != "blower"}
    found = checks({**question, "velocity_limit": {"supply": f"{fpm} fpm"}})
    assert found["asked velocity, supply"]["verdict"] == verdict
    assert "asked velocity, return" not in found


@pytest.mark.parametrize("task", ["size", "analyse"])
def test_a_friction_rate_asked_for_holds_for_given_sizes(task: str) -> None:
    """Chart fit FR = 0.109136 q^1.9/D^5.02 (common practice): 300 cfm in 9 in lose 0.090 in. w.c./100 ft, 600 cfm in 12 in 0.079."""
    question = {**{key: given for key, given in WYE.items() if key != "blower"}, "task": task}
    for rate, verdict in ((0.06, "fails"), (0.1, "meets")):
        check = checks({**question, "friction_rate": f"{rate} inH2O/100ft"})["asked friction rate"]
        assert check["verdict"] == verdict
        assert "near" in check["says"]


def test_the_critical_path_of_settled_air_is_that_of_the_outlet_served_worst() -> None:
    found = result("duct-system", WYE)
    ratios = {outlet["id"]: outlet["ratio"] for outlet in found["outlets"] if outlet["side"] == "supply"}
    assert found["critical_path"]["supply"] == min(ratios, key=lambda name: ratios[name]) == "far"
    swapped = {**WYE, "sections": WYE["sections"][::-1]}
    assert result("duct-system", swapped)["critical_path"] == found["critical_path"]


def test_taps_read_total_pressure_less_velocity_pressure() -> None:
    """By hand: Pv = (V/4005)^2 at 600 cfm, 12 in: 763.9 fpm, 0.0364 in. w.c.; 14 in: 561.3 fpm, 0.0196. The filter stands before the return's tap."""
    found = result("duct-system", {key: given for key, given in WYE.items() if key != "blower"})["external_static_pressure"]
    supply, back, filter_drop = (value(found[name], "inH2O") for name in ("supply", "return", "components"))
    assert value(found["at_taps"]["supply"], "inH2O") == pytest.approx(supply - (763.9 / 4005) ** 2, abs=2e-4)
    assert value(found["at_taps"]["return"], "inH2O") == pytest.approx(back + filter_drop + (561.3 / 4005) ** 2, abs=2e-4)
    several = {**WYE, "sections": [{**section, "toward_unit": "unit"} for section in WYE["sections"][1:]]}
    assert "supply" not in result("duct-system", several)["external_static_pressure"]["at_taps"]


def hot_duct(length: float, nominal: float | None) -> dict[str, Any]:
    section = {**WYE["sections"][1], "toward_unit": "unit", "length": f"{length} ft"}
    if nominal is not None:
        section["insulation"] = {"nominal_r": f"{nominal} R"}
    return {"task": "analyse", "sections": [section], "surroundings": {"temperature": "118 degF"}, "supply_air": {"temperature": "55 degF"}}


@pytest.mark.parametrize(("length", "verdict"), [(12.8, "meets"), (13.1, "watch"), (33.0, "watch"), (33.5, "fails")])
def test_heat_on_the_way_at_a_tenth_and_a_quarter(length: float, verdict: str) -> None:
    """By hand: 300 cfm of standard air are m c = 1.081 x 300 = 324.4 Btu/h.degF; R-1.2 resists by 2.2438 + 0.5619 x 1.2 = 2.918; 9 in round is 2.356 ft2/ft.
    63 (1 - exp(-2.356 L/(2.918 x 324.4))) is a tenth of 75 - 55, 2 degF, at L = 12.96 ft and a quarter, 5 degF, at 33.23 ft."""
    assert checks(hot_duct(length, 1.2))["heat on the way"]["verdict"] == verdict


def test_heating_counts_what_the_air_gives_off() -> None:
    question = {**hot_duct(40, None), "surroundings": {"temperature": "20 degF"}, "supply_air": {"temperature": "105 degF"}}
    check = checks(question)["heat on the way"]
    assert check["verdict"] == "fails"
    assert "gives off" in check["says"]


@pytest.mark.parametrize(("nominal", "verdict"), [(None, "refer"), (7.9, "refer"), (8.0, "meets")])
def test_thin_insulation_is_referred_to_the_energy_code(nominal: float | None, verdict: str) -> None:
    """IECC 2015 R403.3.1, as quoted on a state's energy-code site: R-8 in attics for ducts of 3 in and larger."""
    assert checks(hot_duct(10, nominal))["insulation"]["verdict"] == verdict


@pytest.mark.parametrize("dropped", ["surroundings", "supply_air"])
def test_surroundings_without_supply_air_are_not_dropped_in_silence(dropped: str) -> None:
    question = hot_duct(10, 8.0)
    del question[dropped]
    check = checks(question)["heat and sweating"]
    assert check["verdict"] == "watch"
    assert dropped.replace("_", " ") in check["says"]


def test_a_chosen_box_keeps_the_quoted_proportions() -> None:
    """HVAC Systems and Equipment 2012, as quoted: box two to three times as wide as its entrance, no longer than twice its width. Behind a wide trunk, 8 in high, the
    entrance's own width counts; its sides must take the collars of the branches."""
    question = copy.deepcopy(EXAMPLES["size-the-upper-floor"])
    for name in ("north-trunk", "south-trunk"):
        sections_of(question)[name]["duct"]["fixed_side"] = "8 in"
    found = answer("duct-system", question)
    sizes = {section["id"]: section["size"] for section in found["result"]["sections"]}
    for side in ("north", "south"):
        box, entrance = sizes[f"{side}-box"], sizes[f"{side}-trunk"]
        assert 2.0 <= value(box["width"], "in") / value(entrance["width"], "in") <= 3.0
        assert 2 * value(box["width"], "in") >= 36
    collar = max(value(sizes[name]["diameter"], "in") for name in ("main-bedroom-1", "main-bedroom-2", "main-bath", "landing", "study"))
    assert value(sizes["south-box"]["height"], "in") >= collar
    assert {check["check"]: check["verdict"] for check in found["checks"]}["proportions of boxes"] == "meets"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"length": "5 ft"}, "twice its width"),
        ({"length": "2 ft"}, "first outlet"),
        ({"size": {"shape": "rectangular", "width": "18 in", "height": "14 in"}}, "two to three times"),
        ({"size": {"shape": "rectangular", "width": "24 in", "height": "7 in"}}, "collar"),
    ],
)
def test_a_given_box_of_other_proportions_is_watched(change: dict[str, Any], words: str) -> None:
    question = copy.deepcopy(EXAMPLES["analyse-the-upper-floor"])
    sections_of(question)["north-box"].update(change)
    check = checks(question)["proportions of north-box"]
    assert check["verdict"] == "watch"
    assert words in check["says"]


def test_a_branch_that_leaves_a_plenum_without_a_fitting_is_named() -> None:
    question = copy.deepcopy(EXAMPLES["analyse-the-upper-floor"])
    assert "branches" not in checks(question)
    sections_of(question)["stair"]["fittings"] = []
    assert "stair" in checks(question)["branches"]["says"]


def test_a_unit_that_moves_too_little_is_not_mended_by_dampers() -> None:
    weak = copy.deepcopy(EXAMPLES["analyse-the-upper-floor"])
    for point in weak["blower"]["points"]:
        point["airflow"] = f"{0.75 * float(point['airflow'].split()[0]):.1f} cfm"
    weak["blower"]["points"].append({"airflow": "1000 cfm", "static_pressure": "0.1 inH2O"})
    assert checks(weak)["unit airflow"]["verdict"] == "fails"
    strong = checks(EXAMPLES["analyse-the-upper-floor"])
    assert strong["unit airflow"]["verdict"] == "watch"
    assert "damper gives" not in strong["airflow at study"]["says"]
    assert "speed" in strong["airflow at study"]["says"]


def test_one_run_without_a_blower_is_not_said_to_meet_its_own_assumption() -> None:
    assert not [name for name in checks({**hot_duct(10, None)}) if name.startswith(("airflow", "unit"))]


def test_a_blower_too_weak_says_how_much_is_missing() -> None:
    """By hand: losses of only outlets (square of the airflow): at the table's last 550 cfm the system takes (550/600)^2 of 2.0 + 0.03 = 1.706 in. w.c., and the table ends at 0.5."""
    question = copy.deepcopy(WYE)
    question["components"] = []
    for section in question["sections"]:
        section.update(length="0.1 ft", fittings=[])
        section["size"]["diameter"] = "30 in"
    for name in ("near", "far"):
        sections_of(question)[name]["outlet"]["pressure_drop"] = "2 inH2O"
    with pytest.raises(Refusal) as refused:
        answer("duct-system", question)
    detail = str(refused.value.faults[0].detail)
    assert "1.706 in. w.c." in detail
    assert "1.206 in. w.c. are missing" in detail


def test_components_far_from_their_rating_are_watched() -> None:
    for cfm, expected in ((310, False), (270, True)):
        question = {
            **{key: given for key, given in WYE.items() if key != "blower"},
            "components": [{**WYE["components"][0], "airflow": f"{cfm} cfm"}],
        }
        assert ("component range" in checks(question)) == expected


def test_places_are_those_of_the_table_for_one_duct() -> None:
    """700 fpm in a branch, 900 in a trunk (common practice): 300 cfm move at 679 fpm in 9 in, 0.4418 ft2, and at 859 fpm in 8 in, 0.3491 ft2; the trunk has 764."""
    question = {**copy.deepcopy(WYE), "task": "size", "friction_rate": "0.1 inH2O/100ft"}
    assert checks(question)["noise"]["verdict"] == "meets"
    sections_of(question)["far"]["size"]["diameter"] = "8 in"
    check = checks(question)["noise"]
    assert check["verdict"] == "watch"
    assert value(check["limit"], "fpm") == pytest.approx(700)


def test_no_figure_is_only_what_subtraction_leaves() -> None:
    for example in EXAMPLES.values():
        found = result("duct-system", example)
        figures = [section["fitting_loss"]["value"] for section in found["sections"]] + [path["surplus_pressure"]["value"] for path in found["paths"]]
        assert all(figure == 0 or figure > 1e-8 for figure in figures)


@pytest.mark.parametrize(
    ("fitting", "pointer", "words"),
    [
        ({"fitting": "takeoff", "radius_ratio": 1.0}, "radius_ratio", "a takeoff"),
        ({"fitting": "elbow-mitred", "radius_ratio": 1.0}, "radius_ratio", "a mitered elbow"),
        ({"fitting": "elbow-smooth", "area_ratio": 2.0}, "area_ratio", "a smooth elbow"),
        ({"fitting": "damper-open", "angle": 45}, "angle", "an open damper"),
        ({"loss_coefficient": 0.5, "angle": 45}, "angle", "a loss coefficient"),
        ({"fitting": "takeoff", "angle": 120}, "angle", "a takeoff is known from 20 to 90"),
    ],
)
def test_a_field_that_says_nothing_of_its_fitting_is_refused(fitting: dict[str, Any], pointer: str, words: str) -> None:
    question = copy.deepcopy(WYE)
    question["sections"][1]["fittings"] = [fitting]
    with pytest.raises(Refusal) as refused:
        answer("duct-system", question)
    fault = refused.value.faults[0]
    assert fault.pointer == f"/sections/1/fittings/0/{pointer}"
    assert words in str(fault.detail)
