"""Sheet of plenums, boxes and metal ducts: areas and weights for the rods and for the take-off."""

from typing import Any

from kneewall.kernel.quantity import Area, Weight
from kneewall.physics.ducts import duct_area, duct_perimeter
from kneewall.retrofit.partial import Given
from kneewall.retrofit.work import Work

SHEET_WEIGHT = Weight.of(1.156, "lb") / 0.09290304
"""N per m2: galvanized sheet of 24 gauge, 1.156 lb/ft2. Source: retrofit-check.sheet-weight."""
SEAMS = 1.15
"""Flanges, seams and offcuts over the plain surface. Source: retrofit-check.sheet-weight."""
SHARE_ON_UNIT = 0.5
METAL = ("galvanized-steel", "spiral-steel", "lined-steel")


def is_metal(section: Any) -> bool:
    """Whether a section is made of sheet metal; what does not say is galvanized steel."""
    return section.duct is None or section.duct.material in METAL


def is_made_of_sheet(section: Any, size: Any) -> bool:
    """Whether a section is bent from flat sheet: round and spiral duct is bought as duct."""
    return is_metal(section) and not (
        section.kind == "duct" and (size.diameter is not None or (section.duct is not None and section.duct.material == "spiral-steel"))
    )


def sheet_area(section: Any, size: Any) -> Area:
    """Sheet of one section: its skin, and for a box its far end, with seams. Source: retrofit-check.sheet-weight."""
    skin = duct_perimeter(size) * section.length
    ends = 0.0 if section.kind == "duct" else (2.0 if section.kind == "splitter-box" else 1.0) * duct_area(size)
    return Area((skin + ends) * SEAMS)


def sheet_weight(section: Any, size: Any) -> Weight:
    """Weight of that sheet."""
    return Weight(sheet_area(section, size) * SHEET_WEIGHT)


def plenum_weights(work: Work) -> list[Given]:
    """The plenums on the unit's collars, each with the half of its weight that the unit's rods carry."""
    ducts, result = work.asked("duct_system"), work.result("duct_system")
    if ducts is None:
        return []
    sizes = {section.id: section.size for section in result.sections}
    return [
        {"name": section.id, "weight": sheet_weight(section, sizes[section.id]), "share": SHARE_ON_UNIT}
        for section in ducts.sections
        if section.toward_unit == "unit" and section.kind == "plenum" and is_metal(section)
    ]
