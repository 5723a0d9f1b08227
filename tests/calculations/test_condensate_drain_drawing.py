"""The drawing of a condensate drain: trap, fall and pan true to scale, the water where the fan's pressure puts it."""

from typing import Any
from xml.etree import ElementTree

import pytest

from tests.calculations.drawings import SVG, draw_many, drawn, example, points, texts

NAME = "condensate-drain"
TENTH = 0.15
"""Places are written to a tenth of a unit, so a difference of two is that far off."""


def upright(root: ElementTree.Element, x: float) -> list[tuple[float, float]]:
    """The upright lines at a place across, from top to bottom."""
    found = [one.attrib for one in root.iter(f"{SVG}line") if float(one.attrib["x1"]) == float(one.attrib["x2"]) == x]
    return [(float(one["y1"]), float(one["y2"])) for one in found]


def levels(root: ElementTree.Element) -> list[tuple[float, float]]:
    """The tips of the marks upon the water: white triangles pointing down."""
    marks = [points(one) for one in root.iter(f"{SVG}polygon") if one.attrib["fill"] == "#ffffff"]
    return [corners[0] for corners in marks if len(corners) == 3 and corners[0][1] > corners[1][1]]


def trap_question(**more: Any) -> dict[str, Any]:
    return {
        "fan_position": "draw-through", "pan_static_pressure": "0.55 inH2O", "cooling_capacity": "2.5 ton",
        "pipe": {"material": "pvc-schedule-40", "nominal_size": "3/4 in"}, "run": {"length": "20 ft", "slope": "1/8 in/ft"}, **more,
    }  # fmt: skip


def test_the_trap_is_true_to_scale() -> None:
    """H = P + 1 = 1.55 in; total depth 3 in (2.5 P is less), so J = 1.45 in; 3/4 in Schedule 40 is 1.050 in outside (ASTM D1785): overall 4.05 in."""
    root, _ = drawn(NAME, trap_question())
    drop, seal = upright(root, 276.0)
    (overall,) = upright(root, 72.0)
    factor = (overall[1] - overall[0]) / 4.05
    assert drop[1] - drop[0] == pytest.approx(1.55 * factor, abs=TENTH)
    assert seal[1] - seal[0] == pytest.approx(1.45 * factor, abs=TENTH)
    assert (drop[1], drop[0]) == (pytest.approx(seal[0]), pytest.approx(overall[0]))
    assert {"H 1.55 in", "J 1.45 in", "4.05 in"} <= set(texts(root))
    assert {"H 39.37 mm", "J 36.83 mm", "102.9 mm"} <= set(texts(drawn(NAME, trap_question(), "si")[0]))


def test_the_pipe_is_true_to_scale() -> None:
    """3/4 in Schedule 40: 1.050 in outside, least wall 0.113 in (ASTM D1785, memory), so less than 0.824 in inside; the bend's lowest place is the trap's."""
    root, answer = drawn(NAME, trap_question())
    (overall,) = upright(root, 72.0)
    factor = (overall[1] - overall[0]) / 4.05
    wall, bore, water = [one for one in root.iter(f"{SVG}polyline") if float(one.attrib["stroke-width"]) > 5.0]
    assert float(wall.attrib["stroke-width"]) == pytest.approx(1.050 * factor, abs=TENTH)
    inside = float(bore.attrib["stroke-width"]) / factor
    assert inside == pytest.approx(answer.result.pipe.inside_diameter.to("in"), abs=0.01)
    assert 0.79 < inside < 0.83
    assert water.attrib["stroke"] != bore.attrib["stroke"]
    assert max(y for _, y in points(wall)) + 1.050 * factor / 2.0 == pytest.approx(overall[1], abs=TENTH)


@pytest.mark.parametrize(("fan", "direction"), [("draw-through", 1.0), ("blow-through", -1.0)])
def test_the_water_stands_as_far_apart_as_the_pressure(fan: str, direction: float) -> None:
    """Hydrostatics: 0.55 in. w.c. holds 0.55 in of water, up in the inlet leg under suction and down under pressure."""
    root, _ = drawn(NAME, trap_question(fan_position=fan, trap={"outlet_drop": "2 in", "seal_depth": "2 in"}))
    drop, _ = upright(root, 276.0)
    (inlet, outlet) = levels(root)
    factor = (drop[1] - drop[0]) / 2.0
    assert inlet[0] < outlet[0]
    assert outlet[1] == pytest.approx(drop[1], abs=TENTH)
    assert outlet[1] - inlet[1] == pytest.approx(direction * 0.55 * factor, abs=TENTH)


