"""What a condensate-drain question asks."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.quantity import Airflow, AirPressure, Dimension, Length, Power, Slope, Temperature, WaterFlow
from kneewall.kernel.question import Question, asked
from kneewall.physics.pipe_span import HungMaterial
from kneewall.physics.valves import ValveRest

FanPosition = Literal["draw-through", "blow-through"]
Code = Literal["IRC-2018", "IMC-2018", "UPC-2021", "UMC-2024"]
PanMaterial = Literal["galvanized-steel", "stainless-steel", "aluminum", "copper", "plastic"]
Protection = Literal["pan-and-drain", "second-drain", "pan-and-switch", "switch-only"]
VentPosition = Literal["after-trap", "before-trap", "none"]
LeakValve = Literal["supply-side", "leaving-side", "both-sides"]
Place = Literal["attic", "crawl-space", "occupied-space"]


class CoilAir(Question, frozen=True, kw_only=True):
    """Air entering or leaving the cooling coil."""

    dry_bulb: Annotated[Temperature, asked("Dry-bulb temperature", least="33 degF", most="130 degF")]
    wet_bulb: Annotated[Temperature, asked("Wet-bulb temperature, not above the dry bulb", least="33 degF", most="110 degF")]


class DrainPipe(Question, frozen=True, kw_only=True):
    """The pipe of the condensate line, trap included."""

    material: Annotated[HungMaterial, msgspec.Meta(description="What the pipe is made of")] = "pvc-schedule-40"
    nominal_size: Annotated[Dimension, asked("Nominal size", least="1/4 in", most="4 in")]
    pan_outlet_size: Annotated[Dimension, asked("Nominal size of the pan's drain connection", least="1/4 in", most="4 in")] | None = None


class DrainRun(Question, frozen=True, kw_only=True):
    """The line from the trap's outlet to the place of disposal."""

    length: Annotated[Length, asked("Length along the pipe from the trap's outlet to the end", least="0 ft", most="500 ft")]
    slope: Annotated[Slope, asked("Fall per length; negative rises toward the end", least="-12 in/ft", most="12 in/ft")]
    drop_at_fittings: (
        Annotated[Dimension, asked("Sum of vertical drops beside the slope; none where left out", least="0 in", most="600 in")] | None
    ) = None
    hanger_spacing: Annotated[Length, asked("Distance between hangers", least="3 in", most="30 ft")] | None = None


class DrainElevations(Question, frozen=True, kw_only=True):
    """Elevations above any one datum, such as the floor below; negative below it."""

    pan_outlet: Annotated[Length, asked("Elevation of the invert (inside bottom) of the pan's drain outlet", least="-500 ft", most="500 ft")]
    receiver_rim: Annotated[Length, asked("Elevation of the receiver's flood rim", least="-500 ft", most="500 ft")]
    air_gap: (
        Annotated[
            Dimension, asked("Gap from the end of the pipe to the rim; two pipe bores, at least 1 in, where left out", least="0 in", most="24 in")
        ]
        | None
    ) = None
    clear_below: (
        Annotated[
            Length, asked("Elevation of the first thing below the trap: auxiliary pan floor, insulation or joist", least="-500 ft", most="500 ft")
        ]
        | None
    ) = None
    outlet_above_base: (
        Annotated[Dimension, asked("Height of the pan outlet's invert above the unit's underside", least="0 in", most="100 in")] | None
    ) = None


class UnitFootprint(Question, frozen=True, kw_only=True):
    """The unit (or coil) seen from above."""

    length: Annotated[Dimension, asked("Length", least="6 in", most="240 in")]
    width: Annotated[Dimension, asked("Width", least="6 in", most="240 in")]


class PanOffered(Question, frozen=True, kw_only=True):
    """The auxiliary pan below the unit, inside."""

    length: Annotated[Dimension, asked("Inside length", least="6 in", most="300 in")]
    width: Annotated[Dimension, asked("Inside width", least="6 in", most="300 in")]
    depth: Annotated[Dimension, asked("Depth to the rim", least="1/8 in", most="24 in")]
    material: Annotated[PanMaterial, msgspec.Meta(description="What the pan is made of")] = "galvanized-steel"
    thickness: Annotated[Dimension, asked("Thickness of the sheet", least="0.005 in", most="1 in")] | None = None
    floor: (
        Annotated[
            Length, asked("Elevation of its floor, same datum as the heights; where its drain leaves if left out", least="-500 ft", most="500 ft")
        ]
        | None
    ) = None


