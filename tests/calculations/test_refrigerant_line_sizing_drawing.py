"""The drawing of refrigerant lines: the run true to scale, the flows the right way round, and every tube on the side of its limits where it is."""

import copy
from math import log
from typing import Any

import pytest

from kneewall.catalogue import all_calculations
from tests.asking import result
from tests.drawn import SVG, assert_sound, corners, draw_varied, drawn, lines_of, text_at, texts

NAME = "refrigerant-line-sizing"
EXAMPLES: dict[str, dict[str, Any]] = {one.name: one.question for one in all_calculations()[NAME].examples}
HEAT_PUMP, COOLING_ONLY = EXAMPLES["heat-pump-under-the-roof"], EXAMPLES["cooling-only"]


def asked(example: dict[str, Any], **changes: Any) -> dict[str, Any]:
    return {**copy.deepcopy(example), **changes}


def line_points(question: dict[str, Any]) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """The vapor line and the liquid line as drawn: the first two lines of several points."""
    vapor, liquid, *_ = drawn(NAME, question).iter(f"{SVG}polyline")
    return corners(vapor), corners(liquid)


@pytest.mark.parametrize(("height", "level"), [("21 ft", 25.0), ("-21 ft", 25.0), ("6 ft", 40.0), ("40 ft", 6.0)])
def test_the_run_is_true_to_scale(height: str, level: float) -> None:
    """A line of 46 ft that bridges H runs 46 - H level (by hand); level and riser are drawn by one factor, places rounded to a tenth of a unit."""
    vapor, _ = line_points(asked(HEAT_PUMP, indoor_above_outdoor=height))
    (left, low), (corner, _), (_, high) = vapor
    rise = float(height.split()[0])
    assert (low - high) / (corner - left) == pytest.approx(rise / level, rel=0.02)
    assert (low > high) is (rise > 0)


def test_a_level_run_and_a_mere_riser_are_drawn() -> None:
    level, _ = line_points(asked(HEAT_PUMP, indoor_above_outdoor="0 ft"))
    assert level[0][1] == level[2][1] and level[1][0] - level[0][0] > 100
    riser, _ = line_points(asked(HEAT_PUMP, indoor_above_outdoor="46 ft"))
    assert riser[0][0] == riser[2][0] and riser[1][1] - riser[2][1] > 100


def heads(question: dict[str, Any]) -> list[tuple[str, float, float]]:
    """Filling, direction across and height of the heads on the two lines: a head's first corner is its tip, the others its back."""
    found = []
    for one in drawn(NAME, question).iter(f"{SVG}polygon"):
        (tip, _), (back, y), *more = corners(one)
        if len(more) == 1 and abs(tip - back) > 11.5:
            found.append((one.attrib["fill"], tip - back, y))
    return found


def test_gas_runs_to_the_outdoor_unit_in_cooling_and_away_from_it_in_heating() -> None:
    """The outdoor unit stands left; the upper of the two level lines is the vapor line. Common practice: which line is which in each mode."""
    gas_cooling, gas_heating, liquid_cooling, liquid_heating, *_ = heads(HEAT_PUMP)
    assert gas_cooling[1] < 0 < gas_heating[1]
    assert liquid_heating[1] < 0 < liquid_cooling[1]
    assert gas_cooling[0] == liquid_cooling[0] != gas_heating[0] == liquid_heating[0]
    assert gas_cooling[2] < liquid_cooling[2]
    assert len([one for one in heads(COOLING_ONLY) if one[0] != gas_cooling[0]]) == 0


@pytest.mark.parametrize(("height", "rises"), [("21 ft", "heating"), ("-21 ft", "cooling")])
def test_it_says_in_which_mode_the_oil_has_to_be_carried_up(height: str, rises: str) -> None:
    """Gas leaves the indoor coil in cooling: it rises to an outdoor unit above, and falls to one below."""
    said = " ".join(texts(drawn(NAME, asked(HEAT_PUMP, indoor_above_outdoor=height))))
    other = "cooling" if rises == "heating" else "heating"
    assert f"{rises}: {'hot' if rises == 'heating' else 'cold'} gas rises 21 ft" in said
    assert f"{other}: {'hot' if other == 'heating' else 'cold'} gas runs down" in said


