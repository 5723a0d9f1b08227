"""What a question on refrigerant lines asks."""

from typing import Annotated

import msgspec

from kneewall.kernel.quantity import (
    Area,
    Density,
    Dimension,
    Length,
    Mass,
    Power,
    PressureDrop,
    Temperature,
    TemperatureDifference,
    ThermalConductivity,
)
from kneewall.kernel.question import Question, asked
from kneewall.physics.refrigerant import RefrigerantName
from kneewall.physics.tubes import Temper

FITTING_NAMES = {
    "short_radius_ell": "short-radius-ell",
    "long_radius_ell": "long-radius-ell",
    "forty_five_degree_ell": "45-degree-ell",
    "solenoid_valve": "solenoid-valve",
    "check_valve": "check-valve",
    "sight_glass": "sight-glass",
    "filter_drier": "filter-drier",
}
"""Fields of the fittings and their names on the wire and in the table."""
Count = Annotated[float, msgspec.Meta(description="How many", ge=0, le=100)]


class LineFittings(Question, frozen=True, kw_only=True, rename=lambda name: FITTING_NAMES[name]):
    """How many of each fitting a line has."""

    short_radius_ell: Count = 0.0
    long_radius_ell: Count = 0.0
    forty_five_degree_ell: Count = 0.0
    solenoid_valve: Count = 0.0
    check_valve: Count = 0.0
    sight_glass: Count = 0.0
    filter_drier: Count = 0.0


class CoolingDuty(Question, frozen=True, kw_only=True):
    """Cooling: vapor goes from the indoor coil to the compressor outdoors, liquid comes back."""

    capacity: Annotated[Power, asked("Cooling at full stage, what the indoor coil takes up", least="1000 Btu/h", most="240000 Btu/h")]
    minimum_capacity: (
        Annotated[
            Power, asked("Cooling at the lowest stage or speed; the full capacity where it is left out", least="100 Btu/h", most="240000 Btu/h")
        ]
        | None
    ) = None
    evaporating: Annotated[Temperature, asked("Dew point where vapor leaves the indoor coil", least="-20 degF", most="75 degF")]
    condensing: Annotated[Temperature, asked("Bubble point in the condenser", least="60 degF", most="155 degF")]
    superheat: Annotated[TemperatureDifference, asked("Superheat of the vapor in the line, above the dew point", least="0 degF", most="60 degF")]
    subcooling: Annotated[
        TemperatureDifference, asked("Subcooling where liquid leaves the condenser, below the bubble point", least="0 degF", most="60 degF")
    ]


class HeatingDuty(Question, frozen=True, kw_only=True):
    """Heating with a heat pump: hot gas goes from the compressor outdoors to the indoor coil, liquid comes back."""

    capacity: Annotated[Power, asked("Heating at full stage, what the indoor coil gives off", least="1000 Btu/h", most="240000 Btu/h")]
    minimum_capacity: (
        Annotated[
            Power, asked("Heating at the lowest stage or speed; the full capacity where it is left out", least="100 Btu/h", most="240000 Btu/h")
        ]
        | None
    ) = None
    evaporating: Annotated[Temperature, asked("Dew point where vapor leaves the outdoor or water coil", least="-40 degF", most="75 degF")]
    condensing: Annotated[Temperature, asked("Bubble point in the indoor coil", least="60 degF", most="155 degF")]
    superheat: Annotated[TemperatureDifference, asked("Superheat of the vapor at the compressor", least="0 degF", most="60 degF")]
    subcooling: Annotated[TemperatureDifference, asked("Subcooling where liquid leaves the indoor coil", least="0 degF", most="60 degF")]
    discharge_temperature: (
        Annotated[
            Temperature,
            asked(
                "Temperature of the hot gas in the line; worked out for a compressor of 0.70 isentropic efficiency where it is left out",
                least="60 degF",
                most="300 degF",
            ),
        ]
        | None
    ) = None


class LineRun(Question, frozen=True, kw_only=True):
    """One of the two lines as it will be run."""

    length: Annotated[Length, asked("Actual length of tube, one way", least="1 ft", most="300 ft")]
    fittings: Annotated[LineFittings, msgspec.Meta(description="How many of each fitting")] = LineFittings()
    size: (
        Annotated[Dimension, asked("Check this nominal size (outside diameter) instead of choosing one", least="1/4 in", most="1-5/8 in")] | None
    ) = None


class LineAccessory(Question, frozen=True, kw_only=True):
    """Something in the liquid line whose pressure drop its maker states."""

    name: Annotated[str, msgspec.Meta(description="What it is", min_length=1, max_length=80)]
    pressure_drop: Annotated[PressureDrop, asked("Pressure drop at full capacity", least="0 psi", most="100 psi")]


