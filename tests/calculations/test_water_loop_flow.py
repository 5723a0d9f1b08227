"""Water-loop flow against figures from outside, at its limits, and where it must refuse."""

import copy
from math import pi, sqrt
from typing import Any

import fluids
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq

from kneewall.calculations.water_loop_flow.examples import CLOSED_LOOP, ONE_UNIT, OPEN_LOOP, UNDERSIZED
from kneewall.kernel.refusal import Refusal
from tests.asking import answer, result, value, verdicts
from tests.outside import Outside

NAME = "water-loop-flow"
GPM, PSI, FOOT, INCH = 6.30901964e-05, 6894.757293168361, 0.3048, 0.0254


def with_changes(base: dict[str, Any], **changes: Any) -> dict[str, Any]:
    """A copy with fields set by path, steps joined by `__`; None drops the field."""
    changed = copy.deepcopy(base)
    for path, new in changes.items():
        *steps, last = [int(step) if step.isdigit() else step for step in path.split("__")]
        place: Any = changed
        for step in steps:
            place = place[step]
        if new is None:
            place.pop(last)
        else:
            place[last] = new
    return changed


def easy_coil(name: str, start: str, end: str, **more: Any) -> dict[str, Any]:
    """A unit whose coil loses next to nothing."""
    return {"id": name, "from": start, "to": end, "coil": {"flow": "200 gpm", "pressure_drop": "0.02 psi"}, "minimum_flow": "1 gpm", **more}


def pipe(name: str, start: str, end: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "from": start, "to": end, "material": "copper-type-l", "nominal_size": "3/4 in", "length": "20 ft", **more}


SIMPLE: dict[str, Any] = {
    "entering_water": "60 °F",
    "loop": "open",
    "units": [easy_coil("unit", "a", "b")],
    "pipes": [pipe("feed", "supply", "a"), pipe("drain", "b", "discharge")],
    "supply": {"kind": "fixed-pressure", "pressure": "20 psig"},
}


def refused(question: dict[str, Any]) -> dict[str, str]:
    with pytest.raises(Refusal) as refusal:
        result(NAME, question)
    return {fault.pointer: fault.detail.shown("ip") for fault in refusal.value.faults}


def test_two_alike_branches_by_hand() -> None:
    """Hand calculation, water at 60 °F (999.1 kg/m3, 1.121 mPa.s), 20 psi, level, one branch of Cv 3 and short wide pipes each, a common Cv of 6.

    Pipes of 2 in lose little at 2 x 9 gpm: V = 18 gpm/(3.14 in2) = 1.89 ft/s, Re 2.4e4, f 0.025, L/D 0.1 ft/0.165 ft = 0.6: 0.0004 psi.
    (2q/6)^2 + (q/3)^2 = 20 -> q^2 (1/9 + 1/9) = 20 -> q = sqrt(90) = 9.487 gpm; total 18.974; the common valve takes (18.974/6)^2 = 10 psi.
    """
    wide = {"nominal_size": "2 in", "length": "0.05 ft"}
    question = {
        **SIMPLE,
        "units": [easy_coil("one", "a", "c"), easy_coil("two", "b", "d")],
        "pipes": [
            pipe("in one", "supply", "a", **wide),
            pipe("in two", "supply", "b", **wide),
            pipe("out one", "c", "join", **wide, valves=[{"cv": 3}]),
            pipe("out two", "d", "join", **wide, valves=[{"cv": 3}]),
            pipe("common", "join", "discharge", **wide),
        ],
        "control_valve": {"on": "common", "cv": 6},
    }
    found = result(NAME, question)
    for unit in found["units"]:
        Outside(sqrt(90), "hand calculation above", "computed", 1e-3, "the pipes are left out by hand").check(value(unit["flow"], "gpm"))
    Outside(2 * sqrt(90), "hand calculation above", "computed", 1e-3, "as above").check(value(found["supply"]["flow"], "gpm"))
    Outside(10.0, "hand calculation above", "computed", 2e-3, "as above").check(value(found["control_valve"]["pressure_drop"], "psi"))


@pytest.mark.parametrize(("size", "psi", "gpm"), [("3/4 in", 20, 12), ("3/4 in", 60, 22), ("1 in", 20, 26), ("1 in", 60, 47)])
def test_garden_hose(size: str, psi: float, gpm: float) -> None:
    """100 ft of hose with a free outlet: Iowa State University Extension, hose care, 1996 (published)."""
    question = {
        **SIMPLE,
        "units": [easy_coil("unit", "a", "discharge")],
        "pipes": [pipe("hose", "supply", "a", material="rubber-hose", nominal_size=size, length="100 ft", fittings={"exit": 1})],
        "supply": {"kind": "fixed-pressure", "pressure": f"{psi} psig"},
    }
    Outside(gpm, "Iowa State University Extension, hose care", "published", 0.035, "two digits").check(
        value(result(NAME, question)["supply"]["flow"], "gpm")
    )


def independent_flow(psi: float, climbs: float = 0.0) -> float:
    """What flows in the simple loop, m3/s: scipy's brentq with fluids' friction factor and CoolProp's water at 60 °F."""
    kelvin = (60 + 459.67) / 1.8
    density, viscosity = PropsSI("D", "T", kelvin, "P", 3e5, "Water"), PropsSI("V", "T", kelvin, "P", 3e5, "Water")
    diameter = 0.785 * INCH

    def left(q: float) -> float:
        velocity = q / (pi / 4 * diameter**2)
        factor = fluids.friction_factor(density * velocity * diameter / viscosity, eD=1.5e-6 / diameter)
        coil = 0.02 * PSI * (q / (200 * GPM)) ** 1.85
        return psi * PSI - density * 9.80665 * climbs - factor * 40 * FOOT / diameter * density * velocity**2 / 2 - coil

    return float(brentq(left, 1e-7, 0.1, xtol=1e-16))


