"""One row of a water loop's drawing: a node with its pressure, a pipe with its flow, a unit with what it gets and needs."""

from functools import cached_property

from kneewall.calculations.water_loop_flow.answered import FlowRequired, PipeOnLoop, WaterLoopResult
from kneewall.calculations.water_loop_flow.drawing_layout import Sheet, Way
from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.kernel.answer import Answer, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import UnitSystem, WaterFlow
from kneewall.kernel.scale import Axis
from kneewall.kernel.svg import GRID, LIMIT, LIMIT_COLOUR, NO_LINE, OUTLINE, PAPER, QUIET, SMALL, SUPPLY, SUPPLY_COLOUR, THIN, TINT, Drawing, Pen

NODE_HEIGHT, PIPE_HEIGHT, VALVE_HEIGHT, UNIT_HEIGHT = 20.0, 32.0, 14.0, 66.0
STILL = 1e-9
"""m3/s, below which nothing is said to flow."""
GOT = "#9fc6c4"
LANE_WIDTH, LANES_WIDTH, LEFT = 20.0, 120.0, 24.0


class Column:
    """The sheet being drawn: its drawing, what was asked and answered, and where its lanes and words stand."""

    def __init__(
        self, drawing: Drawing, question: WaterLoopQuestion, answer: Answer[WaterLoopResult], system: UnitSystem, sheet: Sheet, side: str
    ) -> None:
        self.drawing, self.question, self.result, self.system, self.sheet = drawing, question, answer.result, system, sheet
        self.side = f"valve {side}"
        self.step = min(LANE_WIDTH, LANES_WIDTH / sheet.lanes)
        self.line = SUPPLY if self.step > 8.0 else Pen(SUPPLY_COLOUR, max(0.6, 0.3 * self.step))
        self.arrow = min(5.0, max(1.6, 0.45 * self.step))
        self.words = LEFT + self.step * (sheet.lanes - 1) + 18.0
        self.nodes = {node.id: node for node in answer.result.nodes}
        self.required: dict[str, FlowRequired] = {one.unit: one for one in answer.result.required}
        self.verdicts: dict[str, Verdict] = {check.check: check.verdict for check in answer.checks}

    def x(self, lane: int) -> float:
        """The place of a lane."""
        return LEFT + self.step * lane

    def flow(self, way: Way) -> WaterFlow:
        """What flows through a pipe or unit."""
        pipes = self.result.pipes
        return pipes[way.index].flow if way.index < len(pipes) else self.result.units[way.index - len(pipes)].flow

    def has_valve(self, way: Way) -> bool:
        """Whether the control valve sits in this pipe."""
        control = self.question.control_valve
        return control is not None and way.index < len(self.question.pipes) and self.question.pipes[way.index].id == control.on

    @cached_property
    def most(self) -> float:
        """The greatest flow that a unit gets or needs, for one axis of all of them."""
        return max([1e-6, *[abs(unit.flow) for unit in self.result.units], *[one.flow or 0.0 for one in self.result.required]])

    def shown(self, sentence: str, *figures: object) -> str:
        """A sentence in the reader's units."""
        return Phrase(sentence, *figures).shown(self.system)  # type: ignore[arg-type]


def row_height(column: Column, row: str | Way) -> float:
    """How high a row is."""
    if isinstance(row, str):
        return NODE_HEIGHT
    if row.index >= len(column.question.pipes):
        return UNIT_HEIGHT
    return PIPE_HEIGHT + (VALVE_HEIGHT if column.has_valve(row) else 0.0)


def draw_node(column: Column, name: str, y: float) -> None:
    """A node's name and its pressures, running and shut."""
    node = column.nodes.get(name)
    drawing, words = column.drawing, column.words
    drawing.line(column.x(column.sheet.bar_of[name][1]) + 5, y, words - 3, y, GRID)
    pressure = "" if node is None else node.pressure.shown(column.system)
    if node is not None and node.pressure_shut is not None:
        pressure += column.shown(", {} shut", node.pressure_shut)
    room = 356.0 - words
    drawing.text(words, y + 4, name, size=SMALL, colour=QUIET, within=room - 6.4 * len(pressure))
    drawing.text(354, y + 4, pressure, size=SMALL, at="end", within=room)


