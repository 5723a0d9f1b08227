"""What drain, refrigerant lines and water loop take."""

from collections.abc import Iterator
from typing import Any

from kneewall.kernel.quantity import Dimension, Length, Mass, Temperature
from kneewall.retrofit.partial import given_of
from kneewall.retrofit.take_off_hung import pan_size
from kneewall.retrofit.taken_off import Line, inches
from kneewall.retrofit.work import Work

DRAIN, LINES, LOOP = "condensate-drain", "refrigerant-line-sizing", "water-loop-flow"
SWEATS_BELOW = Temperature.of(60, "degF")
"""Loop water colder than that sweats in a house in summer: common practice where no dew point is stated."""
PLAIN_VALVES = ("strainer", "flow-regulator")


def drain_lines(work: Work) -> Iterator[Line]:
    """Pipe with its trap, tees, pan, pump and switches."""
    drain, result = work.asked("condensate_drain"), work.result("condensate_drain")
    if drain is None:
        return
    size, pump = inches(drain.pipe.nominal_size), result.pump
    trap, drop = Length(result.trap.overall_height).to("ft"), Length(drain.run.drop_at_fittings or 0.0).to("ft")
    yield Line(f"{drain.pipe.material} pipe", size, drain.run.length.to("ft") + drop + 2.0 * trap + 1.0, "ft", DRAIN)
    yield Line("trap parts: elbows", size, 4.0, "each", DRAIN)
    yield Line("cleanout tee with cap", size, 1.0, "each", DRAIN)
    yield Line("vent tee after the trap", size, 1.0, "each", DRAIN)
    if drain.pump is not None or (pump is not None and pump.needed):
        lift = None if pump is None else pump.static_lift
        yield Line("condensate pump with safety switch", "" if lift is None else f"lifts {lift.to('ft'):.3g} ft", 1.0, "each", DRAIN)
    if drain.auxiliary_pan is not None:
        yield from _pan(work, drain)


def _pan(work: Work, drain: Any) -> Iterator[Line]:
    """The auxiliary pan, unless it hangs with the unit and is counted there; its drain; its switch and sensor."""
    pan = drain.auxiliary_pan
    if pan.pan is not None and getattr(work.asked("equipment_hanging"), "pan", None) is None:
        yield Line("auxiliary pan", pan_size(pan.pan), 1.0, "each", DRAIN)
    if pan.drain is not None:
        size = inches(pan.drain.nominal_size)
        yield Line("second outlet fitting" if pan.protection == "second-drain" else "pan drain fitting", size, 1.0, "each", DRAIN)
        yield Line(f"{drain.pipe.material} pipe", size, pan.drain.length.to("ft"), "ft", DRAIN)
    if "switch" in (pan.protection or ""):
        yield Line("level switch", "", 1.0, "each", DRAIN)
    if pan.leak_shutoff:
        yield Line("leak sensor with relay", "", 1.0, "each", DRAIN)


def refrigerant_lines(work: Work) -> Iterator[Line]:
    """Both lines with their fittings, the cold one's insulation, and what is added to the charge; of a double riser both tubes."""
    lines, result = work.asked("refrigerant_line_sizing"), work.result("refrigerant_line_sizing")
    if lines is None:
        return
    riser = result.double_riser
    for name, asked, found in (("vapor", lines.vapor_line, result.vapor_line), ("liquid", lines.liquid_line, result.liquid_line)):
        size = asked.size or found.recommended
        runs = [] if size is None else [(size, asked.length)]
        if size is None and name == "vapor" and riser is not None:
            rise = Length(min(abs(lines.indoor_above_outdoor), asked.length))
            runs, size = [(riser.large, asked.length), (riser.small, rise)], riser.large
        for tube, length in runs:
            yield Line(f"refrigerant tube, {lines.temper}", inches(tube), length.to("ft"), "ft", LINES)
            if name == "vapor":
                yield Line("tube insulation", _walled(tube, lines.insulation), length.to("ft"), "ft", LINES)
        if size is not None:
            for fitting, count in given_of(asked.fittings).items():
                yield Line(fitting, inches(size), count, "each", LINES)
    added: Mass | None = None if result.charge is None else result.charge.added
    if added is not None and added > 0.0:
        yield Line(f"refrigerant {lines.refrigerant}", "", added.to("oz"), "oz", LINES)


def _walled(tube: Dimension, insulation: Any) -> str:
    return inches(tube) if insulation is None else f"{inches(tube)} x {inches(insulation.thickness)} wall"


def loop_lines(work: Work) -> Iterator[Line]:
    """Pipe, fittings and valves; a ball valve and a flush valve at either end of every coil; arrester; insulation where the water is cold."""
    loop: Any = work.asked("water_loop_flow")
    if loop is None:
        return
    dew_point = work.question.surroundings.dew_point
    cold = loop.entering_water < (SWEATS_BELOW if dew_point is None else max(dew_point, SWEATS_BELOW))
    sizes = {pipe.id: inches(pipe.nominal_size) for pipe in loop.pipes}
    for pipe in loop.pipes:
        yield from _pipe(pipe, sizes[pipe.id], cold=cold)
    yield from _ends(loop, sizes)
    for unit in loop.units:
        if unit.own_arrester:
            feeds = [sizes[pipe.id] for pipe in loop.pipes if unit.start in (pipe.start, pipe.end)]
            yield Line("water-hammer arrester", feeds[0] if feeds else "", 1.0, "each", LOOP)
    valve = loop.control_valve
    if valve is not None:
        yield Line("control valve", f"Cv {valve.cv:.3g}", 1.0, "each", LOOP)
        if valve.arrester:
            yield Line("water-hammer arrester", sizes.get(valve.on, ""), 1.0, "each", LOOP)


def _pipe(pipe: Any, size: str, *, cold: bool) -> Iterator[Line]:
    yield Line(f"{pipe.material} pipe", size, pipe.length.to("ft"), "ft", LOOP)
    if cold and pipe.material != "rubber-hose":
        yield Line("pipe insulation, closed cell", size, pipe.length.to("ft"), "ft", LOOP)
    for fitting, count in given_of(pipe.fittings).items():
        if fitting not in ("entrance", "exit"):
            yield Line(_ball(fitting), size, count, "each", LOOP)
    for valve in pipe.valves:
        yield Line(valve.kind if valve.kind in PLAIN_VALVES else _ball(f"{valve.kind} valve"), size, 1.0, "each", LOOP)


def _ball(name: str) -> str:
    """An isolation valve is bought as a ball valve, whichever of the two ways the question states it."""
    return "ball valve" if name in ("isolation valve", "ball-valve") else name


def _ends(loop: Any, sizes: dict[str, str]) -> Iterator[Line]:
    """What every coil needs at either end: a flush valve, and a ball valve where no pipe there has one yet."""
    for unit in loop.units:
        for node in (unit.start, unit.end):
            there = [pipe for pipe in loop.pipes if node in (pipe.start, pipe.end)]
            size = sizes[there[0].id] if there else ""
            yield Line("flush valve with hose end", size, 1.0, "each", LOOP)
            if not any(_shuts(pipe) for pipe in there):
                yield Line("ball valve", size, 1.0, "each", LOOP)


def _shuts(pipe: Any) -> bool:
    return pipe.fittings.get("ball-valve", 0.0) > 0.0 or any(valve.kind == "isolation" for valve in pipe.valves)
