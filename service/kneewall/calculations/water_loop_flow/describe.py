"""The result of a water-loop question, put together from what was found."""

from kneewall.calculations.water_loop_flow.answered import (
    FlowOfUnit,
    LeavingWater,
    LoopCall,
    LoopFluidState,
    NodeOnLoop,
    PipeFlushing,
    PipeOnLoop,
    SupplyOnLoop,
    UnitOnLoop,
    ValveOnLoop,
    WaterLoopResult,
)
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.heat import heat_absorbed, heat_rejected, leaving_temperature
from kneewall.calculations.water_loop_flow.messages import LoopUnit
from kneewall.calculations.water_loop_flow.states import losses_and_pressures
from kneewall.kernel.quantity import (
    CyclingRate,
    Density,
    Duration,
    DynamicViscosity,
    GaugePressure,
    Length,
    Number,
    Power,
    PressureDrop,
    ShortDuration,
    Temperature,
    Volume,
    VolumetricHeatCapacity,
    WaterFlow,
    WaterVelocity,
)
from kneewall.physics.constants import STANDARD_GRAVITY
from kneewall.physics.fittings import loss_of_valve
from kneewall.physics.loops import DISCHARGE, SUPPLY

PURGE_VELOCITY = WaterVelocity.of(2, "ft/s")


def result_of(found: Found) -> WaterLoopResult:
    """What flows where, in quantities."""
    liquid = found.water.entering
    question = found.question
    return WaterLoopResult(
        fluid=LoopFluidState(
            freezing_point=Temperature(found.water.properties.freezing),
            density=Density(liquid.density),
            viscosity=DynamicViscosity(liquid.viscosity),
            heat_per_flow=VolumetricHeatCapacity(liquid.density * liquid.specific_heat),
        ),
        required=found.required,
        units=[_unit(found, number, unit) for number, unit in enumerate(question.units)],
        pipes=_pipes(found),
        nodes=_nodes(found),
        control_valve=_valve(found),
        supply=_supply(found),
        calls=_calls(found),
        flushing=[
            PipeFlushing(pipe=pipe.id, flow=WaterFlow(PURGE_VELOCITY * bore))
            for pipe, bore in zip(question.pipes, found.situation.piping.bores, strict=True)
        ],
    )


def _unit(found: Found, number: int, unit: LoopUnit) -> UnitOnLoop:
    index = found.situation.piping.unit_link(number)
    flow = found.least.flows[index]
    rejected = None if unit.cooling is None else heat_rejected(unit.cooling)
    absorbed = None if unit.heating is None else heat_absorbed(unit.heating)
    return UnitOnLoop(
        id=unit.id,
        flow=WaterFlow(flow),
        flow_at_cut_out=None if found.greatest is found.least else WaterFlow(found.greatest.flows[index]),
        pressure_drop=PressureDrop(abs(found.losses[index])),
        leaving_water=LeavingWater(
            cooling=None if rejected is None else _leaving(found, rejected, flow),
            heating=None if absorbed is None else _leaving(found, -absorbed, flow),
        ),
        heat_rejected=None if rejected is None else Power(rejected),
        heat_absorbed=None if absorbed is None else Power(absorbed),
    )


def _leaving(found: Found, heat: float, flow: float) -> Temperature | None:
    leaving = leaving_temperature(heat, flow, found.water)
    return None if leaving is None else Temperature(leaving)


def _pipes(found: Found) -> list[PipeOnLoop]:
    piping, liquid = found.situation.piping, found.water.entering
    kinematic = liquid.viscosity / liquid.density
    several = found.greatest is not found.least
    pipes = []
    for index, (size, bore) in enumerate(zip(piping.sizes, piping.bores, strict=True)):
        flow = found.least.flows[index]
        velocity = abs(flow) / bore
        pipes.append(
            PipeOnLoop(
                id=piping.links[index].id,
                flow=WaterFlow(flow),
                velocity=WaterVelocity(velocity),
                velocity_at_cut_out=WaterVelocity(found.greatest_velocities[index]) if several else None,
                pressure_drop=PressureDrop(abs(found.losses[index])),
                reynolds_number=Number(velocity * size.inside_diameter / kinematic),
            )
        )
    return pipes


