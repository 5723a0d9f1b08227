"""The drawing of a duct system: its tree, the pressure along the critical path and the blower's chart stand where the figures say."""

import copy
import random
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest

from kneewall.calculations.duct_system.drawing_blower import system_pressure
from kneewall.calculations.duct_system.drawing_layout import side_of
from kneewall.calculations.duct_system.drawing_pressure import critical_steps
from kneewall.catalogue import all_calculations
from kneewall.kernel.lettering import width_of
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Refusal
from tests.asking import result, value
from tests.http.quantities import varied

SVG = "{http://www.w3.org/2000/svg}"
NAMED = {example.name: example.question for example in all_calculations()["duct-system"].examples}
SIZED, ANALYSED, SMALL = NAMED["size-the-upper-floor"], NAMED["analyse-the-upper-floor"], NAMED["three-runs-by-friction-rate"]
GRILLE = {"airflow": "60 cfm", "pressure_drop": "0.03 inH2O"}


def drawn(question: dict[str, Any], units: UnitSystem = "ip") -> ElementTree.Element:
    calculation = all_calculations()["duct-system"]
    asked = calculation.reader.plain(question)
    assert calculation.drawing is not None
    return ElementTree.fromstring(calculation.drawing(asked, calculation.answer(asked), units))


def texts(root: ElementTree.Element) -> list[str]:
    return [str(element.text) for element in root.iter(f"{SVG}text")]


def text(root: ElementTree.Element, words: str) -> ElementTree.Element:
    return next(element for element in root.iter(f"{SVG}text") if element.text == words)


def lines(root: ElementTree.Element, width: float) -> list[list[tuple[float, float]]]:
    """The polylines of a pen, each as its points."""
    found = [one for one in root.iter(f"{SVG}polyline") if float(one.attrib["stroke-width"]) == width]
    return [[(float(x), float(y)) for x, y in (pair.split(",") for pair in one.attrib["points"].split())] for one in found]


def places(element: ElementTree.Element) -> tuple[list[float], list[float]]:
    """Every place across and down that an element names; of words, their estimated ends."""
    get = element.attrib.get
    across = [float(get(name, "")) for name in ("x", "x1", "x2", "cx") if name in element.attrib]
    down = [float(get(name, "")) for name in ("y", "y1", "y2", "cy") if name in element.attrib]
    for pair in get("points", "").split():
        across.append(float(pair.split(",")[0]))
        down.append(float(pair.split(",")[1]))
    if element.tag == f"{SVG}text":
        size, start = float(get("font-size", "")), across[0]
        wide = width_of(str(element.text), size * (1.12 if "font-weight" in element.attrib else 1.0))
        left = start - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[get("text-anchor", "start")]
        across += [left, left + wide]
    return across, down


def assert_within(root: ElementTree.Element) -> None:
    width, height = (float(figure) for figure in root.attrib["viewBox"].split()[2:])
    for element in root.iter():
        across, down = places(element)
        assert all(-0.5 <= x <= width + 0.5 for x in across), (element.text, element.attrib)
        assert all(-0.5 <= y <= height + 0.5 for y in down), (element.text, element.attrib)


def by_ticks(root: ElementTree.Element, baseline: str, *, nth: int) -> tuple[float, float]:
    """Place of nought and units of the drawing per unit of an axis across, from the printed figures of the `nth` row of ticks above the words `baseline`."""
    words = next(element for element in root.iter(f"{SVG}text") if str(element.text).startswith(baseline))
    row = float(words.attrib["y"]) - nth
    found = [
        (float(str(one.text).replace(",", "")), float(one.attrib["x"]))
        for one in root.iter(f"{SVG}text")
        if abs(float(one.attrib["y"]) - row) < 0.6 and one.attrib["text-anchor"] == "middle"
    ]
    (low, at_low), (high, at_high) = found[0], found[-1]
    factor = (at_high - at_low) / (high - low)
    return at_low - low * factor, factor


def section(name: str, toward: str, *, side: str = "supply", outlet: bool = False, **more: Any) -> dict[str, Any]:
    found: dict[str, Any] = {"id": name, "side": side, "toward_unit": toward, "length": "8 ft", **more}
    return {**found, "outlet": GRILLE} if outlet else found


def large_systems() -> dict[str, list[dict[str, Any]]]:
    """Two hundred sections in the ways a tree can grow."""
    chain = [section(f"s{k}", "unit" if k == 0 else f"s{k - 1}", outlet=k == 199) for k in range(200)]
    comb = [section(f"t{k}", "unit" if k == 0 else f"t{k - 1}", outlet=k == 100) for k in range(101)]
    comb += [section(f"a room far from the air handler {k}", f"t{k}", outlet=True) for k in range(99)]
    wide = [section(f"w{k}", "unit", outlet=True) for k in range(100)] + [section(f"r{k}", "unit", side="return", outlet=True) for k in range(100)]
    halves = [section(f"h{k}", "unit" if k == 1 else f"h{k // 2}", outlet=k >= 100) for k in range(1, 200)]
    return {"chain": chain, "comb": comb, "wide": wide, "halves": halves}


