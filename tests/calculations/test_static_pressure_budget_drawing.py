"""The drawing of a static-pressure budget: every bar as long as its pressure, end to end, with the rated limit where it belongs."""

import copy
import random
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest

from kneewall.catalogue import all_calculations
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Refusal
from tests.calculations.test_duct_system_drawing import assert_within, texts
from tests.http.quantities import varied

SVG = "{http://www.w3.org/2000/svg}"
NAMED = {example.name: example.question for example in all_calculations()["static-pressure-budget"].examples}
KNOWN, FILTERED = NAMED["known-static-pressure"], NAMED["thick-filter-thin-budget"]


def drawn(question: dict[str, Any], units: UnitSystem = "ip") -> ElementTree.Element:
    calculation = all_calculations()["static-pressure-budget"]
    asked = calculation.reader.plain(question)
    assert calculation.drawing is not None
    return ElementTree.fromstring(calculation.drawing(asked, calculation.answer(asked), units))


def bars(root: ElementTree.Element) -> list[tuple[float, float]]:
    """The bars from the top down, each from where to where; the sheet's own ground is not one."""
    found = [one for one in root.iter(f"{SVG}rect") if "x" in one.attrib]
    return [(float(one.attrib["x"]), float(one.attrib["x"]) + float(one.attrib["width"])) for one in found]


def scale(root: ElementTree.Element, unit: str) -> tuple[float, float]:
    """Place of nought and units of the drawing per unit of pressure, from the printed figures of the axis."""
    row = float(next(one for one in root.iter(f"{SVG}text") if one.text == unit).attrib["y"]) - 14
    found = [(float(str(one.text)), float(one.attrib["x"])) for one in root.iter(f"{SVG}text") if abs(float(one.attrib["y"]) - row) < 0.6]
    (low, at_low), (high, at_high) = found[0], found[-1]
    factor = (at_high - at_low) / (high - low)
    return at_low - low * factor, factor


def test_bars_are_as_long_as_their_pressures() -> None:
    """By hand: 0.40 in. w.g. less two times 0.03 leaves 0.34, of which 160 of 245 ft of duct get 0.2220 and 85 of 245 ft 0.1180."""
    root = drawn(KNOWN)
    _, factor = scale(root, "in. w.c.")
    lengths = [(end - start) / factor for start, end in bars(root)]
    assert lengths == pytest.approx([0.40, 0.03, 0.03, 0.34 * 85 / 245, 0.34 * 160 / 245], abs=0.0006)


@pytest.mark.parametrize("units", ["ip", "si"])
@pytest.mark.parametrize("question", list(NAMED.values()), ids=list(NAMED))
def test_bars_meet_end_to_end_and_end_at_nought(question: dict[str, Any], units: UnitSystem) -> None:
    """What the blower has is all spent: each piece ends where the one before began, the last begins at nought."""
    root = drawn(question, units)
    nought, _ = scale(root, "Pa" if units == "si" else "in. w.c.")
    whole, *pieces = bars(root)
    assert whole[0] == pytest.approx(nought, abs=0.3)
    assert pieces[0][1] == pytest.approx(whole[1], abs=0.3)
    assert all(below[1] == pytest.approx(above[0], abs=0.3) for above, below in pairwise(pieces))
    assert pieces[-1][0] == pytest.approx(nought, abs=0.3)


@pytest.mark.parametrize(("limit", "beyond"), [("0.449 inH2O", True), ("0.45 inH2O", False), ("0.451 inH2O", False)])
def test_the_rated_limit_stands_at_its_figure(limit: str, beyond: bool) -> None:
    """The example's blower has 0.45 in. w.g.: just below it the limit crosses the bar, at it and just above it does not; 1 in. w.g. is 249.089 Pa."""
    root = drawn({**FILTERED, "rated_limit": limit})
    nought, factor = scale(root, "in. w.c.")
    line = next(one for one in root.iter(f"{SVG}line") if one.attrib.get("stroke-dasharray") == "2 3")
    x = float(line.attrib["x1"])
    assert x == pytest.approx(nought + factor * float(limit.split()[0]), abs=0.3)
    assert (x < bars(root)[0][1] - 0.05) is beyond
    assert [words for words in texts(root) if words.startswith("fails: rated")] == (["fails: rated external static pressure"] if beyond else [])


def test_without_a_rated_limit_none_is_drawn() -> None:
    root = drawn(KNOWN)
    assert not [one for one in root.iter(f"{SVG}line") if one.attrib.get("stroke-dasharray") == "2 3"]
    assert "rated" not in texts(root)


def test_sides_and_kinds_differ_in_more_than_colour() -> None:
    """Return bars are dashed, supply bars are not; what components take is hatched, a bar each."""
    root = drawn(FILTERED)
    dashed = ["stroke-dasharray" in one.attrib for one in root.iter(f"{SVG}rect") if "x" in one.attrib]
    assert dashed == [False, True, False, True, True, False]
    hatches = [one for one in root.iter(f"{SVG}path") if one.attrib["stroke-width"] == "0.8"]
    assert len(hatches) == len(FILTERED["components"])


def test_names_from_outside_are_escaped_and_forty_components_fit() -> None:
    hostile = "</text><script>alert(1)</script>&\x00\"'"
    question = copy.deepcopy(KNOWN)
    question["components"] = [
        {"name": f"{k} {hostile}", "pressure_drop": "0.005 inH2O", "airflow": "800 cfm", "side": "supply" if k % 2 else "return"} for k in range(40)
    ]
    root = drawn(question)
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert any("<script>" in words for words in texts(root))
    assert len(bars(root)) == 43
    assert_within(root)


def test_far_from_the_examples_it_is_drawn_within_its_sheet() -> None:
    """Two hundred questions varied from the examples, in both systems of units."""
    calculation, chance, count = all_calculations()["static-pressure-budget"], random.Random("budget drawing"), 0
    assert calculation.drawing is not None
    for turn in range(200):
        question = varied(calculation.question, chance.choice(calculation.examples).question, chance, reach=1.3 if turn % 2 else 6.0)
        try:
            asked = calculation.reader.plain(question)
            answer = calculation.answer(asked)
        except Refusal:
            continue
        count += 1
        for units in ("ip", "si"):
            assert_within(ElementTree.fromstring(calculation.drawing(asked, answer, units)))
    assert count >= 60
