"""What a water-loop question asks: the fluid, the units with their coils, the pipes between, the control valve and the supply."""

from typing import Annotated, Literal, get_args

import msgspec

from kneewall.kernel.quantity import (
    Dimension,
    GaugePressure,
    Length,
    Power,
    PressureDrop,
    ShortDuration,
    Temperature,
    TemperatureDifference,
    Volume,
    WaterFlow,
)
from kneewall.kernel.question import Question, asked
from kneewall.physics.fittings import Fitting
from kneewall.physics.pipes import PipeMaterial
from kneewall.physics.valves import ValveRest
from kneewall.physics.water import Fluid

Name = Annotated[str, msgspec.Meta(pattern="^[A-Za-z0-9][A-Za-z0-9 _.-]{0,39}$", description="A name: letters, digits, blank, point, dash")]
Loop = Literal["open", "closed"]
SupplyKind = Literal["fixed-pressure", "pressure-tank", "pump", "circulator"]
ValveKind = Literal["isolation", "balancing", "check", "strainer", "flow-regulator", "motorized", "solenoid", "other"]
Body = Literal["pilot-operated", "direct-acting", "motorized"]

MOST_PIPES, MOST_UNITS = 60, 12


class LoopDuty(Question, frozen=True, kw_only=True):
    """What a unit delivers and draws in one season."""

    capacity: Annotated[Power, asked("Net capacity delivered to the house", least="500 Btu/h", most="600000 Btu/h")]
    power: Annotated[Power, asked("All electric power it draws for that: compressor, fan and controls", least="50 W", most="60000 W")]


class LoopCoil(Question, frozen=True, kw_only=True):
    """One point of the unit's own table of water flow and pressure drop, for water."""

    flow: Annotated[WaterFlow, asked("Flow of water in the unit's table", least="0.2 gpm", most="200 gpm")]
    pressure_drop: Annotated[PressureDrop, asked("Pressure drop there", least="0.02 psi", most="60 psi")]
    exponent: Annotated[
        float, asked("How the drop rises with flow, from two points of the table; 1.85 where it is not known", least=1.5, most=2.3)
    ] = 1.85


class LoopUnit(Question, frozen=True, kw_only=True):
    """One heat pump on the loop, from node to node; both ends of its coil are at the same height."""

    id: Name
    start: Name = msgspec.field(name="from")
    end: Name = msgspec.field(name="to")
    cooling: Annotated[LoopDuty, msgspec.Meta(description="Cooling: net capacity and power")] | None = None
    heating: Annotated[LoopDuty, msgspec.Meta(description="Heating: net capacity and power")] | None = None
    coil: LoopCoil
    minimum_flow: Annotated[WaterFlow, asked("The least flow the unit's maker allows", least="0.1 gpm", most="200 gpm")] | None = None
    leaving_limit: (
        Annotated[
            Temperature,
            asked(
                "Lowest leaving water in heating; where left out 38 °F for water, 10 °F above freezing with antifreeze", least="-40 °F", most="100 °F"
            ),
        ]
        | None
    ) = None
    greatest_rise: (
        Annotated[
            TemperatureDifference,
            asked("Greatest rise in cooling; where left out 15 °F in an open loop, 10 °F in a closed one", least="2 °F", most="40 °F"),
        ]
        | None
    ) = None
    elevation: (
        Annotated[
            Length, asked("Height of its coil above the node `supply`, where the rises of the pipes do not tell it", least="-500 ft", most="500 ft")
        ]
        | None
    ) = None
    own_valve: Annotated[bool, msgspec.Meta(description="Whether a valve of its own shuts off this coil when the unit does not call")] = False
    own_valve_closing_time: (
        Annotated[ShortDuration, asked("Time in which its own valve closes; at once where left out", least="1 ms", most="10 min")] | None
    ) = None
    own_arrester: Annotated[bool, msgspec.Meta(description="Whether a hammer arrester stands right before its own valve")] = False
    rated_pressure: (
        Annotated[GaugePressure, asked("Pressure its water side is rated for, from its plate", least="10 psig", most="2000 psig")] | None
    ) = None


class LoopValve(Question, frozen=True, kw_only=True):
    """A valve, strainer or flow regulator in a pipe."""

    kind: ValveKind = "other"
    cv: Annotated[float, asked("Flow coefficient: gpm of 60 °F water at 1 psi; not for a flow regulator", least=0.1, most=2000.0)] | None = None
    mesh: Annotated[Literal["20", "40", "60", "80", "100"], msgspec.Meta(description="Strainer: mesh of its screen, 20 where left out")] | None = None
    flow: Annotated[WaterFlow, asked("Flow regulator: the flow it is made for", least="0.2 gpm", most="200 gpm")] | None = None
    rests: Annotated[ValveRest, msgspec.Meta(description="Motorized or solenoid: how it stands without power")] | None = None


class LoopPipe(Question, frozen=True, kw_only=True):
    """One length of pipe, from node to node, with what sits in it."""

    id: Name
    start: Name = msgspec.field(name="from")
    end: Name = msgspec.field(name="to")
    material: PipeMaterial
    nominal_size: Annotated[Dimension, asked("Nominal size, such as 1-1/4 in", least="1/4 in", most="6 in")]
    length: Annotated[Length, asked("Length along the pipe", least="0.05 ft", most="5000 ft")]
    fittings: Annotated[
        dict[Fitting, Annotated[float, msgspec.Meta(ge=0, le=200)]],
        msgspec.Meta(description="How many of each fitting", extra_json_schema={"propertyNames": {"enum": list(get_args(Fitting))}}),
    ] = {}
    valves: Annotated[list[LoopValve], msgspec.Meta(description="Valves, strainers and flow regulators in it", max_length=12)] = []
    rise: Annotated[Length, asked("How much higher its `to` end is; level where left out", least="-500 ft", most="500 ft")] | None = None
    roughness: Annotated[Dimension, asked("Roughness, where it is not that of new pipe", least="0.0005 mm", most="1 mm")] | None = None
    rated_pressure: Annotated[GaugePressure, asked("Pressure rating printed on it; needed for a hose", least="10 psig", most="2000 psig")] | None = (
        None
    )


