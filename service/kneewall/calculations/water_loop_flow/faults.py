"""What makes a water-loop question contradict itself, field by field."""

from collections.abc import Iterator

from kneewall.calculations.water_loop_flow.messages import LoopPipe, LoopSupply, LoopUnit, WaterLoopQuestion
from kneewall.kernel.quantity import Temperature
from kneewall.kernel.refusal import Fault, fault
from kneewall.physics.fittings import SPLITTING, is_known
from kneewall.physics.loops import DISCHARGE, SUPPLY, Layout
from kneewall.physics.pipes import PipeSize, not_made, pipe_size
from kneewall.physics.water import Properties

FIELDS_OF_SUPPLY = {
    "fixed-pressure": ("pressure",),
    "pressure-tank": ("cut_in", "cut_out", "tank_volume", "precharge", "pump_flow"),
    "pump": ("points", "lift", "drawdown_flow", "drawdown"),
    "circulator": ("points", "fill_pressure"),
}
MAY_BE_LEFT_OUT = ("precharge", "lift", "drawdown_flow", "drawdown")


def question_faults(question: WaterLoopQuestion, properties: Properties) -> tuple[list[PipeSize], list[Fault]]:
    """The true sizes of the pipes, and everything that contradicts itself. The sizes are whole only where there are no faults."""
    found = [*names_faults(question), *loop_faults(question), *supply_faults(question.supply)]
    sizes: list[PipeSize] = []
    for number, pipe in enumerate(question.pipes):
        size, faults = pipe_faults(pipe, f"/pipes/{number}")
        found += faults
        if size is not None:
            sizes.append(size)
    for number, unit in enumerate(question.units):
        found += unit_faults(unit, f"/units/{number}", properties)
    return sizes, found


def names_faults(question: WaterLoopQuestion) -> Iterator[Fault]:
    """Names that are used twice, lead nowhere or are not known."""
    seen: set[str] = set()
    named: list[tuple[str, LoopPipe | LoopUnit]] = [(f"/pipes/{i}", pipe) for i, pipe in enumerate(question.pipes)]
    named += [(f"/units/{i}", unit) for i, unit in enumerate(question.units)]
    for place, one in named:
        if one.id in seen:
            yield fault(f"{place}/id", "{} is the name of another pipe or unit", one.id)
        seen.add(one.id)
        if one.start == one.end:
            yield fault(f"{place}/to", "leads back to the node {} from which it comes", one.start)
    if question.control_valve is not None and question.control_valve.on not in {pipe.id for pipe in question.pipes}:
        yield fault("/control_valve/on", "{} is not one of the pipes", question.control_valve.on)
    units = {unit.id for unit in question.units}
    for i, call in enumerate(question.calls):
        if call not in units:
            yield fault(f"/calls/{i}", "{} is not one of the units", call)


def pipe_faults(pipe: LoopPipe, pointer: str) -> tuple[PipeSize | None, list[Fault]]:
    """The pipe's true size, and what does not fit it."""
    size = pipe_size(pipe.material, pipe.nominal_size)
    if size is None:
        return None, [not_made(pipe.material, f"{pointer}/nominal_size")]
    found = []
    for fitting, count in pipe.fittings.items():
        if fitting in SPLITTING:
            if count > 1.0:
                found.append(fault(f"{pointer}/fittings/{fitting}", "a pipe has at most one such end"))
        elif count and not is_known(fitting, size.nominal_size):
            found.append(fault(f"{pointer}/fittings/{fitting}", "is known from 1/2 to 2 in only"))
    for number, valve in enumerate(pipe.valves):
        place = f"{pointer}/valves/{number}"
        regulates = valve.kind == "flow-regulator"
        if regulates and valve.flow is None:
            found.append(fault(f"{place}/flow", "is missing: the flow the regulator is made for"))
        if regulates and valve.cv is not None:
            found.append(fault(f"{place}/cv", "a flow regulator holds a flow and has no Cv"))
        if not regulates and valve.cv is None:
            found.append(fault(f"{place}/cv", "is missing; a full-bore valve may stand under fittings instead"))
        if not regulates and valve.flow is not None:
            found.append(fault(f"{place}/flow", "belongs to a flow regulator only"))
        if valve.mesh is not None and valve.kind != "strainer":
            found.append(fault(f"{place}/mesh", "belongs to a strainer only"))
    return size, found


