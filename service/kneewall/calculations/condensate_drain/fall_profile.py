"""The drain's fall from trap to receiver, heights drawn larger than lengths and the factor stated."""

from typing import NamedTuple

from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion, DrainRun
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length, Slope, UnitSystem, number_shown
from kneewall.kernel.svg import GRID, HIDDEN, INK, LIMIT, PAPER, QUIET, SMALL, SUPPLY, THIN, TINT, Drawing, Pen

LEFT, WIDE, HIGH = 44.0, 216.0, 118.0
RECEIVER = 13.0
"""half its width: its size is not asked"""
ROOM_BESIDE = 168.0
"""Where a run ends further left than this, what it has to spare is written on the right of the receiver."""
MOST_HANGERS = 60


class Fall(NamedTuple):
    """Places of the profile: lengths across by one factor, heights by another."""

    left: float
    ground: float
    across: float
    up: float

    def x(self, length: float) -> float:
        """The place of a length along the run."""
        return self.left + length * self.across

    def y(self, height: float) -> float:
        """The place of a height."""
        return self.ground - height * self.up

    def words(self) -> str:
        """How much larger heights are drawn than lengths."""
        times = self.up / self.across
        return (
            "lengths and heights to one scale" if times < 1.0005 else f"heights drawn {number_shown(float(f'{times:.2g}'))} times as large as lengths"
        )


def draw_fall(drawing: Drawing, y: float, question: CondensateDrainQuestion, result: CondensateDrainResult, system: UnitSystem) -> float:
    """The profile with its heading and notes. Returns the next free baseline."""
    run, found, given = question.run, result.elevations, question.elevations
    start = 0.0 if found is None else float(found.trap_outlet)
    turn = start - run.slope * run.length
    end = start - result.fall
    heights = [start, turn, end]
    if found is not None and given is not None:
        heights += [given.pan_outlet, given.receiver_rim, given.receiver_rim + found.air_gap]
    fall = _places(run.length, heights, y + 34.0)
    drawing.text(14, y, "Fall of the line", bold=True)
    drawing.text(14, y + 14, fall.words() if run.length > 0.0 else "heights to scale", size=SMALL, colour=QUIET)
    bottom = fall.y(min(heights))
    _draw_hangers(drawing, fall, question, start)
    if found is not None and given is not None:
        _draw_receiver(drawing, fall, question, result, bottom + 22.0, system)
        drawing.line(fall.x(0.0), fall.y(given.pan_outlet), fall.x(0.0), fall.y(start), Pen(INK, 1.4))
        _letter(drawing, LEFT - 14, fall.y(given.pan_outlet) - 5, "A")
    else:
        x = fall.x(run.length) + 12.0
        drawing.line(fall.x(0.0), fall.y(start), x + 5, fall.y(start), GRID)
        drawing.dimension(x, fall.y(start), x, fall.y(end), "", beside="start")
        drawing.text(x + 8, (fall.y(start) + fall.y(end)) / 2.0 + 3.7, Phrase("{}", result.fall).shown(system), size=SMALL, bold=True)
    drawing.polyline([(fall.x(0.0), fall.y(start)), (fall.x(run.length), fall.y(turn)), (fall.x(run.length), fall.y(end))], SUPPLY)
    _letter(drawing, LEFT - 14, fall.y(start) + 9, "B")
    _letter(drawing, fall.x(run.length), fall.y(max(turn, end)) - 10, "C")
    line = bottom + 40.0
    drawing.dimension(fall.x(0.0), line, max(fall.x(run.length), fall.x(0.0) + 0.1), line, "")
    drawing.text(LEFT, line + 15, _length_words(question.run).shown(system), size=SMALL, bold=True, within=310)
    return _notes(drawing, line + 32.0, question, result, system)


def _length_words(run: DrainRun) -> Phrase:
    if run.slope < 0.0:
        return Phrase("{} long, rising {}", run.length, Slope(-run.slope))
    return Phrase("{} long, falling {}", run.length, run.slope)


def _places(length: float, heights: list[float], top: float) -> Fall:
    """Heights fill their room; lengths too, but never at a larger factor than the heights."""
    rise = max(heights) - min(heights)
    across = WIDE / length if length > 0.0 else 1.0
    up = HIGH / rise if rise > 1e-9 else across
    across = min(across, up)
    up = across * float(f"{up / across:.2g}")
    return Fall(LEFT, top + max(heights) * up, across, up)


