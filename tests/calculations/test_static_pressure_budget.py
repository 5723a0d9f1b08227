"""The static-pressure budget: a worked exercise, a hand calculation, its limits and refusals."""

import pytest

from kneewall.kernel.refusal import Refusal
from tests.asking import answer, result, value, verdicts
from tests.outside import Outside

QUESTION = {"airflow": "1000 cfm", "blower_static_pressure": "0.18 inH2O", "effective_length": {"supply": "165 ft", "return": "120 ft"}}


def test_worked_exercise() -> None:
    """0.18 in. w.g. over 285 ft is a friction rate of 0.0632."""
    found = result("static-pressure-budget", QUESTION)
    Outside(0.0632, "worked exercise of the trade", "common-practice", 0.001, "three digits").check(value(found["friction_rate"], "inH2O/100ft"))


def test_hand_calculation_with_components() -> None:
    """Blower 0.50; filter 0.10 at 1000 cfm, read at 1200 cfm: 0.10 x 1.2^(1/0.85) = 0.1239; grille 0.03 at 1200; left 0.3461; over 200 + 100 ft: 0.1154 per 100 ft;
    supply 0.2307, return 0.1154; external static supply 0.2307, return 0.2693, together 0.50."""
    found = result(
        "static-pressure-budget",
        {
            "airflow": "1200 cfm",
            "blower_static_pressure": "0.5 inH2O",
            "components": [
                {"name": "filter", "kind": "filter", "pressure_drop": "0.1 inH2O", "airflow": "1000 cfm"},
                {"name": "grille", "pressure_drop": "0.03 inH2O", "airflow": "1200 cfm"},
            ],
            "effective_length": {"supply": "200 ft", "return": "100 ft"},
        },
    )
    assert value(found["available_static_pressure"], "inH2O") == pytest.approx(0.3461, abs=1e-4)
    assert value(found["friction_rate"], "inH2O/100ft") == pytest.approx(0.1154, abs=1e-4)
    assert value(found["external_static_pressure"]["supply"], "inH2O") == pytest.approx(0.2307, abs=1e-4)
    assert value(found["external_static_pressure"]["return"], "inH2O") == pytest.approx(0.2693, abs=1e-4)


def test_blower_table_and_known_pressure_agree() -> None:
    """On a straight line between two entries the value half-way is their mean, by hand."""
    points = [{"airflow": "1100 cfm", "static_pressure": "0.1 inH2O"}, {"airflow": "900 cfm", "static_pressure": "0.5 inH2O"}]
    table = {"airflow": "1000 cfm", "blower": {"points": points}, "effective_length": QUESTION["effective_length"]}
    known = {**QUESTION, "blower_static_pressure": "0.3 inH2O"}
    assert value(result("static-pressure-budget", table)["friction_rate"], "inH2O/100ft") == pytest.approx(
        value(result("static-pressure-budget", known)["friction_rate"], "inH2O/100ft"), rel=1e-6
    )


@pytest.mark.parametrize(("taken", "refused"), [("0.1799 inH2O", False), ("0.18 inH2O", True), ("0.1801 inH2O", True)])
def test_a_budget_that_does_not_close_is_refused_with_what_to_change(taken: str, refused: bool) -> None:
    question = {**QUESTION, "components": [{"name": "filter", "pressure_drop": taken, "airflow": "1000 cfm"}]}
    if not refused:
        assert value(result("static-pressure-budget", question)["available_static_pressure"], "inH2O") > 0
        return
    with pytest.raises(Refusal) as refusal:
        answer("static-pressure-budget", question)
    assert refusal.value.faults[0].pointer == "/components"
    assert "filter" in refusal.value.faults[0].detail.shown("ip")


@pytest.mark.parametrize(("limit", "verdict"), [("0.17 inH2O", "fails"), ("0.18 inH2O", "meets"), ("0.19 inH2O", "meets")])
def test_rated_limit_just_below_at_and_above(limit: str, verdict: str) -> None:
    assert verdicts("static-pressure-budget", {**QUESTION, "rated_limit": limit})["rated external static pressure"] == verdict