@pytest.mark.parametrize(("psi", "climb"), [(0.5, 0.0), (3.0, 0.0), (20.0, 0.0), (60.0, 0.0), (20.0, 30.0)])
def test_one_way_agrees_with_an_independent_solution(psi: float, climb: float) -> None:
    question = with_changes(SIMPLE, supply__pressure=f"{psi} psig", pipes__1__rise=f"{climb} ft")
    got = value(result(NAME, question, units="si")["supply"]["flow"], "L/s") / 1000
    expected = independent_flow(psi, climb * FOOT)
    Outside(expected, "scipy.optimize.brentq, fluids.friction_factor, CoolProp", "computed", 1e-5, "tables of water every 1 K").check(got)


def test_heat_balance_by_hand() -> None:
    """Hand calculation: 38,000 Btu/h net at 2,900 W in heating: 38,000 - 2,900 x 3.41214 = 28,105 Btu/h; cooling 34,000 + 2,150 x 3.41214 = 41,336.

    With k = 501.3 (62.41 lb/ft3 x 1.0013 x 8.0208) 52 to 38 °F takes 28,105/(501.3 x 14) = 4.00 gpm and 15 °F of rise 41,336/(501.3 x 15) = 5.50 gpm.
    """
    found = result(NAME, OPEN_LOOP)
    first = found["units"][0]
    Outside(28105, "hand calculation above", "computed", 1e-4, "five digits").check(value(first["heat_absorbed"], "Btu/h"))
    Outside(41336, "hand calculation above", "computed", 1e-4, "five digits").check(value(first["heat_rejected"], "Btu/h"))
    assert found["required"][0]["governed_by"] == "heat-rejected"
    Outside(5.50, "hand calculation above", "computed", 2e-3, "three digits").check(value(found["required"][0]["flow"], "gpm"))
    flow = value(first["flow"], "gpm")
    Outside(52 - 28105 / (501.5 * flow), "hand calculation, T - Q/(k q)", "computed", 1e-3, "k rounded").check(
        value(first["leaving_water"]["heating"], "degF")
    )
    colder = result(NAME, with_changes(OPEN_LOOP, entering_water="46 °F"))
    assert colder["required"][0]["governed_by"] == "heat-absorbed"
    Outside(28105 / (502.4 * 8), "hand calculation, 46 to 38 °F", "computed", 2e-3, "k rounded").check(value(colder["required"][0]["flow"], "gpm"))


def test_tank_by_hand_with_absolute_pressures() -> None:
    """Hand calculation: precharge 38, band 40 to 60 psig: 52.7 (1/54.7 - 1/74.7) = 0.258 of the volume (with gauge pressures 0.317, which is wrong)."""
    found = result(NAME, OPEN_LOOP)["supply"]
    drawdown = value(found["drawdown"], "gal")
    Outside(0.258 * 86, "hand calculation above", "computed", 2e-3, "three digits").check(drawdown)
    draw = (value(found["flow"], "gpm") + value(found["flow_at_cut_out"], "gpm")) / 2
    run, rest = drawdown / (18 - draw), drawdown / draw
    Outside(run, "t = V/(Qp - Qd), hand calculation", "computed", 1e-4, "rounding").check(value(found["run_time"], "min"))
    Outside(60 / (run + rest), "60/(t on + t off), hand calculation", "computed", 1e-4, "rounding").check(value(found["cycles_per_hour"], "1/h"))


@pytest.mark.parametrize(("gallons", "verdict"), [(69.8, "fails"), (69.79345, "meets"), (69.9, "meets")])
def test_pump_run_just_below_at_and_above_a_minute(gallons: float, verdict: str) -> None:
    """18 gpm for a minute are 18 gal; a tank that gives 0.25790 of its volume holds 69.79 gal (52.6959 (1/54.6959 - 1/74.6959) = 0.257967...)."""
    share = 52.69595 * (1 / 54.69595 - 1 / 74.69595)
    exact = 18 / share
    tank = {69.8: exact * 0.9999, 69.79345: exact * (1 + 1e-6), 69.9: exact * 1.0001}[gallons]
    assert verdicts(NAME, with_changes(OPEN_LOOP, supply__tank_volume=f"{tank:.6f} gal"))["pump run"] == verdict


def test_a_pump_that_cannot_keep_up_sets_the_pressure() -> None:
    """The loop draws what the pump gives, no more, and the pressure falls below cut-in; the losses still add up to it."""
    question = with_changes(OPEN_LOOP, supply__pump_flow="9 gpm")
    found = answer(NAME, question)
    assert value(found["result"]["supply"]["flow"], "gpm") == pytest.approx(9.0, rel=1e-6)
    assert value(found["result"]["supply"]["pressure"], "psig") < 40.0
    assert verdicts(NAME, question)["pump keeps up"] == "fails"
    assert value(found["result"]["supply"]["cycles_per_hour"], "1/h") == 0.0


def test_one_common_valve_lets_water_through_the_idle_unit() -> None:
    """On either call both coils flow; no unit gets more because the other rests."""
    found = result(NAME, OPEN_LOOP)
    flows = {unit["id"]: value(unit["flow"], "gpm") for unit in found["units"]}
    assert [call["calling"] for call in found["calls"]] == [["upstairs"], ["downstairs"], ["upstairs", "downstairs"]]
    assert value(found["calls"][0]["idle_flow"], "gpm") == pytest.approx(flows["downstairs"], rel=1e-6)
    assert value(found["calls"][2]["idle_flow"], "gpm") == 0.0
    assert value(found["calls"][0]["units"][0]["flow"], "gpm") == pytest.approx(flows["upstairs"], rel=1e-6)


def test_valves_of_their_own_give_the_running_unit_more() -> None:
    found = result(NAME, UNDERSIZED)
    alone, together = found["calls"][0], found["calls"][2]
    assert value(alone["idle_flow"], "gpm") == 0.0
    assert value(alone["units"][1]["flow"], "gpm") == 0.0
    assert value(alone["units"][0]["flow"], "gpm") > 1.2 * value(together["units"][0]["flow"], "gpm")
    only = result(NAME, with_changes(UNDERSIZED, calls=["upstairs"]))
    assert only["units"][0]["flow"] == alone["units"][0]["flow"]
    assert only["pipes"][3]["flow"]["value"] == 0.0


