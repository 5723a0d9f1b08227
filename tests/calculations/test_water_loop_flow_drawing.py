"""The drawing of a water loop: every pipe joins its own nodes whatever the layout, water runs as it was found to, and each unit's bar is true."""

import itertools
import random
from typing import Any

import pytest

from kneewall.calculations.water_loop_flow.drawing_layout import order_of, sheet_of
from kneewall.catalogue import all_calculations
from tests.asking import result
from tests.drawn import SVG, SYSTEMS, assert_sound, corners, draw_varied, drawn, lines_of, text_at, texts

NAME = "water-loop-flow"
EXAMPLES: dict[str, dict[str, Any]] = {one.name: one.question for one in all_calculations()[NAME].examples}
WELL = EXAMPLES["well-with-pressure-tank"]
Links = list[tuple[str, str, float]]


def side_by_side(count: int) -> Links:
    return [("supply", "discharge", 1.0)] * count


def in_a_row(count: int) -> Links:
    nodes = ["supply", *[f"n{number}" for number in range(count - 1)], "discharge"]
    return [(tail, head, 1.0) for tail, head in itertools.pairwise(nodes)]


def by_chance(turn: int) -> Links:
    """Links between nodes by chance, water any way round: rings, dead ends and crossings among them."""
    chance = random.Random(turn)
    nodes = ["supply", "discharge", *[f"n{number}" for number in range(chance.randint(2, 20))]]
    links = [(chance.choice(nodes[:at]), node, chance.choice((-1.0, 0.0, 1.0))) for at, node in enumerate(nodes) if at]
    while len(links) < 72:
        tail, head = chance.sample(nodes, 2)
        links.append((tail, head, chance.choice((-1.0, 0.0, 1.0))))
    return links


@pytest.mark.parametrize("links", [side_by_side(72), in_a_row(72), *[by_chance(turn) for turn in range(40)]])
def test_any_layout_finds_its_place(links: Links) -> None:
    """Of any layout: every node has one row and every link one row between its two nodes, and no two links share a lane at the same height."""
    sheet = sheet_of(links)
    nodes = {node for tail, head, _ in links for node in (tail, head)}
    at = {row if isinstance(row, str) else row.index: number for number, row in enumerate(sheet.rows)}
    assert len(sheet.rows) == len(at) == len(nodes) + len(links)
    filled: set[tuple[int, int]] = set()
    for way in sheet.ways:
        tail, head, flow = links[way.index]
        assert {way.upper, way.lower} == {tail, head}
        assert (way.tail, way.head) == ((head, tail) if flow < 0 else (tail, head))
        assert at[way.upper] < at[way.index] < at[way.lower]
        between = {(way.lane, row) for row in range(at[way.upper] + 1, at[way.lower])}
        assert not between & filled
        filled |= between
        assert all(sheet.bar_of[node][0] <= way.lane <= sheet.bar_of[node][1] < sheet.lanes for node in (tail, head))


@pytest.mark.parametrize("turn", range(20))
def test_water_runs_downward_wherever_it_can(turn: int) -> None:
    """Links that all lead from a lower number to a higher one make no ring, so none of them has to be drawn upward."""
    chance = random.Random(turn)
    pairs = [sorted(chance.sample(range(15), 2)) for _ in range(40)]
    names = ["supply", *[f"n{number}" for number in range(1, 15)]]
    links: Links = [("supply", names[node], 1.0) for node in range(1, 15)] + [(names[low], names[high], 1.0) for low, high in pairs]
    sheet = sheet_of(links)
    assert not [way for way in sheet.ways if way.upward]
    assert sorted(order_of(sheet.ways)) == sorted(names)


def upright(question: dict[str, Any]) -> dict[str, tuple[float, float]]:
    """The height of every node by its name, as drawn."""
    root = drawn(NAME, question)
    return {node["id"]: text_at(root, node["id"]) for node in result(NAME, question)["nodes"]}


@pytest.mark.parametrize("example", list(EXAMPLES))
def test_a_line_joins_the_heights_of_the_two_nodes_of_each_pipe(example: str) -> None:
    """For every pipe and unit there is an upright line from the row of one of its nodes to the row of the other."""
    question = EXAMPLES[example]
    root, heights = drawn(NAME, question), upright(question)
    drawn_lines = {
        (float(one.attrib["y1"]), float(one.attrib["y2"])) for one in lines_of(root, stroke="#0d5c63") if one.attrib["x1"] == one.attrib["x2"]
    }
    for link in [*question["pipes"], *question["units"]]:
        ends = sorted(heights[link[end]][1] - 4.0 for end in ("from", "to"))
        assert any(abs(ends[0] - top) < 0.2 and abs(ends[1] - bottom) < 0.2 for top, bottom in drawn_lines), link["id"]


