"""Condensate drains against figures from outside, at their limits, and where they must refuse."""

from copy import deepcopy
from math import cos, pi, sin
from typing import Any

import fluids
import psychrolib
import pytest
from CoolProp.HumidAirProp import HAPropsSI

from kneewall.calculations.condensate_drain.gravity_line import fill_ratio, full_flow, share_of_full
from kneewall.kernel.refusal import Refusal
from tests.asking import answer, result, value, verdicts
from tests.outside import Outside

NAME = "condensate-drain"
INCH, FOOT, GALLON_PER_MINUTE = 0.0254, 0.3048, 231 * 0.0254**3 / 60

PLAIN: dict[str, Any] = {
    "fan_position": "draw-through",
    "pan_static_pressure": "0.5 inH2O",
    "cooling_capacity": "3 ton",
    "pipe": {"material": "pvc-schedule-40", "nominal_size": "3/4 in"},
    "run": {"length": "24 ft", "slope": "1/8 in/ft"},
}


def asked(**changes: Any) -> dict[str, Any]:
    """The plain question with some fields changed; a dict is merged into the one that is there."""
    question = deepcopy(PLAIN)
    for name, change in changes.items():
        question[name] = {**question.get(name, {}), **change} if isinstance(change, dict) else change
    return question


def candidate(found: dict[str, Any], rule: str) -> dict[str, Any]:
    return next(one for one in found["trap"]["candidates"] if one["rule"] == f"condensate-drain.{rule}")


@pytest.mark.parametrize(("pressure", "height"), [(0.25, 2.92), (0.5, 3.30), (1.0, 4.05)])
def test_height_of_the_one_inch_rule(pressure: float, height: float) -> None:
    """H = P + 1, J = H/2 (engineering article on traps for cooling coils, read in a copy) and the 1.05 in of 3/4 in pipe, added up by hand to 0.01 in."""
    found = result(NAME, asked(pan_static_pressure=f"{pressure} in. w.c."))
    assert value(candidate(found, "trap-inch-more")["overall_height"], "in") == pytest.approx(height, abs=0.0051)


@pytest.mark.parametrize(("pressure", "drop", "seal"), [(0.5, 1.5, 0.75), (1.0, 2.0, 1.0)])
def test_trap_table_of_a_makers_manual(pressure: float, drop: float, seal: float) -> None:
    """Negative pressure 0.5 and 1.0 in. w.c.: X = 1.5 and 2 in, X/2 = 3/4 and 1 in. A maker's trap table, common practice; exact."""
    one = candidate(result(NAME, asked(pan_static_pressure=f"{pressure} inH2O")), "trap-inch-more")
    assert value(one["outlet_drop"], "in") == pytest.approx(drop, abs=1e-6)
    assert value(one["seal_depth"], "in") == pytest.approx(seal, abs=1e-6)


@pytest.mark.parametrize(
    ("pressure", "total", "governing"),
    [
        (0.0, 3.0, "trap-total-depth"),
        (0.99, 3.0, "trap-total-depth"),
        (1.01, 3.015, "trap-inch-more"),
        (1.49, 3.735, "trap-inch-more"),
        (1.51, 3.775, "trap-total-depth"),
        (2.0, 5.0, "trap-total-depth"),
    ],
)
def test_the_deeper_of_two_makers_rules_governs(pressure: float, total: float, governing: str) -> None:
    """1.5 P + 1.5 against the larger of 3 in and 2.5 P (makers' manuals, common practice): by hand they cross at P = 1.0 and 1.5 in. w.c."""
    trap = result(NAME, asked(pan_static_pressure=f"{pressure} inH2O"))["trap"]
    assert trap["governing_rule"] == f"condensate-drain.{governing}"
    assert value(trap["outlet_drop"], "in") + value(trap["seal_depth"], "in") == pytest.approx(total, abs=1e-5)
    assert value(trap["overall_height"], "in") == pytest.approx(total + 1.05, abs=1e-5)


@pytest.mark.parametrize("pressure", [0.0, 0.1, 0.4, 0.9, 1.2, 1.5, 3.0, 10.0])
@pytest.mark.parametrize("fan", ["draw-through", "blow-through"])
def test_every_offered_trap_holds_by_the_balance_of_columns(fan: str, pressure: float) -> None:
    """Draw-through: outlet below the pan by more than P, seal more than P/2 after the legs have moved. Blow-through: seal more than P. Worked out by hand."""
    trap = result(NAME, asked(fan_position=fan, pan_static_pressure=f"{pressure} inH2O"))["trap"]
    drop, seal = value(trap["outlet_drop"], "in"), value(trap["seal_depth"], "in")
    if fan == "draw-through":
        assert drop > pressure
        assert seal > pressure / 2
    else:
        assert drop > 0
        assert seal > pressure


def test_the_blowers_capability_is_one_more_rule() -> None:
    """Depth = what the blower can deliver, never under 1-1/2 in (a maker's manual, common practice): 1.5 in at 0.8, 1.8 in at 1.8 in. w.c."""
    for capability, seal in (("0.8 inH2O", 1.5), ("1.8 inH2O", 1.8)):
        one = candidate(result(NAME, asked(blower_capability=capability)), "trap-by-blower")
        assert value(one["seal_depth"], "in") == pytest.approx(seal, abs=1e-6)