def test_the_valve_belongs_on_the_leaving_side() -> None:
    """Shut on the entering side it leaves the coil, 21 ft above a free outlet at 1 ft, hanging at -20 ft of water: -8.67 psi (20/2.307)."""
    assert verdicts(NAME, OPEN_LOOP)["coils kept full, valve shut"] == "meets"
    before = with_changes(OPEN_LOOP, control_valve__on="main")
    assert verdicts(NAME, before)["coils kept full, valve shut"] == "fails"
    nodes = {node["id"]: node for node in result(NAME, before)["nodes"]}
    Outside(-20 / 2.307, "20 ft of water, 2.307 ft per psi", "computed", 2e-3, "four digits").check(value(nodes["tee in"]["pressure_shut"], "psig"))


def test_surge_by_hand() -> None:
    """Hand calculation: water at 60 °F (c 4,815 ft/s, K 313,000 psi) in copper 3/4 L: a = 4815/sqrt(1 + 313/17000 x 17.44) = 4,190 ft/s; 40 ft back
    to the supply 19.1 ms; 56.4 psi per ft/s (62.37/32.174/144 x 4190).
    """
    question = {**SIMPLE, "control_valve": {"on": "drain", "cv": 5}}
    found = result(NAME, question)
    valve, drain = found["control_valve"], found["pipes"][1]
    Outside(4190, "hand calculation above", "computed", 2e-3, "speed of sound from memory to three digits").check(value(valve["wave_speed"], "ft/s"))
    Outside(0.0191, "2 x 40/4190", "computed", 3e-3, "three digits").check(value(valve["critical_time"], "s"))
    Outside(56.4 * value(drain["velocity"], "ft/s"), "hand calculation above", "computed", 3e-3, "three digits").check(
        value(valve["surge_pressure"], "psi")
    )
    Outside(20 + value(valve["surge_pressure"], "psi"), "at rest 20 psi, and the surge", "computed", 1e-6, "level loop").check(
        value(valve["peak_pressure"], "psig")
    )


def test_slow_closing_by_hand() -> None:
    """Michaud in trade units: 0.0269 L V/t = 0.0269 x 40 ft x V/5 s."""
    found = result(NAME, {**SIMPLE, "control_valve": {"on": "drain", "cv": 5, "closing_time": "5 s"}})
    velocity = value(found["pipes"][1]["velocity"], "ft/s")
    Outside(0.0269 * 40 * velocity / 5, "0.0269 L V/t", "computed", 5e-3, "three digits").check(
        value(found["control_valve"]["surge_pressure"], "psi")
    )


@pytest.mark.parametrize(("share", "verdict"), [(0.999, "watch"), (1.001, "meets")])
def test_closing_just_faster_and_slower_than_the_wave(share: float, verdict: str) -> None:
    base = {**SIMPLE, "control_valve": {"on": "drain", "cv": 5}}
    wave = value(result(NAME, base, units="si")["control_valve"]["critical_time"], "s")
    assert verdicts(NAME, with_changes(base, control_valve__closing_time=f"{wave * share:.9f} s"))["closing"] == verdict


@pytest.mark.parametrize(("share", "verdict"), [(1.001, "fails"), (1.0, "meets"), (0.999, "meets")])
def test_the_least_drop_of_a_valve_below_at_and_above(share: float, verdict: str) -> None:
    drop = value(result(NAME, OPEN_LOOP)["control_valve"]["pressure_drop"], "psi")
    assert (
        verdicts(NAME, with_changes(OPEN_LOOP, control_valve__minimum_pressure_drop=f"{drop * share * (1 - 1e-7):.9f} psi"))["valve lifts"] == verdict
    )


@pytest.mark.parametrize(("psig", "verdict"), [("79.99 psig", "meets"), ("80 psig", "meets"), ("80.01 psig", "fails")])
def test_pressure_at_rest_around_eighty(psig: str, verdict: str) -> None:
    """2024 IRC P2903.3.1, read in a summary: above 80 psi a pressure-reducing valve."""
    question = {**SIMPLE, "supply": {"kind": "fixed-pressure", "pressure": psig}, "control_valve": {"on": "drain", "cv": 1}}
    assert verdicts(NAME, question)["pressure at rest"] == verdict


def check_of(question: dict[str, Any], name: str) -> dict[str, Any]:
    return next(check for check in answer(NAME, question)["checks"] if check["check"] == name)


BRANCHED: dict[str, Any] = {
    **SIMPLE,
    "units": [easy_coil("one", "a", "c"), easy_coil("two", "b", "d")],
    "pipes": [
        pipe("main", "supply", "split"), pipe("in one", "split", "a"), pipe("in two", "split", "b"), pipe("out one", "c", "join"),
        pipe("out two", "d", "join"), pipe("common", "join", "discharge"),
    ],
    "control_valve": {"on": "common", "cv": 5},
}  # fmt: skip
"""Every pipe the same tube."""


@pytest.mark.parametrize(("weak", "share"), [("common", 1.0), ("out two", 2 / 3), ("in two", 8 / 9), ("out one", 2 / 3), ("main", 8 / 9)])
def test_the_wave_goes_into_every_branch(weak: str, share: float) -> None:
    """Hand calculation, equal tubes: rho a V at the valve (surge as in `test_surge_by_hand`: 56.4 psi per ft/s), 2/3 of it in
    both branches, and at the split, where both come, 2 x (2/3 + 2/3)/3 = 8/9, in the main and at the ends of the pipes that lead there. At rest 20 psi; the weak pipe is the one held to its rating."""
    question = copy.deepcopy(BRANCHED)
    for one in question["pipes"]:
        one["rated_pressure"] = "50 psig" if one["id"] == weak else "2000 psig"
    velocity = value(result(NAME, question)["pipes"][5]["velocity"], "ft/s")
    peak = check_of(question, "peak pressure")
    assert weak in peak["says"]
    Outside(20 + share * 56.4 * velocity, "hand calculation above", "computed", 3e-3, "three digits").check(value(peak["actual"], "psig"))


