"""A water loop to look at: nodes with their pressures, pipes and units between them as the water runs, and what does not hold."""

from kneewall.calculations.water_loop_flow.answered import WaterLoopResult
from kneewall.calculations.water_loop_flow.drawing_layout import Sheet, sheet_of
from kneewall.calculations.water_loop_flow.drawing_rows import STILL, Column, draw_node, draw_pipe, draw_unit, row_height
from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.kernel.answer import Answer, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.svg import HIDDEN, INK, NO_LINE, OUTLINE, QUIET, SMALL, THIN, Drawing, Pen
from kneewall.physics.loops import DISCHARGE
from kneewall.physics.loops import SUPPLY as SUPPLY_NODE

NO_FLOW = Pen(INK, 1.0, "2 2")
GRAVITY: tuple[Verdict, ...] = ("fails", "watch", "refer")
MOST_LISTED = 8


def draw(question: WaterLoopQuestion, answer: Answer[WaterLoopResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result = answer.result
    pipes = [(asked.start, asked.end, found.flow) for asked, found in zip(question.pipes, result.pipes, strict=True)]
    units = [(unit.start, unit.end, unit_found.flow) for unit, unit_found in zip(question.units, result.units, strict=True)]
    sheet = sheet_of([*pipes, *units])
    side = "" if question.control_valve is None else valve_side(question, sheet)
    drawing = Drawing("Water loop", in_words(question, result, side).shown(system), 0.0)
    drawing.text(8, 18, "The loop, downward as the water runs", bold=True)
    drawing.text(8, 33, "Not to scale. Lines meet where there is a dot, and only there.", size=SMALL, colour=QUIET)
    y = drawing.note(8, 46, _supply(question, result).shown(system), 346)
    column = Column(drawing, question, answer, system, sheet, side)
    bottom = _draw_sheet(column, y + 2.0)
    drawing.height = _draw_findings(drawing, answer, bottom + 16.0)
    return drawing.svg()


def in_words(question: WaterLoopQuestion, result: WaterLoopResult, side: str) -> Phrase:
    """What the drawing shows, for those who do not see it."""
    needed = {one.unit: one.flow for one in result.required}
    units = [Phrase("{} gets {} of the {} it needs", unit.id, unit.flow, needed[unit.id] or "flow that none suffices for") for unit in result.units]
    sentence = "{} flows through the loop; " + "; ".join(["{}"] * len(units)) + ".{}"
    control = question.control_valve
    valve = "" if control is None else Phrase(" The control valve is in {}, {}.", control.on, side)
    return Phrase(sentence, result.supply.flow, *units, valve)


def valve_side(question: WaterLoopQuestion, sheet: Sheet) -> str:
    """On which side of the units the control valve sits, as the water runs."""
    first_unit = len(question.pipes)
    on = next(number for number, pipe in enumerate(question.pipes) if question.control_valve is not None and pipe.id == question.control_valve.on)
    valve = next(way for way in sheet.ways if way.index == on)
    units = [way for way in sheet.ways if way.index >= first_unit]
    after = any(valve.tail in reached(sheet, unit.head) for unit in units)
    before = any(unit.tail in reached(sheet, valve.head) for unit in units)
    if after and not before:
        return "on the leaving side"
    return "on the entering side" if before and not after else "between units"


def reached(sheet: Sheet, node: str) -> set[str]:
    """The nodes to which water runs on from a node, itself among them."""
    found, waiting = {node}, [node]
    for at in waiting:
        new = [way.head for way in sheet.ways if way.tail == at and way.head not in found]
        found.update(new)
        waiting += new
    return found


def _supply(question: WaterLoopQuestion, result: WaterLoopResult) -> Phrase:
    """What drives the water, in a line."""
    supply = question.supply
    if supply.kind == "pressure-tank":
        return Phrase("Pressure tank, {} to {}; drawn at cut-in, {}", supply.cut_in, supply.cut_out, result.supply.flow)
    if supply.kind == "fixed-pressure":
        return Phrase("Steady pressure of {}, {}", supply.pressure, result.supply.flow)
    return Phrase("{} with {} of head, {}", supply.kind.capitalize(), result.supply.head, result.supply.flow)


def _draw_sheet(column: Column, top: float) -> float:
    """Rows first, so that every place is known; then lines under symbols. Returns the lowest place."""
    sheet, places, y = column.sheet, {}, top
    for row in sheet.rows:
        height = row_height(column, row)
        places[row if isinstance(row, str) else row.index] = y + height / 2.0
        y += height
    for way in sheet.ways:
        x = column.x(way.lane)
        column.drawing.line(x, places[way.upper], x, places[way.lower], NO_FLOW if abs(column.flow(way)) < STILL else column.line)
    for node, (first, last) in sheet.bar_of.items():
        if first != last:
            column.drawing.line(column.x(first), places[node], column.x(last), places[node], column.line)
    _draw_dots(column, places)
    for row in sheet.rows:
        if isinstance(row, str):
            draw_node(column, row, places[row])
        elif row.index < len(column.question.pipes):
            draw_pipe(column, row, places[row.index])
        else:
            draw_unit(column, row, places[row.index])
    if column.question.loop == "closed":
        _draw_return(column, places[SUPPLY_NODE], places[DISCHARGE])
    return y


def _draw_dots(column: Column, places: dict[str | int, float]) -> None:
    for node, lane in column.sheet.lane_of.items():
        column.drawing.circle(column.x(lane), places[node], 4.0, THIN, fill=INK)
    for way in column.sheet.ways:
        for node in (way.upper, way.lower):
            if way.lane != column.sheet.lane_of[node]:
                column.drawing.circle(column.x(way.lane), places[node], 0.5 * column.arrow, NO_LINE, fill=INK)


def _draw_return(column: Column, top: float, bottom: float) -> None:
    """A closed loop's circulator lifts the water from the discharge to the supply again."""
    drawing, x = column.drawing, 8.0
    drawing.polyline([(column.x(column.sheet.lane_of[DISCHARGE]), bottom), (x, bottom), (x, top), (column.x(0), top)], HIDDEN)
    middle = (top + bottom) / 2.0
    drawing.circle(x, middle, 6.0, OUTLINE, fill="#ffffff")
    drawing.polygon([(x, middle - 5), (x + 4, middle + 3), (x - 4, middle + 3)], NO_LINE, fill=INK)


def _draw_findings(drawing: Drawing, answer: Answer[WaterLoopResult], y: float) -> float:
    """What does not simply hold, the worst first, each by its shape and word."""
    found = [check for verdict in GRAVITY for check in answer.checks if check.verdict == verdict]
    if not found:
        drawing.mark(8, y, "meets", "every check holds")
        return y + 12.0
    for check in found[:MOST_LISTED]:
        drawing.mark(8, y, check.verdict, check.check, within=346)
        y += 16.0
    if len(found) > MOST_LISTED:
        drawing.text(24, y, f"and {len(found) - MOST_LISTED} more", size=SMALL, colour=QUIET)
        y += 14.0
    return y