@pytest.mark.parametrize(
    ("drop", "verdict"), [("0.499 in", "fails"), ("0.5 in", "fails"), ("0.501 in", "watch"), ("1.499 in", "watch"), ("1.5 in", "meets")]
)
def test_an_outlet_drop_just_below_at_and_above_suction(drop: str, verdict: str) -> None:
    """At 0.5 in. w.c. of suction the water stands 0.5 in. higher in the inlet leg: an outlet no lower than that never drains."""
    assert verdicts(NAME, asked(trap={"outlet_drop": drop, "seal_depth": "2 in"}))["outlet drop of the trap"] == verdict


@pytest.mark.parametrize(("seal", "verdict"), [("0.249 in", "fails"), ("0.25 in", "fails"), ("0.251 in", "watch"), ("1.5 in", "meets")])
def test_a_seal_just_below_at_and_above_half_the_suction(seal: str, verdict: str) -> None:
    assert verdicts(NAME, asked(trap={"outlet_drop": "2 in", "seal_depth": seal}))["seal of the trap"] == verdict


@pytest.mark.parametrize(("vent", "verdict"), [("after-trap", "meets"), ("before-trap", "fails"), ("none", "watch")])
def test_the_vent_stands_after_the_trap(vent: str, verdict: str) -> None:
    """A vent before the trap lets air into a pan under suction; makers' manuals, common practice."""
    assert verdicts(NAME, asked(vent=vent))["vent"] == verdict


AIR_STATES = [((80, 67), (55, 54), 0.0), ((75, 63), (55, 54), 0.0), ((78, 65), (56, 54.5), 4200.0), ((95, 78), (58, 57), 0.0)]


def _air_question(entering: tuple[float, float], leaving: tuple[float, float], altitude: float) -> dict[str, Any]:
    return asked(
        airflow="1200 cfm",
        altitude=f"{altitude} ft",
        entering_air={"dry_bulb": f"{entering[0]} degF", "wet_bulb": f"{entering[1]} degF"},
        leaving_air={"dry_bulb": f"{leaving[0]} degF", "wet_bulb": f"{leaving[1]} degF"},
    )


@pytest.mark.parametrize(("entering", "leaving", "altitude"), AIR_STATES)
def test_water_made_agrees_with_psychrolib(entering: tuple[float, float], leaving: tuple[float, float], altitude: float) -> None:
    """1200 cfm of entering air; humidity ratios and volume from psychrolib (ASHRAE equations, independent code)."""
    psychrolib.SetUnitSystem(psychrolib.IP)
    pressure = psychrolib.GetStandardAtmPressure(altitude)
    before = psychrolib.GetHumRatioFromTWetBulb(*entering, pressure)
    after = psychrolib.GetHumRatioFromTWetBulb(*leaving, pressure)
    expected = 1200 * 60 / psychrolib.GetMoistAirVolume(entering[0], before, pressure) * (before - after)
    got = result(NAME, _air_question(entering, leaving, altitude))["condensate"]
    Outside(
        expected, "psychrolib", "computed", 0.02, "no enhancement factor there: half a percent of each of two ratios whose difference is small"
    ).check(value(got["mass_flow"], "lb/h"))


@pytest.mark.parametrize(("entering", "leaving", "altitude"), [state for state in AIR_STATES if state[2] == 0.0])
def test_water_and_cooling_agree_with_coolprop(entering: tuple[float, float], leaving: tuple[float, float], altitude: float) -> None:
    """The same from CoolProp's real-gas humid air, which differs from perfect gases by the enhancement factor."""

    def of(wanted: str, state: tuple[float, float]) -> float:
        dry, wet = ((degrees + 459.67) / 1.8 for degrees in state)
        return HAPropsSI(wanted, "T", dry, "B", wet, "P", 101325.0)  # type: ignore[no-any-return]

    dry_air = 1200 * FOOT**3 / 60 / of("V", entering)
    water = dry_air * (of("W", entering) - of("W", leaving))
    got = result(NAME, _air_question(entering, leaving, altitude), units="si")["condensate"]
    Outside(water * 3600, "CoolProp humid air", "computed", 0.006, "small difference of two ratios, each to 0.05 %").check(
        value(got["mass_flow"], "kg/h")
    )
    liquid = water * 4186.0 * ((leaving[1] + 459.67) / 1.8 - 273.15)
    cooling = dry_air * (of("H", entering) - of("H", leaving)) - liquid
    Outside(cooling / 1000, "CoolProp humid air", "computed", 0.01, "perfect gases").check(value(got["coil_capacity"], "kW"))
    assert got["sensible_heat_ratio"] == pytest.approx(1 - water * 2468e3 / cooling, abs=0.005)


def test_a_table_of_water_made() -> None:
    """1200 cfm: 80/67 to 55/54 degF makes 13.3 lb/h, 75/63 to 55/54 makes 4.79 lb/h: worked out with CoolProp beforehand, printed to three figures."""
    for entering, pounds in (((80, 67), 13.3), ((75, 63), 4.79)):
        got = value(result(NAME, _air_question(entering, (55, 54), 0.0))["condensate"]["mass_flow"], "lb/h")
        assert got == pytest.approx(pounds, rel=0.01)


