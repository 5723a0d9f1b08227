"""The drawing of service access: plan and sections true to scale, what is asked for beside what there is."""

from typing import Any
from xml.etree import ElementTree

import pytest

from tests.calculations.drawings import SVG, draw_many, drawn, example, points, texts

NAME = "service-access"


def rectangles(root: ElementTree.Element) -> list[tuple[float, float, float, float]]:
    """Every rectangle but the paper: left, top, width, height."""
    return [tuple(float(one.attrib[name]) for name in ("x", "y", "width", "height")) for one in root.iter(f"{SVG}rect") if "x" in one.attrib]  # type: ignore[misc]


def sized(root: ElementTree.Element, ratio: float) -> list[tuple[float, float, float, float]]:
    return [one for one in rectangles(root) if one[3] > 0.0 and one[2] / one[3] == pytest.approx(ratio, rel=0.02)]


def test_the_plan_is_true_to_scale() -> None:
    """Opening 54 x 22.5 in, passage 168 x 28 in with floor 24 in, space 30 x 36 in, in a line (plane geometry)."""
    root, _ = drawn(NAME, example(NAME, "pull-down-stair-to-the-air-handler"))
    opening, passage, floor, space, asked = rectangles(root)[:5]
    factor = opening[2] / 54.0
    for found, (long, wide) in ((opening, (54, 22.5)), (passage, (168, 28)), (floor, (168, 24)), (space, (30, 36)), (asked, (30, 30))):
        assert (found[2], found[3]) == (pytest.approx(long * factor, abs=0.15), pytest.approx(wide * factor, abs=0.15))
        assert found[1] + found[3] / 2.0 == pytest.approx(opening[1] + opening[3] / 2.0, abs=0.15)
    assert opening[0] + opening[2] == pytest.approx(passage[0], abs=0.15)
    assert passage[0] + passage[2] == pytest.approx(space[0], abs=0.15)


def test_the_width_asked_for_is_drawn_beside_the_passage() -> None:
    """Passage 24 in wide, 22 in asked for (model residential code, see the rule)."""
    root, _ = drawn(NAME, example(NAME, "hatch-too-small-for-the-unit"))
    passage = rectangles(root)[1]
    dotted = [one.attrib for one in root.iter(f"{SVG}line") if one.attrib.get("stroke-dasharray") == "2 3" and one.attrib["y1"] == one.attrib["y2"]]
    apart = abs(float(dotted[0]["y1"]) - float(dotted[1]["y1"]))
    assert apart / passage[3] == pytest.approx(22 / 24, rel=0.02)


@pytest.mark.parametrize(("length", "marked"), [("19.9 ft", False), ("20 ft", False), ("20.5 ft", True)])
def test_where_the_length_allowed_ends(length: str, marked: bool) -> None:
    """20 ft are allowed in a passage one cannot stand in (model residential code, see the rule)."""
    question = example(NAME, "pull-down-stair-to-the-air-handler")
    question["passage"]["length"] = length
    root, _ = drawn(NAME, question)
    across = [one.attrib for one in root.iter(f"{SVG}line") if one.attrib.get("stroke-dasharray") == "2 3" and one.attrib["x1"] == one.attrib["x2"]]
    assert bool(across) is marked
    if marked:
        passage = rectangles(root)[1]
        assert (float(across[0]["x1"]) - passage[0]) / passage[2] == pytest.approx(20 / 20.5, abs=0.002)


@pytest.mark.parametrize(("length", "broken"), [("40 ft", False), ("41 ft", True)])
def test_a_long_passage_is_broken_and_says_so(length: str, broken: bool) -> None:
    question = example(NAME, "long-attic-one-can-stand-in")
    question["passage"]["length"] = length
    root, _ = drawn(NAME, question)
    assert ("the passage is drawn 40 ft long, with a break" in texts(root)) is broken
    assert any(text.startswith(f"2 passage {length} long") for text in texts(root))


def test_the_sections_are_true_to_scale_and_alike() -> None:
    """Opening 54 x 22.5 in and passage 28 x 38 in by one scale; the piece's 24 x 21 in face goes along the passage (plane geometry)."""
    root, _ = drawn(NAME, example(NAME, "pull-down-stair-to-the-air-handler"))
    opening = sized(root, 54 / 22.5)[-1]
    passage = sized(root, 28 / 38)[0]
    assert opening[2] / passage[2] == pytest.approx(54 / 28, rel=0.005)
    faces = [one for one in root.iter(f"{SVG}rect") if one.attrib.get("stroke-dasharray") == "5 3"]
    assert float(faces[0].attrib["height"]) / passage[3] == pytest.approx(24 / 38, rel=0.01)


def turned_question(short: float) -> dict[str, Any]:
    question = example(NAME, "unit-right-above-the-door")
    question["opening"] = {"length": "30 in", "width": f"{short} in"}
    question["largest_component"] = {"length": "50 in", "width": "32 in", "height": "4 in"}
    return question


def test_a_piece_that_goes_turned_is_drawn_turned_inside_the_opening() -> None:
    """A face 32 x 4 in in an opening 30 x 22 in: every corner within it, the diagonal kept, one side of the opening just filled (plane geometry)."""
    root, answer = drawn(NAME, turned_question(22.0))
    assert answer.result.removal.through_opening == "turned"
    opening = sized(root, 30 / 22)[-1]
    corners = points(next(one for one in root.iter(f"{SVG}polygon") if one.attrib.get("stroke-dasharray") == "5 3"))
    factor = opening[2] / 30.0
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    assert right - left == pytest.approx(opening[2], abs=0.2)
    assert opening[0] - 0.2 <= left <= right <= opening[0] + opening[2] + 0.2
    assert all(opening[1] - 0.2 <= y <= opening[1] + opening[3] + 0.2 for _, y in corners)
    diagonal = ((corners[0][0] - corners[2][0]) ** 2 + (corners[0][1] - corners[2][1]) ** 2) ** 0.5
    assert diagonal == pytest.approx((32.0**2 + 4.0**2) ** 0.5 * factor, abs=0.3)


def test_the_drawing_is_in_the_readers_units() -> None:
    """54 in is 1371.6 mm by definition of the inch, shown as 1,372 mm."""
    assert "opening 1,372 mm" in texts(drawn(NAME, example(NAME, "pull-down-stair-to-the-air-handler"), "si")[0])


def test_drawn_for_many_questions() -> None:
    draw_many(NAME)
