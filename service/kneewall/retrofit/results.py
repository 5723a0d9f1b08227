"""What the answer to a whole job says: first what fails and what to do first, then the clashes, the order of work, the take-off and every part."""

from typing import Annotated, Any

import msgspec

from kneewall.calculations.commissioning_check.answered import CommissioningCheckResult
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.calculations.duct_system.messages import DuctSystemResult
from kneewall.calculations.equipment_hanging.answers import EquipmentHangingResult
from kneewall.calculations.refrigerant_line_sizing.results import RefrigerantLineSizingResult
from kneewall.calculations.service_access.messages import ServiceAccessResult
from kneewall.calculations.static_pressure_budget.messages import StaticPressureBudgetResult
from kneewall.calculations.support_spacing.messages import SupportSpacingResult
from kneewall.calculations.water_loop_flow.answered import WaterLoopResult
from kneewall.kernel.answer import Answer, Figured, Verdict
from kneewall.kernel.phrase import Figure, Phrase
from kneewall.kernel.rule import Hazard
from kneewall.kernel.words import FOR_PROGRAMS, TOKENS


class Finding(Figured, frozen=True, kw_only=True):
    """Something that must be settled, in plain words."""

    part: Annotated[str, TOKENS]
    verdict: Verdict
    says: Phrase


class Conflict(Figured, frozen=True, kw_only=True):
    """Two parts of the job that want different things, or agree."""

    conflict: Annotated[str, msgspec.Meta(description="What it is about")]
    between: Annotated[list[str], TOKENS]
    verdict: Verdict
    by: Annotated[Figure, msgspec.Meta(description="By how much they clash; left out where they do not")] = None
    says: Phrase
    settle: Annotated[Phrase | None, msgspec.Meta(description="The least change that would settle it")] = None


class NotChecked(Figured, frozen=True, kw_only=True):
    """What could not be checked, and why."""

    what: Annotated[str, TOKENS]
    says: Phrase


class Stage(Figured, frozen=True, kw_only=True):
    """A stage of the work: what is done, how it is proved before it is covered, and what it can do to people and house."""

    stage: str
    does: str
    proves: str
    against: Annotated[list[Phrase], msgspec.Meta(description="Figures of this answer that the proof is held against")] = []
    hazards: list[Hazard]
    parts: Annotated[list[str], TOKENS]


class Material(Figured, frozen=True, kw_only=True):
    """A line of the take-off."""

    item: Annotated[str, TOKENS]
    size: Annotated[str, TOKENS]
    quantity: float
    unit: str
    part: Annotated[str, TOKENS]
    order: Annotated[str | None, msgspec.Meta(description="How it is ordered: whole lengths, boxes or rolls")] = None


class DeliveryLine(Figured, frozen=True, kw_only=True):
    """A line of what came, against the take-off."""

    item: Annotated[str, TOKENS]
    size: Annotated[str, TOKENS]
    needed: float
    received: float
    damaged: float
    unit: str
    condition: Annotated[str, msgspec.Meta(description="complete, short, over, damaged, missing or not on the list")]
    verdict: Verdict
    stops: Annotated[str | None, msgspec.Meta(description="The stage of work that cannot begin without it")] = None


class PartAnswers(Figured, frozen=True, kw_only=True):
    """Every part's whole answer, as its own endpoint gives it."""

    duct_system: Answer[DuctSystemResult] | None = msgspec.field(default=None, name="duct-system")
    static_pressure_budget: Answer[StaticPressureBudgetResult] | None = msgspec.field(default=None, name="static-pressure-budget")
    water_loop_flow: Answer[WaterLoopResult] | None = msgspec.field(default=None, name="water-loop-flow")
    equipment_hanging: Answer[EquipmentHangingResult] | None = msgspec.field(default=None, name="equipment-hanging")
    condensate_drain: Answer[CondensateDrainResult] | None = msgspec.field(default=None, name="condensate-drain")
    refrigerant_line_sizing: Answer[RefrigerantLineSizingResult] | None = msgspec.field(default=None, name="refrigerant-line-sizing")
    support_spacing: Answer[SupportSpacingResult] | None = msgspec.field(default=None, name="support-spacing")
    service_access: Answer[ServiceAccessResult] | None = msgspec.field(default=None, name="service-access")
    commissioning_check: Answer[CommissioningCheckResult] | None = msgspec.field(default=None, name="commissioning-check")


class RetrofitCheckResult(Figured, frozen=True, kw_only=True):
    """The job as a whole."""

    verdict: Verdict
    says: Annotated[Phrase, msgspec.Meta(description="The job in a sentence or two")]
    first: Annotated[list[Finding], msgspec.Meta(description="What fails, in the order in which to settle it")]
    conflicts: list[Conflict]
    not_checked: list[NotChecked]
    order_of_work: list[Stage]
    materials: list[Material]
    delivery: list[DeliveryLine] | None = None
    parts: PartAnswers
    questions: Annotated[
        dict[str, Any], msgspec.Meta(description="The full question of every part, ready to be sent to its own endpoint"), FOR_PROGRAMS
    ]
