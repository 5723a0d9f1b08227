"""What makes a water-loop question contradict itself, field by field."""

from collections.abc import Iterator, Sequence

from kneewall.calculations.water_loop_flow.messages import LoopPipe, LoopSupply, LoopUnit, SupplyKind, WaterLoopQuestion
from kneewall.kernel.quantity import Temperature
from kneewall.kernel.refusal import Fault, fault
from kneewall.physics.fittings import SPLITTING, is_known
from kneewall.physics.loops import DISCHARGE, SUPPLY, Layout
from kneewall.physics.pipes import PipeSize, not_made, pipe_size
from kneewall.physics.water import Properties

FIELDS_OF_SUPPLY: dict[SupplyKind, tuple[str, ...]] = {
    "fixed-pressure": ("pressure",),
    "pressure-tank": ("cut_in", "cut_out", "tank_volume", "precharge", "pump_flow", "rated_pressure", "check_valve"),
    "pump": ("points", "lift", "drawdown_flow", "drawdown", "check_valve"),
    "circulator": ("points", "fill_pressure"),
}
MAY_BE_LEFT_OUT = ("precharge", "lift", "drawdown_flow", "drawdown", "rated_pressure", "check_valve")
_FIELDS = tuple(dict.fromkeys(field for fields in FIELDS_OF_SUPPLY.values() for field in fields))


def question_faults(question: WaterLoopQuestion, properties: Properties) -> tuple[list[PipeSize], list[Fault]]:
    """The true sizes of the pipes, and everything that contradicts itself. The sizes are whole only where there are no faults."""
    found = [*names_faults(question), *loop_faults(question), *supply_faults(question.supply)]
    sizes: list[PipeSize] = []
    for number, pipe in enumerate(question.pipes):
        size = pipe_size(pipe.material, pipe.nominal_size)
        if size is None:
            found.append(not_made(pipe.material, f"/pipes/{number}/nominal_size"))
            continue
        sizes.append(size)
        if pipe.fittings:
            found += fitting_faults(pipe, size, number)
        if pipe.valves:
            found += valve_faults(pipe, number)
    for number, unit in enumerate(question.units):
        found += unit_faults(unit, number, properties)
    return sizes, found


def names_faults(question: WaterLoopQuestion) -> Iterator[Fault]:
    """Names that are used twice, lead nowhere or are not known."""
    seen: set[str] = set()
    named: tuple[tuple[str, Sequence[LoopPipe | LoopUnit]], ...] = (("pipes", question.pipes), ("units", question.units))
    for kind, ones in named:
        for i, one in enumerate(ones):
            if one.id in seen:
                yield fault(f"/{kind}/{i}/id", "{} is the name of another pipe or unit", one.id)
            seen.add(one.id)
            if one.start == one.end:
                yield fault(f"/{kind}/{i}/to", "leads back to the node {} from which it comes", one.start)
    if question.control_valve is not None and question.control_valve.on not in [pipe.id for pipe in question.pipes]:
        yield fault("/control_valve/on", "{} is not one of the pipes", question.control_valve.on)
    for i, call in enumerate(question.calls):
        if call not in [unit.id for unit in question.units]:
            yield fault(f"/calls/{i}", "{} is not one of the units", call)


def fitting_faults(pipe: LoopPipe, size: PipeSize, number: int) -> Iterator[Fault]:
    """Fittings that a pipe of this size cannot have."""
    for fitting, count in pipe.fittings.items():
        if count > 1.0 and fitting in SPLITTING:
            yield fault(f"/pipes/{number}/fittings/{fitting}", "a pipe has at most one such end")
        if count and not is_known(fitting, size.nominal_size):
            yield fault(f"/pipes/{number}/fittings/{fitting}", "is known from 1/2 to 2 in only")


def valve_faults(pipe: LoopPipe, number: int) -> Iterator[Fault]:
    """Fields of a pipe's valves that are missing or belong to another kind."""
    for place, valve in enumerate(pipe.valves):
        if valve.kind == "flow-regulator":
            if valve.flow is None:
                yield fault(f"/pipes/{number}/valves/{place}/flow", "is missing: the flow the regulator is made for")
            if valve.cv is not None:
                yield fault(f"/pipes/{number}/valves/{place}/cv", "a flow regulator holds a flow and has no Cv")
        else:
            if valve.cv is None:
                yield fault(f"/pipes/{number}/valves/{place}/cv", "is missing; a full-bore valve may stand under fittings instead")
            if valve.flow is not None:
                yield fault(f"/pipes/{number}/valves/{place}/flow", "belongs to a flow regulator only")
        if valve.rests is not None and valve.kind not in ("motorized", "solenoid"):
            yield fault(f"/pipes/{number}/valves/{place}/rests", "belongs to a motorized or solenoid valve only")
        if valve.mesh is not None and valve.kind != "strainer":
            yield fault(f"/pipes/{number}/valves/{place}/mesh", "belongs to a strainer only")


def unit_faults(unit: LoopUnit, number: int, properties: Properties) -> Iterator[Fault]:
    """What in a unit contradicts itself."""
    if unit.cooling is None and unit.heating is None and unit.minimum_flow is None:
        yield fault(f"/units/{number}", "give cooling, heating or the minimum flow, so that the unit's need of water is known")
    if not unit.own_valve and (unit.own_valve_closing_time is not None or unit.own_arrester):
        name = "own_valve_closing_time" if unit.own_valve_closing_time is not None else "own_arrester"
        yield fault(f"/units/{number}/{name}", "belongs to a valve of its own, which this unit does not have")
    if unit.heating is not None and unit.heating.power >= unit.heating.capacity:
        yield fault(
            f"/units/{number}/heating/power",
            "{} is not below the heating capacity {}: no heat would come from the water",
            unit.heating.power,
            unit.heating.capacity,
        )
    if unit.leaving_limit is not None and unit.leaving_limit <= properties.freezing:
        freezing = Temperature(properties.freezing)
        yield fault(f"/units/{number}/leaving_limit", "{} is at or below the freezing point {} of the fluid", unit.leaving_limit, freezing)


def supply_faults(supply: LoopSupply) -> Iterator[Fault]:
    """Fields of the supply that are missing, do not belong to its kind or contradict each other."""
    own = FIELDS_OF_SUPPLY[supply.kind]
    for name in _FIELDS:
        given = getattr(supply, name)
        if given is None or given == []:
            if name in own and name not in MAY_BE_LEFT_OUT:
                yield fault(f"/supply/{name}", "is missing for a supply of kind {}", supply.kind)
        elif name not in own:
            yield fault(f"/supply/{name}", "does not belong to a supply of kind {}", supply.kind)
    if supply.kind == "pressure-tank" and supply.cut_in is not None and supply.cut_out is not None:
        if supply.cut_out <= supply.cut_in:
            yield fault("/supply/cut_out", "{} is not above the cut-in {}", supply.cut_out, supply.cut_in)
        if supply.precharge is not None and supply.precharge > supply.cut_in:
            yield fault(
                "/supply/precharge", "{} is above the cut-in {}: the tank would be empty before the pump starts", supply.precharge, supply.cut_in
            )
    if supply.kind == "pump" and (supply.drawdown is None) != (supply.drawdown_flow is None):
        yield fault("/supply/drawdown", "give drawdown and drawdown flow together")
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
