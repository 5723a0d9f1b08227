"""A duct sizing to look at: the duct's cross-section to scale, and the loss of this air by diameter with the limits that were set."""

from math import sqrt

from kneewall.calculations.duct_sizing.calculate import duct_of, stretch_of
from kneewall.calculations.duct_sizing.messages import DuctSizingQuestion, DuctSizingResult
from kneewall.kernel.answer import Answer
from kneewall.kernel.lettering import BOLDER, width_of
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, FrictionRate, UnitSystem
from kneewall.kernel.scale import Axis, Scale, draw_axes, shown_in
from kneewall.kernel.svg import (
    BODY,
    CENTRE,
    INK,
    LIMIT,
    OUTLINE,
    PAPER,
    QUIET,
    SMALL,
    SUPPLY,
    THIN,
    TINT,
    Drawing,
    Pen,
)
from kneewall.physics import ducts
from kneewall.physics.air import air_of
from kneewall.physics.ducts import DuctSize

BAND = Pen(INK, 1.4)
VELOCITY_LIMIT = Pen("#7a1f4b", 1.4, "7 3 1 3")
CURVE_POINTS, CHART_HIGH = 24, 190.0
SECTION_BOTTOM = 128.0


def draw(question: DuctSizingQuestion, answer: Answer[DuctSizingResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    size = named(answer.result.size, system)
    says = Phrase("{} of air in a duct of {} move at {} and lose {}.", question.airflow, size, answer.result.velocity, answer.result.friction_rate)
    drawing = Drawing(f"Duct of {size}", says.shown(system), 0.0)
    _draw_section(drawing, answer.result, system)
    bottom = max(_draw_facts(drawing, question, answer, system), SECTION_BOTTOM)
    _draw_chart(drawing, question, answer.result, system, bottom + 34.0)
    return drawing.svg()


def named(size: DuctSize, system: UnitSystem) -> str:
    """A size as people say it."""
    if size.diameter is not None:
        return f"{size.diameter.shown(system)} round"
    sides = (size.width, size.height) if size.width is not None else (size.major, size.minor)
    return " x ".join([side.shown(system) for side in sides if side is not None]) + (" flat oval" if size.shape == "flat-oval" else "")


def _draw_section(drawing: Drawing, result: DuctSizingResult, system: UnitSystem) -> None:
    """The open cross-section, true to scale, with its dimensions."""
    size = result.size
    across = size.diameter or size.width or size.major or result.equivalent_diameter
    up = size.diameter or size.height or size.minor or across
    scale = Scale.fit((0.0, across), (0.0, up), (64.0, 16.0, 80.0, 92.0))
    x, y, width, height = scale.x(0.0), scale.y(up), scale.length(across), scale.length(up)
    corner = 0.0 if size.shape == "rectangular" else height / 2.0
    drawing.rectangle(x, y, width, height, OUTLINE, fill=TINT, corner=corner)
    drawing.line(x - 5, y + height / 2, x + width + 5, y + height / 2, CENTRE)
    drawing.line(x + width / 2, y - 5, x + width / 2, y + height + 5, CENTRE)
    drawing.dimension(x, y + height + 20, x + width, y + height + 20, across.shown(system))
    if size.shape != "round":
        drawing.dimension(x - 12, y, x - 12, y + height, up.shown(system), beside="end")


def _draw_facts(drawing: Drawing, question: DuctSizingQuestion, answer: Answer[DuctSizingResult], system: UnitSystem) -> float:
    """The figures that people read first, and the verdicts. Returns the lowest place."""
    result, y = answer.result, 30.0
    for words, figure in (("air", question.airflow), ("velocity", result.velocity), ("loss", result.friction_rate)):
        drawing.text(154, y, words, size=SMALL, colour=QUIET)
        drawing.text(204, y, figure.shown(system), size=BODY, bold=True, within=154)
        y += 18.0
    y += 4.0
    for check in answer.checks[:4]:
        drawing.mark(154, y, check.verdict, check.check, within=180)
        y += 17.0
    return y - 13.0


def _draw_chart(drawing: Drawing, question: DuctSizingQuestion, result: DuctSizingResult, system: UnitSystem, top: float) -> None:
    """Loss by diameter at this flow of air: the curve, the limits, the chosen size and its neighbours."""
    length, length_shown = shown_in(Dimension, system)
    rate, rate_shown = shown_in(FrictionRate, system)
    air, stretch = air_of(question.air), stretch_of(duct_of(question))
    roughness = ducts.roughness_of(duct_of(question).material)

    def loss(diameter: float) -> float:
        return FrictionRate(ducts.duct_gradient(question.airflow, diameter, roughness, air, stretch)).to(rate)

    offered = [(result.size, result.friction_rate), *((one.size, one.friction_rate) for one in result.alternatives)]
    offered_at = [ducts.equivalent_diameter(size) for size, _ in offered]
    wide = [*offered_at, result.exact_diameter or result.equivalent_diameter]
    first, last = 0.8 * min(wide), 1.18 * max(wide)
    across = Axis(Dimension(first).to(length), Dimension(last).to(length), 58.0, 344.0)
    up = Axis(loss(last) * 0.8, loss(first) * 1.15, top + CHART_HIGH, top, powers=True)
    _draw_limits(drawing, question, result, across, up, system)
    draw_axes(drawing, across, up, (f"round diameter of equal loss, {length_shown}", f"loss of {question.airflow.shown(system)}, {rate_shown}"))
    steps = [first + (last - first) * index / (CURVE_POINTS - 1) for index in range(CURVE_POINTS)]
    drawing.polyline([(across(Dimension(one).to(length)), up(loss(one))) for one in steps], SUPPLY)
    _draw_band(drawing, result, across, up, system)
    for (size, figure), at in reversed(list(zip(offered, offered_at, strict=True))):
        x, y = across(Dimension(at).to(length)), up(figure.to(rate))
        chosen = size is result.size
        drawing.circle(x, y, 5.5 if chosen else 3.2, OUTLINE if chosen else THIN, fill=INK if chosen else PAPER)
        if chosen:
            drawing.line(x, y + 6, x, up.start, THIN)
            words = named(size, system)
            if x + 10 + width_of(words, BODY * BOLDER) < across.end:
                drawing.text(x + 10, _clear_of_limit(y - 8, question, up, rate), words, bold=True)
            else:
                drawing.text(x - 8, y + 18, words, bold=True, at="end", within=x - across.start)


def _clear_of_limit(baseline: float, question: DuctSizingQuestion, up: Axis, rate: str) -> float:
    """A baseline near the chosen size, moved up where the line of the loss allowed would run through the words."""
    if question.friction_rate is None:
        return baseline
    limit = up(question.friction_rate.to(rate))
    return limit - 5.0 if baseline - BODY - 1.0 < limit < baseline + 3.0 else baseline


def _draw_limits(drawing: Drawing, question: DuctSizingQuestion, result: DuctSizingResult, across: Axis, up: Axis, system: UnitSystem) -> None:
    """What the question does not allow is hatched: above the friction limit, and where a duct of these proportions would be too small for the velocity.

    In ducts of equal proportions velocity goes with 1/diameter squared, so the limit is met at De sqrt(V / limit).
    """
    length, rate = shown_in(Dimension, system)[0], shown_in(FrictionRate, system)[0]
    entries: list[tuple[Pen, str]] = []
    hatched = up.end
    if question.friction_rate is not None:
        hatched = up(question.friction_rate.to(rate))
        drawing.hatch(across.start, up.end, across.end - across.start, hatched - up.end)
        drawing.line(across.start, hatched, across.end, hatched, LIMIT)
        entries.append((LIMIT, Phrase("loss allowed: {}", question.friction_rate).shown(system)))
    if question.velocity_limit is not None:
        x = across(Dimension(result.equivalent_diameter * sqrt(result.velocity / question.velocity_limit)).to(length))
        drawing.hatch(across.start, hatched, x - across.start, up.start - hatched)
        drawing.line(x, up.start, x, up.end, VELOCITY_LIMIT)
        entries.append((VELOCITY_LIMIT, Phrase("velocity allowed: {}", question.velocity_limit).shown(system)))
    if result.friction_rate_band is not None:
        entries.append((BAND, "between these ends lies its real loss"))
    bottom = drawing.legend(58, up.start + 48, entries, within=286)
    drawing.height = bottom + 2.0


def _draw_band(drawing: Drawing, result: DuctSizingResult, across: Axis, up: Axis, system: UnitSystem) -> None:
    """Between what the loss of a flexible duct really lies."""
    if result.friction_rate_band is None:
        return
    x = across(result.equivalent_diameter.to(shown_in(Dimension, system)[0]))
    low, high = (up(one.to(shown_in(FrictionRate, system)[0])) for one in (result.friction_rate_band.low, result.friction_rate_band.high))
    drawing.line(x, low, x, high, BAND)
    for y in (low, high):
        drawing.line(x - 6, y, x + 6, y, BAND)