@pytest.mark.parametrize(
    "question",
    [
        {
            **QUESTION,
            "blower": {"points": [{"airflow": "1100 cfm", "static_pressure": "0.1 inH2O"}, {"airflow": "900 cfm", "static_pressure": "0.5 inH2O"}]},
        },
        {name: given for name, given in QUESTION.items() if name != "blower_static_pressure"},
    ],
)
def test_exactly_one_way_to_state_the_blower(question: dict) -> None:  # type: ignore[type-arg]
    with pytest.raises(Refusal):
        answer("static-pressure-budget", question)


def test_budget_in_thin_air() -> None:
    """7000 ft, 70 degF: pressure 0.7716 of sea level (standard atmosphere), density 0.7705 of 0.075 lb/ft3 (perfect gas). Blower 0.18 x 0.7705 = 0.1387 (fan laws), a grille of power 2
    0.03 x 0.7705 = 0.0231; left 0.1156 over 285 ft: 0.0406 per 100 ft, by hand."""
    grille = {"name": "grille", "pressure_drop": "0.03 inH2O", "airflow": "1000 cfm"}
    found = result("static-pressure-budget", {**QUESTION, "components": [grille], "air": {"altitude": "7000 ft", "temperature": "70 degF"}})
    assert value(found["blower_static_pressure"], "inH2O") == pytest.approx(0.1387, abs=1e-4)
    assert value(found["friction_rate"], "inH2O/100ft") == pytest.approx(0.0406, abs=1e-4)


@pytest.mark.parametrize(
    ("names", "left_out"),
    [
        ((), "filter, coil, supply outlet, return grille"),
        (("filter", "wet coil", "supply register", "return grille"), None),
        (("filter and its grille", "supply outlet"), "coil, return grille"),
    ],
)
def test_what_was_left_out_is_named(names: tuple[str, ...], left_out: str | None) -> None:
    kinds = {"filter": "filter", "filter and its grille": "filter", "wet coil": "coil"}
    components = [
        {"name": name, "kind": kinds.get(name, "other"), "pressure_drop": "0.03 inH2O", "airflow": "800 cfm", "side": "supply"} for name in names
    ]
    question = {
        "airflow": "800 cfm",
        "blower_static_pressure": "0.5 inH2O",
        "components": components,
        "effective_length": {"supply": "160 ft", "return": "85 ft"},
    }
    found = [check for check in answer("static-pressure-budget", question)["checks"] if check["check"] == "components"]
    assert [check["says"].split(": ")[1].split(". ")[0] for check in found] == ([] if left_out is None else [left_out])


def test_a_component_far_above_its_rating_is_watched() -> None:
    component = {"name": "coil", "kind": "coil", "pressure_drop": "0.03 inH2O", "airflow": "390 cfm"}
    question = {
        "airflow": "800 cfm",
        "blower_static_pressure": "0.5 inH2O",
        "components": [component],
        "effective_length": {"supply": "160 ft", "return": "85 ft"},
    }
    assert verdicts("static-pressure-budget", question)["component range"] == "watch"


def test_a_rating_goes_down_with_density() -> None:
    """Fan laws: at 7000 ft and 70 degF air weighs 0.7705 of 0.075 lb/ft3 (standard atmosphere, perfect gas): 0.5 in. w.c. becomes 0.385."""
    question = {
        "airflow": "800 cfm",
        "blower_static_pressure": "0.6 inH2O",
        "effective_length": {"supply": "160 ft", "return": "85 ft"},
        "rated_limit": "0.5 inH2O",
    }
    found = answer("static-pressure-budget", {**question, "air": {"altitude": "7000 ft"}})
    limit = next(check["limit"] for check in found["checks"] if check["check"] == "rated external static pressure")
    assert value(limit, "inH2O") == pytest.approx(0.385, rel=2e-3)