@pytest.mark.parametrize(("ratio", "pints"), [(0.65, 3.79), (0.70, 3.25), (0.75, 2.71), (0.80, 2.17), (0.85, 1.63)])
def test_water_by_the_sensible_heat_ratio(ratio: float, pints: float) -> None:
    """12000 (1 - SHR)/1061/1.043 pints/h per ton, worked out by hand with the heat of condensation of steam tables."""
    made = result(NAME, asked(sensible_heat_ratio=ratio))["condensate"]
    assert value(made["volume_flow"], "gpm") * 8 * 60 / 3 == pytest.approx(pints, abs=0.01)


def test_three_pints_per_ton_without_any_other_figure() -> None:
    """Trade courses: 3 pints/h per ton; it goes with a sensible heat ratio of 0.72."""
    made = result(NAME, PLAIN)["condensate"]
    assert value(made["volume_flow"], "gpm") * 8 * 60 == pytest.approx(9.0, rel=1e-6)
    assert made["sensible_heat_ratio"] == pytest.approx(0.72, abs=0.005)


MANNING_BY_HAND = [
    (0.824, 0.009, (0.26, 0.93, 1.70, 1.87)),
    (0.824, 0.012, (0.19, 0.70, 1.27, 1.40)),
    (1.049, 0.009, (0.49, 1.77, 3.24, 3.56)),
    (1.380, 0.009, (1.01, 3.69, 6.72, 7.40)),
]


@pytest.mark.parametrize(("bore", "n", "flows"), MANNING_BY_HAND)
def test_flow_in_a_part_full_pipe(bore: float, n: float, flows: tuple[float, ...]) -> None:
    """Manning at 1/8 in/ft at a quarter, half, three quarters and all of the depth, worked out beforehand from area and wetted perimeter; printed to 0.01 gpm
    with 1.49 for the coefficient 1.486 of the inch-pound form. `fluids.V_Manning` is the independent library beside it."""
    full = full_flow(bore * INCH, 0.125 / 12, n)
    reference = fluids.V_Manning(bore * INCH / 4, 0.125 / 12, n) * pi * (bore * INCH) ** 2 / 4
    assert full == pytest.approx(reference, rel=1e-9)
    assert full / GALLON_PER_MINUTE == pytest.approx(flows[3], rel=0.008)
    for depth, flow in zip((0.25, 0.5, 0.75), flows[:3], strict=True):
        got = fill_ratio(flow * GALLON_PER_MINUTE / full)
        assert got == pytest.approx(depth, abs=0.02)


@pytest.mark.parametrize("angle", [0.3, 0.8, 1.5, 2.5, pi, 4.0, 4.5])
def test_depth_undoes_the_share_of_full_flow(angle: float) -> None:
    """Area r^2 (a - sin a)/2 and perimeter r a of a circle's segment, put into Manning by hand."""
    area, perimeter = (angle - sin(angle)) / 2, angle
    share = area * (area / perimeter) ** (2 / 3) / (pi * 0.5 ** (2 / 3))
    assert share_of_full(angle) == pytest.approx(share, rel=1e-12)
    assert fill_ratio(share) == pytest.approx((1 - cos(angle / 2)) / 2, abs=2e-5)


@pytest.mark.parametrize(
    ("slope", "verdict"),
    [
        ("0.119 in/ft", "fails"),
        ("1 %", "watch"),
        ("0.1249 in/ft", "watch"),
        ("1/8 in/ft", "meets"),
        ("0.126 in/ft", "meets"),
        ("-0.1 in/ft", "fails"),
        ("0 in/ft", "fails"),
    ],
)
def test_slope_at_its_limits(slope: str, verdict: str) -> None:
    """IRC M1411.3, IMC 307.2.1: one eighth unit in 12 (1 percent); 1 percent is 4 % less than 1/8 in per foot, not 1/8 in per 12 feet."""
    assert verdicts(NAME, asked(run={"slope": slope}))["slope"] == verdict


CODE_SIZES = [
    ("IRC-2018", "20 ton", None, 0.75),
    ("IRC-2018", "21 ton", None, 0.75),
    ("IRC-2018", "10 ton", "30 ton", 0.75),
    ("IMC-2018", "21 ton", None, 0.75),
    ("IMC-2018", "3 ton", "20 ton", 0.75),
    ("IMC-2018", "3 ton", "20.1 ton", 1.0),
    ("IMC-2018", "3 ton", "40 ton", 1.0),
    ("IMC-2018", "3 ton", "40.1 ton", 1.25),
    ("UPC-2021", "20 ton", None, 0.75),
    ("UPC-2021", "20.1 ton", None, 1.0),
    ("UPC-2021", "90 ton", None, 1.25),
    ("UMC-2024", "90.1 ton", None, 1.5),
    ("UMC-2024", "125.1 ton", None, 2.0),
    ("UPC-2021", "250 ton", None, 2.0),
    ("UPC-2021", "250.1 ton", None, None),
]


