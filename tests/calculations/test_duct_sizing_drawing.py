"""The drawing of a duct sizing: true to scale, with its figures, and drawn at the ends of what can be asked."""

from itertools import product
from xml.etree import ElementTree

import pytest

from kneewall.catalogue import all_calculations
from kneewall.kernel.refusal import Refusal

SVG = "{http://www.w3.org/2000/svg}"


def drawn(question: dict[str, object], units: str = "ip") -> ElementTree.Element:
    calculation = all_calculations()["duct-sizing"]
    asked = calculation.reader.plain(question)
    assert calculation.drawing is not None
    return ElementTree.fromstring(calculation.drawing(asked, calculation.answer(asked), "si" if units == "si" else "ip"))


def texts(root: ElementTree.Element) -> list[str]:
    return [str(element.text) for element in root.iter(f"{SVG}text")]


def test_the_section_is_true_to_scale() -> None:
    """A duct 24 in by 10 in is 2.4 times as wide as high (plane geometry); places are rounded to a tenth of a unit."""
    root = drawn({"airflow": "1200 cfm", "duct": {"shape": "rectangular"}, "size": {"shape": "rectangular", "width": "24 in", "height": "10 in"}})
    _, section = root.findall(f"{SVG}rect")
    assert float(section.attrib["width"]) / float(section.attrib["height"]) == pytest.approx(2.4, rel=0.005)
    assert {"24 in", "10 in", "24 in x 10 in"} <= set(texts(root))


def test_the_drawing_is_in_the_readers_units() -> None:
    """8 in is 203.2 mm by definition of the inch."""
    question = {"airflow": "110 cfm", "size": {"shape": "round", "diameter": "8 in"}}
    assert "8 in round" in texts(drawn(question))
    assert "203.2 mm round" in texts(drawn(question, "si"))
    assert not [text for text in texts(drawn(question, "si")) if "in. w.c." in text or " in" in text]


def test_limits_are_drawn_only_where_they_were_set() -> None:
    free = texts(drawn({"airflow": "110 cfm", "size": {"shape": "round", "diameter": "8 in"}}))
    bound = texts(drawn({"airflow": "110 cfm", "friction_rate": "0.08 inH2O/100ft", "velocity_limit": "600 fpm"}))
    assert not [text for text in free if "allowed" in text]
    assert {"loss allowed: 0.08 in. w.c./100 ft", "velocity allowed: 600 fpm"} <= set(bound)


@pytest.mark.parametrize(("limit", "allowed"), [("719 fpm", False), ("721 fpm", True)])
def test_a_size_stands_on_the_side_of_the_limit_on_which_it_is(limit: str, allowed: bool) -> None:
    """1200 cfm in 24 in by 10 in is 1200/(240/144) = 720 fpm (by hand): the marked size stands right of a limit just above and left of one just below."""
    size = {"shape": "rectangular", "width": "24 in", "height": "10 in"}
    root = drawn({"airflow": "1200 cfm", "velocity_limit": limit, "duct": {"shape": "rectangular"}, "size": size})
    marked = max(root.iter(f"{SVG}circle"), key=lambda circle: float(circle.attrib["r"]))
    line = next(one for one in root.iter(f"{SVG}line") if one.attrib.get("stroke-dasharray") == "7 3 1 3")
    assert (float(marked.attrib["cx"]) >= float(line.attrib["x1"])) is allowed


def test_drawn_at_the_ends_of_what_can_be_asked() -> None:
    """Every corner of the question's bounds that is answered is drawn, within the drawing's width, in both systems of units."""
    corners = product(("1 cfm", "300 cfm", "100000 cfm"), ("0.001 inH2O/100ft", "10 inH2O/100ft", None), ("50 fpm", "6000 fpm", None))
    ducts = ({"shape": "round"}, {"shape": "rectangular"}, {"shape": "flat-oval"}, {"material": "flexible", "stretch": 0.55})
    count = 0
    for (airflow, rate, velocity), duct in product(corners, ducts):
        question = {"airflow": airflow, "friction_rate": rate, "velocity_limit": velocity, "duct": duct}
        for units in ("ip", "si"):
            try:
                root = drawn({name: value for name, value in question.items() if value is not None}, units)
            except Refusal:
                continue
            places = [float(element.attrib[name]) for element in root.iter() for name in ("x", "x1", "x2", "cx") if name in element.attrib]
            assert all(-1.0 <= place <= 361.0 for place in places), question
            count += 1
    assert count > 60


def test_the_band_of_a_flexible_duct_is_explained_and_uncut() -> None:
    question = {"airflow": "110 cfm", "friction_rate": "0.08 inH2O/100ft", "duct": {"material": "flexible", "stretch": 0.93}}
    for units in ("ip", "si"):
        words = [element.text for element in drawn(question, units).iter(f"{SVG}text")]
        assert "between these ends lies its real loss" in words
