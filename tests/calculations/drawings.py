"""What the tests of drawings share: drawing a question, reading places, and trying many questions varied from the examples."""

import copy
import random
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree

from kneewall.catalogue import all_calculations
from kneewall.kernel.answer import Answer
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Refusal
from tests.http.quantities import varied

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "</text><script>alert(1)</script>&\x00\"'"
ALLOWED = {f"{SVG}{name}" for name in ("svg", "title", "desc", "line", "polyline", "polygon", "rect", "circle", "path", "text")}


def drawn(name: str, question: dict[str, Any], units: UnitSystem = "ip") -> tuple[ElementTree.Element, Answer[Any]]:
    """The drawing of a question as a tree, and its answer. Raises: Refusal."""
    calculation = all_calculations()[name]
    asked = calculation.reader.plain(question)
    answer = calculation.answer(asked)
    assert calculation.drawing is not None
    return ElementTree.fromstring(calculation.drawing(asked, answer, units)), answer


def example(name: str, which: str) -> dict[str, Any]:
    """A fresh copy of an example's question."""
    return next(copy.deepcopy(dict(one.question)) for one in all_calculations()[name].examples if one.name == which)


def texts(root: ElementTree.Element) -> list[str]:
    """Every line of words."""
    return [str(element.text) for element in root.iter(f"{SVG}text")]


def points(element: ElementTree.Element) -> list[tuple[float, float]]:
    """The points of a polyline or polygon."""
    pairs = [point.split(",") for point in element.attrib["points"].split()]
    return [(float(x), float(y)) for x, y in pairs]


def outside(root: ElementTree.Element) -> list[str]:
    """What lies outside the view box, lines and the ends of words alike, by more than two units."""
    _, _, wide, high = (float(part) for part in root.attrib["viewBox"].split())
    found = []
    for element in root.iter():
        for x, y in _places(element):
            if not (-2.0 <= x <= wide + 2.0 and -2.0 <= y <= high + 2.0):
                found.append(f"{element.tag.removeprefix(SVG)} {element.text or ''} at {x}, {y}")
    return found


def _places(element: ElementTree.Element) -> Iterator[tuple[float, float]]:
    number = {
        name: float(value) for name, value in element.attrib.items() if name in ("x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "width", "height")
    }
    if element.tag == f"{SVG}line":
        yield number["x1"], number["y1"]
        yield number["x2"], number["y2"]
    elif element.tag in (f"{SVG}polyline", f"{SVG}polygon"):
        yield from points(element)
    elif element.tag == f"{SVG}rect" and "x" in number:
        yield number["x"], number["y"]
        yield number["x"] + number["width"], number["y"] + number["height"]
    elif element.tag == f"{SVG}circle":
        yield number["cx"], number["cy"]
    elif element.tag == f"{SVG}text":
        yield number["x"], number["y"]
        yield _far_end(element), number["y"]


def _far_end(element: ElementTree.Element) -> float:
    """Where words end, by the usual width of letters: half their height and a little (memory; no font is measured)."""
    wide = 0.5 * float(element.attrib["font-size"]) * len(element.text or "")
    side = {"start": 1.0, "middle": 0.5, "end": -1.0}[element.attrib["text-anchor"]]
    return float(element.attrib["x"]) + side * wide


def draw_many(name: str, count: int = 200, reach: float = 6.0) -> None:
    """Draw `count` answered questions, varied from the examples, in both systems of units: each is valid, plain and inside its view box."""
    calculation, chance, done, tried = all_calculations()[name], random.Random(7), 0, 0
    while done < count:
        start = calculation.examples[tried % len(calculation.examples)].question
        question = varied(calculation.question, dict(start), chance, reach=reach)
        tried += 1
        assert tried < 20 * count, "too few of the varied questions are answered"
        try:
            both = [drawn(name, question, "ip")[0], drawn(name, question, "si")[0]]
        except Refusal:
            continue
        for root in both:
            assert root.findtext(f"{SVG}title")
            assert root.findtext(f"{SVG}desc")
            assert {element.tag for element in root.iter()} <= ALLOWED
            assert outside(root) == [], question
        done += 1