def test_a_closed_end_doubles_the_wave() -> None:
    """A stub at the join of four equal tubes: 2/4 of the wave comes to the junction, twice that stands at the stub's closed end."""
    question = copy.deepcopy(BRANCHED)
    question["pipes"] = [{**one, "rated_pressure": "2000 psig"} for one in question["pipes"]]
    question["pipes"].append(pipe("stub", "join", "tap", rated_pressure="50 psig"))
    velocity = value(result(NAME, question)["pipes"][5]["velocity"], "ft/s")
    peak = check_of(question, "peak pressure")
    assert "stub" in peak["says"]
    Outside(20 + 56.4 * velocity, "20 + 2 x 2/4 x 56.4 V", "computed", 3e-3, "three digits").check(value(peak["actual"], "psig"))


@pytest.mark.parametrize(
    ("supply", "at_supply"),
    [
        ({"kind": "fixed-pressure", "pressure": "60 psig"}, 60.0),
        ({"kind": "pressure-tank", "cut_in": "30 psig", "cut_out": "50 psig", "tank_volume": "80 gal", "pump_flow": "30 gpm"}, 50.0),
        ({"kind": "pump", "points": [{"flow": "0 gpm", "head": "180 ft"}, {"flow": "20 gpm", "head": "90 ft"}], "lift": "40 ft"}, 140 / 2.3085),
    ],
)
def test_every_pipe_is_held_to_its_rating_at_rest_without_a_valve(supply: dict[str, Any], at_supply: float) -> None:
    """Hand calculation: the drain ends 23 ft below the supply, so 23/2.3085 = 9.96 psi more (2.3085 ft of water at 60 degF per psi) than the supply at rest:
    60 psi, a tank at cut-out 50, a pump against a shut valve 180 - 40 = 140 ft."""
    expected = at_supply + 23 / 2.3085
    question = with_changes(SIMPLE, supply=supply, pipes__1__rise="-23 ft")
    for rating, verdict in ((expected + 0.1, "meets"), (expected - 0.1, "fails")):
        check = check_of(with_changes(question, pipes__1__rated_pressure=f"{rating:.3f} psig"), "pipe rating")
        assert check["verdict"] == verdict and "drain" in check["says"]
        Outside(expected, "hand calculation above", "computed", 1e-3, "four digits").check(value(check["actual"], "psig"))
    assert "peak pressure" not in verdicts(NAME, question)


def test_a_circulator_loads_the_pipes_with_its_head_at_no_flow() -> None:
    """Hand calculation: 20 psi of fill and 62 ft of 20 % glycol (specific gravity 1.02: 62/2.307 x 1.02 = 27.4 psi) are 47.4 psi at the supply."""
    check = check_of(with_changes(CLOSED_LOOP, pipes__0__rated_pressure="47 psig"), "pipe rating")
    assert check["verdict"] == "fails" and "to ground" in check["says"]
    Outside(47.4, "hand calculation above", "computed", 5e-3, "density to two digits").check(value(check["actual"], "psig"))


def test_warm_water_weakens_plastic_pipe() -> None:
    """Polyethylene holds less when warm: the same tube behind warmer water has a lower rating (ASTM D3035 practice)."""
    limits = [
        value(check_of(with_changes(ONE_UNIT, pipes__0__material="pe-dr-11", entering_water=f"{warm} °F"), "pipe rating")["limit"], "psig")
        for warm in (55, 85, 110)
    ]
    assert limits[0] > limits[1] > limits[2]


def test_a_hose_says_what_it_must_hold() -> None:
    hose = with_changes(BRANCHED, pipes__3__material="rubber-hose")
    assert check_of(hose, "unrated pipe")["verdict"] == "refer" and "out one" in check_of(hose, "unrated pipe")["says"]


def test_the_column_behind_a_quick_valve_tears_off() -> None:
    """By hand: 2 ft/s in copper falls by 2 x 56 = 112 psi, far more than the atmosphere; a valve of 10 s lets it be."""
    quick = with_changes(BRANCHED, control_valve={"on": "main", "cv": 5})
    assert verdicts(NAME, quick)["water column behind valve"] == "watch"
    slow = with_changes(quick, control_valve__closing_time="10 s")
    assert "water column behind valve" not in verdicts(NAME, slow)
    assert "water column behind valve" not in verdicts(NAME, BRANCHED)


def leaving(question: dict[str, Any]) -> float:
    return value(result(NAME, question)["units"][0]["leaving_water"]["heating"], "degF")


@pytest.mark.parametrize(("limit", "below", "above"), [(35.0, "fails", "watch"), (42.0, "watch", "meets")])
def test_leaving_water_around_its_limits(limit: float, below: str, above: str) -> None:
    """Below 35 °F it fails, below 42 °F (10 °F above freezing: design guide after IGSHPA) it is watched; found by moving the entering water."""
    entering = brentq(lambda t: leaving(with_changes(ONE_UNIT, entering_water=f"{t:.7f} °F")) - limit, limit + 1, limit + 20, xtol=1e-5)
    for change, verdict in ((-0.005, below), (0.005, above)):
        assert verdicts(NAME, with_changes(ONE_UNIT, entering_water=f"{entering + change:.5f} °F"))["leaving water of closet"] == verdict


@pytest.mark.parametrize(("limit", "verdict"), [("25 °F", "meets"), ("37 °F", "fails")])
def test_the_limit_of_the_unit_counts_with_antifreeze_too(limit: str, verdict: str) -> None:
    """20 % propylene glycol freezes at 19 °F (CoolProp), so leaving water must stay above 29 °F; the unit may want more."""
    question = with_changes(CLOSED_LOOP, units__0__leaving_limit=limit)
    assert 29.2 < leaving(question) < 37.0
    found = verdicts(NAME, question)
    assert found["leaving limit of upstairs"] == verdict and found["leaving water of upstairs"] == "meets"


PUMP_SUPPLY: dict[str, Any] = {"kind": "pump", "points": [{"flow": "0 gpm", "head": "100 ft"}, {"flow": "20 gpm", "head": "50 ft"}]}


