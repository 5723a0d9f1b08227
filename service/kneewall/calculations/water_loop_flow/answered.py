"""What a water-loop answer says."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Figured
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

GovernedBy = Literal["heat-absorbed", "heat-rejected", "unit-minimum", "no-flow-suffices"]


class LoopFluidState(Figured, frozen=True, kw_only=True):
    """The fluid as it enters the units."""

    freezing_point: Temperature
    density: Density
    viscosity: DynamicViscosity
    heat_per_flow: Annotated[VolumetricHeatCapacity, msgspec.Meta(description="Heat carried per flow and degree (density times heat capacity)")]


class FlowRequired(Figured, frozen=True, kw_only=True):
    """The flow a unit needs, and why."""

    unit: str
    flow: Annotated[WaterFlow, msgspec.Meta(description="Left out where no flow suffices")] | None = None
    governed_by: GovernedBy


class LeavingWater(Figured, frozen=True, kw_only=True):
    """Water leaving the unit; left out where it would freeze or boil."""

    cooling: Temperature | None = None
    heating: Temperature | None = None


class UnitOnLoop(Figured, frozen=True, kw_only=True):
    """What flows through a unit at the least supply pressure, and what it does to the water."""

    id: str
    flow: WaterFlow
    flow_at_cut_out: WaterFlow | None = None
    pressure_drop: PressureDrop
    leaving_water: LeavingWater
    heat_rejected: Power | None = None
    heat_absorbed: Power | None = None


class PipeOnLoop(Figured, frozen=True, kw_only=True):
    """What flows through a pipe; negative where it flows from its `to` end."""

    id: str
    flow: WaterFlow
    velocity: WaterVelocity
    velocity_at_cut_out: WaterVelocity | None = None
    pressure_drop: Annotated[PressureDrop, msgspec.Meta(description="Friction, fittings and valves; height left out")]
    reynolds_number: Number


class NodeOnLoop(Figured, frozen=True, kw_only=True):
    """Pressure where pipes meet."""

    id: str
    elevation: Annotated[Length, msgspec.Meta(description="Above the node `supply`")]
    pressure: GaugePressure
    pressure_shut: Annotated[GaugePressure, msgspec.Meta(description="With the control valve shut")] | None = None


class ValveOnLoop(Figured, frozen=True, kw_only=True):
    """What the control valve does."""

    pressure_drop: PressureDrop
    static_pressure: Annotated[GaugePressure, msgspec.Meta(description="Before the shut valve")]
    wave_speed: WaterVelocity
    critical_time: ShortDuration
    surge_pressure: PressureDrop
    peak_pressure: GaugePressure


class SupplyOnLoop(Figured, frozen=True, kw_only=True):
    """What the supply gives."""

    flow: WaterFlow
    pressure: GaugePressure
    flow_at_cut_out: WaterFlow | None = None
    head: Annotated[Length, msgspec.Meta(description="Head of the pump at this flow")] | None = None
    drawdown: Annotated[Volume, msgspec.Meta(description="Water the tank gives between cut-out and cut-in")] | None = None
    run_time: Annotated[Duration, msgspec.Meta(description="How long the pump runs at a time while the loop draws")] | None = None
    cycles_per_hour: Annotated[CyclingRate, msgspec.Meta(description="Starts of the pump while the loop draws")] | None = None


class FlowOfUnit(Figured, frozen=True, kw_only=True):
    """What flows through one unit."""

    unit: str
    flow: WaterFlow


class LoopCall(Figured, frozen=True, kw_only=True):
    """What flows when these units call."""

    calling: list[str]
    flow: WaterFlow
    idle_flow: Annotated[WaterFlow, msgspec.Meta(description="Through units that do not call: pumped for nothing")]
    units: list[FlowOfUnit]


class PipeFlushing(Figured, frozen=True, kw_only=True):
    """The flow that carries the air out of a pipe."""

    pipe: str
    flow: WaterFlow


class WaterLoopResult(Figured, frozen=True, kw_only=True):
    """What flows where, and at what pressure."""

    fluid: LoopFluidState
    required: list[FlowRequired]
    units: list[UnitOnLoop]
    pipes: list[PipeOnLoop]
    nodes: list[NodeOnLoop]
    control_valve: ValveOnLoop | None = None
    supply: SupplyOnLoop
    calls: list[LoopCall]
    flushing: list[PipeFlushing]
