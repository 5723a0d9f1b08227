"""What an equipment-hanging answer says."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import (
    AreaLoad,
    Dimension,
    Frequency,
    LinearLoad,
    Load,
    Moment,
    Number,
    RotationalSpeed,
    SecondMomentOfArea,
    SectionModulus,
    Stress,
    Weight,
    WithdrawalStrength,
)

Corner = Literal["front-right", "front-left", "back-right", "back-left"]
Governing = Literal["withdrawal", "tension", "rated-load"]


class HungLoad(Figured, frozen=True, kw_only=True):
    """What hangs on the rods."""

    dead: Weight
    pan_water: Weight
    total: Weight


class RodLoad(Figured, frozen=True, kw_only=True):
    """One rod: the larger of what a rigid frame and two trapezes give it."""

    corner: Corner
    load: Load
    limit: Load
    use: Annotated[Number, msgspec.Meta(description="Load over limit")]


class SlackRod(Figured, frozen=True, kw_only=True):
    """The most that a rod carries when another hangs slack under a stiff frame."""

    load: Load
    use: Annotated[Number, msgspec.Meta(description="Load over limit")]


class TrapezeResult(Figured, frozen=True, kw_only=True):
    """The channel under the larger rod load at both of its load points."""

    bending_moment: Moment
    stress: Stress
    allowable_stress: Annotated[Stress, msgspec.Meta(description="After the reductions for piercing and unbraced length")]
    deflection: Dimension
    use: Annotated[Number, msgspec.Meta(description="Stress over allowable stress")]
    piercing_factor: float
    unbraced_factor: Number
    second_moment: SecondMomentOfArea
    section_modulus: SectionModulus
    weight_per_length: LinearLoad


class LeadHole(Figured, frozen=True, kw_only=True):
    """Between what the hole for a lag screw's thread is drilled."""

    least: Dimension
    most: Dimension


class AnchorResult(Figured, frozen=True, kw_only=True):
    """The anchor of one rod."""

    withdrawal_per_length: Annotated[WithdrawalStrength, msgspec.Meta(description="Reference value in side grain, before the factors")] | None = None
    factors: Annotated[dict[str, float], msgspec.Meta(description="What the reference value was multiplied by")] | None = None
    allowable: Load
    governed_by: Governing
    use: Annotated[Number, msgspec.Meta(description="Largest rod load over allowable")]
    slack_rod_use: Annotated[Number, msgspec.Meta(description="The same with one rod slack")]
    specific_gravity: float | None = None
    least_edge_distance: Dimension | None = None
    least_end_distance: Dimension | None = None
    least_spacing: Dimension | None = None
    lead_hole: LeadHole | None = None


class Isolation(Figured, frozen=True, kw_only=True):
    """What the isolators do at one speed."""

    speed: RotationalSpeed
    frequency_ratio: Annotated[Number, msgspec.Meta(description="Speed over natural frequency")]
    transmissibility: Annotated[Number, msgspec.Meta(description="Left out where it grows without limit: undamped resonance")] | None = None
    efficiency: Annotated[Number, msgspec.Meta(description="One less transmissibility; below zero where isolators do harm")] | None = None


class FramingResult(Figured, frozen=True, kw_only=True):
    """What the house gets."""

    load_per_member: Annotated[Load, msgspec.Meta(description="Shared evenly")]
    most_loaded_member: Annotated[Load, msgspec.Meta(description="All rods on it: the worst rod, one being slack, or the two of the loaded side")]
    footprint_load: Annotated[AreaLoad, msgspec.Meta(description="The whole weight over the unit's length and width, to hold beside 10 or 20 psf")]
    added_moment: Annotated[Moment, msgspec.Meta(description="If the most loaded member gets its share at midspan")] | None = None
    added_stress: Stress | None = None


class EquipmentHangingResult(Figured, frozen=True, kw_only=True):
    """What hangs, and how far each part is used."""

    load: HungLoad
    rods: list[RodLoad]
    slack_rod: SlackRod
    trapeze: TrapezeResult | None = None
    anchor: AnchorResult
    natural_frequency: Frequency | None = None
    isolation: list[Isolation] | None = None
    framing: FramingResult
