"""What the answer on refrigerant lines says."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import (
    Area,
    Density,
    Dimension,
    GaugePressure,
    Length,
    Mass,
    MassFlow,
    MassPerLength,
    Number,
    Power,
    PressureDrop,
    Temperature,
    TemperatureDifference,
    ThermalResistance,
    Velocity,
)
from kneewall.physics.refrigerant import SafetyGroup

BrokenLimit = Literal["loss", "velocity", "oil-return", "subcooling", "flashing", "pressure", "drop-too-large"]


class OilReturn(Figured, frozen=True, kw_only=True, gc=False):
    """Whether the gas carries the oil up the wall."""

    minimum_capacity: Annotated[Power, msgspec.Meta(description="Least capacity at which gas in this tube carries oil up a riser")]
    margin: Annotated[Number, msgspec.Meta(description="Lowest stage over that capacity, less one: negative means that the oil stays down")]


class HotGasFigures(Figured, frozen=True, kw_only=True, gc=False):
    """What the hot gas does in this tube when the heat pump heats."""

    velocity: Velocity
    pressure_drop: PressureDrop | None = None
    saturation_drop: TemperatureDifference | None = None
    oil_return: OilReturn


class VaporCandidate(Figured, frozen=True, kw_only=True, gc=False):
    """What the vapor does in one made tube; the figures are of cooling, those of heating stand apart."""

    nominal_size: Dimension
    inside_diameter: Dimension
    equivalent_length: Length
    rated_pressure: Annotated[GaugePressure, msgspec.Meta(description="Working pressure of the brazed tube at its hottest")] | None = None
    velocity: Velocity
    pressure_drop: Annotated[PressureDrop, msgspec.Meta(description="By friction")] | None = None
    saturation_drop: Annotated[TemperatureDifference, msgspec.Meta(description="Loss of dew temperature by friction and height")] | None = None
    capacity_factor: Annotated[Number, msgspec.Meta(description="Share of the cooling left with the gas thinned by that loss")] | None = None
    oil_return: OilReturn
    heating: HotGasFigures | None = None
    breaks: Annotated[list[BrokenLimit], msgspec.Meta(description="Limits that this size does not keep in one mode or the other")] = []


class LiquidHeatingFigures(Figured, frozen=True, kw_only=True, gc=False):
    """What the liquid does in this tube when the heat pump heats and it flows outdoors."""

    velocity: Velocity
    pressure_drop: PressureDrop
    saturation_drop: TemperatureDifference | None = None
    subcooling_left: TemperatureDifference | None = None
    flashes: bool


class LiquidCandidate(Figured, frozen=True, kw_only=True, gc=False):
    """What the liquid does in one made tube; the figures are of cooling, those of heating stand apart."""

    nominal_size: Dimension
    inside_diameter: Dimension
    equivalent_length: Length
    rated_pressure: GaugePressure
    velocity: Velocity
    pressure_drop: Annotated[PressureDrop, msgspec.Meta(description="By friction in tube, fittings and accessories")]
    static_pressure: Annotated[PressureDrop, msgspec.Meta(description="By height: positive where the liquid has to rise")]
    saturation_drop: Annotated[TemperatureDifference, msgspec.Meta(description="Loss of bubble temperature by friction")] | None = None
    subcooling_left: Annotated[TemperatureDifference, msgspec.Meta(description="At the valve; left out where the liquid boils before it")] | None = (
        None
    )
    flashes: bool
    heating: LiquidHeatingFigures | None = None
    breaks: list[BrokenLimit] = []


class VaporLine(Figured, frozen=True, kw_only=True):
    """The vapor line: every made tube, and the smallest that keeps every limit."""

    recommended: Dimension | None = None
    recommended_inside_diameter: Dimension | None = None
    candidates: list[VaporCandidate]


class LiquidLine(Figured, frozen=True, kw_only=True):
    """The liquid line: every made tube, and the smallest that keeps every limit."""

    recommended: Dimension | None = None
    recommended_inside_diameter: Dimension | None = None
    candidates: list[LiquidCandidate]


class LineState(Figured, frozen=True, kw_only=True, gc=False):
    """The refrigerant in one mode, the same in every size."""

    mode: Literal["cooling", "heating"]
    mass_flow: MassFlow
    vapor_density: Density
    vapor_temperature: Temperature
    liquid_density: Density
    glide: Annotated[TemperatureDifference, msgspec.Meta(description="Dew less bubble point at the condensing pressure")]
    film_density: Annotated[Density, msgspec.Meta(description="Density of the oil film by which oil return was judged")]
    riser: Annotated[bool, msgspec.Meta(description="Whether the vapor has to carry oil upwards in this mode")]
    vapor_design_pressure: Annotated[GaugePressure, msgspec.Meta(description="What the vapor line has to stand in this mode")]


class DoubleRiser(Figured, frozen=True, kw_only=True):
    """Two tubes side by side where one will not do: the small one alone at the lowest stage, both at full capacity."""

    small: Dimension
    large: Dimension


class LineCharge(Figured, frozen=True, kw_only=True):
    """Refrigerant in the lines, cooling."""

    liquid_per_length: MassPerLength
    vapor_per_length: MassPerLength
    lines: Mass
    added: Annotated[Mass, msgspec.Meta(description="Against the lines that the factory charge covers; negative is to be taken out")] | None = None
    total: Mass | None = None


class LeakSafety(Figured, frozen=True, kw_only=True):
    """What the product and safety standards let a room hold."""

    safety_group: SafetyGroup
    lower_flammability_limit: Density | None = None
    exempt_mass: Annotated[Mass, msgspec.Meta(description="Charge below which the room's size is not asked")] | None = None
    limit_mass: Annotated[Mass, msgspec.Meta(description="Most charge by the room's floor area and the release height")] | None = None
    minimum_floor_area: Annotated[Area, msgspec.Meta(description="Least floor area for the charge, both branches of the formula")] | None = None
    root_floor_area: Annotated[Area, msgspec.Meta(description="Floor area by the square-root branch alone, as many manuals print it")] | None = None
    concentration_limit: Density
    concentration_mass: Annotated[Mass, msgspec.Meta(description="Charge that fills the room to the concentration limit")] | None = None
    charge: Mass | None = None


class VaporLineInsulation(Figured, frozen=True, kw_only=True):
    """The insulation of the vapor line."""

    line_temperature: Annotated[Temperature, msgspec.Meta(description="Evaporating dew point, the coldest the line gets")]
    surface_temperature: Temperature | None = None
    thickness_needed: Annotated[Dimension, msgspec.Meta(description="So that the surface stays above the dew point")] | None = None
    flat_resistance: Annotated[ThermalResistance, msgspec.Meta(description="Thickness over conductivity")] | None = None
    cylinder_resistance: Annotated[ThermalResistance, msgspec.Meta(description="On the outer surface of the round insulation")] | None = None


class RunPoint(Figured, frozen=True, kw_only=True):
    """One point of the run as drawn: how far along, how high above the outdoor unit."""

    place: str
    along: Length
    elevation: Length


class LineElevations(Figured, frozen=True, kw_only=True):
    """The run as drawn, the whole height taken in one riser at the indoor end."""

    points: list[RunPoint]
    vapor_flows: Annotated[Literal["up", "down", "level"], msgspec.Meta(description="In cooling; heating goes the other way")]
    fall_toward_outdoor: Annotated[Dimension, msgspec.Meta(description="Pitch of the level part of the vapor line, 1/2 in per 10 ft")]


class RefrigerantLineSizingResult(Figured, frozen=True, kw_only=True):
    """Tubes for both lines, and what goes with them."""

    states: list[LineState]
    vapor_line: VaporLine
    liquid_line: LiquidLine
    double_riser: DoubleRiser | None = None
    charge: LineCharge | None = None
    leak_safety: LeakSafety
    insulation: VaporLineInsulation | None = None
    elevations: LineElevations
