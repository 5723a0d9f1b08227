"""What holds things up, and what one stands on."""

from collections.abc import Iterator

from kneewall.kernel.quantity import Length
from kneewall.retrofit.taken_off import Line, inches
from kneewall.retrofit.work import Work

WHAT = {"duct": "duct", "pipe": "pipe", "refrigerant-tube": "refrigerant tube"}
STRAP = 4.0
"""Feet of strap round a duct and up to the framing."""
UNKNOWN_DROP, ABOVE = 2.0, 0.5


def support_lines(work: Work) -> Iterator[Line]:
    """Straps by the foot, hangers by the piece, riser clamps and guides where the run rises."""
    supports, result, part = work.asked("support_spacing"), work.result("support_spacing"), "support-spacing"
    if supports is None:
        return
    for run, found in zip(supports.runs, result.runs, strict=True):
        if found.strap_width is not None and run.kind == "duct":
            yield Line("strap", f"{inches(found.strap_width)} wide", found.supports * STRAP, "ft", part)
            continue
        size, clamp = "" if run.nominal_size is None else inches(run.nominal_size), run.orientation == "vertical"
        yield Line(f"{'riser clamp' if clamp else 'hanger'}, {WHAT[run.kind]}", size, found.supports, "each", part)
        if found.guides is not None:
            yield Line(f"riser guide, {WHAT[run.kind]}", size, found.guides, "each", part)


def hanging_lines(work: Work) -> Iterator[Line]:
    """Rods with their nuts, washers and anchors; channel, isolators and the pan that hangs with the unit."""
    hanging = work.asked("equipment_hanging")
    if hanging is None:
        return
    part, rod = "equipment-hanging", inches(hanging.rods.diameter)
    heights = work.question.elevations
    drop = UNKNOWN_DROP
    if heights.rafter_underside is not None and heights.unit_base is not None:
        drop = max(ABOVE, Length(heights.rafter_underside - heights.unit_base).to("ft") + ABOVE)
    yield Line("threaded rod", rod, drop, "ft", part, pieces=4)
    yield Line("nut", rod, 16.0, "each", part)
    yield Line("square washer", rod, 8.0, "each", part)
    if hanging.trapeze is not None:
        yield Line("channel", hanging.trapeze.section, hanging.trapeze.span.to("ft") + 0.5, "ft", part, pieces=2)
    anchor = hanging.anchor
    yield Line(anchor.kind, rod if anchor.diameter is None else inches(anchor.diameter), 4.0, "each", part)
    if hanging.isolator is not None:
        yield Line("vibration isolator", f"{hanging.isolator.static_deflection.to('in'):.3g} in deflection", 4.0, "each", part)
    if hanging.pan is not None:
        yield Line("auxiliary pan", pan_size(hanging.pan), 1.0, "each", part)


def pan_size(pan: object) -> str:
    """Length, width and depth of a pan."""
    length, width, depth = (getattr(pan, side).to("in") for side in ("length", "width", "depth"))
    return f"{length:.4g} x {width:.4g} x {depth:.3g} in"


def access_lines(work: Work) -> Iterator[Line]:
    """Panels of passage and service space."""
    access = work.asked("service_access")
    if access is None or access.floor_panel is None:
        return
    area = 0.0
    if access.passage is not None:
        area += access.passage.length.to("ft") * Length(access.passage.floor_width).to("ft")
    if access.service_space is not None:
        area += Length(access.service_space.length).to("ft") * Length(access.service_space.width).to("ft")
    yield Line("floor panel", inches(access.floor_panel.thickness), area, "ft2", "service-access")