@pytest.mark.parametrize(
    ("question", "said"),
    [
        (with_changes(BRANCHED, supply=PUMP_SUPPLY), True),
        (with_changes(CLOSED_LOOP, control_valve={"on": "leaving", "cv": 20}), True),
        (with_changes(CLOSED_LOOP, units__0__own_valve=True, units__1__own_valve=True), True),
        (with_changes(CLOSED_LOOP, units__0__own_valve=True), False),
        (CLOSED_LOOP, False),
        (OPEN_LOOP, False),
    ],
)
def test_a_pump_is_told_not_to_run_against_a_shut_valve(question: dict[str, Any], said: bool) -> None:
    """A pressure tank's switch stops its pump; a circulator and a pump without one are stopped by nothing that is stated."""
    assert ("pump against shut valve" in verdicts(NAME, question)) is said


def test_velocity_limit_in_copper() -> None:
    """8 ft/s (Copper Tube Handbook, as quoted): 3/4 L carries 8 x 0.785^2/0.40853 = 12.07 gpm at that."""
    pressure = brentq(lambda psi: independent_flow(psi) / GPM - 8 * 0.785**2 / 0.40853, 1, 100)
    assert verdicts(NAME, with_changes(SIMPLE, supply__pressure=f"{pressure * 0.999:.5f} psig"))["velocity"] == "meets"
    assert verdicts(NAME, with_changes(SIMPLE, supply__pressure=f"{pressure * 1.002:.5f} psig"))["velocity"] == "fails"


@pytest.mark.parametrize(
    ("material", "size", "gpm"),
    [
        ("copper-type-l", "3/4 in", 3.0), ("copper-type-l", "1 in", 5.1), ("copper-type-l", "1-1/4 in", 7.8), ("pvc-schedule-40", "1 in", 5.2),
        ("pvc-schedule-40", "2 in", 20.6), ("pe-dr-11", "1-1/4 in", 8.8), ("pe-dr-11", "2 in", 18.0), ("pex", "1 in", 3.7), ("cpvc-cts", "3/4 in", 2.5),
    ],
)  # fmt: skip
def test_flow_that_carries_the_air_out(material: str, size: str, gpm: float) -> None:
    """2 ft/s (UFGS-15741N): q = V d^2/0.40853 with the true bore, by hand."""
    found = result(NAME, with_changes(SIMPLE, pipes__0__material=material, pipes__0__nominal_size=size))
    Outside(gpm, "q = 2 d^2/0.40853", "computed", 0.017, "two digits").check(value(found["flushing"][0]["flow"], "gpm"))


def test_antifreeze_costs_pressure() -> None:
    """20 % propylene glycol at 40 °F loses 1.27 of water at the same flow, smooth 1 in DR 11 pipe at 6 gpm (computed from CoolProp, Colebrook)."""
    kelvin = (40 + 459.67) / 1.8
    diameter, flow = (1.315 - 2.12 * 0.120) * INCH, 6 * GPM

    def loss(fluid: str) -> float:
        density, viscosity = (PropsSI(name, "T", kelvin, "P", 3e5, fluid) for name in ("D", "V"))
        return fluids.one_phase_dP(flow * density, density, viscosity, diameter, roughness=1.5e-6, L=1.0)

    Outside(1.27, "ratio of losses, CoolProp and fluids", "computed", 0.01, "three digits").check(loss("INCOMP::MPG[0.2]") / loss("Water"))


def test_a_closed_loop_works_where_pump_and_loop_meet() -> None:
    """The head of the answer lies on the pump's own parabola between its points, and is what the ways of the working lose."""
    found = answer(NAME, CLOSED_LOOP, working=True)
    flow, head = value(found["result"]["supply"]["flow"], "gpm"), value(found["result"]["supply"]["head"], "ft")
    by_curve = 52 - 30 * (flow**2 - 15**2) / (30**2 - 15**2)
    Outside(by_curve, "H = 52 - 30 (q^2 - 225)/675, between (15, 52) and (30, 22)", "computed", 1e-5, "rounding").check(head)
    drive = next(line for line in found["working"] if line["step"] == "pressure that drives the water")
    ways = [line for line in found["working"] if line["step"].startswith("way through")]
    assert len(ways) == 2
    for way in ways:
        assert value(way["value"], "psi") == pytest.approx(value(drive["value"], "psi"), rel=1e-6)


def test_tees_by_the_division_of_flow_settle_and_lose_what_the_library_says() -> None:
    """The branch's extra loss against its tee given as nothing: K of `fluids.K_branch_diverging_Crane` at the flows of the answer."""
    base = {
        **SIMPLE,
        "units": [easy_coil("one", "a", "c"), easy_coil("two", "b", "d")],
        "pipes": [
            pipe("main", "supply", "split", nominal_size="1 in"),
            pipe("run", "split", "a", nominal_size="1 in", fittings={"diverging-tee-run": 1}),
            pipe("branch", "split", "b", fittings={"diverging-tee-branch": 1}),
            pipe("out one", "c", "discharge"),
            pipe("out two", "d", "discharge"),
        ],
    }
    found = result(NAME, base, units="si")
    pipes = {one["id"]: one for one in found["pipes"]}
    main, branch, run = (value(pipes[name]["flow"], "L/s") / 1000 for name in ("main", "branch", "run"))
    assert main == pytest.approx(branch + run, abs=1e-9)
    k = fluids.fittings.K_branch_diverging_Crane(D_run=1.025, D_branch=0.785, Q_run=run, Q_branch=branch)
    velocity = main / (pi / 4 * (1.025 * INCH) ** 2)
    tee = k * 999.1 * velocity**2 / 2
    speed = branch / (pi / 4 * (0.785 * INCH) ** 2)
    factor = fluids.friction_factor(999.1 * speed * 0.785 * INCH / 1.121e-3, eD=1.5e-6 / (0.785 * INCH))
    straight = factor * 20 * 12 / 0.785 * 999.1 * speed**2 / 2
    Outside(tee + straight, "fluids' tee coefficient and friction factor", "computed", 1e-4, "properties of water rounded").check(
        value(pipes["branch"]["pressure_drop"], "kPa") * 1000
    )
    assert "tees" not in verdicts(NAME, base)


