"""The take-off: what the job takes, part by part, and how it is ordered."""

from collections.abc import Iterator
from math import ceil
from typing import Any

from kneewall.kernel.quantity import Dimension, Length, Mass, Weight
from kneewall.physics.ducts import duct_perimeter
from kneewall.retrofit.partial import given_of
from kneewall.retrofit.results import Material
from kneewall.retrofit.sheet_metal import is_metal, sheet_area, sheet_weight
from kneewall.retrofit.work import Work

STOCK = {"pipe": 10.0, "rod": 10.0, "channel": 10.0, "flexible": 25.0, "tube": 50.0, "strap": 100.0, "duct": 5.0}
"""Feet per length as sold. Source: retrofit-check.stock-lengths."""
SHEET = 32.0
"""Square feet of a 4 by 8 ft sheet."""
TOLERANCE = 1e-9


def materials(work: Work) -> list[Material]:
    """Every line of the take-off; lines of the same item and size in one part are added up."""
    lines: dict[tuple[str, str, str, str], float] = {}
    for finder in (_ducts, _supports, _hanging, _drain, _lines, _loop, _access):
        for item, size, quantity, unit, part in finder(work):
            key = (item, size, unit, part)
            lines[key] = lines.get(key, 0.0) + quantity
    return [
        Material(item=item, size=size, quantity=round(quantity, 3), unit=unit, part=part, order=_order(item, quantity, unit))
        for (item, size, unit, part), quantity in lines.items()
        if quantity > 0.0
    ]


Line = tuple[str, str, float, str, str]


def _ducts(work: Work) -> Iterator[Line]:
    ducts, result = work.asked("duct_system"), work.result("duct_system")
    if ducts is None:
        return
    part, sizes = "duct-system", {section.id: section.size for section in result.sections}
    for line in result.materials:
        yield line.item, line.size, line.quantity, line.unit, part
    for section in ducts.sections:
        size = sizes[section.id]
        if is_metal(section) and not (section.kind == "duct" and size.diameter is not None):
            yield "galvanized sheet", "24 gauge", sheet_area(section, size).to("ft2"), "ft2", part
            yield "galvanized sheet, weight", "24 gauge", Weight(sheet_weight(section, size)).to("lb"), "lb", part
        if section.insulation is not None and is_metal(section):
            r_value = f"R-{section.insulation.nominal_r.to('R'):.3g}"
            yield "duct wrap", r_value, duct_perimeter(size) * section.length * 1.15 / 0.09290304, "ft2", part
        if section.duct is not None and section.duct.material == "flexible":
            yield "collar with damper", inches(size.diameter), 1.0, "each", part
            yield "collar", inches(size.diameter), 1.0, "each", part


def _supports(work: Work) -> Iterator[Line]:
    supports, result = work.asked("support_spacing"), work.result("support_spacing")
    if supports is None:
        return
    for run, found in zip(supports.runs, result.runs, strict=True):
        if found.strap_width is not None and run.kind == "duct":
            yield "strap", f"{inches(found.strap_width)} wide", found.supports * 4.0, "ft", "support-spacing"
        else:
            what = {"duct": "duct", "pipe": "pipe", "refrigerant-tube": "refrigerant tube"}[run.kind]
            yield f"hanger, {what}", "" if run.nominal_size is None else inches(run.nominal_size), found.supports, "each", "support-spacing"


def _hanging(work: Work) -> Iterator[Line]:
    hanging = work.asked("equipment_hanging")
    if hanging is None:
        return
    part, rod = "equipment-hanging", inches(hanging.rods.diameter)
    heights, unit = work.question.elevations, work.question.unit
    drop = 2.0
    if heights.rafter_underside is not None and heights.unit_base is not None:
        drop = max(0.5, Length(heights.rafter_underside - heights.unit_base).to("ft") + 0.5)
    yield "threaded rod", rod, 4.0 * drop, "ft", part
    yield "nut", rod, 16.0, "each", part
    yield "square washer", rod, 8.0, "each", part
    if hanging.trapeze is not None:
        yield "channel", hanging.trapeze.section, 2.0 * (hanging.trapeze.span.to("ft") + 0.5), "ft", part
    anchor = hanging.anchor
    yield anchor.kind, "" if anchor.diameter is None else inches(anchor.diameter), 4.0, "each", part
    if hanging.isolator is not None:
        yield "vibration isolator", f"{hanging.isolator.static_deflection.to('in'):.3g} in deflection", 4.0, "each", part
    pan = hanging.pan
    if pan is not None and unit.length is not None:
        yield "auxiliary pan", f"{pan.length.to('in'):.4g} x {pan.width.to('in'):.4g} x {pan.depth.to('in'):.3g} in", 1.0, "each", part


