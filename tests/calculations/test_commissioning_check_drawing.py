"""The drawing of a commissioning check: each band where its figure and uncertainty put it, on the right side of its limits."""

import copy
from typing import Any
from xml.etree import ElementTree

import pytest

from kneewall.catalogue import all_calculations
from tests.asking import answer
from tests.drawn import SVG, SYSTEMS, assert_sound, draw_varied, drawn, texts

NAME = "commissioning-check"
EXAMPLES: dict[str, dict[str, Any]] = {one.name: one.question for one in all_calculations()[NAME].examples}
MEETS_ALL, LOW = EXAMPLES["meets-all"], EXAMPLES["low-airflow-low-subcooling"]


def metered(airflow: str, width: str = "50 cfm") -> dict[str, Any]:
    """Only an airflow measured by itself, against a design of 1000 cfm within a tenth: 900 to 1100 cfm. Its uncertainty is asked as a share."""
    share = float(width.split()[0]) / float(airflow.split()[0])
    return {"air_side": {"airflow": airflow, "uncertainty": {"airflow": share}}, "design": {"airflow": "1000 cfm", "airflow_tolerance": 0.1}}


def bands(root: ElementTree.Element) -> list[tuple[float, tuple[float, float]]]:
    """The height and the two ends of every filled band."""
    filled = [one.attrib for one in root.iter(f"{SVG}rect") if one.attrib["fill"] == "#0d5c63"]
    return [(float(one["y"]), (float(one["x"]), float(one["x"]) + float(one["width"]))) for one in filled]


def bar(root: ElementTree.Element, name: str) -> dict[str, Any]:
    """The bar below a heading: its box, the band's two ends and middle, and its limits, left to right."""
    heading = next(one for one in root.iter(f"{SVG}text") if str(one.text).endswith(f": {name}"))
    y = float(heading.attrib["y"])

    def near(one: ElementTree.Element, key: str) -> bool:
        return y < float(one.attrib[key]) < y + 34.0

    box = next(one for one in root.iter(f"{SVG}rect") if "x" in one.attrib and near(one, "y"))
    low, high = next(band for at, band in bands(root) if y < at < y + 34.0)
    middle = next(float(one.attrib["cx"]) for one in root.iter(f"{SVG}circle") if near(one, "cy") and one.attrib["r"] == "3.4")
    limits = sorted(float(one.attrib["x1"]) for one in root.iter(f"{SVG}line") if near(one, "y1") and one.attrib.get("stroke-dasharray") == "2 3")
    return {"left": float(box.attrib["x"]), "low": low, "middle": middle, "high": high, "limits": limits}


@pytest.mark.parametrize(("airflow", "width"), [("1000 cfm", "50 cfm"), ("930 cfm", "80 cfm"), ("700 cfm", "20 cfm"), ("1500 cfm", "150 cfm")])
def test_band_and_limits_share_one_scale(airflow: str, width: str) -> None:
    """By hand: the limits 900 and 1100 cfm stand 200 cfm apart; figure and uncertainty in the same measure."""
    found = bar(drawn(NAME, metered(airflow, width)), "airflow")
    least, most = found["limits"]
    per_cfm = (most - least) / 200.0
    value, band = float(airflow.split()[0]), float(width.split()[0])
    assert found["middle"] == pytest.approx(least + (value - 900.0) * per_cfm, abs=0.2)
    assert found["low"] == pytest.approx(least + (value - band - 900.0) * per_cfm, abs=0.2)
    assert found["high"] == pytest.approx(least + (value + band - 900.0) * per_cfm, abs=0.2)


@pytest.mark.parametrize(
    ("airflow", "verdict"),
    [("845 cfm", "fails"), ("855 cfm", "watch"), ("945 cfm", "watch"), ("955 cfm", "meets"), ("1045 cfm", "meets"), ("1055 cfm", "watch")],
)
def test_a_band_stands_on_the_side_of_the_limit_on_which_it_was_judged(airflow: str, verdict: str) -> None:
    """With 50 cfm either way the band of 850 cfm just reaches 900 cfm, that of 950 cfm just leaves it (by hand)."""
    root = drawn(NAME, metered(airflow))
    found = bar(root, "airflow")
    assert f"{verdict}: airflow" in texts(root)
    least, most = found["limits"]
    if verdict == "meets":
        assert least <= found["low"] and found["high"] <= most
    elif verdict == "fails":
        assert found["high"] < least
    else:
        assert found["low"] < least < found["high"] or found["low"] < most < found["high"]


