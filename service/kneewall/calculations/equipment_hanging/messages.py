"""What an equipment-hanging question asks."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.quantity import Dimension, Length, Load, RotationalSpeed, Temperature, Weight
from kneewall.kernel.question import Question, asked

RodEdition = Literal["MSS-SP-58-2002", "before-MSS-SP-58-2002"]
ChannelSection = Literal["12ga-1-5/8x1-5/8", "12ga-1-5/8x1-3/8"]
Piercing = Literal["solid", "round-holes", "long-slots"]
AnchorKind = Literal["lag-screw", "wood-screw", "listed-rod-hanger"]
Grain = Literal["side-grain", "end-grain"]
LoadDuration = Literal["permanent", "ten-year", "snow", "construction", "wind-or-earthquake"]
WoodGroup = Literal["douglas-fir-larch", "southern-pine", "hem-fir", "spruce-pine-fir", "spruce-pine-fir-south", "unknown"]
FramingKind = Literal["rafter", "joist", "truss"]
LumberSize = Literal["2x4", "2x6", "2x8", "2x10", "2x12"]
SeismicCategory = Literal["A", "B", "C", "D", "D0", "D1", "D2", "E", "F"]


class CentreOffset(Question, frozen=True, kw_only=True):
    """Where a weight stands, from the center of the rectangle of the four rods: along towards the front, across towards the right."""

    along: (
        Annotated[Dimension, asked("Towards the front, negative towards the back; 0 where it is left out", least="-300 in", most="300 in")] | None
    ) = None
    across: (
        Annotated[
            Dimension,
            asked(
                "Towards the right of somebody who faces the front, negative towards the left; 0 where it is left out", least="-300 in", most="300 in"
            ),
        ]
        | None
    ) = None


class HungEquipment(Question, frozen=True, kw_only=True):
    """The unit."""

    weight: Annotated[Weight, asked("Operating weight of the unit", least="1 lb", most="5000 lb")]
    length: Annotated[Dimension, asked("Length of the unit", least="1 in", most="300 in")]
    width: Annotated[Dimension, asked("Width of the unit", least="1 in", most="300 in")]
    centre_offset: (
        Annotated[
            CentreOffset,
            msgspec.Meta(
                description="Center of the unit and of all that has no place of its own, from the center of the rods; there where it is left out"
            ),
        ]
        | None
    ) = None


class AttachedWeight(Question, frozen=True, kw_only=True):
    """Something that hangs with the unit: a plenum, the pan's metal, piping with its water, rods and channel."""

    name: Annotated[str, msgspec.Meta(max_length=80, description="What it is")]
    weight: Annotated[Weight, asked("Its whole weight", least="0 lb", most="5000 lb")]
    share: Annotated[float, asked("The share of it that the unit's rods carry", least=0.0, most=1.0)] = 1.0
    centre_offset: Annotated[CentreOffset, msgspec.Meta(description="Where it stands; at the unit's center where it is left out")] | None = None


class HungPan(Question, frozen=True, kw_only=True):
    """The auxiliary pan that hangs with the unit, counted full of water to its rim."""

    length: Annotated[Dimension, asked("Inside length", least="1 in", most="300 in")]
    width: Annotated[Dimension, asked("Inside width", least="1 in", most="300 in")]
    depth: Annotated[Dimension, asked("Depth to the rim", least="0.1 in", most="24 in")]


class HangerRods(Question, frozen=True, kw_only=True):
    """Four threaded rods at the corners of a rectangle."""

    diameter: Annotated[Dimension, asked("Nominal diameter", least="0.1 in", most="3 in")]
    along: Annotated[Dimension, asked("Distance between rods along the unit", least="1 in", most="400 in")]
    across: Annotated[Dimension, asked("Distance between rods across the unit", least="1 in", most="400 in")]
    edition: Annotated[RodEdition, msgspec.Meta(description="Whose table of rod loads is used")] = "MSS-SP-58-2002"


class Trapeze(Question, frozen=True, kw_only=True):
    """Two channels across the unit, each hung by two rods or carrying two."""

    section: Annotated[ChannelSection, msgspec.Meta(description="Cold-formed slotted channel: gauge, width and depth in inches")]
    span: Annotated[Dimension, asked("Distance between the channel's supports", least="1 in", most="120 in")]
    rod_inset: (
        Annotated[
            Dimension,
            asked(
                "From a support of the channel to the load next to it: from the rod to where the unit bears, or from the framing to the rod. "
                "Both loads at midspan where it is left out",
                least="0 in",
                most="60 in",
            ),
        ]
        | None
    ) = None
    piercing: Annotated[Piercing, msgspec.Meta(description="What is punched in the channel's back")] = "long-slots"