class PanDrain(Question, frozen=True, kw_only=True):
    """The auxiliary pan's (or second outlet's) own drain, to a place where somebody sees it drip."""

    nominal_size: Annotated[Dimension, asked("Nominal size", least="1/4 in", most="4 in")]
    outlet: Annotated[Length, asked("Elevation of the drain's outlet at the pan, same datum", least="-500 ft", most="500 ft")]
    length: Annotated[Length, asked("Length along the pipe", least="0 ft", most="500 ft")]
    slope: Annotated[Slope, asked("Fall per length; negative rises toward the end", least="-12 in/ft", most="12 in/ft")]
    end: Annotated[Length, asked("Elevation at which it has to come out", least="-500 ft", most="500 ft")]


class LevelSwitch(Question, frozen=True, kw_only=True):
    """The level switch that stops the unit: in the auxiliary pan, or alone in the first drain or its pan."""

    above_outlet: (
        Annotated[Dimension, asked("How far above the invert of the first drain's outlet it trips", least="-12 in", most="24 in")] | None
    ) = None
    below_rim: Annotated[Dimension, asked("How far below the rim, over which the water would run, it trips", least="-12 in", most="24 in")] | None = (
        None
    )
    stops_unit: Annotated[bool, msgspec.Meta(description="Whether the unit stops when it trips")] | None = None


class AuxiliaryPan(Question, frozen=True, kw_only=True):
    """Protection of the house where the first drain blocks."""

    unit: Annotated[UnitFootprint, msgspec.Meta(description="The unit or coil above the pan")]
    pan: Annotated[PanOffered, msgspec.Meta(description="The pan to be checked")] | None = None
    protection: (
        Annotated[
            Protection,
            msgspec.Meta(
                description="pan-and-drain: pan with its own drain; second-drain: a higher outlet with its own drain; pan-and-switch: pan without drain "
                "but with a level switch; switch-only: level switch in the first drain or its pan"
            ),
        ]
        | None
    ) = None
    drain: Annotated[PanDrain, msgspec.Meta(description="The pan's or the second outlet's own drain")] | None = None
    trap_reach: (
        Annotated[Dimension, asked("How far the trap and its fittings stand out beyond the unit's end, along its length", least="0 in", most="60 in")]
        | None
    ) = None
    loop_flow: Annotated[WaterFlow, asked("Loop water that a broken hose or coil would let out", least="0.1 gpm", most="500 gpm")] | None = None
    leak_shutoff: Annotated[bool, msgspec.Meta(description="A leak sensor in the pan closes the loop valve and stops compressor and pump")] | None = (
        None
    )
    leak_valve: (
        Annotated[LeakValve, msgspec.Meta(description="Where the valve stands that the leak sensor closes: before the unit, behind it, or both")]
        | None
    ) = None
    leak_valve_rests: Annotated[ValveRest, msgspec.Meta(description="How that valve stands without power")] | None = None
    switch: Annotated[LevelSwitch, msgspec.Meta(description="The level switch, where there is one")] | None = None


class TrapThere(Question, frozen=True, kw_only=True):
    """A trap that is there already, to be checked."""

    outlet_drop: Annotated[Dimension, asked("Pan outlet's invert down to the trap outlet's invert", least="0 in", most="40 in")]
    seal_depth: Annotated[Dimension, asked("Trap outlet's invert down to the crown of the lower bend", least="0 in", most="40 in")]


class CondensatePump(Question, frozen=True, kw_only=True):
    """A condensate pump after the trap."""

    highest_point: Annotated[Length, asked("Elevation of the highest point of its discharge, same datum", least="-500 ft", most="500 ft")] | None = (
        None
    )
    sump_depth: (
        Annotated[Dimension, asked("From the pump's inlet down to its lowest water level; 6 in where left out", least="0 in", most="48 in")] | None
    ) = None
    rated_lift: Annotated[Length, asked("Height to which it still moves the condensate", least="0 ft", most="200 ft")] | None = None
    stops_unit: Annotated[bool, msgspec.Meta(description="The unit stops when the pump fails")] | None = None