@pytest.mark.parametrize(("code", "capacity", "manifold", "least"), CODE_SIZES)
def test_each_codes_own_size_rule(code: str, capacity: str, manifold: str | None, least: float | None) -> None:
    """IMC Table 307.2.2 (Rapid City ordinance 6265, 2019; published) is for shared lines; UPC 814.3 applies it to every unit; the IRC has no table."""
    question = asked(code=code, cooling_capacity=capacity, **({} if manifold is None else {"manifold_capacity": manifold}))
    found = answer(NAME, question)
    if least is None:
        assert "minimum_size" not in found["result"]["pipe"]
        assert next(check for check in found["checks"] if check["check"] == "pipe size")["verdict"] == "refer"
    else:
        assert value(found["result"]["pipe"]["minimum_size"], "in") == least


@pytest.mark.parametrize(("size", "verdict"), [("1/2 in", "fails"), ("3/4 in", "meets"), ("1 in", "meets")])
def test_pipe_size_just_below_at_and_above(size: str, verdict: str) -> None:
    assert verdicts(NAME, asked(pipe={"nominal_size": size}))["pipe size"] == verdict


def test_a_shared_line_is_no_matter_of_a_table_in_the_residential_code() -> None:
    """IRC M1411.3.2 (quotation): by an approved method; the IMC's table is not lent to it."""
    found = answer(NAME, asked(cooling_capacity="10 ton", manifold_capacity="30 ton"))
    assert next(check for check in found["checks"] if check["check"] == "shared line")["verdict"] == "refer"
    assert "condensate-drain.pipe-by-capacity" not in {rule["id"] for rule in found["rules"]}
    assert "shared line" not in verdicts(NAME, asked(manifold_capacity="30 ton", code="IMC-2018"))


def test_a_line_smaller_than_its_outlet_fails() -> None:
    """IMC 307.2.2: never reduced between the pan and the place of disposal."""
    assert verdicts(NAME, asked(pipe={"pan_outlet_size": "1 in"}))["pipe not reduced"] == "fails"
    assert verdicts(NAME, asked(pipe={"pan_outlet_size": "3/4 in"}))["pipe not reduced"] == "meets"


PAN_DRAIN = {"nominal_size": "3/4 in", "outlet": "16 in", "length": "8 ft", "slope": "1/8 in/ft", "end": "12 in"}
HEIGHTS = {"pan_outlet": "20 in", "receiver_rim": "12 in", "air_gap": "2 in", "clear_below": "14 in", "outlet_above_base": "1 in"}


def test_heights_added_up_by_hand() -> None:
    """P 0.5: H 1.5, J 1.5 (3 in rule). 24 ft at 1/8 in/ft falls 3 in. End 20 - 1.5 - 3 = 15.5; rim and gap 14; margin 1.5 in; longest run (20 - 1.5 - 14)/0.125 = 36 ft;
    lowest outlet 12 + 2 + 3 + 1.5 = 18.5 in, but the trap (1.5 + 1.5 + 1.05 = 4.05) over 14 in wants 18.05, so the base may hang at 17.5 in.
    """
    found = result(NAME, asked(elevations=HEIGHTS))
    heights = found["elevations"]
    assert value(found["fall"], "in") == pytest.approx(3.0)
    assert value(heights["end_of_run"], "ft") == pytest.approx(15.5 / 12)
    assert value(heights["margin"], "in") == pytest.approx(1.5)
    assert value(heights["longest_run"], "ft") == pytest.approx(36.0)
    assert value(heights["lowest_pan_outlet"], "ft") == pytest.approx(18.5 / 12)
    assert value(heights["lowest_unit_base"], "ft") == pytest.approx(17.5 / 12)
    assert value(heights["clear_height"], "in") == pytest.approx(6.0)
    assert value(heights["trap_bottom"], "ft") == pytest.approx((20 - 4.05) / 12, rel=1e-5)
    assert found["pump"] == {"needed": False}


@pytest.mark.parametrize(("length", "verdict", "needed"), [("35.9 ft", "meets", False), ("36 ft", "meets", False), ("36.1 ft", "fails", True)])
def test_the_longest_run_is_the_limit(length: str, verdict: str, needed: bool) -> None:
    question = asked(elevations=HEIGHTS, run={"length": length})
    assert verdicts(NAME, question)["fall to the receiver"] == verdict
    assert result(NAME, question)["pump"]["needed"] is needed


@pytest.mark.parametrize(("below", "verdict"), [("15.96 in", "fails"), ("15.95 in", "meets"), ("15.9 in", "meets")])
def test_room_for_the_trap_counts_seal_and_outside_diameter(below: str, verdict: str) -> None:
    """20 - 4.05 = 15.95 in."""
    assert verdicts(NAME, asked(elevations={**HEIGHTS, "clear_below": below}))["room for the trap"] == verdict


def test_no_longest_run_where_even_the_trap_is_too_low() -> None:
    found = result(NAME, asked(elevations={**HEIGHTS, "pan_outlet": "15 in"}))
    assert "longest_run" not in found["elevations"]
    assert value(found["elevations"]["margin"], "in") == pytest.approx(-3.5)
    assert found["pump"]["needed"]


def test_a_lower_datum_changes_no_difference() -> None:
    up = result(NAME, asked(elevations=HEIGHTS))["elevations"]
    moved = {name: f"{float(text.split()[0]) - (0 if name in ('air_gap', 'outlet_above_base') else 150)} in" for name, text in HEIGHTS.items()}
    down = result(NAME, asked(elevations=moved))["elevations"]
    for name in ("margin", "longest_run", "clear_height"):
        assert down[name]["value"] == pytest.approx(up[name]["value"], rel=1e-6)
    assert value(down["end_of_run"], "ft") == pytest.approx(value(up["end_of_run"], "ft") - 12.5)


