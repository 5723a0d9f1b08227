"""The working of a water-loop answer, line by line."""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.answered import FlowRequired, WaterLoopResult
from kneewall.calculations.water_loop_flow.calculate import find
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.heat import greatest_rise, heat_absorbed, heat_rejected, leaving_limit
from kneewall.calculations.water_loop_flow.messages import LoopUnit, WaterLoopQuestion
from kneewall.calculations.water_loop_flow.surge import way_back
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import AbsolutePressure, GaugePressure, Length, Power, PressureDrop, Temperature, TemperatureDifference, WaterFlow
from kneewall.kernel.words import in_words
from kneewall.physics import fittings, friction, hammer, network, water
from kneewall.physics.loops import DISCHARGE


def working(question: WaterLoopQuestion, answer: Answer[WaterLoopResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    found, result = find(question), answer.result
    fluid = result.fluid
    lines = [
        WorkingLine(
            step="fluid", formula="k = rho cp", value=fluid.heat_per_flow, rule=water.fluid_rule(question.fluid).id,
            substituted=Phrase("{} at {}: density {}, viscosity {}", in_words(question.fluid.kind), question.entering_water, fluid.density, fluid.viscosity),
        )
    ]  # fmt: skip
    for unit, required in zip(question.units, result.required, strict=True):
        lines += _heat_lines(found, unit, required)
    lines.append(_drive_line(found, result))
    lines += _pipe_lines(found, result)
    lines += _way_lines(found)
    lines += _tank_lines(found, result)
    lines += _surge_lines(found, result)
    return lines


def _heat_lines(found: Found, unit: LoopUnit, required: FlowRequired) -> list[WorkingLine]:
    lines = []
    entering = found.question.entering_water
    if unit.heating is not None:
        duty = unit.heating
        fall = TemperatureDifference(entering - leaving_limit(unit, found.water))
        lines.append(
            WorkingLine(
                step=f"heat {unit.id} takes from the water", formula="Q = capacity - power", value=Power(heat_absorbed(duty)), rule=rules.HEAT_BALANCE.id,
                substituted=Phrase("{} - {}, over a fall of {} to {}", duty.capacity, duty.power, fall, Temperature(leaving_limit(unit, found.water))),
            )
        )  # fmt: skip
    if unit.cooling is not None:
        duty = unit.cooling
        rise = TemperatureDifference(greatest_rise(unit, found.question.loop))
        lines.append(
            WorkingLine(
                step=f"heat {unit.id} gives to the water", formula="Q = capacity + power", value=Power(heat_rejected(duty)), rule=rules.HEAT_BALANCE.id,
                substituted=Phrase("{} + {}, over a rise of {}", duty.capacity, duty.power, rise),
            )
        )  # fmt: skip
    lines.append(
        WorkingLine(
            step=f"flow {unit.id} needs", formula="q = Q/(k dT), the largest", value="none suffices" if required.flow is None else required.flow, rule=rules.REQUIRED_FLOW.id,
            substituted=Phrase("governed by {}", required.governed_by),
        )
    )  # fmt: skip
    return lines


def _drive_line(found: Found, result: WaterLoopResult) -> WorkingLine:
    back = GaugePressure(found.situation.back)
    drive = PressureDrop(result.supply.pressure - found.situation.back)
    return WorkingLine(
        step="pressure that drives the water", formula="dp = p supply - p discharge - rho g h", value=drive, rule=network.NETWORK.id,
        substituted=Phrase("{} at the supply less {} for the discharge and its height {}", result.supply.pressure, back, Length(found.situation.heights[DISCHARGE])),
    )  # fmt: skip


def _pipe_lines(found: Found, result: WaterLoopResult) -> list[WorkingLine]:
    lines = []
    for index, (pipe, answered) in enumerate(zip(found.question.pipes, result.pipes, strict=True)):
        if not answered.flow:
            continue
        size = found.situation.piping.sizes[index]
        roughness = size.wall.roughness if pipe.roughness is None else pipe.roughness
        factor = friction.friction_factor(answered.reynolds_number, roughness / size.inside_diameter)
        coefficient = fittings.coefficient_of_fittings(pipe.fittings, size.nominal_size, size.inside_diameter)
        says = Phrase(
            "{} at {} in {}: Re {}, f {}, L {}, fittings K {}, and the valves", answered.flow, answered.velocity, size.inside_diameter,
            answered.reynolds_number, factor, pipe.length, coefficient,
        )  # fmt: skip
        lines.append(
            WorkingLine(
                step=f"loss in {pipe.id}", formula="dp = (f L/D + K) rho V^2/2 + (rho/rho0)(q/Cv)^2", substituted=says, value=answered.pressure_drop,
                rule=friction.DARCY_WEISBACH.id,
            )
        )  # fmt: skip
    return lines


def _way_lines(found: Found) -> list[WorkingLine]:
    """For each unit: the losses along a way through it add up to what drives the water."""
    lines = []
    links, flows = found.situation.piping.links, found.least.flows
    against = [-flow for flow in flows]
    for number, unit in enumerate(found.question.units):
        index = found.situation.piping.unit_link(number)
        if not flows[index]:
            continue
        way = [*reversed(way_back(found.situation.piping, flows, index)), *way_back(found.situation.piping, against, index, DISCHARGE)[1:]]
        lost = sum([abs(found.losses[i]) for i in way])
        coil = PressureDrop(abs(found.losses[index]))
        lines.append(
            WorkingLine(
                step=f"way through {unit.id}", formula="sum of the losses on the way = what drives the water", value=PressureDrop(lost), rule=network.NETWORK.id,
                substituted=Phrase("{}; the coil takes {} at {}", " + ".join(links[i].id for i in way), coil, WaterFlow(flows[index])),
            )
        )  # fmt: skip
    return lines


def _tank_lines(found: Found, result: WaterLoopResult) -> list[WorkingLine]:
    supply = found.question.supply
    if found.cycle is None or supply.cut_in is None or supply.cut_out is None:
        return []
    ends = [AbsolutePressure(pressure + 101325.0) for pressure in (supply.cut_in, supply.cut_out)]
    lines = [
        WorkingLine(
            step="water from the tank", formula="V P1 (1/P2 - 1/P3), absolute", value=result.supply.drawdown, rule=rules.TANK_DRAWDOWN.id,
            substituted=Phrase("{} between {} and {}", supply.tank_volume, *ends),
        )
    ]  # fmt: skip
    if result.supply.run_time is not None:
        says = Phrase("{} from the pump, {} to {} drawn", supply.pump_flow, result.supply.flow, result.supply.flow_at_cut_out)
        lines.append(WorkingLine(step="pump runs", formula="t = V/(Qp - Qd)", substituted=says, value=result.supply.run_time, rule=rules.CYCLING.id))
    return lines


def _surge_lines(found: Found, result: WaterLoopResult) -> list[WorkingLine]:
    control, valve, surge = found.question.control_valve, result.control_valve, found.surge
    if control is None or valve is None or surge is None:
        return []
    names = ", ".join(found.situation.piping.links[i].id for i in surge.way)
    return [
        WorkingLine(
            step="drop of the control valve", formula="dp = (rho/rho0)(q/Cv)^2", value=valve.pressure_drop, rule=fittings.VALVE_COEFFICIENT.id,
            substituted=Phrase("Cv {}", control.cv),
        ),
        WorkingLine(
            step="time of the wave", formula="sum of 2 L/a", value=valve.critical_time, rule=hammer.CRITICAL_TIME.id,
            substituted=Phrase("{} back to the supply through {}; {} in the valve's pipe", Length(surge.length), names, valve.wave_speed),
        ),
        WorkingLine(
            step="surge", formula="2 rho sum(L V)/t" if surge.slow else "rho a V", value=valve.surge_pressure,
            rule=hammer.SLOW_CLOSING.id if surge.slow else hammer.JOUKOWSKY.id,
            substituted=Phrase("closing in {}", control.closing_time) if control.closing_time is not None else Phrase("closing at once"),
        ),
        WorkingLine(
            step="peak", formula="pressure at rest + surge", value=valve.peak_pressure, rule=rules.PEAK_PRESSURE.id,
            substituted=Phrase("{} + {}", valve.static_pressure, valve.surge_pressure),
        ),
    ]  # fmt: skip