@pytest.mark.parametrize("example", list(EXAMPLES))
def test_every_check_is_drawn_with_its_verdict(example: str) -> None:
    said, found = texts(drawn(NAME, EXAMPLES[example])), answer(NAME, EXAMPLES[example])
    shown = [one.split(": ")[0] for one in said if one.split(": ")[0] in ("meets", "watch", "fails", "refer") and ": " in one]
    assert sorted(shown) == sorted(check["verdict"] for check in found["checks"])
    joined = " ".join(said)
    assert all(missing.split()[0] in joined for missing in found["result"]["not_compared"])


def test_the_legend_counts_the_verdicts() -> None:
    checks = answer(NAME, LOW)["checks"]
    fails, watch, meets = (sum(check["verdict"] == verdict for check in checks) for verdict in ("fails", "watch", "meets"))
    assert f"{fails} fail, {watch} to be watched, {meets} meet" in texts(drawn(NAME, LOW))


def test_two_ways_to_one_figure_share_a_scale() -> None:
    """The bands of blower table and water heat, by their own figures in the answer: their middles lie as far apart as the figures say."""
    root, found = drawn(NAME, MEETS_ALL), answer(NAME, MEETS_ALL)["result"]["airflow"]
    flows = {one["by"]: (one["airflow"]["value"], one["uncertainty"]["value"]) for one in found["estimates"]}
    heading = next(float(one.attrib["y"]) for one in root.iter(f"{SVG}text") if str(one.text) == "meets: airflow by the water's heat")
    (low_1, high_1), (low_2, high_2) = (band for at, band in bands(root) if heading < at < heading + 60.0)
    (table, table_width), (water, water_width) = flows["blower-table"], flows["water-heat"]
    per_cfm = (high_1 - low_1) / (2.0 * table_width)
    assert (high_2 - low_2) == pytest.approx(2.0 * water_width * per_cfm, abs=0.4)
    assert (low_2 + high_2 - low_1 - high_1) / 2.0 == pytest.approx((water - table) * per_cfm, abs=0.4)


def test_in_the_readers_units() -> None:
    """1000 cfm is 471.9 L/s by definition of the foot; 50 cfm are 23.6 L/s."""
    said = texts(drawn(NAME, metered("1000 cfm"), "si"))
    assert "472 ± 24 L/s" in said
    assert not [one for one in said if "cfm" in one]


def test_a_figure_known_for_sure_is_a_point() -> None:
    """No uncertainty: the band has no width, and stands on its limit where the figure does."""
    found = bar(drawn(NAME, metered("900 cfm", "0 cfm")), "airflow")
    assert found["low"] == found["middle"] == found["high"]
    assert found["middle"] == pytest.approx(found["limits"][0], abs=0.1)


def test_a_single_figure_on_its_single_limit_still_has_a_scale() -> None:
    """Nothing to show but one point: the test pressure asked for, read without uncertainty."""
    test = {
        "first": {"pressure": "450 psig", "temperature": "70 degF"},
        "last": {"pressure": "450 psig", "temperature": "70 degF"},
        "duration": "60 min",
    }
    question = {
        "tightness": {"pressure_test": {**test, "required_pressure": "450 psig"}, "uncertainty": {"pressure": "0 psi", "temperature": "0 delta_degF"}}
    }
    assert "meets: test pressure" in texts(drawn(NAME, question))
    assert_sound(drawn(NAME, question))


def test_what_was_not_compared_is_listed() -> None:
    question = copy.deepcopy(MEETS_ALL)
    del question["design"]
    root = drawn(NAME, question)
    assert_sound(root)
    assert "Not compared" in texts(root)
    assert any(one.startswith("Airflow against design") for one in texts(root))


def test_drawn_far_from_the_examples() -> None:
    assert draw_varied(NAME) == 200


@pytest.mark.parametrize("example", list(EXAMPLES))
def test_every_example_is_sound_in_both_systems(example: str) -> None:
    for units in SYSTEMS:
        assert_sound(drawn(NAME, EXAMPLES[example], units))
