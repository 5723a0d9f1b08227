"""What a static-pressure budget asks and what its answer says."""

from typing import Annotated

import msgspec

from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import Airflow, AirPressure, FrictionRate, Length
from kneewall.kernel.question import Question, asked
from kneewall.physics.air import AirState
from kneewall.physics.components import Component
from kneewall.physics.fan import Blower


class BudgetLength(Question, frozen=True, kw_only=True):
    """Total effective length of the worst path on each side, fittings included."""

    supply: Annotated[Length, asked("From the unit to the worst outlet", least="1 ft", most="3000 ft")]
    return_: Annotated[Length, asked("From the worst return grille to the unit", least="0 ft", most="3000 ft")] = msgspec.field(name="return")


class StaticPressureBudgetQuestion(Question, frozen=True, kw_only=True):
    """How much pressure is left for ducts, and what friction rate does that allow?"""

    airflow: Annotated[Airflow, asked("Design airflow", least="10 cfm", most="100000 cfm")]
    blower_static_pressure: (
        Annotated[
            AirPressure, asked("External static pressure the blower has at the design airflow, in standard air", least="0.01 inH2O", most="10 inH2O")
        ]
        | None
    ) = None
    blower: Annotated[Blower, msgspec.Meta(description="The blower's table, instead of the blower's static pressure")] | None = None
    components: Annotated[
        list[Component], msgspec.Meta(description="What takes pressure outside the blower's rating, outlets and grilles included", max_length=40)
    ] = []
    effective_length: Annotated[BudgetLength, msgspec.Meta(description="Total effective length")]
    rated_limit: (
        Annotated[AirPressure, asked("Highest external static pressure the unit is rated for, in standard air", least="0.05 inH2O", most="5 inH2O")]
        | None
    ) = None
    air: Annotated[AirState, msgspec.Meta(description="The air that is moved; standard air where it is left out")] | None = None


class ComponentDrop(Figured, frozen=True, kw_only=True):
    """A component at the design airflow."""

    name: str
    pressure_drop: AirPressure


class DuctPressure(Figured, frozen=True, kw_only=True):
    """Pressure for the ducts of each side, by length."""

    supply: AirPressure
    return_: AirPressure = msgspec.field(name="return")


class BudgetExternalStaticPressure(Figured, frozen=True, kw_only=True):
    """External static pressure by side, components included, when the ducts use all that is left to them."""

    supply: AirPressure
    return_: AirPressure = msgspec.field(name="return")
    total: AirPressure


class StaticPressureBudgetResult(Figured, frozen=True, kw_only=True):
    """The budget."""

    blower_static_pressure: AirPressure
    components: list[ComponentDrop]
    available_static_pressure: AirPressure
    total_effective_length: Length
    friction_rate: FrictionRate
    duct_pressure: DuctPressure
    external_static_pressure: BudgetExternalStaticPressure
