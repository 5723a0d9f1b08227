"""What a duct-sizing question asks and what its answer says."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import Airflow, AirPressure, Density, Dimension, FrictionRate, Number, Velocity
from kneewall.kernel.question import Question, asked
from kneewall.physics.air import AirState
from kneewall.physics.duct_noise import Place
from kneewall.physics.ducts import Duct, DuctSize
from kneewall.physics.friction import Regime

ROUND_STEEL = Duct()
GovernedBy = Literal["friction", "velocity"]


class DuctSizingQuestion(Question, frozen=True, kw_only=True):
    """Which size carries this air, or does this size carry it?"""

    airflow: Annotated[Airflow, asked("Actual air flow through the duct", least="1 cfm", most="100000 cfm")]
    friction_rate: (
        Annotated[FrictionRate, asked("Loss per length that the duct may have", least="0.001 inH2O/100ft", most="10 inH2O/100ft")] | None
    ) = None
    velocity_limit: Annotated[Velocity, asked("Velocity that the duct may have", least="50 fpm", most="6000 fpm")] | None = None
    duct: Annotated[
        Duct, msgspec.Meta(description="Material and shape; galvanized steel where it is left out, in the shape of `size`, else round")
    ] = ROUND_STEEL
    size: Annotated[DuctSize, msgspec.Meta(description="Check this size instead of choosing one")] | None = None
    place: Annotated[Place, msgspec.Meta(description="Where the duct is, for the velocity usual there")] | None = None
    air: Annotated[AirState, msgspec.Meta(description="The air in the duct; standard air where it is left out")] | None = None


class SizeOffered(Figured, frozen=True, kw_only=True):
    """Another nominal size that carries the air."""

    size: DuctSize
    velocity: Velocity
    friction_rate: FrictionRate
    aspect_ratio: Number


class FrictionRateBand(Figured, frozen=True, kw_only=True):
    """Between what the loss of a flexible duct really lies."""

    low: FrictionRate
    high: FrictionRate


class DuctSizingResult(Figured, frozen=True, kw_only=True):
    """The size, and what the air does in it."""

    exact_diameter: (
        Annotated[
            Dimension,
            msgspec.Meta(
                description="Round duct that would just do, before rounding up. A duct of another shape keeps a velocity limit by its area: its equivalent diameter may be less"
            ),
        ]
        | None
    ) = None
    size: DuctSize
    equivalent_diameter: Annotated[Dimension, msgspec.Meta(description="Round diameter that loses as much as `size`")]
    velocity: Velocity
    friction_rate: FrictionRate
    velocity_pressure: AirPressure
    reynolds_number: Number
    regime: Regime
    friction_factor: Annotated[Number, msgspec.Meta(description="Darcy friction factor")]
    air_density: Density
    governed_by: Annotated[GovernedBy, msgspec.Meta(description="The limit that needs the larger duct in this shape")] | None = None
    alternatives: list[SizeOffered]
    stretch_factor: Annotated[Number, msgspec.Meta(description="Flexible: by how much more it loses than when fully extended")] | None = None
    friction_rate_band: FrictionRateBand | None = None