def _draw_hangers(drawing: Drawing, fall: Fall, question: CondensateDrainQuestion, start: float) -> None:
    run = question.run
    if run.hanger_spacing is None:
        return
    for index in range(1, min(MOST_HANGERS, int(run.length / run.hanger_spacing) + 1)):
        along = index * run.hanger_spacing
        x, y = fall.x(along), fall.y(start - run.slope * along)
        drawing.line(x, y - 9, x, y, THIN)
        drawing.line(x - 2.5, y - 9, x + 2.5, y - 9, THIN)


def _draw_receiver(
    drawing: Drawing, fall: Fall, question: CondensateDrainQuestion, result: CondensateDrainResult, bottom: float, system: UnitSystem
) -> None:
    """The receiver with its rim, the air gap above it, and how far the run ends above or below that."""
    found, given = result.elevations, question.elevations
    assert found is not None and given is not None
    x, rim, needed = fall.x(question.run.length), fall.y(given.receiver_rim), fall.y(given.receiver_rim + found.air_gap)
    end = fall.y(found.end_of_run)
    drawing.rectangle(x - RECEIVER, rim, 2 * RECEIVER, bottom - rim, Pen("none", 0), fill=TINT)
    drawing.polyline([(x - RECEIVER, rim), (x - RECEIVER, bottom), (x + RECEIVER, bottom), (x + RECEIVER, rim)])
    drawing.line(x - RECEIVER - 12, rim, x + RECEIVER + 20, rim, THIN)
    drawing.line(x - RECEIVER - 34, needed, x + RECEIVER + (20 if x > ROOM_BESIDE else 94), needed, LIMIT)
    if end < needed:
        drawing.line(x, end, x, needed, HIDDEN)
    drawing.dimension(x + RECEIVER + 12, rim, x + RECEIVER + 12, needed, "")
    drawing.text(x + RECEIVER + 21, (rim + needed) / 2.0 + 9, "air gap", size=SMALL, within=50)
    drawing.text(x + RECEIVER + 21, (rim + needed) / 2.0 + 21, found.air_gap.shown(system), size=SMALL, bold=True)
    words = "to spare" if found.margin >= -1e-9 else "too low"
    label = f"{Dimension(abs(found.margin)).shown(system)} {words}"
    left = x > ROOM_BESIDE
    line = x - RECEIVER - 24 if left else x + RECEIVER + 84
    drawing.dimension(line, end, line, needed, "")
    drawing.text(line + (-8 if left else 8), (end + needed) / 2.0 + 12, label, size=SMALL, at="end" if left else "start", bold=True)
    _letter(drawing, x, bottom - 9, "D")


def _letter(drawing: Drawing, x: float, y: float, letter: str) -> None:
    drawing.circle(x, y, 7.0, Pen(INK, 0.8), fill=PAPER)
    drawing.text(x, y + 3.7, letter, size=SMALL, at="middle", bold=True)


def _notes(drawing: Drawing, y: float, question: CondensateDrainQuestion, result: CondensateDrainResult, system: UnitSystem) -> float:
    run, found, given, line = question.run, result.elevations, question.elevations, result.line
    if found is None or given is None:
        lines = [Phrase("B trap's outlet, C end of the run, {} lower; no heights were given to judge a receiver by", result.fall)]
    else:
        needed = Length(given.receiver_rim + found.air_gap)
        lines = [
            Phrase("A pan outlet at {}; B trap's outlet at {}", given.pan_outlet, found.trap_outlet),
            Phrase("C end of the run at {}, no lower than {} is allowed (dotted)", found.end_of_run, needed),
            Phrase("D receiver, rim at {}", given.receiver_rim),
            Phrase("lowest pan outlet that still drains: {}", found.lowest_pan_outlet),
        ]
    if run.drop_at_fittings:
        lines.append(Phrase("drops at fittings, {} in all, are drawn at the end", run.drop_at_fittings))
    if run.hanger_spacing is not None:
        longest = line.longest_hanger_spacing
        more = Phrase("") if longest is None else Phrase("; beyond {} it holds water", longest)
        lines.append(Phrase("hangers every {}{}", run.hanger_spacing, more))
    if result.pump is not None and result.pump.static_lift is not None:
        lines.append(Phrase("{}: it lifts {}", "a pump is needed" if result.pump.needed else "a pump is there", result.pump.static_lift))
    for phrase in lines:
        y = drawing.note(14, y, phrase.shown(system), 332)
    return y
