"""The drawing of a whole job: its section true to scale, every part and clash with its verdict, and the stages in their order."""

import copy
from typing import Any
from xml.etree import ElementTree

import pytest

from kneewall.retrofit.examples import EXAMPLES
from kneewall.retrofit.partial import merged
from kneewall.retrofit.stages import STAGES
from tests.asking import answer, result, value
from tests.drawn import HOSTILE, SVG, SYSTEMS, assert_sound, corners, draw_varied, drawn, lines_of, text_at, texts

NAME = "retrofit-check"
BY_NAME: dict[str, dict[str, Any]] = {one.name: one.question for one in EXAMPLES}
FIRST, MENDED, DUCTS = (BY_NAME[name] for name in ("plan-drawn-by-eye", "plan-mended", "ducts-only-and-what-came"))


def with_heights(**elevations: str) -> dict[str, Any]:
    return copy.deepcopy(merged({"elevations": elevations}, MENDED))


def level(root: ElementTree.Element, words: str) -> float:
    """Where a level is drawn: at the end of the line that leads from its words."""
    x, y = text_at(root, words)
    leaders = [corners(one) for one in root.iter(f"{SVG}polyline")]
    return next(points[-1][1] for points in leaders if points[-1][0] == 124.0 and abs(points[0][1] + 3.5 - y) < 0.2 and points[0][0] > x)


def unit_box(root: ElementTree.Element) -> dict[str, float]:
    box = next(one for one in root.iter(f"{SVG}rect") if one.attrib.get("fill") == "#eef3ee")
    return {name: float(box.attrib[name]) for name in ("x", "y", "width", "height")}


@pytest.mark.parametrize("base", ["18.75 ft", "18 ft", "19.6 ft", "20.2 ft"])
def test_the_section_is_true_to_scale(base: str) -> None:
    """By hand from the question: rafters 21.5 ft, floor 17.6 ft, receiver 17.9 ft, unit 21 in high and 22 in wide; one factor for all of them."""
    root = drawn(NAME, with_heights(unit_base=base))
    rafters, floor = level(root, "rafters 21.5 ft"), level(root, "attic floor 17.6 ft")
    box = unit_box(root)
    per_foot = box["width"] / (22 / 12)
    assert box["height"] == pytest.approx(21 / 12 * per_foot, abs=0.2)
    assert floor - rafters == pytest.approx(3.9 * per_foot, abs=0.3)
    assert floor - (box["y"] + box["height"]) == pytest.approx((float(base.split()[0]) - 17.6) * per_foot, abs=0.3)
    assert level(root, "receiver 17.9 ft") == pytest.approx(floor - 0.3 * per_foot, abs=0.3)


def test_the_drain_ends_where_its_own_answer_says() -> None:
    """Its end lies above or below the rim by the drain's margin and air gap, on the section's scale."""
    for question in (MENDED, FIRST):
        root, found = drawn(NAME, question), result(NAME, question)
        per_foot = unit_box(root)["width"] / (22 / 12)
        end = value(found["parts"]["condensate-drain"]["result"]["elevations"]["end_of_run"], "ft")
        drain = next(corners(one) for one in root.iter(f"{SVG}polyline") if len(corners(one)) == 6 and one.attrib["stroke"] == "#0d5c63")
        assert level(root, "receiver 17.9 ft") - drain[-1][1] == pytest.approx((end - 17.9) * per_foot, abs=0.3)
        assert drain[0][1] <= drain[-1][1], "water runs downward from the pan's outlet"


def test_a_unit_that_stands_into_the_rafters_is_shown_so() -> None:
    """20 ft and 21 in come to 21.75 ft, 3 in above rafters at 21.5 ft (by hand)."""
    root = drawn(NAME, with_heights(unit_base="20 ft"))
    assert "3 in short" in texts(root)
    assert unit_box(root)["y"] < level(root, "rafters 21.5 ft")
    assert "3 in short" not in texts(drawn(NAME, with_heights(unit_base="19.75 ft"))), "exactly under the rafters it fits"


@pytest.mark.parametrize("question", [FIRST, MENDED, DUCTS], ids=["first", "mended", "ducts"])
def test_every_part_and_clash_stands_with_its_verdict(question: dict[str, Any]) -> None:
    said, found = texts(drawn(NAME, question)), answer(NAME, question)
    verdicts = {check["check"]: check["verdict"] for check in found["checks"]}
    for part in found["result"]["parts"]:
        assert f"{verdicts[part]}: {part.replace('-', ' ')}" in said
    for clash in found["result"]["conflicts"]:
        shown = [one for one in said if one.startswith(f"{clash['verdict']}: {clash['conflict']}")]
        assert shown if clash["verdict"] != "meets" else clash["conflict"] in " ".join(said)


