"""Looking at a drawing in a test: its elements, its words, and whether everything stays inside it."""

import random
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree

from kneewall.catalogue import all_calculations
from kneewall.kernel.lettering import width_of
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Refusal
from tests.http.quantities import varied

SVG = "{http://www.w3.org/2000/svg}"
PLAIN = {f"{SVG}{name}" for name in ("svg", "title", "desc", "line", "polyline", "polygon", "rect", "circle", "path", "text")}
SYSTEMS: tuple[UnitSystem, ...] = ("ip", "si")
HOSTILE = "</text><script>alert('1')</script>&\"{}%s"


def drawn(name: str, question: dict[str, Any], units: UnitSystem = "ip") -> ElementTree.Element:
    """The drawing of a question's answer. Raises: Refusal."""
    calculation = all_calculations()[name]
    assert calculation.drawing is not None
    asked = calculation.reader.plain(question)
    return ElementTree.fromstring(calculation.drawing(asked, calculation.answer(asked), units))


def texts(root: ElementTree.Element) -> list[str]:
    """Its words, in the order in which they are drawn."""
    return [str(element.text) for element in root.iter(f"{SVG}text")]


def text_at(root: ElementTree.Element, words: str) -> tuple[float, float]:
    """Where words stand. Raises: StopIteration where they do not."""
    element = next(one for one in root.iter(f"{SVG}text") if one.text == words)
    return float(element.attrib["x"]), float(element.attrib["y"])


def corners(element: ElementTree.Element) -> list[tuple[float, float]]:
    """The points of a polyline or polygon."""
    return [(float(point.split(",")[0]), float(point.split(",")[1])) for point in element.attrib["points"].split()]


def lines_of(root: ElementTree.Element, **attributes: str) -> list[ElementTree.Element]:
    """The straight lines with these attributes; `_` stands for `-`."""
    wanted = {name.replace("_", "-"): value for name, value in attributes.items()}
    return [one for one in root.iter(f"{SVG}line") if wanted.items() <= one.attrib.items()]


def places(root: ElementTree.Element) -> Iterator[tuple[float, float]]:
    """Every place that is drawn at, with both ends of every word by the lettering's own estimate."""
    for one in root.iter():
        found = {name: float(one.attrib[name]) for name in ("x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r") if name in one.attrib}
        if one.tag == f"{SVG}line":
            yield from ((found["x1"], found["y1"]), (found["x2"], found["y2"]))
        elif one.tag in (f"{SVG}polyline", f"{SVG}polygon"):
            yield from corners(one)
        elif one.tag == f"{SVG}circle":
            yield from ((found["cx"] - found["r"], found["cy"] - found["r"]), (found["cx"] + found["r"], found["cy"] + found["r"]))
        elif one.tag == f"{SVG}rect":
            x, y = found.get("x", 0.0), found.get("y", 0.0)
            yield from ((x, y), (x + float(one.attrib["width"]), y + float(one.attrib["height"])))
        elif one.tag == f"{SVG}text":
            long = width_of(str(one.text), float(one.attrib["font-size"])) * 0.92
            left = found["x"] - {"start": 0.0, "middle": 0.5, "end": 1.0}[one.attrib["text-anchor"]] * long
            yield from ((left, found["y"] - 8.0), (left + long, found["y"] + 2.0))


def assert_sound(root: ElementTree.Element) -> None:
    """Plain elements only, nothing that acts or loads, everything inside the view box."""
    assert {element.tag for element in root.iter()} <= PLAIN
    names = {name for element in root.iter() for name in element.attrib}
    assert not [name for name in names if name.startswith("on") or "href" in name or name in ("style", "class", "id")]
    assert root.findtext(f"{SVG}title") and root.findtext(f"{SVG}desc")
    width, height = (float(figure) for figure in root.attrib["viewBox"].split()[2:])
    assert width == 360.0
    outside = [(x, y) for x, y in places(root) if not (-2.0 <= x <= 362.0 and -1.0 <= y <= height + 1.0)]
    assert not outside, (outside[:5], height, texts(root))


def draw_varied(name: str, wanted: int = 200) -> int:
    """Draw the answers of questions varied from the examples, in both systems of units, and see that each drawing is sound. Returns how many."""
    calculation, chance, answered = all_calculations()[name], random.Random(f"drawing of {name}"), 0
    assert calculation.drawing is not None
    for turn in range(10 * wanted):
        question = varied(calculation.question, chance.choice(calculation.examples).question, chance, reach=1.3 if turn % 2 else 5.0)
        try:
            asked = calculation.reader.plain(question)
            answer = calculation.answer(asked)
        except Refusal:
            continue
        for units in SYSTEMS:
            assert_sound(ElementTree.fromstring(calculation.drawing(asked, answer, units)))
        answered += 1
        if answered == wanted:
            break
    return answered