def test_every_section_stands_with_its_size_and_its_air() -> None:
    """By hand: the kitchen's 160 cfm and the den's 110 cfm make 270 cfm in the trunk; words in one row share a baseline."""
    root = drawn(SMALL)
    for name, air in (("trunk", "270"), ("den", "110"), ("kitchen", "160")):
        row = float(text(root, name).attrib["y"])
        assert air in [one.text for one in root.iter(f"{SVG}text") if abs(float(one.attrib["y"]) - row) < 1.0]


def test_branches_leave_the_section_they_hang_on() -> None:
    """The den's line begins at the trunk's row and ends at its own, below it: read from the question, not from the answer."""
    root = drawn(SMALL)
    trunk, den = (float(text(root, name).attrib["y"]) for name in ("trunk", "den"))
    line = next(one for one in lines(root, 1.6) if len(one) == 3)
    assert line[0][1] - trunk == pytest.approx(line[-1][1] - den, abs=0.3)
    assert trunk < den
    assert line[0][0] < line[-1][0]


def test_the_critical_path_is_marked_by_weight_and_words_beside_colour() -> None:
    """A thick line for each of its sections, bold names, and the word at its outlet; nothing else is thick."""
    answered = result("duct-system", SIZED)
    critical = {answered["critical_path"]["supply"], answered["critical_path"]["return"]}
    names = {name for path in answered["paths"] if path["outlet"] in critical for name in path["sections"]}
    root = drawn(SIZED)
    assert len(lines(root, 5.0)) == len(names)
    bold = {one.text for one in root.iter(f"{SVG}text") if "font-weight" in one.attrib}
    every = {one["id"] for one in SIZED["sections"]}
    assert bold & every == names
    assert texts(root).count("critical") == 2


def test_surplus_pressures_are_those_of_the_answer() -> None:
    root = drawn(SIZED)
    for path in result("duct-system", SIZED)["paths"]:
        surplus = value(path["surplus_pressure"], "inH2O")
        row = float(text(root, path["outlet"]).attrib["y"])
        words = next(str(one.text) for one in root.iter(f"{SVG}text") if abs(float(one.attrib["y"]) - row) < 1.0 and float(one.attrib["x"]) > 300)
        assert words == "critical" if surplus == 0 else float(words) == pytest.approx(surplus, rel=0.006)


@pytest.mark.parametrize(("task", "question"), [("size", SIZED), ("analyse", ANALYSED), ("size", SMALL)])
@pytest.mark.parametrize("units", ["ip", "si"])
def test_pressure_falls_from_the_room_to_the_unit_and_from_the_unit_to_the_room(task: str, question: dict[str, Any], units: UnitSystem) -> None:
    """Places worked out from the answer's sums: return and components below the room, the unit's whole rise, and back to nought (energy balance)."""
    assert question["task"] == task
    root, pascal = drawn(question, units), "Pa" if units == "si" else "inH2O"
    taken = result("duct-system", question, units=units)["external_static_pressure"]
    nought, factor = by_ticks(root, "against the room", nth=14)
    suction = -value(taken["return"], pascal) - value(taken["components"], pascal)
    rise = [one for one in lines(root, 1.6) if one[0][0] < nought < one[-1][0] and one[0][1] < one[-1][1] and len(one) == 2][-1]
    assert rise[0][0] == pytest.approx(nought + factor * suction, abs=0.6)
    assert rise[1][0] == pytest.approx(nought + factor * (suction + value(taken["total"], pascal)), abs=0.6)
    back, out = lines(root, 2.6)[0], lines(root, 2.6)[1]
    assert back[0][0] == pytest.approx(nought, abs=0.3)
    assert out[-1][0] == pytest.approx(nought, abs=0.3)
    assert all(after[0] <= before[0] + 0.1 for line in (back, out) for before, after in pairwise(line))


@pytest.mark.parametrize("question", [SIZED, ANALYSED, SMALL])
def test_losses_and_the_rise_come_to_nought(question: dict[str, Any]) -> None:
    calculation = all_calculations()["duct-system"]
    asked = calculation.reader.plain(question)
    steps = critical_steps(asked, calculation.answer(asked).result)
    assert sum(step.loss for step in steps) == pytest.approx(0.0, abs=1e-6)
    assert [step.name for step in steps].count("unit") == 1