def draw_pipe(column: Column, way: Way, y: float) -> None:
    """A pipe's name, size, flow, velocity and loss; an arrow as the water runs; the control valve where it is in this pipe."""
    drawing, asked, found = column.drawing, column.question.pipes[way.index], column.result.pipes[way.index]
    valve, words, x = column.has_valve(way), column.words, column.x(way.lane)
    line = y - (VALVE_HEIGHT / 2.0 if valve else 0.0)
    still = abs(found.flow) < STILL
    size = asked.nominal_size.shown(column.system)
    room = 354.0 - words
    drawing.text(words, line - 2, asked.id, bold=True, size=SMALL, within=room - 6.6 * len(size) - 6)
    drawing.text(354, line - 2, size, size=SMALL, at="end")
    drawing.text(
        words, line + 11, _flow_in_words(column, found, room),
        size=SMALL, within=room,
    )  # fmt: skip
    drawing.line(x + 6, line - 5, words - 3, line - 5, GRID)
    if not still:
        wide = column.arrow
        tip = -5.0 if way.upward else 5.0
        drawing.polygon([(x, line + tip), (x + wide, line - tip), (x - wide, line - tip)], NO_LINE, fill=SUPPLY_COLOUR)
    if valve:
        at = y - 14 if way.upward else y + 17
        drawing.polygon([(x - 5, at - 5), (x + 5, at - 5), (x - 5, at + 5), (x + 5, at + 5)], OUTLINE, fill=PAPER)
        drawing.line(x + 6, at, words - 3, line + 22, GRID)
        said = column.result.control_valve
        loses = column.side if said is None else column.shown("{}, loses {}", column.side, said.pressure_drop)
        drawing.text(words, line + 25, loses, size=SMALL, within=room)


def _flow_in_words(column: Column, found: PipeOnLoop, room: float) -> str:
    """Flow, velocity and loss; where many lanes leave little room the loss is left to the pressures of the nodes."""
    if abs(found.flow) < STILL:
        return "no flow"
    flow = WaterFlow(abs(found.flow))
    if room < 225.0:
        return column.shown("{}, {}", flow, found.velocity)
    return column.shown("{}, {}, loses {}", flow, found.velocity, found.pressure_drop)


def draw_unit(column: Column, way: Way, y: float) -> None:
    """A unit's box, a bar of what it gets against what it needs, and its leaving water."""
    index = way.index - len(column.question.pipes)
    drawing, found, words, x = column.drawing, column.result.units[index], column.words, column.x(way.lane)
    half = min(9.0, column.step * 0.45)
    drawing.rectangle(x - half, y - 20, 2 * half, 40, OUTLINE, fill=TINT)
    zigzag = [(x + half * 0.55 * (1 if turn % 2 else -1), y - 15 + 5 * turn) for turn in range(1, 6)]
    drawing.polyline([(x, y - 15), *zigzag, (x, y + 15)], THIN)
    name, room = f"flow of {found.id}", 354.0 - words
    drawing.mark(words, y - 17, column.verdicts.get(name, "meets"), found.id, within=room)
    required = column.required[found.id].flow
    needs = "no flow suffices" if required is None else column.shown("needs {} (mark)", required)
    drawing.text(words, y - 3, column.shown("{}, {}", found.flow, needs), size=SMALL, within=room)
    axis = Axis(0.0, column.most * 1.02, words, 352.0)
    drawing.rectangle(words, y + 3, room - 2, 8, THIN, fill=PAPER)
    drawing.rectangle(words, y + 3, axis(found.flow) - words, 8, NO_LINE, fill=GOT)
    if required is not None:
        at = axis(required)
        drawing.line(at, y + 1, at, y + 13, LIMIT)
        drawing.polygon([(at, y + 12), (at + 4, y + 18), (at - 4, y + 18)], NO_LINE, fill=LIMIT_COLOUR)
    drawing.text(words, y + 28, _leaving(column, index), size=SMALL, colour=QUIET, within=room)


def _leaving(column: Column, index: int) -> str:
    leaving = column.result.units[index].leaving_water
    said = [
        column.shown("{} {}", mode, temperature)
        for mode, temperature in (("cooling", leaving.cooling), ("heating", leaving.heating))
        if temperature is not None
    ]
    return f"leaves at: {', '.join(said)}" if said else ""