class FactoryCharge(Question, frozen=True, kw_only=True):
    """What the equipment comes charged with."""

    mass: Annotated[Mass, asked("Charge as shipped", least="0.1 lb", most="60 lb")]
    line_length: Annotated[Length, asked("Length of both lines that this charge covers", least="0 ft", most="100 ft")]


class RoomServed(Question, frozen=True, kw_only=True):
    """The smallest room a leak could fill."""

    floor_area: Annotated[Area, asked("Floor area", least="5 ft2", most="20000 ft2")]
    release_height: (
        Annotated[Length, asked("Height of the lowest place where refrigerant can come out; counted from 0.6 m to 2.2 m", least="0 ft", most="20 ft")]
        | None
    ) = None
    ceiling_height: Annotated[Length, asked("Height of the ceiling, for the room's volume", least="4 ft", most="40 ft")] | None = None


class LineInsulation(Question, frozen=True, kw_only=True):
    """The insulation on the vapor line."""

    thickness: Annotated[Dimension, asked("Wall of the insulation", least="1/8 in", most="4 in")]
    conductivity: (
        Annotated[
            ThermalConductivity,
            asked("Conductivity; 0.27 Btu.in/(h.ft2.degF) where it is left out", least="0.1 Btu.in/(h.ft2.degF)", most="1 Btu.in/(h.ft2.degF)"),
        ]
        | None
    ) = None


class LineSurroundings(Question, frozen=True, kw_only=True):
    """The air about the lines, such as a hot attic."""

    temperature: Annotated[Temperature, asked("Dry-bulb temperature", least="-20 degF", most="160 degF")]
    dew_point: Annotated[Temperature, asked("Dew point of that air", least="-40 degF", most="95 degF")] | None = None


class LineLimits(Question, frozen=True, kw_only=True):
    """What the lines are held to, where it is not what is usual."""

    vapor_penalty: (
        Annotated[TemperatureDifference, asked("Loss of saturation temperature in the vapor line; 2 degF is usual", least="0.1 degF", most="10 degF")]
        | None
    ) = None
    liquid_penalty: (
        Annotated[
            TemperatureDifference,
            asked("Loss of saturation temperature by friction in the liquid line; 2 degF is usual", least="0.1 degF", most="20 degF"),
        ]
        | None
    ) = None
    least_subcooling: (
        Annotated[TemperatureDifference, asked("Subcooling to be left at the valve; 2 degF where it is left out", least="0 degF", most="30 degF")]
        | None
    ) = None
    design_temperature: (
        Annotated[
            Temperature,
            asked("Saturation temperature of the high side's design pressure; 130 degF where it is left out", least="100 degF", most="150 degF"),
        ]
        | None
    ) = None
    film_density: (
        Annotated[
            Density,
            asked(
                "Density of the oil film on the wall; the liquid refrigerant's, at least 1000 kg/m3, where it is left out",
                least="700 kg/m3",
                most="1400 kg/m3",
            ),
        ]
        | None
    ) = None


class RefrigerantLineSizingQuestion(Question, frozen=True, kw_only=True):
    """Which tubes carry this refrigerant between these two units?"""

    refrigerant: Annotated[RefrigerantName, msgspec.Meta(description="Refrigerant")]
    cooling: Annotated[CoolingDuty, msgspec.Meta(description="Cooling: the vapor line is the suction line")]
    heating: Annotated[HeatingDuty, msgspec.Meta(description="Heating, for a heat pump: the vapor line is the hot-gas line")] | None = None
    vapor_line: Annotated[LineRun, msgspec.Meta(description="The larger, insulated line")]
    liquid_line: Annotated[LineRun, msgspec.Meta(description="The smaller line")]
    indoor_above_outdoor: Annotated[
        Length, asked("Height of the indoor coil above the outdoor (or water) unit, negative where it is below", least="-150 ft", most="150 ft")
    ]
    temper: Annotated[Temper, msgspec.Meta(description="Annealed coils or drawn straight lengths; annealed where it is left out")] = "annealed"
    accessories: Annotated[list[LineAccessory], msgspec.Meta(max_length=20, description="In the liquid line")] = []
    factory_charge: Annotated[FactoryCharge, msgspec.Meta(description="Charge as shipped")] | None = None
    total_charge: Annotated[Mass, asked("Whole charge of the system, where it is known", least="0.1 lb", most="80 lb")] | None = None
    room: Annotated[RoomServed, msgspec.Meta(description="The smallest room a leak could fill")] | None = None
    lower_flammability_limit: (
        Annotated[Density, asked("From the equipment's manual, where it states one", least="0.02 kg/m3", most="0.6 kg/m3")] | None
    ) = None
    insulation: Annotated[LineInsulation, msgspec.Meta(description="Insulation of the vapor line")] | None = None
    surroundings: Annotated[LineSurroundings, msgspec.Meta(description="The air about the lines")] | None = None
    limits: Annotated[LineLimits, msgspec.Meta(description="What the lines are held to")] = LineLimits()