class Anchor(Question, frozen=True, kw_only=True):
    """What holds one rod to the wood."""

    kind: Annotated[AnchorKind, msgspec.Meta(description="Kind of anchor")]
    diameter: Annotated[Dimension, asked("Nominal (shank) diameter; needed for lag and wood screws", least="0.1 in", most="1.25 in")] | None = None
    thread_length: (
        Annotated[
            Dimension, asked("Length of thread in the wood, without the tapered tip; needed for lag and wood screws", least="0.1 in", most="24 in")
        ]
        | None
    ) = None
    rated_load: Annotated[Load, asked("Listed rod hanger only: the load it is listed for in this wood", least="1 lb", most="20000 lb")] | None = None
    into: Annotated[Grain, msgspec.Meta(description="Side grain: the screw stands across the fibres")]
    edge_distance: Annotated[Dimension, asked("From the screw's center to the nearest edge of the member", least="0 in", most="24 in")] | None = None
    end_distance: Annotated[Dimension, asked("From the screw's center to the end of the member", least="0 in", most="300 in")] | None = None
    load_duration: Annotated[LoadDuration, msgspec.Meta(description="For how long the load acts; hung equipment is permanent")] = "permanent"


class Wood(Question, frozen=True, kw_only=True):
    """The wood that the anchors hold in."""

    group: Annotated[WoodGroup, msgspec.Meta(description="Species group on the grade stamp")] | None = None
    specific_gravity: Annotated[float, asked("Specific gravity, oven-dry, where it is known better than by group", least=0.31, most=0.73)] | None = (
        None
    )
    temperature: (
        Annotated[
            Temperature,
            asked("Temperature that the wood holds for long times; the factor is applied only if it is given", least="-60 degF", most="400 degF"),
        ]
        | None
    ) = None
    moisture: Annotated[Literal["dry", "wet"], msgspec.Meta(description="Wet: above 19 % when the screw goes in or in service")] = "dry"


class Framing(Question, frozen=True, kw_only=True):
    """The members of the house that carry the unit."""

    kind: Annotated[FramingKind, msgspec.Meta(description="What they are")]
    members: Annotated[float, asked("How many members share the load", least=1, most=100)]
    rods_on_one_member: (
        Annotated[
            float,
            asked("The most of the four rods that hang from one member; where it is left out one, two from fewer than four members", least=1, most=4),
        ]
        | None
    ) = None
    size: Annotated[LumberSize, msgspec.Meta(description="Nominal size, to show the bending that the unit adds")] | None = None
    span: Annotated[Length, asked("Span of a member, to show the bending that the unit adds", least="1 ft", most="60 ft")] | None = None


class Isolator(Question, frozen=True, kw_only=True):
    """The vibration isolators in the rods."""

    static_deflection: Annotated[Dimension, asked("How far they sink under the unit", least="0.001 in", most="12 in")]
    damping_ratio: Annotated[float, asked("Damping over critical damping; none where it is left out", least=0.0, most=1.0)] = 0.0


class EquipmentHangingQuestion(Question, frozen=True, kw_only=True):
    """Do the rods, the channel and the anchors hold the unit, and what does the framing get?"""

    equipment: Annotated[HungEquipment, msgspec.Meta(description="The unit")]
    attached: Annotated[list[AttachedWeight], msgspec.Meta(max_length=50, description="What else hangs on the same rods")] = []
    pan: Annotated[HungPan, msgspec.Meta(description="The auxiliary pan, if it hangs with the unit")] | None = None
    rods: Annotated[HangerRods, msgspec.Meta(description="The four rods")]
    trapeze: Annotated[Trapeze, msgspec.Meta(description="The channels, if there are any")] | None = None
    anchor: Annotated[Anchor, msgspec.Meta(description="The anchor at the top of each rod")]
    wood: Annotated[Wood, msgspec.Meta(description="The wood it holds in")]
    framing: Annotated[Framing, msgspec.Meta(description="What carries it")]
    blower_speeds: Annotated[
        list[Annotated[RotationalSpeed, asked("A speed at which the blower runs", least="10 rpm", most="20000 rpm")]],
        msgspec.Meta(max_length=20, description="Every speed at which the blower runs"),
    ] = []
    isolator: Annotated[Isolator, msgspec.Meta(description="Vibration isolators, if there are any")] | None = None
    seismic_design_category: Annotated[SeismicCategory, msgspec.Meta(description="Of the house, by the building code")] | None = None