class LoopControlValve(Question, frozen=True, kw_only=True):
    """The valve that opens when a unit calls; it sits at the leaving end of its pipe."""

    on: Name
    cv: Annotated[float, asked("Flow coefficient: gpm of 60 °F water at 1 psi", least=0.1, most=2000.0)]
    closing_time: Annotated[ShortDuration, asked("Time to close; at once where left out", least="1 ms", most="10 min")] | None = None
    minimum_pressure_drop: Annotated[PressureDrop, asked("Least drop at which its body lifts", least="0.01 psi", most="50 psi")] | None = None
    body: Annotated[Body, msgspec.Meta(description="How it is opened")] | None = None
    rests: Annotated[ValveRest, msgspec.Meta(description="How it stands without power")] | None = None
    arrester: Annotated[bool, msgspec.Meta(description="Whether a hammer arrester stands right before it, on the side of the coils")] = False


class CurvePoint(Question, frozen=True, kw_only=True):
    """One point of a pump's curve, in feet of the liquid pumped."""

    flow: Annotated[WaterFlow, asked("Flow", least="0 gpm", most="1000 gpm")]
    head: Annotated[Length, asked("Head of the liquid pumped", least="0 ft", most="1000 ft")]


class LoopSupply(Question, frozen=True, kw_only=True):
    """Where the water comes from. Each kind has fields of its own; the pressures are those at the node `supply`."""

    kind: SupplyKind
    pressure: Annotated[GaugePressure, asked("fixed-pressure: pressure while water flows", least="0.5 psig", most="200 psig")] | None = None
    cut_in: Annotated[GaugePressure, asked("pressure-tank: the switch starts the pump", least="5 psig", most="150 psig")] | None = None
    cut_out: Annotated[GaugePressure, asked("pressure-tank: the switch stops the pump", least="6 psig", most="200 psig")] | None = None
    tank_volume: Annotated[Volume, asked("pressure-tank: volume of the whole tank", least="0.5 gal", most="2000 gal")] | None = None
    precharge: (
        Annotated[
            GaugePressure, asked("pressure-tank: air charge of the empty tank; 2 psi below cut-in if left out", least="0 psig", most="150 psig")
        ]
        | None
    ) = None
    rated_pressure: Annotated[GaugePressure, asked("pressure-tank: what the tank is rated for", least="10 psig", most="2000 psig")] | None = None
    check_valve: (
        Annotated[bool, msgspec.Meta(description="pump, pressure-tank: whether a check or foot valve at the pump holds the water when it stops")]
        | None
    ) = None
    pump_flow: Annotated[WaterFlow, asked("pressure-tank: what the pump delivers", least="0.5 gpm", most="300 gpm")] | None = None
    points: Annotated[list[CurvePoint], msgspec.Meta(description="pump, circulator: its curve, flow rising and head falling", max_length=12)] = []
    lift: (
        Annotated[Length, asked("pump: from the resting water level up to the node `supply`; none if left out", least="-200 ft", most="800 ft")]
        | None
    ) = None
    drawdown_flow: (
        Annotated[WaterFlow, asked("pump: at this flow the water level falls by the drawdown", least="0.5 gpm", most="1000 gpm")] | None
    ) = None
    drawdown: Annotated[Length, asked("pump: how far the water level falls at the drawdown flow", least="0 ft", most="500 ft")] | None = None
    fill_pressure: (
        Annotated[GaugePressure, asked("circulator: pressure at its inlet, the node `discharge`", least="0 psig", most="100 psig")] | None
    ) = None


class LoopDischarge(Question, frozen=True, kw_only=True):
    """Where the water of an open loop goes: the node `discharge`."""

    pressure: Annotated[GaugePressure, asked("Pressure at the outlet; none where left out", least="0 psig", most="150 psig")] | None = None
    elevation: Annotated[Length, asked("Height of the outlet above the node `supply`", least="-500 ft", most="500 ft")] | None = None


class WaterLoopQuestion(Question, frozen=True, kw_only=True):
    """What flows through each unit of this loop, and does everything hold?"""

    fluid: Annotated[Fluid, msgspec.Meta(description="Water where it is left out")] = Fluid()
    entering_water: Annotated[Temperature, asked("Water entering the units", least="0 °F", most="140 °F")]
    loop: Annotated[Loop, msgspec.Meta(description="Open: water is drawn and let go; closed: it circulates")]
    units: Annotated[list[LoopUnit], msgspec.Meta(description="The heat pumps", min_length=1, max_length=MOST_UNITS)]
    pipes: Annotated[list[LoopPipe], msgspec.Meta(description="The pipes, from `supply` to `discharge`", min_length=1, max_length=MOST_PIPES)]
    control_valve: Annotated[LoopControlValve, msgspec.Meta(description="The common valve")] | None = None
    supply: LoopSupply
    discharge: Annotated[LoopDischarge, msgspec.Meta(description="Open loop: where the water goes; a free outlet where left out")] | None = None
    calls: Annotated[list[Name], msgspec.Meta(description="Which units call; all where left out", max_length=MOST_UNITS)] = []
