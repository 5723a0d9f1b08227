"""What the ducts take: sheet once, the pieces that are made of it, flexible duct by the piece, collars, wrap, outlets."""

from collections.abc import Iterator
from typing import Any

from kneewall.calculations.duct_system.describe import size_in_words
from kneewall.kernel.quantity import Length, Weight
from kneewall.physics.ducts import DEFAULT_STRETCH, duct_perimeter
from kneewall.retrofit.sheet_metal import is_made_of_sheet, is_metal, sheet_area, sheet_weight
from kneewall.retrofit.taken_off import Line, inches
from kneewall.retrofit.work import Work

PART = "duct-system"
SQUARE_FOOT = 0.09290304
WRAP_OVERLAP = 1.15


def duct_lines(work: Work) -> Iterator[Line]:
    """Every section, its fittings, its wrap and its outlet."""
    ducts, result = work.asked("duct_system"), work.result("duct_system")
    if ducts is None:
        return
    sizes = {section.id: section.size for section in result.sections}
    for section in ducts.sections:
        size = sizes[section.id]
        yield _piece(section, size)
        if is_made_of_sheet(section, size):
            yield Line("galvanized sheet", "24 gauge", sheet_area(section, size).to("ft2"), "ft2", PART)
            yield Line("galvanized sheet, weight", "24 gauge", Weight(sheet_weight(section, size)).to("lb"), "lb", PART)
        if section.insulation is not None and is_metal(section):
            wrap = duct_perimeter(size) * section.length * WRAP_OVERLAP / SQUARE_FOOT
            yield Line("duct wrap", f"R-{section.insulation.nominal_r.to('R'):.3g}", wrap, "ft2", PART)
        yield from _fittings(section, size)
        if section.outlet is not None:
            yield Line("outlet" if section.side == "supply" else "return grille", size_in_words(size), 1.0, "each", PART)


def _piece(section: Any, size: Any) -> Line:
    """The section itself; flexible duct as long as it is when pulled out, since it is sold so."""
    words, made = size_in_words(size), is_made_of_sheet(section, size)
    if section.kind != "duct":
        return Line(section.kind, f"{words}, {Length(section.length).to('ft'):.3g} ft long", 1.0, "each", PART, from_sheet=made)
    material = "galvanized-steel" if section.duct is None else section.duct.material
    stretch = (DEFAULT_STRETCH if section.duct.stretch is None else section.duct.stretch) if material == "flexible" else 1.0
    return Line(f"{material} duct", words, Length(section.length / stretch).to("ft"), "ft", PART, from_sheet=made)


def _fittings(section: Any, size: Any) -> Iterator[Line]:
    """A flexible duct bends by itself and begins and ends on collars, of which the first is its take-off."""
    flexible = section.duct is not None and section.duct.material == "flexible"
    for fitting in section.fittings:
        if fitting.fitting is not None and not (flexible and fitting.fitting in ("elbow-flexible", "takeoff")):
            yield Line(fitting.fitting, size_in_words(size), fitting.count, "each", PART)
    if flexible:
        yield Line("collar with damper", inches(size.diameter), 1.0, "each", PART)
        yield Line("collar", inches(size.diameter), 1.0, "each", PART)
