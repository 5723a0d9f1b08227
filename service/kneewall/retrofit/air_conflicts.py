"""Clashes on the air side: ducts against blower, sheet metal against the space it stands in."""

from collections.abc import Iterator
from typing import Any

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Airflow, AirPressure, Dimension
from kneewall.physics.air import air_of
from kneewall.physics.components import component_drop, components_in
from kneewall.physics.fan import BlowerCurve
from kneewall.retrofit.results import Conflict
from kneewall.retrofit.work import Work

WITHIN = 0.10
WRAP = Dimension.of(2, "in")
NEXT_SIZE = 1.125
"""A section that grows to the next size is about an eighth larger across."""


def blower_and_ducts(work: Work) -> Iterator[Conflict]:
    """The ducts take what they take, the blower has what it has, both in the job's own air. Source: retrofit-check.blower-and-ducts, fan.blower-density."""
    ducts, result = work.asked("duct_system"), work.result("duct_system")
    if ducts is None or ducts.blower is None:
        return
    names = ["duct-system", "blower"]
    design = _design_airflow(result)
    airflow, total = result.operating_point.airflow, result.external_static_pressure.total
    has = BlowerCurve(ducts.blower, "/blower", air_of(ducts.air)).static_pressure(design)
    if has is None:
        says = Phrase("The blower's table does not reach the design airflow of {}.", design)
        settle = Phrase("Choose another blower speed, or give the rest of its table.")
        yield Conflict(conflict="ducts and blower", between=names, verdict="fails", says=says, settle=settle)
        return
    at_design = total * float((design / airflow) ** 1.9)
    if airflow < design * (1.0 - WITHIN) or (ducts.task == "size" and total > has * (1 + 1e-9)):
        excess = AirPressure(at_design - has)
        sentence = "At the design airflow of {} ducts and components would take {}; the blower has {} there, so {} will flow."
        says = Phrase(sentence, design, AirPressure(at_design), AirPressure(has), airflow)
        yield Conflict(
            conflict="ducts and blower", between=names, verdict="fails", by=excess, says=says, settle=_greatest_relief(ducts, result, excess)
        )
        return
    says = Phrase("Blower and ducts meet at {} and {}, for a design airflow of {}.", airflow, total, design)
    yield Conflict(conflict="ducts and blower", between=names, verdict="meets", says=says)


def _design_airflow(result: Any) -> Airflow:
    by_side = {side: sum(outlet.design_airflow for outlet in result.outlets if outlet.side == side) for side in ("supply", "return")}
    return Airflow(by_side["supply"] or by_side["return"])


def _greatest_relief(ducts: Any, result: Any, excess: AirPressure) -> Phrase:
    """The single change that gives most: twice the face of a component, or the next size up of a section on a critical path.

    A component's drop falls by 2^-n; a section's friction with the fifth power of its size, its fittings with the fourth.
    """
    critical = {result.critical_path.supply, result.critical_path.return_}
    on_path = {name for path in result.paths if path.outlet in critical for name in path.sections}
    reliefs = [(_relief(section), section) for section in result.sections if section.id in on_path]
    relief, section = max(reliefs, key=lambda pair: pair[0])
    airflow = result.operating_point.airflow
    freed = [(component_drop(one, airflow) - component_drop(one, airflow / 2.0), one) for one in components_in(ducts.components, air_of(ducts.air))]
    gained, component = max(freed, key=lambda pair: pair[0], default=(0.0, None))
    if component is not None and gained > relief:
        sentence = "Twice the face of {} alone gives back about {} of the {}; then one size up in {}, about {}, or a higher blower speed."
        return Phrase(sentence, component.name, AirPressure(gained), excess, section.id, AirPressure(relief))
    sentence = "One size up in {} alone gives back about {} of the {}; then the next worst, or a higher blower speed."
    return Phrase(sentence, section.id, AirPressure(relief), excess)


def _relief(section: Any) -> float:
    friction = section.pressure_drop - section.fitting_loss
    return float(friction * (1.0 - NEXT_SIZE**-5) + section.fitting_loss * (1.0 - NEXT_SIZE**-4))


def space_and_sheet_metal(work: Work) -> Iterator[Conflict]:
    """Plenums, boxes and trunks, wrapped, must stand between attic floor and rafters. Source: retrofit-check.clear-space."""
    ducts, result, heights = work.asked("duct_system"), work.result("duct_system"), work.question.elevations
    if result is None or heights.rafter_underside is None or heights.attic_floor is None:
        return
    clear = Dimension(heights.rafter_underside - heights.attic_floor)
    tallest = max(result.sections, key=lambda section: _height(section.size))
    wrapped = Dimension(_height(tallest.size) + 2.0 * WRAP)
    kind = next(section.kind for section in ducts.sections if section.id == tallest.id)
    names = ["duct-system", "framing"]
    if wrapped <= clear * (1 + 1e-9):
        says = Phrase("The tallest piece, {}, is {} high with its wrap and fits the {} between floor and rafters.", tallest.id, wrapped, clear)
        yield Conflict(conflict="sheet metal and clear space", between=names, verdict="meets", says=says)
        return
    says = Phrase("{} is {} high with its wrap, and between floor and rafters there are {}.", tallest.id, wrapped, clear)
    settle = Phrase("Make that {} at most {} high and wider instead.", kind, Dimension(max(0.0, clear - 2.0 * WRAP)))
    yield Conflict(conflict="sheet metal and clear space", between=names, verdict="fails", by=Dimension(wrapped - clear), says=says, settle=settle)


def _height(size: Any) -> float:
    return float(size.height or size.minor or size.diameter)
