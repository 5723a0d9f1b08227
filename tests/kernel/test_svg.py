"""The drawing kit: whatever it is told to draw is well-formed, escaped and inside its place."""

import re
from collections.abc import Iterator
from math import inf, nan
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kneewall.kernel.lettering import shortened, width_of, wrapped
from kneewall.kernel.scale import Axis, Scale
from kneewall.kernel.svg import OUTLINE, WIDTH, Drawing, in_pieces

SVG = "{http://www.w3.org/2000/svg}"


@given(st.text())
def test_any_text_stays_text(words: str) -> None:
    drawing = Drawing(words, words, 100)
    drawing.text(10, 20, words)
    drawing.mark(10, 40, "refer", words)
    drawing.dimension(10, 60, 100, 60, words)
    drawing.note(10, 80, words, 200)
    drawing.legend(10, 90, [(OUTLINE, words)])
    root = ElementTree.fromstring(drawing.svg())
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {"svg", "title", "desc", "rect", "text", "line", "path", "circle"}


def test_script_in_a_name_is_shown_not_run() -> None:
    drawing = Drawing("a", "b", 20)
    drawing.text(0, 10, '</text><script>alert("1")</script>\x00')
    assert "<script" not in drawing.svg()
    assert '</text><script>alert("1")</script>�' in [element.text for element in ElementTree.fromstring(drawing.svg()).iter()]


@pytest.mark.parametrize("place", [nan, inf, -inf])
def test_no_place_that_is_not_finite(place: float) -> None:
    """Each kind of line refuses it, and two infinities do not cancel."""
    drawing = Drawing("a", "b", 20)
    for draw in (
        lambda: drawing.line(0, 0, place, -place),
        lambda: drawing.polyline([(0, 0), (place, 1)]),
        lambda: drawing.polygon([(0, 0), (1, place)]),
        lambda: drawing.rectangle(0, place, 1, 1),
        lambda: drawing.circle(0, 0, place),
        lambda: drawing.hatch(0, 0, place, 1),
        lambda: drawing.text(place, 0, "a"),
        lambda: Drawing("a", "b", place).svg(),
    ):
        with pytest.raises(ArithmeticError):
            draw()


@given(st.text(max_size=80), st.floats(20, 400))
def test_words_stay_in_their_room(words: str, room: float) -> None:
    assert width_of(shortened(words, room, 12.0), 12.0) <= max(room, 12.0 * 1.2)
    for line in wrapped(words, room, 12.0):
        assert width_of(line, 12.0) <= max(room, 12.0 * 1.2)
    assert shortened("8 in round", 200, 12.0) == "8 in round"


def test_lengths_are_true_to_scale() -> None:
    """A square of 2 m in a wide box: equal factors both ways, in the middle, heights upward (plane geometry)."""
    scale = Scale.fit((0.0, 2.0), (0.0, 2.0), (10.0, 10.0, 300.0, 100.0))
    assert scale.x(2.0) - scale.x(0.0) == pytest.approx(100.0)
    assert scale.y(0.0) - scale.y(2.0) == pytest.approx(100.0)
    assert (scale.x(0.0), scale.y(0.0)) == (pytest.approx(110.0), pytest.approx(110.0))


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6))
def test_ticks_are_round_and_inside(low: float, span: float) -> None:
    axis = Axis(low, low + span, 0.0, WIDTH)
    ticks = axis.ticks()
    assert 2 <= len(ticks) <= 12
    assert all(-0.01 <= axis(tick) <= WIDTH + 0.01 for tick in ticks)


def test_powers_of_ten_are_equally_far_apart() -> None:
    axis = Axis(0.01, 10.0, 0.0, 300.0, powers=True)
    assert [axis(figure) for figure in (0.01, 0.1, 1.0, 10.0)] == pytest.approx([0.0, 100.0, 200.0, 300.0])
    assert axis.ticks()[:4] == pytest.approx([0.01, 0.02, 0.05, 0.1])


def test_hatching_covers_its_rectangle_and_stays_in_it() -> None:
    """Lines at 45 degrees whose places across and down add up to whole steps (plane geometry): each meets two sides of the rectangle."""
    for width, height in ((300.0, 14.0), (14.0, 300.0), (20.0, 20.0), (7.0, 5.0)):
        drawing = Drawing("a", "b", 400)
        drawing.hatch(10, 20, width, height, step=8.0)
        path = next(element.attrib["d"] for element in ElementTree.fromstring(drawing.svg()).iter(f"{SVG}path"))
        found = list(strokes(path))
        assert len(found) == int((width + height) / 8.0 - 1e-9)
        for number, ((x1, y1), (x2, y2)) in enumerate(sorted(found, key=lambda one: sum(one[0])), start=1):
            assert x1 - 10 + y1 - 20 == pytest.approx(8.0 * number, abs=0.15) == x2 - 10 + y2 - 20
            assert x1 == pytest.approx(10, abs=0.1) or y1 == pytest.approx(20 + height, abs=0.1)
            assert x2 == pytest.approx(10 + width, abs=0.1) or y2 == pytest.approx(20, abs=0.1)


def strokes(path: str) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """The straight strokes of a path of moves and lines, absolute or relative."""
    x = y = 0.0
    for letter, words in re.findall("([MmLl])([-0-9. ]+)", path):
        across, down = map(float, words.split())
        before, (x, y) = (x, y), (x + across, y + down) if letter.islower() else (across, down)
        if letter in "Ll":
            yield before, (x, y)


def test_a_drawing_is_cut_where_a_page_may_end() -> None:
    """The pieces follow each other without a gap, hold every word once and are well-formed; the first alone is read out."""
    drawing = Drawing("Two & more", "says", 0.0)
    for y, words in ((10, "<first>"), (110, "second"), (260, "third")):
        if y > 10:
            drawing.cut(y - 10)
        drawing.text(5, y, words)
    drawing.height = 300.0
    pieces = [ElementTree.fromstring(piece) for piece in in_pieces(drawing.svg())]
    assert [piece.attrib["viewBox"] for piece in pieces] == ["0 0 360 100.0", "0 100 360 150.0", "0 250 360 50.0"]
    assert [piece.findtext(f"{SVG}text") for piece in pieces] == ["<first>", "second", "third"]
    assert [piece.attrib.get("role") for piece in pieces] == ["img", None, None]
    assert [piece.attrib.get("aria-hidden") for piece in pieces] == [None, "true", "true"]
    assert in_pieces(Drawing("a", "b", 20).svg()) == [Drawing("a", "b", 20).svg()]


def test_a_figure_stays_with_its_unit() -> None:
    assert wrapped("the inlet leg holds 0.8 in of water", 115, 10.0) == ["the inlet leg holds", "0.8 in of water"]