def test_what_a_pump_lifts_by_hand() -> None:
    """Trap outlet at 18.5 in, sump 6 in deep: to 8 ft it lifts 96 - 18.5 + 6 = 83.5 in."""
    question = asked(elevations=HEIGHTS, pump={"highest_point": "8 ft", "rated_lift": "83.4 in", "stops_unit": False})
    assert value(result(NAME, question)["pump"]["static_lift"], "ft") == pytest.approx(83.5 / 12)
    assert verdicts(NAME, question)["pump lift"] == "fails"
    assert verdicts(NAME, question)["pump interlock"] == "fails"
    assert verdicts(NAME, {**question, "surroundings": {"place": "occupied-space"}})["pump interlock"] == "watch"
    assert verdicts(NAME, {**question, "surroundings": {"place": "occupied-space"}, "code": "UPC-2021"})["pump interlock"] == "fails"
    question["pump"] = {"highest_point": "8 ft", "rated_lift": "83.6 in", "stops_unit": True}
    assert verdicts(NAME, question)["pump lift"] == "meets"
    assert verdicts(NAME, question)["pump interlock"] == "meets"


PAN = {"unit": {"length": "48 in", "width": "22 in"}, "pan": {"length": "54 in", "width": "28 in", "depth": "1.5 in"}, "protection": "pan-and-switch"}


def test_how_fast_a_pan_fills() -> None:
    """54 x 28 x 1.5 in = 2268 in3 = 9.82 gal: 65 s at 9 gpm (231 in3 per gallon, by hand); at 0.03 gpm 327 min."""
    pan = result(NAME, asked(auxiliary_pan={**PAN, "loop_flow": "9 gpm"}))["auxiliary_pan"]
    assert value(pan["volume"], "gal") == pytest.approx(9.818, abs=0.001)
    assert value(pan["fills_with_loop_leak"], "min") * 60 == pytest.approx(65.5, abs=0.1)
    condensate = result(NAME, asked(auxiliary_pan=PAN, cooling_capacity="4.8 ton"))
    assert value(condensate["condensate"]["volume_flow"], "gpm") == pytest.approx(0.03, rel=1e-3)
    assert value(condensate["auxiliary_pan"]["fills_with_condensate"], "min") == pytest.approx(327, abs=1)


@pytest.mark.parametrize(("switch", "verdict", "words"), [
    ({}, "watch", "whether it stops the unit"),
    ({"above_outlet": "3/8 in", "below_rim": "1/2 in"}, "watch", "whether it stops the unit"),
    ({"above_outlet": "3/8 in", "below_rim": "1/2 in", "stops_unit": True}, "meets", "3/8 in above the outlet of the first drain and 1/2 in below the rim"),
    ({"above_outlet": "0 in", "below_rim": "1/2 in", "stops_unit": True}, "fails", "no higher than the outlet"),
    ({"above_outlet": "1/16 in", "below_rim": "1/16 in", "stops_unit": True}, "meets", "1/16 in"),
    ({"above_outlet": "3/8 in", "below_rim": "0 in", "stops_unit": True}, "fails", "over the rim"),
    ({"above_outlet": "3/8 in", "below_rim": "1/2 in", "stops_unit": False}, "fails", "does not stop the unit"),
])  # fmt: skip
def test_a_switch_alone_is_held_to_where_it_trips_and_what_it_stops(switch: dict[str, Any], verdict: str, words: str) -> None:
    """IRC M1411.3.1, fourth way (from memory): above the primary outlet, below the overflow rim, and it shuts the equipment off."""
    found = answer(NAME, asked(auxiliary_pan={"unit": PAN["unit"], "protection": "switch-only", "switch": switch}))["checks"]
    check = next(one for one in found if one["check"] == "level switch")
    assert check["verdict"] == verdict and words in check["says"]


@pytest.mark.parametrize(("given", "leak", "rest", "words"), [
    ({}, "watch", "watch", "between supply and unit"),
    ({"leak_valve": "leaving-side"}, "fails", None, "runs on"),
    ({"leak_valve": "leaving-side", "leak_valve_rests": "closed"}, "fails", None, "runs on"),
    ({"leak_valve": "supply-side", "leak_valve_rests": "closed"}, "watch", "meets", "check valve"),
    ({"leak_valve": "both-sides", "leak_valve_rests": "closed"}, "meets", "meets", "both sides"),
    ({"leak_valve": "both-sides", "leak_valve_rests": "open"}, "meets", "fails", "both sides"),
])  # fmt: skip
def test_a_leak_shut_off_says_where_its_valve_stands(given: dict[str, str], leak: str, rest: str | None, words: str) -> None:
    """A break behind the valve is fed by nothing, a break before it by the supply: it follows from where the pressure comes from."""
    question = asked(auxiliary_pan={**PAN, "loop_flow": "9 gpm", "leak_shutoff": True, **given})
    assert verdicts(NAME, question)["loop leak"] == leak and verdicts(NAME, question).get("leak valve at rest") == rest
    assert words in next(one["says"] for one in answer(NAME, question)["checks"] if one["check"] == "loop leak")