def test_reversed_unit_is_told() -> None:
    question = with_changes(SIMPLE, units__0__from="b", units__0__to="a")
    assert verdicts(NAME, question)["flow of unit"] == "fails"


BRIDGED: dict[str, Any] = {
    **BRANCHED,
    "pipes": [
        *[one if one["id"] != "in one" else pipe("in one", "split", "a", valves=[{"cv": 2}]) for one in BRANCHED["pipes"]],
        pipe("bridge", "a", "b", valves=[{"kind": "check", "cv": 20}]),
    ],
}
"""The way to unit one is narrow, so water would run over the bridge from b to a, against its check valve."""


def test_a_check_valve_lets_no_water_back() -> None:
    """The answer is that of the loop without the bridge; turned round, the bridge feeds unit one."""
    found = result(NAME, BRIDGED)
    without = result(NAME, with_changes(BRIDGED, pipes=BRIDGED["pipes"][:6]))
    assert value(found["pipes"][6]["flow"], "gpm") == 0.0
    for one, other in zip(found["units"], without["units"], strict=True):
        assert value(one["flow"], "gpm") == pytest.approx(value(other["flow"], "gpm"), rel=1e-6)
    assert verdicts(NAME, BRIDGED)["check valve in bridge"] == "watch"
    turned = with_changes(BRIDGED, pipes__6__from="b", pipes__6__to="a")
    assert "check valve in bridge" not in verdicts(NAME, turned)
    assert value(result(NAME, turned)["units"][0]["flow"], "gpm") > value(found["units"][0]["flow"], "gpm")


def test_a_check_valve_against_the_only_way_is_refused_at_its_pipe() -> None:
    turned = with_changes(SIMPLE, pipes__0__from="a", pipes__0__to="supply", pipes__0__valves=[{"kind": "check", "cv": 10}])
    assert set(refused(turned)) == {"/pipes/0"}


@pytest.mark.parametrize("valve", [{"kind": "strainer", "cv": 20}, {"kind": "flow-regulator", "flow": "30 gpm"}, {"kind": "solenoid", "cv": 8}])
def test_water_runs_backwards_through_nothing_that_has_a_direction(valve: dict[str, Any]) -> None:
    turned = with_changes(SIMPLE, pipes__0__from="a", pipes__0__to="supply", pipes__0__valves=[valve])
    assert verdicts(NAME, turned)["direction of feed"] == "fails"
    assert "direction of feed" not in verdicts(NAME, with_changes(SIMPLE, pipes__0__valves=[valve]))


def test_contradictions_are_all_named_at_once() -> None:
    question = with_changes(
        OPEN_LOOP,
        pipes__0__nominal_size="7/8 in",
        pipes__1__id="main",
        control_valve__on="nowhere",
        units__0__heating__power="20000 W",
        units__1__leaving_limit="30 °F",
        supply__cut_out="39 psig",
        supply__pressure="30 psig",
        calls=["cellar"],
    )
    assert set(refused(question)) == {
        "/pipes/0/nominal_size", "/pipes/1/id", "/control_valve/on", "/units/0/heating/power", "/units/1/leaving_limit", "/supply/cut_out",
        "/supply/pressure", "/calls/0",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"fluid": {"kind": "propylene-glycol", "mass_fraction": 0.2}}, "/fluid/kind"),
        ({"entering_water": "31.9 °F"}, "/entering_water"),
        ({"pipes__1__from": "elsewhere"}, "/pipes/1"),
        ({"pipes__1__to": "sink"}, "/pipes"),
        ({"pipes__1__rise": "60 ft"}, "/supply"),
        ({"loop": "closed"}, "/supply/kind"),
        ({"pipes__0__valves": [{"kind": "strainer"}]}, "/pipes/0/valves/0/cv"),
        ({"pipes__0__valves": [{"kind": "flow-regulator", "cv": 3}]}, "/pipes/0/valves/0/flow"),
        ({"units__0__minimum_flow": None}, "/units/0"),
        ({"pipes__0__nominal_size": "3 in", "pipes__0__fittings": {"elbow-90-solder": 1}}, "/pipes/0/fittings/elbow-90-solder"),
        ({"pipes__0__to": "supply"}, "/pipes/0/to"),
    ],
)
def test_what_cannot_be_answered_is_refused_at_its_field(change: dict[str, Any], pointer: str) -> None:
    assert pointer in refused(with_changes(SIMPLE, **change))


def test_rises_that_do_not_close_are_refused_at_the_pipe() -> None:
    """Main 3 ft up, riser 18 up, level coil, return 18 down, leaving 2 down: the outlet is 1 ft up, whatever else is said."""
    assert set(refused({**OPEN_LOOP, "discharge": {"elevation": "9 ft"}})) == {"/discharge/elevation"}
    assert set(refused(with_changes(OPEN_LOOP, pipes__3__rise="0 ft", pipes__4__rise="-4 ft"))) == {"/pipes/4/rise"}
    agreed = result(NAME, {**OPEN_LOOP, "discharge": {"elevation": "12 in"}})
    assert agreed["supply"] == result(NAME, OPEN_LOOP)["supply"]


def test_rises_that_are_left_out_follow_from_the_discharge() -> None:
    """20 psi less 23.07 ft of water leaves 10 psi: the same flow as 10 psi on the level (0.4335 psi/ft)."""
    climbing = result(NAME, {**SIMPLE, "discharge": {"elevation": "23.0755 ft"}})
    level = independent_flow(20.0, 23.0755 * FOOT)
    Outside(level / GPM, "scipy and fluids, as above", "computed", 1e-5, "as above").check(value(climbing["supply"]["flow"], "gpm"))