def _nodes(found: Found) -> list[NodeOnLoop]:
    heights = found.situation.heights
    shut = found.shut or {}
    return [
        NodeOnLoop(
            id=node,
            elevation=Length(heights[node]),
            pressure=GaugePressure(pressure),
            pressure_shut=GaugePressure(shut[node]) if node in shut else None,
        )
        for node, pressure in found.pressures.items()
    ]


def _valve(found: Found) -> ValveOnLoop | None:
    control, surge = found.question.control_valve, found.surge
    if control is None or found.valve is None or surge is None:
        return None
    flow = found.least.flows[found.valve]
    rest = pressure_before(found)
    return ValveOnLoop(
        pressure_drop=PressureDrop(loss_of_valve(control.cv, found.water.entering.density) * flow * flow),
        static_pressure=GaugePressure(rest),
        wave_speed=WaterVelocity(surge.speed),
        critical_time=ShortDuration(surge.critical_time),
        surge_pressure=PressureDrop(surge.rise),
        peak_pressure=GaugePressure(rest + surge.rise),
    )


def pressure_before(found: Found) -> float:
    """The gauge pressure before the control valve at the greatest pressure of the supply, Pa: shut and at rest, which is the higher one.

    The valve stands at the leaving end of its pipe: shut, that end has the pressure of the pipe's beginning but for its height. Where water runs
    round the shut valve there is no rest, and the pressure of the open loop stands for it.
    """
    control, valve = found.question.control_valve, found.valve
    assert control is not None and valve is not None
    pipe, flow = found.question.pipes[valve], found.greatest.flows[valve]
    start, end = (pipe.start, pipe.end) if flow >= 0.0 else (pipe.end, pipe.start)
    if found.shut is None:
        _, pressures = losses_and_pressures(found.situation, found.layout, found.greatest)
        return pressures[end] + loss_of_valve(control.cv, found.situation.density) * flow * flow
    heights = found.situation.heights
    return found.shut[start] - found.situation.density * STANDARD_GRAVITY * (heights[end] - heights[start])


def _supply(found: Found) -> SupplyOnLoop:
    cycle, supply = found.cycle, found.question.supply
    at_supply = found.pressures[SUPPLY]
    weight = found.situation.density * STANDARD_GRAVITY
    head = None
    if supply.kind == "circulator":
        head = Length((at_supply - found.pressures[DISCHARGE]) / weight)
    elif supply.kind == "pump":
        fall = (supply.drawdown or 0.0) * max(found.least.total, 0.0) / (supply.drawdown_flow or 1.0)
        head = Length(at_supply / weight + (supply.lift or 0.0) + fall)
    return SupplyOnLoop(
        flow=WaterFlow(found.least.total),
        pressure=GaugePressure(at_supply),
        flow_at_cut_out=None if found.greatest is found.least else WaterFlow(found.greatest.total),
        head=head,
        drawdown=None if cycle is None else Volume(cycle.drawdown),
        run_time=None if cycle is None or cycle.run_time is None else Duration(cycle.run_time),
        cycles_per_hour=None if cycle is None else CyclingRate(cycle.starts or 0.0),
    )


def _calls(found: Found) -> list[LoopCall]:
    names, first = [unit.id for unit in found.question.units], len(found.question.pipes)
    calls = []
    told, units = None, []
    for calling, state in found.calls:
        flows = state.flows[first:]
        if state is not told:
            told, units = state, [FlowOfUnit(unit=name, flow=WaterFlow(flow)) for name, flow in zip(names, flows, strict=True)]
        idle = sum([abs(flow) for name, flow in zip(names, flows, strict=True) if name not in calling])
        calls.append(LoopCall(calling=calling, flow=WaterFlow(state.total), idle_flow=WaterFlow(idle), units=units))
    return calls
