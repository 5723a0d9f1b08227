"""The tree of a duct system, return on top, the unit, supply below: sizes, flows and what is to spare at every outlet. Not to scale."""

from dataclasses import dataclass

from kneewall.calculations.duct_system.check import OUTLET_WITHIN
from kneewall.calculations.duct_system.drawing_layout import Spot, side_of
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult, Side
from kneewall.kernel.lettering import BOLDER, width_of
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Airflow, AirPressure, Dimension, UnitSystem
from kneewall.kernel.scale import shown_in
from kneewall.kernel.svg import BODY, INK, NO_LINE, OUTLINE, PAPER, QUIET, RETURN_COLOUR, SMALL, SUPPLY_COLOUR, TINT, Drawing, Pen
from kneewall.physics.ducts import DuctSize

PENS: dict[Side, Pen] = {"supply": Pen(SUPPLY_COLOUR, 1.6), "return": Pen(RETURN_COLOUR, 1.6, "6 3")}
CRITICAL_PENS: dict[Side, Pen] = {"supply": Pen(SUPPLY_COLOUR, 5.0), "return": Pen(RETURN_COLOUR, 5.0, "6 3")}
SIZE_AT, AIR_AT, SPARE_AT = 240.0, 292.0, 354.0
ROOMY, MANY = 19.0, 60
"""Height of a row, and the count of sections from which rows are set closer and long names are cut."""
TIGHT = 13.5
NAME, NAME_LINE = 14.0, 14.0
"""How far right of its lane a name begins, and how much a row grows that has its name above its figures."""

ROUND = "A size of one figure is a round duct."
SURPLUS = f"{ROUND} Surplus is what a damper on that path must take so that the air divides as designed."
SETTLED = (
    f"{ROUND} Once the air has settled every path of a side loses the same, so none has a surplus; the critical path is the one whose outlet gets the "
    "smallest share of its design airflow. Look at what each outlet gets."
)


@dataclass(frozen=True, slots=True)
class Columns:
    """What stands in the rows: the units of size and flow, what to write for each outlet, how close the rows are."""

    size: str
    air: str
    spare: dict[str, str]
    row: float
    letters: float


def draw_tree(drawing: Drawing, question: DuctSystemQuestion, result: DuctSystemResult, system: UnitSystem, y: float) -> float:
    """The tree from `y` down. Returns where it ends."""
    many = len(result.sections) > MANY
    columns = Columns(
        shown_in(Dimension, system)[0],
        shown_in(Airflow, system)[0],
        _spares(question, result, system),
        TIGHT if many else ROOMY,
        SMALL if many else BODY,
    )
    y = _head(drawing, question, system, y)
    unit, rows = side_of(question, result, "return")
    y = _place(rows, columns, y)
    unit.y = y
    _side(drawing, rows, columns, "return")
    y = _unit(drawing, result, system, y)
    unit, rows = side_of(question, result, "supply")
    unit.y = y
    y = _place(rows, columns, y + 4.0)
    _side(drawing, rows, columns, "supply")
    return _legend(drawing, question, result, y + 10.0)


def _spares(question: DuctSystemQuestion, result: DuctSystemResult, system: UnitSystem) -> dict[str, str]:
    """To size: surplus pressure. To analyse there is none once the air has settled, so each outlet's share of its design flow."""
    if question.task == "size":
        unit = shown_in(AirPressure, system)[0]
        critical = (result.critical_path.supply, result.critical_path.return_)
        return {path.outlet: "critical" if path.outlet in critical else short(path.surplus_pressure.to(unit)) for path in result.paths}
    return {outlet.id: f"{_off(outlet.ratio)}{100.0 * outlet.ratio:.0f}" for outlet in result.outlets}


def _off(ratio: float) -> str:
    if abs(ratio - 1.0) <= OUTLET_WITHIN + 1e-9:
        return ""
    return "low " if ratio < 1.0 else "high "


def short(value: float) -> str:
    """A figure in a column: whole from 100 on, else three figures, nothing finer than a ten-thousandth."""
    if abs(value) >= 99.95:
        return f"{value:,.0f}"
    return f"{value:.3g}" if abs(value) >= 0.001 else f"{value:.4f}".rstrip("0").rstrip(".")


def _head(drawing: Drawing, question: DuctSystemQuestion, system: UnitSystem, y: float) -> float:
    drawing.text(8, y, "Sections from grille to outlet", bold=True)
    drawing.text(8, y + 14, "not to scale", size=SMALL, colour=QUIET)
    last = ("surplus", shown_in(AirPressure, system)[1]) if question.task == "size" else ("of design", "percent")
    for at, words in ((SIZE_AT, ("size", shown_in(Dimension, system)[1])), (AIR_AT, ("air", shown_in(Airflow, system)[1])), (SPARE_AT, last)):
        for line, word in enumerate(words):
            drawing.text(at, y + 14 * line, word, size=SMALL, at="end", colour=QUIET)
    return y + 20.0