def unit_faults(unit: LoopUnit, pointer: str, properties: Properties) -> Iterator[Fault]:
    """What in a unit contradicts itself."""
    if unit.cooling is None and unit.heating is None and unit.minimum_flow is None:
        yield fault(pointer, "give cooling, heating or minimum_flow, so that the unit's need of water is known")
    if unit.heating is not None and unit.heating.power >= unit.heating.capacity:
        yield fault(
            f"{pointer}/heating/power",
            "{} is not below the heating capacity {}: no heat would come from the water",
            unit.heating.power,
            unit.heating.capacity,
        )
    if unit.leaving_limit is not None and unit.leaving_limit <= properties.freezing:
        yield fault(
            f"{pointer}/leaving_limit", "{} is at or below the freezing point {} of the fluid", unit.leaving_limit, Temperature(properties.freezing)
        )


def supply_faults(supply: LoopSupply) -> Iterator[Fault]:
    """Fields of the supply that are missing, do not belong to its kind or contradict each other."""
    own = FIELDS_OF_SUPPLY[supply.kind]
    for name in dict.fromkeys(field for fields in FIELDS_OF_SUPPLY.values() for field in fields):
        given = getattr(supply, name)
        if given not in (None, []) and name not in own:
            yield fault(f"/supply/{name}", "does not belong to a supply of kind {}", supply.kind)
        if given in (None, []) and name in own and name not in MAY_BE_LEFT_OUT:
            yield fault(f"/supply/{name}", "is missing for a supply of kind {}", supply.kind)
    if supply.kind == "pressure-tank" and supply.cut_in is not None and supply.cut_out is not None:
        if supply.cut_out <= supply.cut_in:
            yield fault("/supply/cut_out", "{} is not above the cut-in {}", supply.cut_out, supply.cut_in)
        if supply.precharge is not None and supply.precharge > supply.cut_in:
            yield fault(
                "/supply/precharge", "{} is above the cut-in {}: the tank would be empty before the pump starts", supply.precharge, supply.cut_in
            )
    if supply.kind == "pump" and (supply.drawdown is None) != (supply.drawdown_flow is None):
        yield fault("/supply/drawdown", "give drawdown and drawdown_flow together")
    if supply.kind in ("pump", "circulator") and supply.points:
        yield from _curve_faults(supply)


def _curve_faults(supply: LoopSupply) -> Iterator[Fault]:
    if len(supply.points) < 2:
        yield fault("/supply/points", "a curve needs at least two points")
    for number, (before, after) in enumerate(zip(supply.points, supply.points[1:], strict=False), start=1):
        if after.flow <= before.flow * (1.0 + 1e-6):
            yield fault(f"/supply/points/{number}/flow", "{} does not lie above the flow before it, {}", after.flow, before.flow)
        if after.head > before.head:
            yield fault(f"/supply/points/{number}/head", "{} lies above the head before it, {}: a curve falls", after.head, before.head)


def loop_faults(question: WaterLoopQuestion) -> Iterator[Fault]:
    """What an open or a closed loop cannot have."""
    if question.loop == "open" and question.fluid.kind != "water":
        yield fault(
            "/fluid/kind", "antifreeze may not be let go: an open loop carries plain water", rule="water-loop-flow.no-antifreeze-in-open-loop"
        )
    if (question.loop == "closed") != (question.supply.kind == "circulator"):
        yield fault("/supply/kind", "a closed loop has a circulator, and an open loop has another supply; this loop is {}", question.loop)
    if question.loop == "closed" and question.discharge is not None:
        yield fault("/discharge", "a closed loop has no discharge; the node `discharge` is the circulator's inlet")


def layout_faults(question: WaterLoopQuestion, layout: Layout) -> list[Fault]:
    """Pipes that hang nowhere, and a supply from which the discharge cannot be reached."""
    if layout.apart:
        pipes = len(question.pipes)
        return [fault(f"/pipes/{i}" if i < pipes else f"/units/{i - pipes}", "is not joined to the supply by any pipe or unit") for i in layout.apart]
    if not layout.flows_through:
        return [fault("/pipes", "no way leads from the node {} to the node {}; name the ends of the loop so", SUPPLY, DISCHARGE)]
    return []