def test_loop_water_without_a_pan_is_not_passed_over() -> None:
    pan = {"unit": PAN["unit"], "protection": "switch-only", "switch": {"stops_unit": True}, "loop_flow": "9 gpm"}
    assert verdicts(NAME, asked(auxiliary_pan=pan))["loop leak"] == "fails"


def test_a_leak_valve_without_a_sensor_is_a_contradiction() -> None:
    with pytest.raises(Refusal) as refused:
        answer(NAME, asked(auxiliary_pan={**PAN, "leak_valve": "both-sides"}))
    assert [fault.pointer for fault in refused.value.faults] == ["/auxiliary_pan/leak_valve"]


def test_a_pan_is_no_protection_against_loop_water() -> None:
    assert verdicts(NAME, asked(auxiliary_pan={**PAN, "loop_flow": "9 gpm"}))["loop leak"] == "fails"
    assert verdicts(NAME, asked(auxiliary_pan={**PAN, "loop_flow": "9 gpm", "leak_shutoff": True}))["loop leak"] == "watch"
    assert verdicts(NAME, asked(auxiliary_pan=PAN))["loop leak"] == "watch"


@pytest.mark.parametrize(
    ("length", "verdict"), [("50.9 in", "fails"), ("51 in", "watch"), ("53.9 in", "watch"), ("54 in", "meets"), ("55 in", "meets")]
)
def test_three_inches_in_both_readings(length: str, verdict: str) -> None:
    """IRC M1411.3.1 (2018, published): 3 in larger than the unit, 48 in: 51 by the words, 54 where 3 in are wanted on every side."""
    assert verdicts(NAME, asked(auxiliary_pan={**PAN, "pan": {**PAN["pan"], "length": length}}))["pan length"] == verdict  # type: ignore[dict-item]


@pytest.mark.parametrize(("depth", "verdict"), [("1.49 in", "fails"), ("1.5 in", "meets"), ("1.51 in", "meets")])
def test_depth_of_the_pan(depth: str, verdict: str) -> None:
    """IRC M1411.3.1: not less than 1-1/2 in."""
    assert verdicts(NAME, asked(auxiliary_pan={**PAN, "pan": {**PAN["pan"], "depth": depth}}))["pan depth"] == verdict  # type: ignore[dict-item]


@pytest.mark.parametrize(
    ("material", "thickness", "verdict"),
    [
        ("galvanized-steel", "0.0235 in", "fails"),
        ("galvanized-steel", "0.0236 in", "meets"),
        ("plastic", "0.0624 in", "fails"),
        ("plastic", "1/16 in", "meets"),
        ("aluminum", "0.032 in", "refer"),
    ],
)
def test_sheet_of_the_pan(material: str, thickness: str, verdict: str) -> None:
    """IRC M1411.3.1: galvanized 0.0236 in, plastic 0.0625 in; nothing on other sheet."""
    pan = {**PAN["pan"], "material": material, "thickness": thickness}  # type: ignore[dict-item]
    assert verdicts(NAME, asked(auxiliary_pan={**PAN, "pan": pan}))["pan sheet"] == verdict


@pytest.mark.parametrize("code", ["UPC-2021", "UMC-2024"])
def test_a_code_without_pan_figures_borrows_none(code: str) -> None:
    """UPC 814.2, UMC 310.2 (read in copies): no depth, no overhang."""
    found = answer(NAME, asked(auxiliary_pan=PAN, code=code))
    assert not {"minimum_length", "minimum_width", "minimum_depth"} & set(found["result"]["auxiliary_pan"])
    assert next(check for check in found["checks"] if check["check"] == "pan size")["verdict"] == "refer"
    assert not [rule for rule in found["rules"] if rule["id"].startswith(("condensate-drain.irc", "condensate-drain.imc"))]


def test_the_trap_hangs_over_the_pan_too() -> None:
    """48 + 9 + 1.5 = 58.5 in if shifted to the trap, which has to be said; centered the pan reaches 9 in beyond the unit from 48 + 18 = 66 in on."""
    for length, verdict in (("58.4 in", "watch"), ("58.5 in", "watch"), ("65.9 in", "watch"), ("66 in", "meets"), ("66.1 in", "meets")):
        pan = {**PAN, "trap_reach": "9 in", "pan": {**PAN["pan"], "length": length}}  # type: ignore[dict-item]
        assert verdicts(NAME, asked(auxiliary_pan=pan))["trap over the pan"] == verdict


@pytest.mark.parametrize(
    ("protection", "given", "verdict"),
    [
        ("pan-and-drain", (), "refer"),
        ("pan-and-drain", ("pan",), "refer"),
        ("pan-and-drain", ("drain",), "refer"),
        ("pan-and-drain", ("pan", "drain"), "meets"),
        ("second-drain", (), "refer"),
        ("second-drain", ("drain",), "meets"),
        ("pan-and-switch", (), "refer"),
        ("pan-and-switch", ("pan",), "meets"),
        ("switch-only", (), "refer"),
    ],
)
def test_a_protection_that_was_only_named_does_not_pass(protection: str, given: tuple[str, ...], verdict: str) -> None:
    """IRC 2018 M1411.3.1 (published): what each of the four ways consists of."""
    whole = {"pan": PAN["pan"], "drain": PAN_DRAIN}
    pan = {"unit": PAN["unit"], "protection": protection, **{name: whole[name] for name in given}}
    assert verdicts(NAME, asked(auxiliary_pan=pan))["protection"] == verdict