class DrainSurroundings(Question, frozen=True, kw_only=True):
    """Where the line runs."""

    place: Annotated[Place, msgspec.Meta(description="Where unit and pump stand")] = "attic"
    lowest_temperature: Annotated[Temperature, asked("Lowest air temperature there", least="-60 degF", most="130 degF")] | None = None
    highest_temperature: (
        Annotated[
            Temperature,
            asked(
                "Highest air temperature there; for the sag of plastic 140 degF in an attic and 73 elsewhere where left out",
                least="-60 degF",
                most="200 degF",
            ),
        ]
        | None
    ) = None
    freeze_protected: Annotated[bool, msgspec.Meta(description="Trap and drains are heat-traced or drained in winter")] = False


class CondensateDrainQuestion(Question, frozen=True, kw_only=True):
    """Does the condensate leave by gravity, and does the house stay dry where it does not?"""

    fan_position: Annotated[FanPosition, msgspec.Meta(description="Where the fan stands: after the coil (draw-through) or before it (blow-through)")]
    pan_static_pressure: Annotated[
        AirPressure,
        asked(
            "Static pressure at the drain pan against the room, as a magnitude, at dirty filter, wet coil and top speed; the fan's inlet suction serves "
            "where the pan's is unknown (draw-through), the fan's total static on blow-through. Not the external static pressure of the system",
            least="0 inH2O",
            most="10 inH2O",
        ),
    ]
    blower_capability: (
        Annotated[
            AirPressure,
            asked("External static pressure that the blower can deliver, for the makers' rule that uses it", least="0 inH2O", most="10 inH2O"),
        ]
        | None
    ) = None
    cooling_capacity: Annotated[Power, asked("Total cooling capacity of the unit", least="1000 Btu/h", most="1000 ton")]
    manifold_capacity: (
        Annotated[
            Power, asked("Total cooling capacity of all units on this line, where it serves more than one", least="1000 Btu/h", most="5000 ton")
        ]
        | None
    ) = None
    sensible_heat_ratio: (
        Annotated[float, asked("Sensible share of the cooling, for the water made without air states", least=0.0, most=1.0)] | None
    ) = None
    airflow: Annotated[Airflow, asked("Actual air flow entering the coil", least="10 cfm", most="500000 cfm")] | None = None
    entering_air: Annotated[CoilAir, msgspec.Meta(description="Air entering the coil")] | None = None
    leaving_air: Annotated[CoilAir, msgspec.Meta(description="Air leaving the coil")] | None = None
    altitude: Annotated[Length, asked("Altitude above sea level; sea level where it is left out", least="-1500 ft", most="15000 ft")] | None = None
    pipe: Annotated[DrainPipe, msgspec.Meta(description="The pipe of the line")]
    run: Annotated[DrainRun, msgspec.Meta(description="The line from trap to end")]
    trap: Annotated[TrapThere, msgspec.Meta(description="A trap that is there, to be checked")] | None = None
    vent: Annotated[VentPosition, msgspec.Meta(description="Where the open vent stands")] | None = None
    elevations: Annotated[DrainElevations, msgspec.Meta(description="Heights, for the fall to the receiver")] | None = None
    unit_pitch: (
        Annotated[Dimension, asked("How much lower the outlet's end of the unit hangs; negative where it hangs higher", least="-12 in", most="12 in")]
        | None
    ) = None
    auxiliary_pan: Annotated[AuxiliaryPan, msgspec.Meta(description="Pan and switch that protect the house")] | None = None
    pump: Annotated[CondensatePump, msgspec.Meta(description="A condensate pump, where there is one")] | None = None
    surroundings: Annotated[DrainSurroundings, msgspec.Meta(description="Where the line runs; an attic where it is left out")] = DrainSurroundings()
    code: Annotated[Code, msgspec.Meta(description="Code edition whose rules are applied")] = "IRC-2018"
