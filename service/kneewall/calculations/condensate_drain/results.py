"""What the answer to a condensate-drain question says."""

from typing import Annotated

import msgspec

from kneewall.calculations.condensate_drain.messages import Code
from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import Dimension, Duration, Length, MassFlow, Number, Power, Slope, Volume, WaterFlow


class TrapCandidate(Figured, frozen=True, kw_only=True):
    """One published rule and the trap that it asks for."""

    rule: str
    outlet_drop: Dimension
    seal_depth: Dimension
    overall_height: Dimension


class DrainTrap(Figured, frozen=True, kw_only=True):
    """The trap: the deepest of the candidates."""

    outlet_drop: Annotated[Dimension, msgspec.Meta(description="Pan outlet's invert down to the trap outlet's invert")]
    seal_depth: Annotated[
        Dimension, msgspec.Meta(description="Trap outlet's invert down to the outside of the crown of the lower bend, the safe side by a wall")
    ]
    overall_height: Annotated[Dimension, msgspec.Meta(description="Pan outlet's invert down to the outside bottom of the trap")]
    governing_rule: str
    candidates: list[TrapCandidate]


class DrainPipeAnswer(Figured, frozen=True, kw_only=True):
    """What the code asks of the pipe."""

    minimum_size: Annotated[Dimension, msgspec.Meta(description="Least nominal size, where the code has a figure")] | None = None
    inside_diameter: Dimension
    outside_diameter: Dimension


class Condensate(Figured, frozen=True, kw_only=True):
    """The water made."""

    mass_flow: MassFlow
    volume_flow: WaterFlow
    sensible_heat_ratio: Annotated[Number, msgspec.Meta(description="Sensible share of the cooling that goes with this water")]
    coil_capacity: Annotated[Power, msgspec.Meta(description="Total cooling that goes with the air states")] | None = None


class DrainLine(Figured, frozen=True, kw_only=True):
    """The pipe as a gravity line."""

    flow: Annotated[WaterFlow, msgspec.Meta(description="Condensate in this line, manifolded units included")]
    full_capacity: Annotated[WaterFlow, msgspec.Meta(description="Flow at which the sloped pipe runs full")]
    fill_ratio: Annotated[Number, msgspec.Meta(description="Depth of the water over the bore; left out where the line cannot carry it")] | None = None
    longest_hanger_spacing: (
        Annotated[Length, msgspec.Meta(description="Hanger spacing beyond which the pipe, full and hot, holds water in mid-span")] | None
    ) = None
    sag: Annotated[Dimension, msgspec.Meta(description="Sag in mid-span at the given hanger spacing")] | None = None
    slope_at_hanger: Annotated[Slope, msgspec.Meta(description="By how much the sag turns the pipe at the hangers")] | None = None


class DrainHeights(Figured, frozen=True, kw_only=True):
    """Where the line ends, and how low the unit may hang."""

    trap_outlet: Length
    trap_bottom: Length
    end_of_run: Length
    margin: Annotated[Dimension, msgspec.Meta(description="End of the run above rim and air gap; negative is too low")]
    air_gap: Dimension
    longest_run: Annotated[Length, msgspec.Meta(description="Longest run that still falls; left out where there is none")] | None = None
    lowest_pan_outlet: Annotated[Length, msgspec.Meta(description="Lowest elevation of the pan outlet that still drains")]
    lowest_unit_base: (
        Annotated[Length, msgspec.Meta(description="Lowest elevation of the unit's underside that drains and clears the trap")] | None
    ) = None
    clear_height: Annotated[Dimension, msgspec.Meta(description="Room for the trap below the pan outlet")] | None = None


class PanAnswer(Figured, frozen=True, kw_only=True):
    """What the auxiliary pan must be, and how long it holds."""

    minimum_length: Annotated[Dimension, msgspec.Meta(description="Left out where the code has no figure")] | None = None
    minimum_width: Annotated[Dimension, msgspec.Meta(description="Left out where the code has no figure")] | None = None
    minimum_depth: Annotated[Dimension, msgspec.Meta(description="Left out where the code has no figure")] | None = None
    minimum_thickness: Annotated[Dimension, msgspec.Meta(description="Left out where the code has no figure for this material")] | None = None
    cautious_length: Annotated[Dimension, msgspec.Meta(description="3 in beyond the unit at each end, as many authorities read it")] | None = None
    cautious_width: Annotated[Dimension, msgspec.Meta(description="3 in beyond the unit at each side, as many authorities read it")] | None = None
    length_over_trap: Annotated[Dimension, msgspec.Meta(description="Length that also takes in the trap")] | None = None
    drain_end: Annotated[Length, msgspec.Meta(description="Elevation at which the pan's own drain ends")] | None = None
    volume: Volume | None = None
    fills_with_condensate: Annotated[Duration, msgspec.Meta(description="Until the rim, first drain blocked")] | None = None
    fills_with_loop_leak: Annotated[Duration, msgspec.Meta(description="Until the rim, loop water running out")] | None = None
    loop_flow: Annotated[WaterFlow, msgspec.Meta(description="Loop flow taken for the leak")] | None = None
    pan_drain_capacity: Annotated[WaterFlow, msgspec.Meta(description="What a 3/4 in pan drain at 1/8 in/ft takes away, running full")] | None = None


class DrainPump(Figured, frozen=True, kw_only=True):
    """Whether gravity does it, and what a pump must do otherwise."""

    needed: bool
    static_lift: Annotated[Length, msgspec.Meta(description="From the pump's lowest water to the highest point of the discharge")] | None = None


class CondensateDrainResult(Figured, frozen=True, kw_only=True, omit_defaults=True):
    """Trap, pipe, water, heights and pan."""

    code: Code
    trap: DrainTrap
    pipe: DrainPipeAnswer
    fall: Annotated[Dimension, msgspec.Meta(description="Fall of the run from the trap's outlet to its end")]
    condensate: Condensate
    line: DrainLine
    elevations: DrainHeights | None = None
    auxiliary_pan: PanAnswer | None = None
    pump: DrainPump | None = None