def test_a_dead_end_is_answered_with_no_flow() -> None:
    question = with_changes(SIMPLE)
    question["pipes"].append(pipe("stub", "a", "hose tap", rise="10 ft"))
    found = result(NAME, question)
    assert value(found["pipes"][2]["flow"], "gpm") == 0.0
    nodes = {node["id"]: value(node["pressure"], "psig") for node in found["nodes"]}
    Outside(nodes["a"] - 10 / 2.3085, "10 ft of water at rest", "computed", 1e-3, "four digits").check(nodes["hose tap"])


def test_no_flow_is_enough_where_water_enters_too_cold() -> None:
    found = answer(NAME, with_changes(ONE_UNIT, entering_water="38 °F"))
    assert found["result"]["required"][0] == {"unit": "closet", "governed_by": "no-flow-suffices"}
    assert next(check for check in found["checks"] if check["check"] == "flow of closet")["verdict"] == "fails"


def test_undersized_supply_fails_and_says_both_figures() -> None:
    found = answer(NAME, UNDERSIZED)
    check = next(one for one in found["checks"] if one["check"] == "flow of upstairs")
    assert check["verdict"] == "fails"
    assert f"{value(found['result']['required'][0]['flow'], 'gpm'):.3f}" in check["says"]
    assert "refer" in {one["verdict"] for one in found["checks"]}


@pytest.mark.parametrize("example", [OPEN_LOOP, CLOSED_LOOP, UNDERSIZED])
def test_water_is_conserved_at_every_node(example: dict[str, Any]) -> None:
    """Of the seven printed digits."""
    found = result(NAME, example, units="si")
    flows = {one["id"]: value(one["flow"], "L/s") for one in [*found["pipes"], *found["units"]]}
    total = value(found["supply"]["flow"], "L/s")
    kept = {"supply": total, "discharge": -total}
    for one in [*example["pipes"], *example["units"]]:
        kept[one["from"]] = kept.get(one["from"], 0.0) - flows[one["id"]]
        kept[one["to"]] = kept.get(one["to"], 0.0) + flows[one["id"]]
    assert max(map(abs, kept.values())) < 2e-6 * total


def test_a_valve_where_no_water_runs_controls_nothing() -> None:
    question = with_changes(SIMPLE, control_valve={"on": "stub", "cv": 3})
    question["pipes"].append(pipe("stub", "a", "hose tap"))
    found = verdicts(NAME, question)
    assert found["valve in the way"] == "fails" and found["valve shuts"] == "fails"


def test_an_isolation_valve_behind_a_hose_shuts_off_its_unit() -> None:
    """A hose between valve and coil leads nowhere else; a valve in the other branch of the split does not shut off this one."""
    hosed = with_changes(OPEN_LOOP, pipes__1__to="hose in")
    hosed["pipes"].append(pipe("hose", "hose in", "tee in", material="rubber-hose", length="3 ft"))
    assert verdicts(NAME, hosed)["isolation"] == "meets"
    bare = with_changes(hosed, pipes__1__valves=[])
    assert verdicts(NAME, bare)["isolation"] == "watch"


@pytest.mark.parametrize(("share", "said"), [(1.51, True), (1.49, False)])
def test_far_more_water_than_the_table_of_the_coil_is_watched(share: float, said: bool) -> None:
    """A coil that is known at a flow, and gets a half more of it, or less than that."""
    gets = value(result(NAME, SIMPLE)["units"][0]["flow"], "gpm")
    coil = {"flow": f"{gets / share:.6f} gpm", "pressure_drop": "0.02 psi"}
    wide = with_changes(SIMPLE, units__0__coil=coil, supply__pressure="20.05 psig")
    assert ("too much water in unit" in verdicts(NAME, wide)) is said


def test_an_arrester_may_take_the_peak_but_must_be_sized_for_it() -> None:
    weak = with_changes(BRANCHED, pipes__5__rated_pressure="50 psig")
    assert verdicts(NAME, weak)["peak pressure"] == "fails"
    assert verdicts(NAME, with_changes(weak, control_valve__arrester=True))["peak pressure"] == "watch"


def test_an_open_drain_below_the_valve_is_not_part_of_the_pressure_at_rest() -> None:
    """79 psi at the supply; the drain ends 23 ft lower, but behind the shut valve stands its own free outlet."""
    low = {**SIMPLE, "supply": {"kind": "fixed-pressure", "pressure": "79 psig"}, "control_valve": {"on": "feed", "cv": 3}}
    assert verdicts(NAME, with_changes(low, pipes__1__rise="-23 ft"))["pressure at rest"] == "meets"


def test_full_bore_fittings_in_pex_are_watched() -> None:
    """Insert fittings at 0.7 of the bore lose 1/0.7^4 = 4.16 times as much (common practice for the bore)."""
    pex = with_changes(SIMPLE, pipes__0__material="pex", pipes__0__fittings={"elbow-90": 3})
    assert verdicts(NAME, pex)["PEX fittings"] == "watch"
    inserted = with_changes(pex, pipes__0__fittings={"elbow-90-insert": 3})
    assert "PEX fittings" not in verdicts(NAME, inserted)
    assert value(result(NAME, inserted)["supply"]["flow"], "gpm") < value(result(NAME, pex)["supply"]["flow"], "gpm")


OWN = with_changes(SIMPLE, units__0__own_valve=True)


def says(question: dict[str, Any], check: str) -> str:
    return next(one["says"] for one in answer(NAME, question)["checks"] if one["check"] == check)  # type: ignore[no-any-return]


@pytest.mark.parametrize(("time", "verdict"), [(None, "watch"), ("9.4 ms", "watch"), ("10 ms", "meets"), ("5 s", "meets")])
def test_a_unit_s_own_valve_hammers_as_any_other(time: str | None, verdict: str) -> None:
    """By hand: in 3/4 in copper L a = 4720/sqrt(1 + 300000/17e6 x .785/.045) = 4127 ft/s, so the wave is back over 20 ft in 2 x 20/4127 = 9.7 ms."""
    question = OWN if time is None else with_changes(OWN, units__0__own_valve_closing_time=time)
    assert verdicts(NAME, question)["closing of unit"] == verdict
    assert "closing of unit" not in verdicts(NAME, SIMPLE)
    check = next(one for one in answer(NAME, question)["checks"] if one["check"] == "closing of unit")
    assert ("limit" in check) == (time is not None), "a time is held to a time, a surge to nothing"
    if time is not None:
        assert value(check["limit"], "s") == pytest.approx(0.0097, rel=0.02)
        assert check["actual"]["unit"] == "s"