def _unit(drawing: Drawing, result: DuctSystemResult, system: UnitSystem, y: float) -> float:
    drawing.rectangle(4, y, 350, 24, OUTLINE, fill=TINT, corner=3)
    drawing.text(12, y + 16, "unit", bold=True)
    point = result.operating_point
    drawing.text(346, y + 16, Phrase("{} against {}", point.airflow, point.static_pressure).shown(system), at="end", bold=True, within=280)
    return y + 24.0


def _place(rows: list[Spot], columns: Columns, y: float) -> float:
    """Give every row its height: one line, or two where the name leaves no room for the figures and there are not many rows."""
    for spot in rows:
        assert spot.found is not None
        spot.size = size_in(spot.found.size, columns.size)
        spot.name_within = SIZE_AT - 6.0 - width_of(spot.size, SMALL) - spot.x - NAME
        if columns.row == ROOMY and width_of(spot.name, BODY * BOLDER) > spot.name_within:
            y += NAME_LINE
            spot.name_above = True
        y += columns.row
        spot.y = y - columns.row / 2.0
    return y + 4.0 if rows else y


def _side(drawing: Drawing, rows: list[Spot], columns: Columns, side: Side) -> None:
    """Lines first, the critical path over the others, then marks and words."""
    for spot in rows:
        if not spot.on_critical_path:
            drawing.polyline(spot.line(), PENS[side])
    for spot in rows:
        if spot.on_critical_path:
            drawing.polyline(spot.line(), CRITICAL_PENS[side])
    for spot in rows:
        _row(drawing, spot, columns, side)


def _row(drawing: Drawing, spot: Spot, columns: Columns, side: Side) -> None:
    assert spot.found is not None
    _mark(drawing, spot, side)
    base, bold = spot.y + columns.letters * 0.35, spot.on_critical_path
    if spot.name_above:
        drawing.text(spot.x + NAME, base - NAME_LINE, spot.name, size=columns.letters, bold=bold, within=SPARE_AT - spot.x - NAME)
    else:
        drawing.text(spot.x + NAME, base, spot.name, size=columns.letters, bold=bold, within=spot.name_within)
    drawing.text(SIZE_AT, base, spot.size, size=SMALL, at="end")
    drawing.text(AIR_AT, base, short(spot.found.airflow.to(columns.air)), size=SMALL, at="end")
    if spot.name in columns.spare:
        drawing.text(SPARE_AT, base, columns.spare[spot.name], size=SMALL, at="end", bold=bold)


def _mark(drawing: Drawing, spot: Spot, side: Side) -> None:
    """A box for a plenum or splitter box, an arrow out of an outlet or into a grille, a dot for any other duct."""
    x, y, colour = spot.x, spot.y, PENS[side].colour
    if spot.is_box:
        drawing.rectangle(x - 5, y - 5, 10, 10, OUTLINE, fill=PAPER)
    elif spot.outer:
        drawing.circle(x, y, 3.2, NO_LINE, fill=INK)
    if not spot.outer:
        heads = (x + 11, x + 3) if side == "supply" else (x + 1, x + 9)
        drawing.line(x, y, x + 8, y, PENS[side])
        drawing.polygon([(heads[0], y), (heads[1], y - 4), (heads[1], y + 4)], NO_LINE, fill=colour)


def size_in(size: DuctSize, unit: str) -> str:
    """A size without its unit; a single figure is a round duct."""
    if size.diameter is not None:
        return _side_in(size.diameter, unit)
    oval = size.width is None
    sides = (size.major, size.minor) if oval else (size.width, size.height)
    return " x ".join([_side_in(side, unit) for side in sides if side is not None]) + (" oval" if oval else "")


def _side_in(side: Dimension, unit: str) -> str:
    value = side.to(unit)
    return f"{value:.0f}" if value >= 99.95 else f"{value:.4g}"


def _legend(drawing: Drawing, question: DuctSystemQuestion, result: DuctSystemResult, y: float) -> float:
    size = question.task == "size"
    sides = [side for side in PENS if any(one.side == side for one in result.sections)]
    entries = [(PENS[side], f"{side} air") for side in sides]
    thick = "thick line, bold name: critical path, which loses most" if size else "thick line, bold name: critical path"
    y = drawing.legend(8, y, [*entries, (CRITICAL_PENS[sides[0]], thick)])
    if any(section.kind != "duct" for section in question.sections):
        drawing.rectangle(16, y - 8, 9, 9, OUTLINE, fill=PAPER)
        drawing.text(40, y, "plenum or splitter box", size=SMALL)
        y += 15.0
    return drawing.note(8, y + 2, SURPLUS if size else SETTLED, 344, colour=QUIET)