@pytest.mark.parametrize("example", list(EXAMPLES))
def test_the_taken_tubes_are_framed_and_no_other(example: str) -> None:
    """The frame goes round the row of the recommended size, one row for either line."""
    root, found = drawn(NAME, EXAMPLES[example]), result(NAME, EXAMPLES[example])
    frames = [one for one in root.iter(f"{SVG}rect") if one.attrib.get("width") == "352.0"]
    said = "keeps all" if "size" in EXAMPLES[example]["vapor_line"] else "take this"
    assert len(frames) == texts(root).count(said) == 2
    for frame, line in zip(frames, ("vapor_line", "liquid_line"), strict=True):
        top = float(frame.attrib["y"])
        label = next(one.text for one in root.iter(f"{SVG}text") if one.attrib["x"] == "9.0" and top < float(one.attrib["y"]) < top + 17.0)
        inches = {"1/4": 0.25, "5/16": 0.3125, "3/8": 0.375, "1/2": 0.5, "5/8": 0.625, "3/4": 0.75, "7/8": 0.875}
        assert inches[str(label).removesuffix(" in")] == pytest.approx(found[line]["recommended"]["value"])


def test_figures_stand_where_the_axis_puts_them() -> None:
    """By hand: on the axis of loss 0 and 2 degF are the ticks, so a loss L stands at x0 + L/2 (x2 - x0); oil return stands by the logarithm between 1 and 4."""
    root, found = drawn(NAME, HEAT_PUMP), result(NAME, HEAT_PUMP)
    row = next(one for one in found["vapor_line"]["candidates"] if one["nominal_size"]["value"] == 0.625)
    frame = next(one for one in root.iter(f"{SVG}rect") if one.attrib.get("width") == "352.0")
    middle = float(frame.attrib["y"]) + 8.5
    nought, two = (text_at(root, words)[0] for words in ("0", "2"))
    cooling = [float(one.attrib["cx"]) for one in root.iter(f"{SVG}circle") if abs(float(one.attrib["cy"]) - middle) < 0.3]
    assert cooling == [pytest.approx(nought + row["saturation_drop"]["value"] / 2.0 * (two - nought), abs=0.2)]
    diamonds = sorted(corners(one)[1][0] for one in root.iter(f"{SVG}polygon") if len(corners(one)) == 4 and abs(corners(one)[0][1] - middle) < 0.3)
    one, four = (text_at(root, words)[0] for words in ("1", "16"))
    share = log(1.0 + row["heating"]["oil_return"]["margin"]) / log(16.0)
    assert diamonds[0] == pytest.approx(nought + row["heating"]["saturation_drop"]["value"] / 2.0 * (two - nought), abs=0.2)
    assert diamonds[1] == pytest.approx(one + share * (four - one), abs=0.2)


@pytest.mark.parametrize(("limit", "kept"), [(0.98, False), (1.02, True)])
def test_a_tube_stands_on_the_side_of_the_limit_on_which_it_is(limit: float, kept: bool) -> None:
    """A limit just below and just above the loss of the same tube: its mark stands right of the dotted line, then left of it."""
    size = {"vapor_line": {**HEAT_PUMP["vapor_line"], "size": "5/8 in"}}
    loss = result(NAME, asked(HEAT_PUMP, **size))["vapor_line"]["candidates"][0]["saturation_drop"]["value"]
    root = drawn(NAME, asked(HEAT_PUMP, **size, limits={"vapor_penalty": {"value": round(loss * limit, 6), "unit": "delta_degF"}}))
    dotted = next(one for one in lines_of(root, stroke_dasharray="2 3") if one.attrib["x1"] == one.attrib["x2"])
    first = next(one for one in root.iter(f"{SVG}circle") if one.attrib["r"] == "3.0")
    assert (float(first.attrib["cx"]) <= float(dotted.attrib["x1"])) is kept
    assert ("keeps all" in texts(root)[: texts(root).index("Liquid line: every made tube")]) is kept


def test_beyond_what_can_be_worked_out_a_head_points_on() -> None:
    """In 1/4 in of tube the liquid boils: no subcooling is given, and its mark stands at the axis's end with a head that points away."""
    question = asked(HEAT_PUMP, liquid_line={**HEAT_PUMP["liquid_line"], "size": "1/4 in"})
    assert "subcooling_left" not in result(NAME, question)["liquid_line"]["candidates"][0]
    assert "boils +1" in texts(drawn(NAME, question))


def test_in_the_readers_units() -> None:
    """5/8 in is 15.875 mm by definition of the inch."""
    said = texts(drawn(NAME, HEAT_PUMP, "si"))
    assert any("15.88 mm" in one for one in said)
    assert not [one for one in said if " in," in one or " ft" in one or "°F" in one]


def test_an_accessory_with_a_hostile_name_does_no_harm() -> None:
    question = asked(HEAT_PUMP, accessories=[{"name": "</desc><script>", "pressure_drop": "1 psi"}])
    assert_sound(drawn(NAME, question))


def test_drawn_far_from_the_examples() -> None:
    assert draw_varied(NAME) == 200