@pytest.mark.parametrize("example", list(EXAMPLES))
def test_the_bar_of_a_unit_is_as_long_as_what_it_gets(example: str) -> None:
    """One axis for all units (plane geometry): bars and marks divided by the flows they stand for are the same length."""
    question = EXAMPLES[example]
    root, found = drawn(NAME, question), result(NAME, question)
    bars = [one for one in root.iter(f"{SVG}rect") if one.attrib.get("height") == "8.0" and one.attrib["fill"] != "#ffffff"]
    flows = {unit["id"]: unit["flow"]["value"] for unit in found["units"]}
    by_height = sorted(flows, key=lambda name: next(float(one.attrib["y"]) for one in root.iter(f"{SVG}text") if str(one.text).endswith(f": {name}")))
    scales = [float(bar.attrib["width"]) / flows[name] for bar, name in zip(bars, by_height, strict=True)]
    assert scales == pytest.approx([scales[0]] * len(scales), rel=0.002)
    needed = {one["unit"]: one["flow"]["value"] for one in found["required"]}
    marks = [one for one in lines_of(root, stroke_dasharray="2 3") if one.attrib["x1"] == one.attrib["x2"]]
    for mark, bar, name in zip(marks, bars, by_height, strict=True):
        assert float(mark.attrib["x1"]) - float(bar.attrib["x"]) == pytest.approx(needed[name] * scales[0], abs=0.2)


@pytest.mark.parametrize(("pipe", "side"), [("leaving", "leaving"), ("main", "entering")])
def test_it_says_on_which_side_the_valve_sits(pipe: str, side: str) -> None:
    """Water comes from `supply` through the units to `discharge`: `main` is before both units, `leaving` after both."""
    question = {**WELL, "control_valve": {**WELL["control_valve"], "on": pipe}}
    said = texts(drawn(NAME, question))
    assert [one for one in said if one.startswith(f"valve on the {side} side, loses ")]


def test_the_valve_stands_at_the_end_to_which_the_water_runs() -> None:
    """The valve sits at the leaving end of its pipe: its figure stands below the pipe's arrow and above the next node."""
    root = drawn(NAME, WELL)
    valve = next(
        corners(one) for one in root.iter(f"{SVG}polygon") if len(corners(one)) == 4 and abs(corners(one)[0][0] - corners(one)[1][0]) == 10.0
    )
    assert text_at(root, "leaving")[1] < valve[0][1] < text_at(root, "discharge")[1]


def test_a_pipe_stated_the_other_way_round_is_drawn_as_the_water_runs() -> None:
    """`riser` from `tee in` to `split` with its rise turned: the same loop, the same picture but for nothing."""
    turned = [{**one, "from": one["to"], "to": one["from"], "rise": f"-{one['rise']}"} if one["id"] == "riser" else one for one in WELL["pipes"]]
    straight = [{**one, "fittings": {"elbow-90-solder": 4}} if one["id"] == "riser" else one for one in WELL["pipes"]]
    turned = [{**one, "fittings": {"elbow-90-solder": 4}} if one["id"] == "riser" else one for one in turned]
    one, other = (drawn(NAME, {**WELL, "pipes": pipes}) for pipes in (straight, turned))
    arrows = [[one.attrib["points"] for one in root.iter(f"{SVG}polygon")] for root in (one, other)]
    assert arrows[0] == arrows[1]
    assert upright({**WELL, "pipes": straight}) == upright({**WELL, "pipes": turned})


def test_figures_are_those_of_the_answer_in_the_readers_units() -> None:
    """1 gpm is 0.0630902 L/s and 1 ft/s is 0.3048 m/s by definition."""
    main = result(NAME, WELL)["pipes"][0]
    said = texts(drawn(NAME, WELL, "si"))
    flow, velocity = main["flow"]["value"] * 0.0630902, main["velocity"]["value"] * 0.3048
    assert [one for one in said if one.startswith(f"{flow:.4g} L/s, {velocity:.4g} m/s")]
    assert not [one for one in said if "gpm" in one or "psi" in one]


def test_sixty_pipes_side_by_side_and_in_a_row_are_drawn() -> None:
    """The most pipes that a question may have, with names of forty letters, in the layouts that take the most room either way."""
    pipe = {"material": "copper-type-l", "nominal_size": "1 in", "length": "20 ft"}
    unit = WELL["units"][0]
    long = "W" * 36
    beside = [{**pipe, "id": f"{long} {number:02}", "from": "supply", "to": "in"} for number in range(59)]
    beside.append({**pipe, "id": "out", "from": "out", "to": "discharge"})
    nodes = ["supply", *[f"{long} n{number:02}"[:40] for number in range(58)], "in"]
    row = [{**pipe, "id": f"{long} {at:02}", "from": tail, "to": head} for at, (tail, head) in enumerate(itertools.pairwise(nodes))]
    row.append({**pipe, "id": "out", "from": "out", "to": "discharge"})
    for pipes in (beside, row):
        question = {**WELL, "units": [{**unit, "from": "in", "to": "out"}], "pipes": pipes, "control_valve": {"on": "out", "cv": 10}}
        assert len(pipes) == 60
        for units in SYSTEMS:
            assert_sound(drawn(NAME, question, units))


def test_drawn_far_from_the_examples() -> None:
    assert draw_varied(NAME) == 200
