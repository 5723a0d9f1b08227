"""The question's pipes and coils as links of a network: what each loses at a flow."""

from collections.abc import Sequence

import msgspec

from kneewall.calculations.water_loop_flow.messages import LoopPipe, LoopUnit, LoopValve, WaterLoopQuestion
from kneewall.physics.fittings import coefficient_of_fittings, loss_of_valve
from kneewall.physics.hammer import wave_speed
from kneewall.physics.loops import Link
from kneewall.physics.pipes import PipeSize
from kneewall.physics.resistance import Coil, Friction, Regulator, Resistance
from kneewall.physics.water import Liquid, plain_water, rated_water

LEAST_REGULATOR_DROP = 2.0 * 6894.757293168361
"""Pa below which a flow regulator is an orifice."""
REGULATOR_SPREAD = 0.02 / (100.0 * 6894.757293168361)
"""Share of its flow by which a regulator lets more through, per Pa above that: 2 % over 100 psi."""
MESH = {"20": 1.0, "40": 1.2, "60": 1.4, "80": 1.6, "100": 1.7}


class Piping(msgspec.Struct, frozen=True):
    """The network of a question. Links stand in the order of the question, pipes first, then units."""

    links: list[Link]
    sizes: list[PipeSize]
    bores: list[float]
    speeds: list[float]
    """Of a pressure wave in each pipe, m/s."""

    def unit_link(self, number: int) -> int:
        """The link of the unit of this number."""
        return len(self.sizes) + number


def piping_of(question: WaterLoopQuestion, sizes: list[PipeSize], liquid: Liquid) -> Piping:
    """Every pipe with its fittings and valves, and every coil, as links."""
    valve = question.control_valve
    links, bores = [], []
    for pipe, size in zip(question.pipes, sizes, strict=True):
        bore = size.bore
        extra = loss_of_valve(valve.cv, liquid.density) if valve is not None and valve.on == pipe.id else 0.0
        links.append(Link(pipe.id, pipe.start, pipe.end, pipe_resistance(pipe, size, bore, liquid, extra)))
        bores.append(bore)
    links += [Link(unit.id, unit.start, unit.end, coil_resistance(unit, liquid)) for unit in question.units]
    return Piping(links, sizes, bores, speeds_in(sizes, liquid))


def speeds_in(sizes: Sequence[PipeSize], liquid: Liquid) -> list[float]:
    """Speed of a pressure wave in each pipe, m/s, with the speed of sound in water. Source: hammer.wave-speed."""
    water = plain_water()
    sound = water.speed_of_sound(max(liquid.temperature, water.freezing))
    bulk_modulus = liquid.density * sound * sound
    return [wave_speed(sound, bulk_modulus, size.wall.elastic_modulus, size.inside_diameter, size.thickness) for size in sizes]


def pipe_resistance(pipe: LoopPipe, size: PipeSize, bore: float, liquid: Liquid, extra: float = 0.0) -> Resistance:
    """What a pipe with its fittings and valves loses. Source: friction.darcy-weisbach, fittings.loss-coefficient, fittings.valve-coefficient."""
    diameter = size.inside_diameter
    velocity_pressure = liquid.density / (2.0 * bore * bore)
    roughness = size.wall.roughness if pipe.roughness is None else pipe.roughness
    friction = Friction(liquid.density * diameter / (bore * liquid.viscosity), roughness / diameter, pipe.length / diameter * velocity_pressure)
    square = extra
    if pipe.fittings:
        square += coefficient_of_fittings(pipe.fittings, size.nominal_size, diameter) * velocity_pressure
    regulators: tuple[Regulator, ...] = ()
    for valve in pipe.valves:
        if valve.kind == "flow-regulator" and valve.flow is not None:
            regulators += (Regulator(valve.flow, LEAST_REGULATOR_DROP, 1.0 / (REGULATOR_SPREAD * valve.flow)),)
        else:
            square += valve_loss(valve, liquid)
    return Resistance((friction,), square, (), regulators)


def valve_loss(valve: LoopValve, liquid: Liquid) -> float:
    """Loss of a valve or strainer per flow squared. Source: fittings.valve-coefficient, water-loop-flow.strainer."""
    if valve.cv is None:
        return 0.0
    mesh = MESH[valve.mesh] if valve.mesh is not None else 1.0
    return mesh * loss_of_valve(valve.cv, liquid.density)


def coil_resistance(unit: LoopUnit, liquid: Liquid) -> Resistance:
    """What a coil loses: the point of its table by a power law, corrected for the liquid: (rho/rho0)^(n-1) (mu/mu0)^(2-n).

    Source: water-loop-flow.coil. Valid: n 1.5 to 2.3; above 2 viscosity plays no part.
    """
    coil, rated = unit.coil, rated_water()
    n = coil.exponent
    thicker = (liquid.density / rated.density) ** (n - 1.0) * (liquid.viscosity / rated.viscosity) ** max(0.0, 2.0 - n)
    return Resistance((), 0.0, (Coil(coil.pressure_drop * thicker / coil.flow**n, n, coil.flow),), ())