def test_the_surge_of_an_own_valve_by_hand() -> None:
    """62.37/32.174 slug/ft3 x 4127 ft/s / 144 = 55.5 psi for every ft/s (Joukowsky), within 2 % for the sound of water."""
    check = next(one for one in answer(NAME, OWN)["checks"] if one["check"] == "closing of unit")
    velocity = value(next(one for one in result(NAME, OWN)["pipes"] if one["id"] == "feed")["velocity"], "ft/s")
    assert value(check["actual"], "psi") == pytest.approx(55.5 * velocity, rel=0.02)
    peak = 20 + value(check["actual"], "psi")
    for rating, verdict in ((peak + 1, "meets"), (peak - 1, "fails")):
        rated = with_changes(OWN, pipes__0__rated_pressure=f"{rating} psig")
        assert verdicts(NAME, rated)["peak from unit"] == verdict
        assert verdicts(NAME, with_changes(rated, units__0__own_arrester=True))["peak from unit"] == ("meets" if verdict == "meets" else "watch")


@pytest.mark.parametrize(
    ("rated", "rise", "verdict"),
    [("20 psig", "0 ft", "meets"), ("19.9 psig", "0 ft", "fails"), ("15.8 psig", "10 ft", "meets"), ("15.5 psig", "10 ft", "fails")],
)
def test_a_unit_is_held_to_its_plate(rated: str, rise: str, verdict: str) -> None:
    """Hydrostatics by hand: 20 psig at the supply, 10 ft x 0.433 psi/ft less at the coil: 15.67 psig."""
    question = with_changes(SIMPLE, units__0__rated_pressure=rated, pipes__0__rise=rise, pipes__1__rise=f"-{rise}" if rise != "0 ft" else rise)
    assert verdicts(NAME, question)["rating of unit"] == verdict


def test_a_tank_is_held_to_its_plate() -> None:
    for rated, verdict in (("60 psig", "meets"), ("59 psig", "fails")):
        question = with_changes(OPEN_LOOP, supply__cut_out="60 psig", supply__rated_pressure=rated)
        assert verdicts(NAME, question)["rating of the tank"] == verdict


@pytest.mark.parametrize(("check_valve", "lift", "verdict"), [
    (None, "30 ft", "watch"), (False, "30 ft", "fails"), (True, "30 ft", "watch"), (False, "-10 ft", "meets"), (None, "-10 ft", "meets"),
])  # fmt: skip
def test_the_check_valve_at_the_pump_keeps_the_loop_full(check_valve: bool | None, lift: str, verdict: str) -> None:
    """Hydrostatics by hand: 30 ft above the resting water 30 x 0.433 = 13.0 psi are missing; 10 ft below it 4.33 psi are left."""
    question = with_changes(SIMPLE, supply={**PUMP_SUPPLY, "lift": lift})
    if check_valve is not None:
        question["supply"]["check_valve"] = check_valve
    assert verdicts(NAME, question)["check valve at supply"] == verdict
    if verdict != "watch":
        got = next(one["actual"] for one in answer(NAME, question)["checks"] if one["check"] == "check valve at supply")
        assert value(got, "psig") == pytest.approx(-13.0 if lift == "30 ft" else 4.33, abs=0.02)


def test_coils_run_empty_behind_a_shut_valve_without_a_check_valve() -> None:
    valve = {"on": "drain", "cv": 8, "closing_time": "10 s"}
    for check_valve, verdict in ((True, "meets"), (False, "fails")):
        question = with_changes(SIMPLE, control_valve=valve, supply={**PUMP_SUPPLY, "lift": "30 ft", "check_valve": check_valve})
        assert verdicts(NAME, question)["coils kept full, valve shut"] == verdict
    assert "no room" in says(with_changes(SIMPLE, control_valve=valve, supply={**PUMP_SUPPLY, "check_valve": True}), "check valve at supply")


def test_a_tank_without_a_check_valve_runs_back() -> None:
    assert verdicts(NAME, with_changes(OPEN_LOOP, supply__check_valve=False))["check valve at supply"] == "fails"


@pytest.mark.parametrize("height", ["10 ft", "-10 ft"])
def test_the_elevation_of_a_unit_stands_in_for_rises(height: str) -> None:
    """Hydrostatics by hand: 10 ft x 0.4332 psi/ft (60 °F) off the pressure at the coil, the same as by a rise of the feed."""
    by_unit = with_changes(SIMPLE, units__0__elevation=height)
    by_rise = with_changes(SIMPLE, pipes__0__rise=height)
    at = {node["id"]: node for node in result(NAME, by_unit)["nodes"]}
    assert at["a"] == next(node for node in result(NAME, by_rise)["nodes"] if node["id"] == "a")
    assert value(at["a"]["elevation"], "ft") == pytest.approx(float(height.split()[0]))


def test_an_elevation_against_the_rises_is_refused_at_the_unit() -> None:
    assert set(refused(with_changes(SIMPLE, units__0__elevation="10 ft", pipes__0__rise="9 ft"))) == {"/units/0/elevation"}


@pytest.mark.parametrize(("rise", "verdict"), [("19.9 ft", None), ("20 ft", None), ("20.1 ft", "watch")])
def test_a_pipe_climbs_no_more_than_it_is_long(rise: str, verdict: str | None) -> None:
    """A plumb line is the shortest way: 20 ft of pipe climb 20 ft at most."""
    question = with_changes(SIMPLE, supply__pressure="40 psig", pipes__0__rise=rise, pipes__1__rise=f"-{rise}")
    assert verdicts(NAME, question).get("heights") == verdict
    assert verdicts(NAME, with_changes(SIMPLE, supply__pressure="40 psig", units__0__elevation=rise)).get("heights") == verdict