@pytest.mark.parametrize(("outlet", "verdict"), [("19.99 in", "fails"), ("20 in", "fails"), ("20.01 in", "meets")])
def test_a_second_outlet_stands_above_the_first(outlet: str, verdict: str) -> None:
    """IRC 2018 M1411.3.1 (published): the overflow drain is above the primary, whose outlet is at 20 in here."""
    pan = {"unit": PAN["unit"], "protection": "second-drain", "drain": {**PAN_DRAIN, "outlet": outlet}}
    assert verdicts(NAME, asked(elevations=HEIGHTS, auxiliary_pan=pan))["second outlet"] == verdict
    assert verdicts(NAME, asked(auxiliary_pan=pan))["second outlet"] == "refer"


@pytest.mark.parametrize(("floor", "verdict"), [("17.49 in", "meets"), ("17.5 in", "fails"), ("17.51 in", "fails"), ("30 in", "fails")])
@pytest.mark.parametrize("by_drain", [True, False])
def test_the_unit_stands_above_the_pans_rim(floor: str, verdict: str, by_drain: bool) -> None:
    """IRC 2018 M1411.3.4 (published). Underside at 20 - 1 = 19 in, pan 1.5 in deep: its floor lies below 17.5 in."""
    pan = {**PAN, "drain": {**PAN_DRAIN, "outlet": floor}} if by_drain else {**PAN, "pan": {**PAN["pan"], "floor": floor}}  # type: ignore[dict-item]
    assert verdicts(NAME, asked(elevations=HEIGHTS, auxiliary_pan=pan))["unit above the pan"] == verdict


@pytest.mark.parametrize(
    ("pump", "verdict"),
    [
        ({"highest_point": "8 ft", "rated_lift": "83.5 in"}, "meets"),
        ({"highest_point": "8 ft", "rated_lift": "83.6 in"}, "meets"),
        ({"highest_point": "8 ft", "rated_lift": "83.4 in"}, "fails"),
        ({"highest_point": "8 ft"}, "fails"),
        ({"highest_point": "13.9 in", "rated_lift": "15 ft"}, "fails"),
        ({"highest_point": "14 in", "rated_lift": "15 ft"}, "meets"),
    ],
)
def test_a_pump_that_lifts_enough_takes_the_place_of_the_fall(pump: dict[str, str], verdict: str) -> None:
    """Heights: trap outlet 20 - 1.5 in, lowest water 6 in under it, so 8 ft is 83.5 in up; the receiver asks for 12 + 2 = 14 in."""
    question = asked(elevations=HEIGHTS, run={"length": "60 ft"}, pump={**pump, "stops_unit": True})
    assert verdicts(NAME, question)["fall to the receiver"] == verdict


@pytest.mark.parametrize(("slope", "verdict"), [("-1/8 in/ft", "fails"), ("0 in/ft", "fails"), ("0.01 in/ft", "meets")])
def test_gravity_does_nothing_along_a_run_that_does_not_fall(slope: str, verdict: str) -> None:
    assert verdicts(NAME, asked(elevations=HEIGHTS, run={"slope": slope}))["fall to the receiver"] == verdict


@pytest.mark.parametrize(("end", "verdict"), [("15.1 in", "fails"), ("15 in", "meets"), ("14 in", "meets")])
def test_the_pans_own_drain_has_its_own_fall(end: str, verdict: str) -> None:
    """18 in - 24 ft x 1/8 in/ft = 15 in."""
    drain = {"nominal_size": "3/4 in", "outlet": "18 in", "length": "24 ft", "slope": "1/8 in/ft", "end": end}
    assert verdicts(NAME, asked(auxiliary_pan={**PAN, "protection": "pan-and-drain", "drain": drain}))["pan drain end"] == verdict


@pytest.mark.parametrize(("coldest", "verdict"), [("31.9 degF", "fails"), ("32 degF", "fails"), ("32.1 degF", "meets")])
def test_freezing(coldest: str, verdict: str) -> None:
    assert verdicts(NAME, asked(surroundings={"lowest_temperature": coldest}))["freezing"] == verdict
    assert verdicts(NAME, asked(surroundings={"lowest_temperature": coldest, "freeze_protected": True}))["freezing"] == "meets"


@pytest.mark.parametrize(
    ("spacing", "hottest", "verdict"), [("4 ft", "73 degF", "fails"), ("4 ft", "140 degF", "fails"), ("3 ft", "140 degF", "meets")]
)
def test_the_codes_four_feet_are_not_sag_free(spacing: str, hottest: str, verdict: str) -> None:
    """3/4 in Schedule 40 PVC full of water on two supports turns 0.0112 at 73 degF and 4 ft, 0.0070 at 140 degF and 3 ft, against a slope of 0.0104: beam theory."""
    question = asked(run={"hanger_spacing": spacing}, surroundings={"highest_temperature": hottest})
    assert verdicts(NAME, question)["sag between hangers"] == verdict


