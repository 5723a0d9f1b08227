"""Findings that also keep the list of what is required."""

from kneewall.calculations.service_access.messages import AccessRequirement
from kneewall.kernel.answer import EQUAL_WITHIN, Findings, Verdict
from kneewall.kernel.phrase import Figure
from kneewall.kernel.quantity import Quantity


class Judged(Findings):
    """Findings of a service-access question, with its requirements item by item."""

    __slots__ = ("requirements",)

    def __init__(self, calculation: str) -> None:
        super().__init__(calculation)
        self.requirements: list[AccessRequirement] = []

    def require(self, item: str, required: Figure, actual: Figure, verdict: Verdict) -> None:
        """Keep one requirement with its verdict."""
        self.requirements.append(AccessRequirement(item=item, required=required, actual=actual, verdict=verdict))

    def least(self, item: str, actual: Quantity, required: Quantity) -> bool:
        """Keep a requirement that `actual` is not below `required`, and say whether it holds."""
        holds = actual >= required - EQUAL_WITHIN * required
        self.require(item, required, actual, "meets" if holds else "fails")
        return holds

    def most(self, item: str, actual: Quantity, required: Quantity) -> bool:
        """Keep a requirement that `actual` is not above `required`, and say whether it holds."""
        holds = actual <= required + EQUAL_WITHIN * required
        self.require(item, required, actual, "meets" if holds else "fails")
        return holds