def test_a_clash_has_a_dot_at_each_of_its_parts_and_at_no_other() -> None:
    """In the plan drawn by eye the drain and the hanging want different heights: the second column has its dots in their two rows."""
    root, found = drawn(NAME, FIRST), result(NAME, FIRST)
    clashes = [one for one in found["conflicts"] if one["verdict"] != "meets"]
    verdicts = {check["check"]: check["verdict"] for check in answer(NAME, FIRST)["checks"]}
    heads = sorted(
        {float(one.attrib["cx"]) for one in root.iter(f"{SVG}circle") if one.attrib["r"] == "7.5" and float(one.attrib["cx"]) > 200.0},
    )
    dots = [(float(one.attrib["cx"]), float(one.attrib["cy"])) for one in root.iter(f"{SVG}circle") if one.attrib["r"] == "4.0"]
    assert len(heads) == len(clashes) >= 4
    for head, clash in zip(heads, clashes, strict=True):
        parts = {name.partition(":")[0] for name in clash["between"]} & set(found["parts"])
        rows = {text_at(root, f"{verdicts[part]}: {part.replace('-', ' ')}")[1] - 4.0 for part in parts}
        assert {y for x, y in dots if x == head} == rows


def test_the_stages_stand_in_the_order_in_which_they_are_proved() -> None:
    root = drawn(NAME, MENDED)
    places = [text_at(root, stage[0]) for stage in STAGES]
    assert [y for _, y in places] == sorted(y for _, y in places)
    numbers = [str(number) for number in range(1, len(STAGES) + 1)]
    assert [one for one in texts(root) if one.isdigit()] == numbers
    assert "fails: settle first" not in texts(root)


def test_a_stage_whose_part_fails_is_held_up() -> None:
    """In the plan drawn by eye drain, loop and ducts fail, access does not."""
    root = drawn(NAME, FIRST)
    held = {float(one.attrib["y"]) for one in root.iter(f"{SVG}text") if one.text == "fails: settle first"}
    for stage, is_held in {"drain": True, "water loop": True, "plenums, boxes and ducts": True, "access": False, "hang": False}.items():
        assert (text_at(root, stage)[1] in held) is is_held, stage


def test_without_elevations_there_is_no_section() -> None:
    said = texts(drawn(NAME, DUCTS))
    assert "Section through the attic" not in said
    assert not [one for one in said if "to scale" in one]


@pytest.mark.parametrize(
    "kept", [("rafter_underside", "attic_floor"), ("rafter_underside", "unit_base"), ("attic_floor", "receiver_rim"), ("receiver_rim",)]
)
def test_what_is_known_of_the_attic_is_drawn(kept: tuple[str, ...]) -> None:
    """Two levels make a section, one does not."""
    question = {**DUCTS, "elevations": {name: MENDED["elevations"][name] for name in kept}}
    root = drawn(NAME, question)
    assert_sound(root)
    assert ("Section through the attic" in texts(root)) is (len(kept) > 1)


def test_levels_at_one_height_and_far_apart_are_drawn() -> None:
    for heights in ({"attic_floor": "18.75 ft"}, {"receiver_rim": "-480 ft"}, {"receiver_rim": "21.5 ft"}, {"attic_floor": "21.5 ft"}):
        for units in SYSTEMS:
            assert_sound(drawn(NAME, with_heights(**heights), units))
    same = {**DUCTS, "elevations": {"attic_floor": "9 ft", "receiver_rim": "9 ft"}}
    assert "Section through the attic" not in texts(drawn(NAME, same))


def test_hostile_names_are_only_words() -> None:
    question = copy.deepcopy(FIRST)
    question["job"]["name"] = HOSTILE
    question["delivered"] = [{"item": HOSTILE, "size": HOSTILE, "quantity": 1}]
    for units in SYSTEMS:
        root = drawn(NAME, question, units)
        assert_sound(root)
        assert any(one.startswith("</text><script>") for one in texts(root))


def test_lines_of_the_section_stay_between_its_edges() -> None:
    """Rafters and floor reach as far as each other."""
    heavy = [one for one in lines_of(drawn(NAME, MENDED), stroke_width="1.6") if one.attrib["y1"] == one.attrib["y2"] and one.attrib["x1"] == "124.0"]
    assert len(heavy) == 2
    assert {one.attrib["x2"] for one in heavy} == {"350.0"}


def test_drawn_far_from_the_examples() -> None:
    assert draw_varied(NAME) == 200
