"""What each stage of the work is proved against: the figures of this very answer, in a sentence."""

from collections.abc import Callable, Iterator

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Airflow
from kneewall.retrofit.work import Work


def _access(work: Work) -> Iterator[Phrase]:
    access = work.asked("service_access")
    if access is not None:
        piece, opening = access.largest_component, access.opening
        yield Phrase(
            "The opening is {} x {} clear, the largest piece {} x {} x {}.", opening.length, opening.width, piece.length, piece.width, piece.height
        )


def _hang(work: Work) -> Iterator[Phrase]:
    hanging = work.result("equipment_hanging")
    if hanging is None:
        return
    worst = max(hanging.rods, key=lambda rod: rod.load)
    sentence = "Unit and pan full of water weigh {}; the most loaded rod carries {}, its anchor may hold {}."
    yield Phrase(sentence, hanging.load.total, worst.load, hanging.anchor.allowable)


def _drain(work: Work) -> Iterator[Phrase]:
    drain, asked = work.result("condensate_drain"), work.asked("condensate_drain")
    if drain is None:
        return
    yield Phrase("The trap drops {} from the pan's outlet to its own and seals {} below that.", drain.trap.outlet_drop, drain.trap.seal_depth)
    yield Phrase("The run of {} falls {} in all.", asked.run.length, drain.fall)
    if drain.elevations is not None and drain.elevations.margin >= 0.0:
        yield Phrase("It ends {} above the {} of air gap over the receiver's rim.", drain.elevations.margin, drain.elevations.air_gap)


def _lines(work: Work) -> Iterator[Phrase]:
    lines, asked = work.result("refrigerant_line_sizing"), work.asked("refrigerant_line_sizing")
    if lines is not None:
        sentence = "The level part of the vapor line falls {} toward the other unit; the indoor coil stands {} above it."
        yield Phrase(sentence, lines.elevations.fall_toward_outdoor, asked.indoor_above_outdoor)


def _line_test(work: Work) -> Iterator[Phrase]:
    answer = work.answers.get("refrigerant_line_sizing")
    for check in () if answer is None else answer.checks:
        if check.check == "liquid line pressure":
            yield Phrase("The high side is designed for {}; the units' plates say what they may be tested at.", check.limit)


def _charge(work: Work) -> Iterator[Phrase]:
    lines = work.result("refrigerant_line_sizing")
    if lines is None or lines.charge is None:
        return
    if lines.charge.added is None:
        yield Phrase("The lines hold {}.", lines.charge.lines)
    elif lines.charge.added < 0.0:
        yield Phrase("The lines hold {}; nothing is added to the factory charge.", lines.charge.lines)
    else:
        yield Phrase("The lines hold {}; {} are added to the factory charge.", lines.charge.lines, lines.charge.added)


def _loop(work: Work) -> Iterator[Phrase]:
    loop = work.result("water_loop_flow")
    if loop is None:
        return
    at_rest = max(node.pressure if node.pressure_shut is None else max(node.pressure, node.pressure_shut) for node in loop.nodes)
    yield Phrase("The loop stands at up to {} at rest.", at_rest)
    if loop.control_valve is not None:
        yield Phrase("When the valve shuts it peaks at {}.", loop.control_valve.peak_pressure)


def _flush(work: Work) -> Iterator[Phrase]:
    loop = work.result("water_loop_flow")
    if loop is not None and loop.flushing:
        most = max(loop.flushing, key=lambda pipe: pipe.flow)
        yield Phrase("Air and dirt move from {} in {}, the pipe that needs most.", most.flow, most.pipe)


def _leakage(work: Work) -> Iterator[Phrase]:
    ducts = work.result("duct_system")
    if ducts is not None:
        sentence = "Reckoned for the sealing planned, at working pressure: {} out of the supply, {} into the return."
        yield Phrase(sentence, ducts.leakage.supply, ducts.leakage.return_)


def _insulate(work: Work) -> Iterator[Phrase]:
    lines = work.asked("refrigerant_line_sizing")
    if lines is not None and lines.insulation is not None:
        yield Phrase("{} of insulation on the vapor line.", lines.insulation.thickness)
    ducts = work.asked("duct_system")
    wraps = set() if ducts is None else {section.insulation.nominal_r for section in ducts.sections if section.insulation is not None}
    for wrap in sorted(wraps):
        yield Phrase("{} on the ducts that are planned with it.", wrap)


def _air(work: Work) -> Iterator[Phrase]:
    ducts = work.result("duct_system")
    if ducts is not None:
        point = ducts.operating_point
        yield Phrase("{} at {} of external static pressure, filter clean.", point.airflow, point.static_pressure)
        least = min(ducts.outlets, key=lambda outlet: outlet.ratio, default=None)
        if least is not None:
            yield Phrase("Before damping, {} gets least of its share: {} of {}.", least.id, least.airflow, Airflow(least.design_airflow))
    drain = work.asked("condensate_drain")
    if drain is not None:
        yield Phrase("The trap is made for {} at the pan, filter dirty.", drain.pan_static_pressure)


def _water(work: Work) -> Iterator[Phrase]:
    loop = work.result("water_loop_flow")
    if loop is not None:
        needs = {need.unit: need.flow for need in loop.required}
        for unit in loop.units:
            if needs.get(unit.id) is not None:
                yield Phrase("{}: {}, at least {}.", unit.id, unit.flow, needs[unit.id])


def _prove(work: Work) -> Iterator[Phrase]:
    loop, lines = work.result("water_loop_flow"), work.asked("refrigerant_line_sizing")
    for unit in () if loop is None else loop.units:
        if unit.heat_rejected is not None:
            yield Phrase("{} gives {} to the water in cooling.", unit.id, unit.heat_rejected)
        if unit.heat_absorbed is not None:
            yield Phrase("{} takes {} from it in heating.", unit.id, unit.heat_absorbed)
    if lines is not None:
        yield Phrase(
            "Subcooling in cooling {}, superheat {}, unless the equipment's manual says otherwise.", lines.cooling.subcooling, lines.cooling.superheat
        )


def _hand_over(work: Work) -> Iterator[Phrase]:
    access = work.asked("service_access")
    if access is not None and access.service_space is not None:
        yield Phrase("A level service space of {} x {}.", access.service_space.length, access.service_space.width)
    drain = work.result("condensate_drain")
    pan = None if drain is None else drain.auxiliary_pan
    if pan is not None and pan.fills_with_condensate is not None:
        yield Phrase("With the first drain blocked the auxiliary pan fills in {}.", pan.fills_with_condensate)


PROOFS: dict[str, Callable[[Work], Iterator[Phrase]]] = {
    "access": _access,
    "hang": _hang,
    "drain": _drain,
    "refrigerant lines": _lines,
    "pressure test of the lines": _line_test,
    "vacuum and charge": _charge,
    "water loop": _loop,
    "flush the loop": _flush,
    "leakage test of the ducts": _leakage,
    "insulate": _insulate,
    "start the air": _air,
    "start the water": _water,
    "start and prove": _prove,
    "hand over": _hand_over,
}
"""By stage; a stage that is proved by looking has none."""
