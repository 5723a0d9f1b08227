"""The drawing of hung equipment: rods, unit and pan true to scale, the weight's center and the loads at their corners."""

import pytest

from tests.calculations.drawings import HOSTILE, SVG, draw_many, drawn, example, texts

NAME = "equipment-hanging"


def circles(which: str, radius: str = "5.0", units: str = "ip") -> list[tuple[float, float]]:
    root, _ = drawn(NAME, example(NAME, which), "si" if units == "si" else "ip")
    return [(float(one.attrib["cx"]), float(one.attrib["cy"])) for one in root.iter(f"{SVG}circle") if one.attrib["r"] == radius]


def test_the_rods_are_true_to_scale() -> None:
    """Rods 44 in apart along and 30 in across (plane geometry)."""
    front_right, front_left, back_right, back_left = circles("air-handler-under-the-ridge")
    along, across = front_right[0] - back_right[0], front_right[1] - front_left[1]
    assert along / across == pytest.approx(44 / 30, rel=0.005)
    root, _ = drawn(NAME, example(NAME, "air-handler-under-the-ridge"))
    (line,) = [one.attrib for one in root.iter(f"{SVG}line") if one.attrib["x1"] == one.attrib["x2"] == "64.0"]
    assert float(line["y2"]) - float(line["y1"]) == pytest.approx(across, abs=0.15)
    assert (back_left[0], back_left[1]) == (back_right[0], front_left[1])


def test_the_weights_centre_stands_where_it_is() -> None:
    """240 lb at 9 in towards the back and 5 in towards the right, and 28 lb at the same place: both stand there; rods 48 in by 26 in (by hand)."""
    front_right, _, back_right, back_left = circles("old-rods-in-a-hot-attic")
    (centre,) = circles("old-rods-in-a-hot-attic", "7.0")
    factor = (front_right[0] - back_right[0]) / 48.0
    middle = ((front_right[0] + back_left[0]) / 2.0, (front_right[1] + back_left[1]) / 2.0)
    assert centre[0] - middle[0] == pytest.approx(-9.0 * factor, abs=0.2)
    assert centre[1] - middle[1] == pytest.approx(5.0 * factor, abs=0.2)


def test_the_weights_centre_with_pan_and_plenum() -> None:
    """Moments by hand: 205 lb unit, 14 + 17 lb and the pan's 56 x 27 x 1.5/1728 x 62.4 = 81.9 lb at (4, 1) in, 18 lb of plenum at (27, 0):
    x = (317.9 x 4 + 18 x 27)/335.9 = 5.233 in, y = 317.9/335.9 = 0.946 in."""
    front_right, _, back_right, back_left = circles("air-handler-under-the-ridge")
    (centre,) = circles("air-handler-under-the-ridge", "7.0")
    factor = (front_right[0] - back_right[0]) / 44.0
    assert centre[0] - (front_right[0] + back_left[0]) / 2.0 == pytest.approx(5.233 * factor, abs=0.2)
    assert centre[1] - (front_right[1] + back_left[1]) / 2.0 == pytest.approx(0.946 * factor, abs=0.2)


@pytest.mark.parametrize("which", ["air-handler-under-the-ridge", "old-rods-in-a-hot-attic"])
def test_every_corner_has_its_own_load(which: str) -> None:
    """A load stands above the name of its corner, on the side of the plan where the corner is."""
    root, answer = drawn(NAME, example(NAME, which))
    words = [(str(one.text), float(one.attrib["x"]), float(one.attrib["y"])) for one in root.iter(f"{SVG}text")]
    places = {}
    for rod in answer.result.rods:
        name = rod.corner.replace("-", " ")
        x, y = next((x, y) for text, x, y in words if text == name)
        load = next(text for text, at, up in words if at == x and y - 13.0 < up < y - 11.0)
        assert load.startswith(f"{rod.load.shown('ip')}, ")
        assert float(load.split(", ")[1].split()[0]) == pytest.approx(rod.use * 100.0, abs=0.51)
        places[rod.corner] = (x, y)
    assert places["front-right"][0] > places["back-right"][0]
    assert places["front-right"][1] > places["front-left"][1]


def test_the_end_shows_the_rods_of_its_own_end() -> None:
    """The unit stands off center towards back and right, so the back end is drawn, its heavier rod on the right as one looks from behind."""
    root, answer = drawn(NAME, example(NAME, "old-rods-in-a-hot-attic"))
    loads = {rod.corner: rod.load.shown("ip") for rod in answer.result.rods}
    words = {str(one.text): float(one.attrib["x"]) for one in root.iter(f"{SVG}text")}
    assert "Seen from the back end" in words
    assert words[loads["back-left"]] < 180.0 < words[loads["back-right"]]


def test_widths_of_the_end_are_true_to_scale() -> None:
    """Unit 22 in, pan 27 in and rods 30 in, each as a dimension of its width (plane geometry)."""
    root, _ = drawn(NAME, example(NAME, "air-handler-under-the-ridge"))
    lines = [one.attrib for one in root.iter(f"{SVG}line")]
    words = {str(one.text): float(one.attrib["y"]) for one in root.iter(f"{SVG}text")}
    found = {}
    for name, width in (("unit 22 in", 22.0), ("pan 27 in", 27.0), ("rods 30 in", 30.0)):
        line = next(one for one in lines if one["y1"] == one["y2"] == f"{words[name] + 5.0:.1f}")
        found[name] = (float(line["x2"]) - float(line["x1"])) / width
    assert max(found.values()) / min(found.values()) == pytest.approx(1.0, abs=0.003)


def test_names_do_no_harm() -> None:
    question = example(NAME, "old-rods-in-a-hot-attic")
    question["attached"][0]["name"] = HOSTILE
    root, _ = drawn(NAME, question)
    assert not [element for element in root.iter() if element.tag.endswith("script")]


def test_the_drawing_is_in_the_readers_units() -> None:
    """22 in is 558.8 mm by definition of the inch."""
    assert "unit 558.8 mm" in texts(drawn(NAME, example(NAME, "air-handler-under-the-ridge"), "si")[0])


def test_drawn_for_many_questions() -> None:
    draw_many(NAME)