def _drain(work: Work) -> Iterator[Line]:
    drain, result = work.asked("condensate_drain"), work.result("condensate_drain")
    if drain is None:
        return
    part, size = "condensate-drain", inches(drain.pipe.nominal_size)
    trap = Length(result.trap.overall_height).to("ft")
    yield f"{drain.pipe.material} pipe", size, drain.run.length.to("ft") + 2.0 * trap + 1.0, "ft", part
    yield "trap parts: elbows", size, 4.0, "each", part
    yield "cleanout tee with cap", size, 1.0, "each", part
    yield "vent tee after the trap", size, 1.0, "each", part
    if drain.auxiliary_pan is not None:
        protection = drain.auxiliary_pan.protection or ""
        if "switch" in protection:
            yield "level switch", "", 1.0, "each", part
        if drain.auxiliary_pan.leak_shutoff:
            yield "leak sensor with relay", "", 1.0, "each", part


def _lines(work: Work) -> Iterator[Line]:
    lines, result = work.asked("refrigerant_line_sizing"), work.result("refrigerant_line_sizing")
    if lines is None:
        return
    part = "refrigerant-line-sizing"
    for name, asked, found in (("vapor", lines.vapor_line, result.vapor_line), ("liquid", lines.liquid_line, result.liquid_line)):
        size = asked.size or found.recommended
        if size is None:
            continue
        yield f"refrigerant tube, {lines.temper}", inches(size), asked.length.to("ft"), "ft", part
        for fitting, count in given_of(asked.fittings).items():
            yield fitting, inches(size), count, "each", part
        if name == "vapor" and lines.insulation is not None:
            yield "tube insulation", f"{inches(size)} x {inches(lines.insulation.thickness)} wall", asked.length.to("ft"), "ft", part
    added: Mass | None = None if result.charge is None else result.charge.added
    if added is not None and added > 0.0:
        yield f"refrigerant {lines.refrigerant}", "", added.to("oz"), "oz", part


def _loop(work: Work) -> Iterator[Line]:
    loop: Any = work.asked("water_loop_flow")
    if loop is None:
        return
    part = "water-loop-flow"
    for pipe in loop.pipes:
        size = inches(pipe.nominal_size)
        yield f"{pipe.material} pipe", size, pipe.length.to("ft"), "ft", part
        for fitting, count in given_of(pipe.fittings).items():
            if fitting not in ("entrance", "exit"):
                yield fitting, size, count, "each", part
        for valve in pipe.valves:
            yield f"{valve.kind} valve" if valve.kind not in ("strainer", "flow-regulator") else valve.kind, size, 1.0, "each", part
    if loop.control_valve is not None:
        yield "control valve", f"Cv {loop.control_valve.cv:.3g}", 1.0, "each", part
    yield "flush valve with hose end", "", 2.0 * len(loop.units), "each", part


def _access(work: Work) -> Iterator[Line]:
    access = work.asked("service_access")
    if access is None or access.floor_panel is None:
        return
    area = 0.0
    if access.passage is not None:
        area += access.passage.length.to("ft") * Length(access.passage.floor_width).to("ft")
    if access.service_space is not None:
        area += Length(access.service_space.length).to("ft") * Length(access.service_space.width).to("ft")
    yield "floor panel", inches(access.floor_panel.thickness), area, "ft2", "service-access"


def inches(size: Dimension) -> str:
    """A size as the trade writes it: `1-1/8 in`, to the nearest thirty-second; decimals where it is none."""
    value = size.to("in")
    parts = round(value * 32)
    if abs(parts / 32 - value) > 1e-3:
        return f"{value:.3g} in"
    whole, rest = divmod(parts, 32)
    if not rest:
        return f"{whole} in"
    below = 32
    while rest % 2 == 0:
        rest, below = rest // 2, below // 2
    return f"{whole}-{rest}/{below} in" if whole else f"{rest}/{below} in"


def _order(item: str, quantity: float, unit: str) -> str | None:
    """Whole lengths, coils, rolls or sheets, rounded up. Source: retrofit-check.stock-lengths."""
    if unit == "ft2" and item in ("galvanized sheet", "floor panel"):
        return f"{ceil(quantity / SHEET - TOLERANCE)} sheets of 4 x 8 ft"
    if unit != "ft":
        return None
    kinds = {
        "flexible": "flexible",
        "refrigerant tube": "tube",
        "tube insulation": "pipe",
        "channel": "channel",
        "threaded rod": "rod",
        "strap": "strap",
    }
    kind = next((kind for start, kind in kinds.items() if item.startswith(start)), "duct" if item.endswith("duct") else "pipe")
    length = STOCK[kind]
    return f"{ceil(quantity / length - TOLERANCE)} of {length:g} ft"
