"""What a service-access question asks and what its answer says."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Figured, Verdict
from kneewall.kernel.phrase import Figure
from kneewall.kernel.quantity import Dimension, Length
from kneewall.kernel.question import Question, asked
from kneewall.kernel.words import TOKENS

AccessCode = Literal["IRC-2009", "IRC-2012", "IRC-2018", "IMC-2009", "IMC-2018"]
Sides = Literal["all-sides", "service-side"]
Lighting = Literal["switched-at-entry", "switched-elsewhere", "none"]
PanelEdges = Literal["tongue-and-groove", "blocked", "unsupported"]
Passes = Literal["straight", "turned", "no"]


class AccessOpening(Question, frozen=True, kw_only=True):
    """The clear opening, whether hatch or door."""

    length: Annotated[Dimension, asked("One clear side", least="1 in", most="300 in")]
    width: Annotated[Dimension, asked("The other clear side", least="1 in", most="300 in")]


class LargestComponent(Question, frozen=True, kw_only=True):
    """The largest piece that ever has to come out, as a box."""

    length: Annotated[Dimension, asked("Length", least="1 in", most="300 in")]
    width: Annotated[Dimension, asked("Width", least="1 in", most="300 in")]
    height: Annotated[Dimension, asked("Height", least="1 in", most="300 in")]


class AccessPassage(Question, frozen=True, kw_only=True):
    """The way from the opening to the equipment."""

    length: Annotated[Length, asked("Along its centerline", least="0 ft", most="500 ft")]
    width: Annotated[Dimension, asked("Least clear width", least="1 in", most="600 in")]
    height: Annotated[Dimension, asked("Least clear height", least="1 in", most="600 in")]
    floor_width: Annotated[Dimension, asked("Width of its floor", least="0 in", most="600 in")]
    solid_floor: Annotated[bool, msgspec.Meta(description="Whether the floor is solid and without gaps for the whole length")]


class ServiceSpace(Question, frozen=True, kw_only=True):
    """The level space in front of the equipment."""

    length: Annotated[Dimension, asked("One side", least="0 in", most="600 in")]
    width: Annotated[Dimension, asked("The other side", least="0 in", most="600 in")]
    sides: Annotated[Sides, msgspec.Meta(description="On every side where access is needed, or on the service side only")]
    level: Annotated[bool, msgspec.Meta(description="Whether it is level")] = True


class AccessFloorPanel(Question, frozen=True, kw_only=True):
    """The wood structural panel of the floor."""

    thickness: Annotated[Dimension, asked("Thickness", least="0.1 in", most="3 in")]
    support_spacing: Annotated[Dimension, asked("Spacing of the members under it, center to center", least="1 in", most="120 in")]
    rated_floor_spacing: (
        Annotated[Dimension, asked("The floor spacing in the panel's mark, such as 16 in of 32/16", least="1 in", most="60 in")] | None
    ) = None
    edges: Annotated[PanelEdges, msgspec.Meta(description="How the long edges are held between supports")] | None = None
    width: Annotated[Dimension, asked("Width of the narrowest piece", least="1 in", most="60 in")] | None = None


class ServiceAccessQuestion(Question, frozen=True, kw_only=True):
    """Can somebody reach the equipment, work on it safely and get it out again?"""

    opening: Annotated[AccessOpening, msgspec.Meta(description="The opening into the attic")]
    largest_component: Annotated[LargestComponent, msgspec.Meta(description="The largest piece that has to come out")]
    passage: Annotated[AccessPassage, msgspec.Meta(description="The way from the opening to the equipment, if there is one")] | None = None
    service_space: Annotated[ServiceSpace, msgspec.Meta(description="The level space at the equipment, if there is one")] | None = None
    serviced_through_opening: Annotated[
        bool, msgspec.Meta(description="Whether the equipment is serviced and removed by somebody who stands in the opening")
    ] = False
    lighting: Annotated[Lighting, msgspec.Meta(description="Where the light at the equipment is switched")]
    receptacle_distance: (
        Annotated[
            Length, asked("From the equipment to the nearest receptacle on the same level; none where it is left out", least="0 ft", most="500 ft")
        ]
        | None
    ) = None
    receptacle_on_load_side: Annotated[bool, msgspec.Meta(description="Whether the equipment's disconnect also switches off the receptacle")] = False
    disconnect_in_sight: Annotated[bool, msgspec.Meta(description="Whether the disconnect can be seen from the equipment")]
    disconnect_distance: Annotated[Length, asked("From the equipment to its disconnect", least="0 ft", most="500 ft")] | None = None
    floor_panel: Annotated[AccessFloorPanel, msgspec.Meta(description="The floor's panel over its supports")] | None = None
    code: Annotated[AccessCode, msgspec.Meta(description="Code edition; their exceptions differ")] = "IRC-2018"


class AccessRequirement(Figured, frozen=True, kw_only=True):
    """One thing that is asked for, and what there is."""

    item: str
    required: Annotated[Figure, TOKENS]
    actual: Annotated[Figure, TOKENS] = None
    verdict: Verdict


class Removal(Figured, frozen=True, kw_only=True):
    """How the largest piece comes out."""

    through_opening: Annotated[Passes, msgspec.Meta(description="Straight, only when turned askew in the opening, or not at all")]
    opening_clearance: Annotated[Dimension, msgspec.Meta(description="Spare width in the best straight position; below zero is missing")]
    through_passage: Passes | None = None
    passage_clearance: Dimension | None = None
    must_be_tipped: Annotated[bool, msgspec.Meta(description="Whether it stands taller in the opening than the passage is high")] | None = None


class ServiceAccessResult(Figured, frozen=True, kw_only=True):
    """What is asked for and what there is, item by item."""

    code: AccessCode
    passage_length_limit: Annotated[Length, msgspec.Meta(description="Left out where no passage is needed")] | None = None
    removal: Removal
    requirements: list[AccessRequirement]
