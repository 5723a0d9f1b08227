"""Pressure along the critical path: from the room through the return grille, the unit and the supply outlet back to the room."""

from dataclasses import dataclass

from kneewall.calculations.duct_system.drawing_tree import short
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult, Side
from kneewall.kernel.quantity import AirPressure, UnitSystem
from kneewall.kernel.scale import Axis, draw_grid_across, shown_in
from kneewall.kernel.svg import BODY, CENTRE, GRID, OUTLINE, QUIET, RETURN, SMALL, SUPPLY, Drawing, Pen, Point
from kneewall.physics.air import air_of
from kneewall.physics.components import component_drop, components_in

PENS: dict[Side | None, Pen] = {"supply": SUPPLY, "return": RETURN, None: OUTLINE}
NAMES_WITHIN, LOSS_AT = 104.0, 158.0
ROOMY, TALLEST = 19.0, 600.0
NAMED = 12.5
"""Rows closer than this are not all named."""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing the air passes: what it loses there, Pa, or at the unit gains (below nought). The unit is on neither side."""

    name: str
    loss: float
    side: Side | None


def draw_pressure(drawing: Drawing, question: DuctSystemQuestion, result: DuctSystemResult, system: UnitSystem, y: float) -> float:
    """The profile from `y` down. Returns where it ends."""
    unit, unit_shown = shown_in(AirPressure, system)
    steps = critical_steps(question, result)
    levels = [0.0]
    for step in steps:
        levels.append(levels[-1] - AirPressure(step.loss).to(unit))
    drawing.text(8, y, "Total pressure along the critical path", bold=True)
    drawing.text(8, y + 14, "lengths not to scale", size=SMALL, colour=QUIET)
    drawing.text(LOSS_AT, y + 28, f"loss, {unit_shown}", size=SMALL, at="end", colour=QUIET)
    top = y + 35.0
    row = min(ROOMY, max(5.0, TALLEST / len(steps)))
    every = 1 if row >= NAMED else int(NAMED / row) + 1
    spread = max(max(levels) - min(levels), 1e-9)
    across = Axis(min(levels) - 0.04 * spread, max(levels) + 0.04 * spread, 170.0, 338.0)
    bottom = top + row * len(steps)
    draw_grid_across(drawing, across, top, bottom, f"against the room, {unit_shown}")
    drawing.line(across(0.0), top - 4, across(0.0), bottom, CENTRE)
    drawing.text(across(0.0), top - 7, "room", size=SMALL, at="middle", colour=QUIET)
    at_unit = next(index for index, step in enumerate(steps) if step.side is None)
    for index, step in enumerate(steps):
        if (index - at_unit) % every == 0:
            _name(drawing, step, top + row * index, row * every, unit)
    for side in ("return", None, "supply"):
        places = [place for index, step in enumerate(steps) if step.side == side for place in _ends(levels, index, top, row, across)]
        if places:
            drawing.polyline(places, PENS[side])
    drawing.circle(across(levels[0]), top, 2.6, OUTLINE)
    drawing.circle(across(levels[-1]), bottom, 2.6, OUTLINE)
    y = bottom + 27.0
    if every > 1:
        drawing.text(8, y, f"one step in {every} is named", size=SMALL, colour=QUIET)
    return y


def critical_steps(question: DuctSystemQuestion, result: DuctSystemResult) -> list[Step]:
    """What the air of the critical path passes, in its order. The losses of all steps and the gain of the unit come to nought."""
    taken = result.operating_point.airflow
    beside: dict[Side, list[Step]] = {"supply": [], "return": []}
    for component in components_in(question.components, air_of(question.air)):
        beside[component.side].append(Step(component.name, component_drop(component, taken), component.side))
    unit = Step("unit", -result.external_static_pressure.total, None)
    outward = [*beside["supply"], *_path(result, "supply")]
    return [*_path(result, "return")[::-1], *beside["return"], unit, *outward]


def _path(result: DuctSystemResult, side: Side) -> list[Step]:
    """From the unit to the critical outlet of a side and through it."""
    outlet = result.critical_path.supply if side == "supply" else result.critical_path.return_
    path = next((path for path in result.paths if path.outlet == outlet and path.side == side), None)
    if path is None:
        return []
    loss = {section.id: section.pressure_drop for section in result.sections}
    through = [Step(name, loss[name], side) for name in path.sections]
    return [*through, Step("its outlet" if side == "supply" else "its grille", path.pressure_drop - sum(step.loss for step in through), side)]


def _name(drawing: Drawing, step: Step, y: float, room: float, unit: str) -> None:
    base = y + min(room, ROOMY) / 2.0 + 4.0
    loss = AirPressure(step.loss).to(unit)
    figure = short(loss) if step.side is not None else f"+{short(-loss)}"
    drawing.line(8, y, 352, y, GRID)
    drawing.text(8, base, step.name, size=BODY if step.side is None else SMALL, bold=step.side is None, within=NAMES_WITHIN)
    drawing.text(LOSS_AT, base, figure, size=SMALL, at="end", bold=step.side is None)


def _ends(levels: list[float], index: int, top: float, row: float, across: Axis) -> list[Point]:
    return [(across(levels[index]), top + row * index), (across(levels[index + 1]), top + row * (index + 1))]