@pytest.mark.parametrize(("seal", "blown"), [("0.69 in", True), ("0.7 in", True), ("0.71 in", False)])
def test_a_seal_no_deeper_than_the_pressure_is_drawn_blown_out(seal: str, blown: bool) -> None:
    """Hydrostatics: 0.7 in. w.c. takes more than 0.7 in of seal."""
    trap = {"outlet_drop": "1/2 in", "seal_depth": seal}
    root, _ = drawn(NAME, trap_question(fan_position="blow-through", pan_static_pressure="0.7 inH2O", trap=trap))
    assert any("blows this seal out" in line for line in texts(root)) is blown
    assert (levels(root) == []) is blown


@pytest.mark.parametrize(("drop", "floods"), [("0.54 in", True), ("0.55 in", True), ("0.56 in", False)])
def test_a_drop_no_greater_than_the_suction_is_drawn_with_water_in_the_pan(drop: str, floods: bool) -> None:
    root, _ = drawn(NAME, trap_question(trap={"outlet_drop": drop, "seal_depth": "2 in"}))
    assert ("the pan does not drain" in " ".join(texts(root))) is floods
    assert len(levels(root)) == (1 if floods else 2)


def test_the_fall_is_drawn_as_its_words_say() -> None:
    """A run at 1/8 in/ft falls 1 in 96; drawn N times as high it falls N in 96 in the drawing."""
    root, _ = drawn(NAME, example(NAME, "run-too-long-for-gravity"))
    words = next(line for line in texts(root) if line.startswith("heights drawn"))
    times = float(words.split()[2])
    start, turn, end = points(next(one for one in root.iter(f"{SVG}polyline") if one.attrib["stroke-width"] == "2.6"))
    assert (turn[1] - start[1]) / (turn[0] - start[0]) == pytest.approx(times / 96.0, rel=0.01)
    assert (turn[0], end[1] - turn[1]) == (end[0], pytest.approx((turn[0] - start[0]) / (46 * 12) * times * 1.0, abs=TENTH))


def test_the_receiver_stands_at_its_height() -> None:
    """By hand: outlet at 7 in, H = P + 1 = 1.8 in, fall 46/8 + 1 = 6.75 in: the run ends at -1.55 in; rim at 1 in, so 2.55 in above the end."""
    root, answer = drawn(NAME, example(NAME, "run-too-long-for-gravity"))
    start, _, end = points(next(one for one in root.iter(f"{SVG}polyline") if one.attrib["stroke-width"] == "2.6"))
    factor = (end[1] - start[1]) / 6.75
    receiver = next(
        points(one) for one in root.iter(f"{SVG}polyline") if len(points(one)) == 4 and points(one)[0][1] == points(one)[3][1] < points(one)[1][1]
    )
    assert end[1] - receiver[0][1] == pytest.approx(2.55 * factor, abs=2 * TENTH)
    needed = [float(one.attrib["y1"]) for one in root.iter(f"{SVG}line") if one.attrib.get("stroke-dasharray") == "2 3"]
    assert end[1] - needed[-1] == pytest.approx((2.55 + answer.result.elevations.air_gap / 0.0254) * factor, abs=2 * TENTH)
    assert any(line.endswith("too low") for line in texts(root))


def test_the_pan_is_true_to_scale() -> None:
    """A pan 62 in long and 2 in deep under a unit 50 in long with its trap 9 in beyond (plane geometry)."""
    root, _ = drawn(NAME, example(NAME, "water-from-the-air-states"))
    pan = next(points(one) for one in root.iter(f"{SVG}polyline") if one.attrib["stroke-width"] == "2.2" and len(points(one)) == 4)
    long, deep = pan[2][0] - pan[1][0], pan[1][1] - pan[0][1]
    assert long / deep == pytest.approx(31.0, rel=0.02)
    trap = next(one for one in root.iter(f"{SVG}rect") if "stroke-dasharray" in one.attrib)
    assert float(trap.attrib["width"]) / long == pytest.approx(9 / 62, rel=0.01)
    assert pan[0][0] < float(trap.attrib["x"]) + float(trap.attrib["width"]) < pan[2][0]


def test_drawn_for_many_questions() -> None:
    draw_many(NAME)
