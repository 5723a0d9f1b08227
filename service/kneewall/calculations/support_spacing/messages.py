"""What a support-spacing question asks and what its answer says."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import AreaLoad, Dimension, Length, LinearLoad, Load, Slope, Temperature, Weight
from kneewall.kernel.question import Question, asked
from kneewall.physics.ducts import DuctSize
from kneewall.physics.ducts import Material as DuctMaterial
from kneewall.physics.pipe_span import HungMaterial

Kind = Literal["pipe", "duct", "refrigerant-tube"]
TubeMaterial = Literal["copper-annealed", "copper-drawn"]
SupportedMaterial = Literal[HungMaterial, DuctMaterial, TubeMaterial]
Contents = Literal["empty", "water", "brine", "liquid-refrigerant"]
Code = Literal["IRC-2018", "IMC-2018", "UPC-2021", "MSS-SP-58"]


class SupportedRun(Question, frozen=True, kw_only=True):
    """One straight run of pipe, tube or duct."""

    id: Annotated[str, msgspec.Meta(description="Name of the run", min_length=1, max_length=60)]
    kind: Annotated[Kind, msgspec.Meta(description="What runs")]
    material: Annotated[SupportedMaterial, msgspec.Meta(description="What it is made of; must go with the kind")]
    nominal_size: Annotated[Dimension, asked("Pipe: nominal size; refrigerant tube: outside diameter", least="1/8 in", most="6 in")] | None = None
    duct: Annotated[DuctSize, msgspec.Meta(description="Duct: its size")] | None = None
    length: Annotated[Length, asked("Length of the run", least="1 in", most="5000 ft")]
    orientation: Annotated[Literal["horizontal", "vertical"], msgspec.Meta(description="How it runs")] = "horizontal"
    contents: (
        Annotated[Contents, msgspec.Meta(description="What stands in it; water in pipe and liquid refrigerant in tube where it is left out")] | None
    ) = None
    temperature: (
        Annotated[
            Temperature,
            asked("Highest temperature of the pipe's wall; 73 degF where left out, so give it in an attic", least="-60 degF", most="250 degF"),
        ]
        | None
    ) = None
    slope: Annotated[Slope, asked("Fall of a drain, which must still fall between its supports", least="0.001 in/ft", most="12 in/ft")] | None = None
    spacing: Annotated[Length, asked("Spacing that is there or planned, to be checked", least="1 in", most="100 ft")] | None = None
    story_height: Annotated[Length, asked("Vertical: from floor to floor; 10 ft where it is left out", least="6 ft", most="30 ft")] | None = None
    insulation_thickness: Annotated[Dimension, asked("Foam insulation around pipe or tube", least="1/8 in", most="6 in")] | None = None
    valves: Annotated[Weight, asked("Heaviest valve or fitting that one support carries", least="0 lb", most="2000 lb")] | None = None
    sheet_weight: (
        Annotated[AreaLoad, asked("Duct: weight of its wall per area, instead of the usual one", least="0.01 psf", most="20 psf")] | None
    ) = None


class SupportSpacingQuestion(Question, frozen=True, kw_only=True):
    """How far apart do the supports of these runs stand, and what does each carry?"""

    runs: Annotated[list[SupportedRun], msgspec.Meta(description="The runs", min_length=1, max_length=600)]
    code: Annotated[Code, msgspec.Meta(description="Code edition or standard whose table is applied")] = "IRC-2018"


class RunSupports(Figured, frozen=True, kw_only=True):
    """The supports of one run."""

    id: str
    maximum_spacing: Annotated[Length, msgspec.Meta(description="The least of code, practice and sag")]
    governing_rule: str
    code_spacing: Annotated[Length, msgspec.Meta(description="What the code allows; left out where it has no rule")] | None = None
    spacing: Annotated[Length, msgspec.Meta(description="Even spacing over this length, or the one to be checked")]
    supports: Annotated[
        float,
        msgspec.Meta(
            description="Number of supports, one at each end included; flexible duct: its connections count as the end supports and are left out"
        ),
    ]
    guides: Annotated[float, msgspec.Meta(description="Guides halfway between vertical supports, where the code wants them")] | None = None
    weight: Annotated[LinearLoad, msgspec.Meta(description="Weight per length with contents and insulation")]
    load_per_support: Annotated[Load, msgspec.Meta(description="At the maximum spacing, valves included")]
    rod_diameter: Annotated[Dimension, msgspec.Meta(description="Hanger rod, pipe and tube")] | None = None
    strap_width: Annotated[Dimension, msgspec.Meta(description="Least width of strap, saddle or cradle")] | None = None
    sag: (
        Annotated[
            Dimension,
            msgspec.Meta(description="Sag in mid-span of a full, hot pipe at the spacing given, else at the greatest spacing, as a simple beam"),
        ]
        | None
    ) = None
    sag_limit: Annotated[Dimension, msgspec.Meta(description="Flexible duct: greatest sag between two supports")] | None = None
    drains_to: Annotated[Length, msgspec.Meta(description="Drain: spacing beyond which it holds water in mid-span")] | None = None


class SupportSpacingResult(Figured, frozen=True, kw_only=True):
    """The supports of every run."""

    code: Code
    runs: list[RunSupports]