@pytest.mark.parametrize("question", [SIZED, ANALYSED])
def test_the_blowers_entries_and_the_point_stand_at_their_figures(question: dict[str, Any]) -> None:
    """The example's own table: 1310 cfm at 0.2 in. to 910 cfm at 0.7 in. w.g.; the marked point is the answer's; places by the printed ticks."""
    root = drawn(question)
    nought, factor = by_ticks(root, "airflow,", nth=15)
    up = {str(one.text): float(one.attrib["y"]) - 3.5 for one in root.iter(f"{SVG}text") if one.attrib["x"] == "41.0"}
    per_inch = (up["0.6"] - up["0"]) / 0.6
    entries = [one for one in root.iter(f"{SVG}circle") if one.attrib["r"] == "3.0"]
    table = [(float(point["airflow"].split()[0]), float(point["static_pressure"].split()[0])) for point in SIZED["blower"]["points"]]
    assert len(entries) == len(table)
    for airflow, pressure in table:
        x, y = nought + factor * airflow, up["0"] + per_inch * pressure
        assert any(abs(float(one.attrib["cx"]) - x) < 0.4 and abs(float(one.attrib["cy"]) - y) < 0.4 for one in entries)
    point = result("duct-system", question)["operating_point"]
    marked = next(one for one in root.iter(f"{SVG}circle") if one.attrib["r"] == "5.5")
    assert float(marked.attrib["cx"]) == pytest.approx(nought + factor * value(point["airflow"], "cfm"), abs=0.4)
    assert float(marked.attrib["cy"]) == pytest.approx(up["0"] + per_inch * value(point["static_pressure"], "inH2O"), abs=0.4)


def test_analysed_the_point_lies_on_the_blowers_curve_and_on_the_systems() -> None:
    root = drawn(ANALYSED)
    marked = next(one for one in root.iter(f"{SVG}circle") if one.attrib["r"] == "5.5")
    x, y = float(marked.attrib["cx"]), float(marked.attrib["cy"])
    for curve in (lines(root, 2.6)[2], lines(root, 1.8)[0]):
        (x1, y1), (x2, y2) = next((a, b) for a, b in pairwise(curve) if min(a[0], b[0]) <= x <= max(a[0], b[0]))
        assert y == pytest.approx(y1 + (y2 - y1) * (x - x1) / (x2 - x1), abs=0.8)


@pytest.mark.parametrize("share", [0.78, 0.9, 1.04])
def test_the_systems_line_agrees_with_the_solved_network(share: float) -> None:
    """The line scales the ducts by the square; the solver, with its own friction by Colebrook and White, is given other blowers and must find the same
    pressure within 1 percent over the table's reach: friction alone goes with a power of 1.8 to 2, a part of the whole.
    """
    calculation = all_calculations()["duct-system"]
    asked = calculation.reader.plain(ANALYSED)
    base = calculation.answer(asked).result
    weak = copy.deepcopy(ANALYSED)
    weak["blower"]["points"] = [
        {"airflow": {"value": base.operating_point.airflow * share * (1.0 + 0.01 * side), "unit": "m3/s"}, "static_pressure": f"{pressure} inH2O"}
        for side, pressure in ((1, "0.001"), (-1, "2"))
    ]
    found = calculation.answer(calculation.reader.plain(weak)).result.operating_point
    assert found.airflow / base.operating_point.airflow == pytest.approx(share, rel=0.02)
    assert system_pressure(asked, base, found.airflow) == pytest.approx(found.static_pressure, rel=0.01)


@pytest.mark.parametrize("name", list(large_systems()))
def test_two_hundred_sections_stay_a_sane_drawing(name: str) -> None:
    """Every section has a row of its own within the width, lanes stay few, and the sheet grows downward only."""
    question = {"task": "size", "friction_rate": "0.08 inH2O/100ft", "sections": large_systems()[name]}
    calculation = all_calculations()["duct-system"]
    asked = calculation.reader.plain(question)
    found = calculation.answer(asked).result
    rows = [spot for side in ("return", "supply") for spot in side_of(asked, found, side)[1]]
    assert len(rows) == len(question["sections"])
    assert max(spot.lane for spot in rows) <= 8
    root = drawn(question)
    assert_within(root)
    height = float(root.attrib["viewBox"].split()[3])
    assert height < 20 * len(rows) + 1000
    baselines = sorted(float(one.attrib["y"]) for one in root.iter(f"{SVG}text") if one.attrib["x"] == "240.0")
    assert all(after - before >= 10.5 for before, after in pairwise(baselines))


def test_names_from_outside_are_escaped_and_long_ones_kept() -> None:
    hostile, long = "</text><script>x</script>&\"'", "the-bedroom-under-the-north-gable-no-one"
    question = copy.deepcopy(SMALL)
    question["components"] = [{"name": hostile, "pressure_drop": "0.1 inH2O", "airflow": "270 cfm"}]
    question["sections"][1]["id"] = long
    root = drawn(question)
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert [words for words in texts(root) if words.startswith("</text><scri")]
    assert long in texts(root)
    assert_within(root)


@pytest.mark.parametrize("side", ["supply", "return"])
def test_one_side_alone_is_drawn(side: str) -> None:
    root = drawn({"task": "size", "friction_rate": "0.08 inH2O/100ft", "sections": [section("one", "unit", side=side, outlet=True)]})
    assert_within(root)
    assert f"{side} air" in texts(root)
    assert f"{'return' if side == 'supply' else 'supply'} air" not in texts(root)


def test_far_from_the_examples_it_is_drawn_within_its_sheet() -> None:
    """Two hundred questions varied from the examples, in both systems of units."""
    calculation, chance, count = all_calculations()["duct-system"], random.Random("duct-system drawing"), 0
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
