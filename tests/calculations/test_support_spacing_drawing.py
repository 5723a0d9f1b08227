"""The drawing of supports: every support at its place, sag and fall as enlarged as the words say, hostile names harmless."""

from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest

from tests.calculations.drawings import HOSTILE, SVG, draw_many, drawn, example, points, texts

NAME = "support-spacing"


def hangers(root: ElementTree.Element) -> list[float]:
    """Where the short bars under the run stand: 7 units wide, heavier than a thin line."""
    bars = [one.attrib for one in root.iter(f"{SVG}line") if one.attrib["stroke-width"] == "1.8" and one.attrib["y1"] == one.attrib["y2"]]
    return [(float(one["x1"]) + float(one["x2"])) / 2.0 for one in bars]


def question(**run: Any) -> dict[str, Any]:
    usual = {"id": "a", "kind": "pipe", "material": "copper-type-l", "nominal_size": "1 in", "length": "31 ft"}
    return {"code": "IMC-2018", "runs": [{**usual, **run}]}


def test_supports_stand_evenly_over_the_run() -> None:
    """1 in copper every 8 ft (IMC table 305.4, see the rule): 31 ft take 4 spans of 7.75 ft, so five supports a quarter of the run apart."""
    root, _ = drawn(NAME, question())
    places = hangers(root)
    assert len(places) == 5
    assert [after - before for before, after in pairwise(places)] == pytest.approx([312.0 / 4.0] * 4, abs=0.15)


def test_a_given_spacing_is_drawn_from_the_start() -> None:
    """9 ft at 5 ft: supports at 0, 5 and 9 ft."""
    root, _ = drawn(NAME, question(length="9 ft", spacing="5 ft"))
    first, second, third = hangers(root)
    assert (second - first) / (third - first) == pytest.approx(5 / 9, abs=0.001)


def test_flexible_duct_hangs_between_its_connections() -> None:
    """15 ft at most 4 ft apart: 4 spans, 3 supports between the two connections."""
    run = example(NAME, "ducts-of-an-attic-unit")["runs"][1]
    root, answer = drawn(NAME, {"runs": [run]})
    assert (len(hangers(root)), answer.result.runs[0].supports) == (3, 3.0)


def test_sag_and_fall_are_enlarged_as_the_words_say() -> None:
    """A drain at 1/8 in/ft falls 1 in 96. In mid-span it lies its sag below the line between two supports."""
    root, answer = drawn(NAME, question(material="pvc-schedule-40", nominal_size="3/4 in", length="12 ft", slope="1/8 in/ft", spacing="4 ft"))
    times = float(next(line for line in texts(root) if "heights ×" in line).split("× ")[1])
    line = points(next(one for one in root.iter(f"{SVG}polyline") if one.attrib["stroke-width"] == "2.6"))
    factor = 312.0 / (12 * 0.3048)
    assert line[-1][1] - line[0][1] == pytest.approx(312.0 / 96.0 * times, abs=0.15)
    steps = (len(line) - 1) // 3
    middle = line[steps // 2][1] - (line[0][1] + line[steps][1]) / 2.0
    assert middle == pytest.approx(answer.result.runs[0].sag * factor * times, abs=0.15)


def test_sag_of_an_even_spacing_is_not_that_of_the_greatest() -> None:
    """The sag of a beam goes with the fourth power of its span: 31 ft in spans of 7.75 ft sag (7.75/8)^4 of what 8 ft would."""
    root, answer = drawn(NAME, question())
    told = next(line for line in texts(root) if line.startswith("sags"))
    assert float(told.split()[1]) == pytest.approx(answer.result.runs[0].sag / 0.0254 * (7.75 / 8.0) ** 4, rel=0.001)


def test_a_riser_stands_upright_with_its_guides() -> None:
    """PVC upright: supports every floor or 10 ft with guides halfway (IMC table 305.4, see the rule); 18 ft take two spans of 9 ft."""
    run = {"id": "riser", "kind": "pipe", "material": "pvc-schedule-40", "nominal_size": "1 in", "length": "18 ft", "orientation": "vertical"}
    root, answer = drawn(NAME, {"code": "IMC-2018", "runs": [run]})
    heights = sorted(float(one.attrib["y1"]) for one in root.iter(f"{SVG}line") if one.attrib["stroke-width"] == "1.8")
    assert len(heights) == answer.result.runs[0].supports == 3.0
    assert heights[1] - heights[0] == pytest.approx(heights[2] - heights[1], abs=0.15)
    rings = sorted(float(one.attrib["cy"]) for one in root.iter(f"{SVG}circle") if one.attrib["r"] == "4.0")
    assert rings == pytest.approx([(heights[0] + heights[1]) / 2.0, (heights[1] + heights[2]) / 2.0], abs=0.15)


def test_hostile_names_are_shown_not_run() -> None:
    other = "x" * 39 + "&"
    given = question(id=HOSTILE)
    given["runs"].append({**given["runs"][0], "id": other})
    root, _ = drawn(NAME, given)
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert any(text.startswith("</text><script>") for text in texts(root))


def test_each_run_has_its_own_verdicts() -> None:
    """Names that look like the name of another run's check do not mix them up."""
    given = question(id="a", spacing="5 ft")
    given["runs"].append({**given["runs"][0], "id": "a: spacing", "spacing": "30 ft"})
    words = texts(drawn(NAME, given)[0])
    second = words.index("a: spacing")
    assert "meets: spacing" in words[:second]
    assert "fails: spacing" in words[second:]
    assert "fails: spacing" not in words[:second]


def test_many_and_long_runs_are_cut_short_and_say_so() -> None:
    """200 runs of 1000 ft with a support every 3 in are drawn within bounds, and the drawing says what it leaves out."""
    runs = [{**question()["runs"][0], "id": f"run {index}", "length": "1000 ft", "spacing": "3 in"} for index in range(200)]
    root, _ = drawn(NAME, {"runs": runs})
    assert "and 194 more runs in the answer" in texts(root)
    assert "of the supports only the first 30 and the end are drawn" in texts(root)
    assert len(list(root.iter())) < 2000


def test_drawn_for_many_questions() -> None:
    draw_many(NAME)
