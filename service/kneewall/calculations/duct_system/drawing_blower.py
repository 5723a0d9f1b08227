"""Blower and system: the blower's table as a curve, what the system takes at other airflows, and the point where they work."""

from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Airflow, AirPressure, UnitSystem
from kneewall.kernel.scale import Axis, draw_axes, shown_in
from kneewall.kernel.svg import BODY, INK, LIMIT, OUTLINE, PAPER, QUIET, SMALL, SUPPLY, THIN, Drawing, Pen, Point
from kneewall.physics.air import air_of
from kneewall.physics.components import component_drop, components_in
from kneewall.physics.fan import Blower, BlowerCurve, rated_limit_in

SYSTEM = Pen(INK, 1.8, "7 3")
CURVE_POINTS = 20
TALL = 190.0
SQUARES = "Along the system line the ducts lose with the square of the airflow, components with a power of their own."


def draw_blower(drawing: Drawing, question: DuctSystemQuestion, blower: Blower, result: DuctSystemResult, system: UnitSystem, y: float) -> float:
    """The chart from `y` down. Returns where it ends."""
    (air, air_shown), (pressure, pressure_shown) = shown_in(Airflow, system), shown_in(AirPressure, system)
    thin = air_of(question.air)
    curve, point = BlowerCurve(blower, "/blower", thin), result.operating_point
    rated = None if question.rated_limit is None else rated_limit_in(question.rated_limit, thin)
    flows = [point.airflow, curve.curve.y[0], curve.curve.y[-1]]
    low, high = 0.82 * min(flows), 1.06 * max(flows)
    most = 1.12 * max(curve.highest, point.static_pressure, rated or 0.0)
    across = Axis(Airflow(low).to(air), Airflow(high).to(air), 46.0, 336.0)
    up = Axis(0.0, AirPressure(most).to(pressure), y + 32.0 + TALL, y + 32.0)

    def place(airflow: float, static_pressure: float) -> Point:
        return across(Airflow(airflow).to(air)), up(AirPressure(static_pressure).to(pressure))

    drawing.text(8, y, "Blower and system", bold=True)
    if rated is not None:
        limit = place(low, rated)[1]
        drawing.hatch(across.start, up.end, across.end - across.start, limit - up.end)
        drawing.line(across.start, limit, across.end, limit, LIMIT)
    draw_axes(drawing, across, up, (f"airflow, {air_shown}", f"external static pressure, {pressure_shown}"))
    steps = [curve.lowest + (curve.highest - curve.lowest) * index / (CURVE_POINTS - 1) for index in range(CURVE_POINTS)]
    drawing.polyline([place(curve.curve.at(step)[0], step) for step in steps], SUPPLY)
    drawing.polyline([place(*one) for one in system_line(question, result, low, high, most)], SYSTEM)
    for airflow, static_pressure in zip(curve.curve.y, curve.curve.x, strict=True):
        drawing.circle(*place(airflow, static_pressure), 3.0, THIN, fill=PAPER)
    x, height = place(point.airflow, point.static_pressure)
    drawing.line(x, height, x, up.start, THIN)
    drawing.line(across.start, height, x, height, THIN)
    drawing.circle(x, height, 5.5, OUTLINE, fill=INK)
    return _words(drawing, question, curve, result, system, up.start + 48.0)


def system_line(question: DuctSystemQuestion, result: DuctSystemResult, low: float, high: float, most: float) -> list[Point]:
    """Airflow, m3/s, and what the system takes there, Pa, from `low` to `high` or to where it takes `most`."""
    points: list[Point] = []
    for index in range(CURVE_POINTS):
        airflow = low + (high - low) * index / (CURVE_POINTS - 1)
        takes = system_pressure(question, result, airflow)
        if takes > most:
            if points:
                before, took = points[-1]
                points.append((before + (airflow - before) * (most - took) / (takes - took), most))
            break
        points.append((airflow, takes))
    return points


def system_pressure(question: DuctSystemQuestion, result: DuctSystemResult, airflow: float) -> float:
    """What the system takes at another airflow, Pa: p = (supply + return) (q/q0)^2 + components.

    Departs: friction alone grows with a little less than the square; over the reach of a table the example house shows less than 1 percent.
    """
    taken, point = result.external_static_pressure, result.operating_point
    components = sum(component_drop(component, airflow) for component in components_in(question.components, air_of(question.air)))
    return (taken.supply + taken.return_) * (airflow / point.airflow) ** 2 + components


def _words(drawing: Drawing, question: DuctSystemQuestion, curve: BlowerCurve, result: DuctSystemResult, system: UnitSystem, y: float) -> float:
    point = result.operating_point
    drawing.circle(21, y - 4, 5.0, OUTLINE, fill=INK)
    what = "{} against {}, where they meet" if question.task == "analyse" else "{} against {}, as designed"
    drawing.text(40, y, Phrase(what, point.airflow, point.static_pressure).shown(system), size=SMALL, bold=True, within=314)
    entries = [(SUPPLY, "blower, through the entries of its table (circles)"), (SYSTEM, "system")]
    if question.rated_limit is not None:
        entries.append((LIMIT, Phrase("rated limit: {}", rated_limit_in(question.rated_limit, air_of(question.air))).shown(system)))
    y = drawing.legend(8, y + 16, entries)
    has = curve.static_pressure(point.airflow) if question.task == "size" else None
    if has is not None:
        sentence = "At this airflow the blower has {} more." if has >= point.static_pressure else "At this airflow the blower has {} too little."
        y = drawing.note(8, y + 2, Phrase(sentence, AirPressure(abs(has - point.static_pressure))).shown(system), 344, size=BODY) + 2
    return drawing.note(8, y, SQUARES, 344, colour=QUIET)