def test_an_attic_is_taken_to_be_hot_where_nothing_is_said() -> None:
    """140 degF in an attic (common practice), 73 degF in a room: 270 against 400 ksi, so the spans differ by the cube root of 0.675."""
    spans = [
        value(result(NAME, asked(surroundings={"place": place}))["line"]["longest_hanger_spacing"], "ft") for place in ("attic", "occupied-space")
    ]
    assert spans[0] / spans[1] == pytest.approx((270 / 400) ** (1 / 3), rel=1e-5)


@pytest.mark.parametrize(("place", "verdict"), [("attic", "watch"), ("occupied-space", "watch"), ("crawl-space", None)])
def test_silence_on_a_second_protection_is_noticed_over_rooms(place: str, verdict: str | None) -> None:
    """IRC M1411.3.1: where overflow would damage the building."""
    assert verdicts(NAME, asked(surroundings={"place": place})).get("protection") == verdict


def test_heat_beyond_the_plastics_figures_is_said() -> None:
    assert verdicts(NAME, asked(run={"hanger_spacing": "3 ft"}, surroundings={"highest_temperature": "141 degF"}))["sag between hangers"] == "watch"


@pytest.mark.parametrize(("pitch", "verdict"), [("-0.01 in", "fails"), ("0 in", "watch"), ("0.24 in", "watch"), ("1/4 in", "meets")])
def test_pitch_of_the_unit(pitch: str, verdict: str) -> None:
    """About 1/4 in toward the drain: a maker's manual, common practice."""
    assert verdicts(NAME, asked(unit_pitch=pitch))["pitch of the unit"] == verdict


def _pointers(question: dict[str, Any]) -> set[str]:
    with pytest.raises(Refusal) as refused:
        result(NAME, question)
    return {fault.pointer for fault in refused.value.faults}


def test_refusals_name_every_field() -> None:
    assert _pointers(asked(pipe={"nominal_size": "0.7 in"}, manifold_capacity="2 ton", pump={})) == {
        "/pipe/nominal_size",
        "/manifold_capacity",
        "/elevations",
    }
    assert _pointers(asked(airflow="1000 cfm")) == {"/entering_air", "/leaving_air"}
    assert _pointers(asked(pan_static_pressure="-0.5 inH2O")) == {"/pan_static_pressure"}


def test_air_that_cannot_be_is_refused() -> None:
    wet = _air_question((75, 76), (55, 54), 0.0)
    assert _pointers(wet) == {"/entering_air/wet_bulb"}
    assert _pointers(_air_question((110, 40), (55, 54), 0.0)) == {"/entering_air/wet_bulb"}
    assert _pointers(_air_question((60, 50), (60, 59), 0.0)) == {"/leaving_air"}


def test_the_same_question_in_other_units() -> None:
    metric = {
        "fan_position": "draw-through",
        "pan_static_pressure": {"value": 0.5 * 249.08891, "unit": "Pa"},
        "cooling_capacity": {"value": 36000 * 0.29307107 / 1000, "unit": "kW"},
        "pipe": {"material": "pvc-schedule-40", "nominal_size": "19.05 mm"},
        "run": {"length": {"value": 24 * 0.3048, "unit": "m"}, "slope": {"value": 100 / 96, "unit": "%"}},
    }
    ours, theirs = result(NAME, PLAIN), result(NAME, metric)
    for group, name in (("trap", "overall_height"), ("condensate", "mass_flow"), ("line", "full_capacity"), ("line", "longest_hanger_spacing")):
        assert theirs[group][name]["value"] == pytest.approx(ours[group][name]["value"], rel=2e-6)
    assert verdicts(NAME, metric)["slope"] == "meets"


def test_more_pressure_never_makes_a_shallower_trap_and_more_run_never_more_margin() -> None:
    """Monotone, on a grid across the crossings of the rules."""
    for fan in ("draw-through", "blow-through"):
        traps = [result(NAME, asked(fan_position=fan, pan_static_pressure=f"{step / 20} inH2O"))["trap"] for step in range(61)]
        heights = [value(trap["overall_height"], "in") for trap in traps]
        drops = [value(trap["outlet_drop"], "in") for trap in traps]
        assert heights == sorted(heights)
        assert drops == sorted(drops)
    margins = [value(result(NAME, asked(elevations=HEIGHTS, run={"length": f"{feet} ft"}))["elevations"]["margin"], "in") for feet in range(0, 60, 5)]
    assert margins == sorted(margins, reverse=True)


def test_the_working_leads_from_the_pan_to_the_receiver() -> None:
    """Every rule that a trap was weighed by, and the sums of heights, stand in the working with a rule."""
    found = answer(NAME, asked(elevations=HEIGHTS, auxiliary_pan=PAN), working=True)
    steps = [line["step"] for line in found["working"]]
    assert steps.count("trap by one rule") == len(found["result"]["trap"]["candidates"])
    assert {"trap", "water made", "fall of the run", "end of the run", "margin", "lowest pan outlet", "volume of the pan"} <= set(steps)
    assert all(line["rule"] for line in found["working"])


def test_hazards_of_the_work_are_named() -> None:
    hazards = {caution["hazard"] for caution in answer(NAME, asked(auxiliary_pan=PAN))["cautions"]}
    assert {"water-damage", "biological", "freezing", "structural", "electrical", "air-quality"} <= hazards
