"""The envelope every answer comes in, and the findings a calculation collects while it works."""

from typing import Annotated, Generic, Literal, TypeVar

import msgspec

from kneewall import RULEBOOK
from kneewall.kernel.phrase import Figure, Phrase
from kneewall.kernel.rule import Caution, Rule
from kneewall.kernel.words import TOKENS

Verdict = Literal["meets", "watch", "fails", "refer"]
ResultT = TypeVar("ResultT")

EQUAL_WITHIN = 1e-9
"""Relative difference below which a figure counts as standing at its limit: unit conversion leaves a last-digit difference."""


class Figured(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Base of everything that leaves: fields that were not worked out are left out."""


class Check(Figured, frozen=True, kw_only=True):
    """One comparison of a figure with its limit."""

    check: str
    verdict: Verdict
    actual: Annotated[Figure, TOKENS] = None
    limit: Annotated[Figure, TOKENS] = None
    rule: str
    says: Phrase


class WorkingLine(Figured, frozen=True, kw_only=True):
    """One line of the working, to be followed by hand."""

    step: str
    formula: str
    substituted: Phrase
    value: Figure
    rule: str | None = None


class Answer(Figured, Generic[ResultT], frozen=True, kw_only=True):
    """A result with the checks made on it, the rules it applied and the cautions of the trade."""

    calculation: str
    rulebook: str
    result: ResultT
    checks: list[Check]
    rules: list[Rule]
    cautions: list[Caution]
    working: list[WorkingLine] | None = None


class Findings:
    """What a calculation finds on its way to the result: checks made, rules applied, cautions due."""

    __slots__ = ("calculation", "cautions", "checks", "rules")

    def __init__(self, calculation: str) -> None:
        self.calculation = calculation
        self.checks: list[Check] = []
        self.rules: dict[str, Rule] = {}
        self.cautions: dict[str, Caution] = {}

    def apply(self, *rules: Rule) -> None:
        """Say that the result rests on these rules."""
        for rule in rules:
            self.rules[rule.id] = rule

    def caution(self, *cautions: Caution) -> None:
        """Say these cautions, each once."""
        for caution in cautions:
            self.cautions[caution.id] = caution

    def check(self, check: str, verdict: Verdict, rule: Rule, says: Phrase, *, actual: Figure = None, limit: Figure = None) -> None:
        """Record a check and apply its rule."""
        self.rules[rule.id] = rule
        self.checks.append(Check(check=check, verdict=verdict, actual=actual, limit=limit, rule=rule.id, says=says))

    def at_most(self, check: str, actual: float, limit: float, rule: Rule, *, otherwise: Verdict = "fails", meets: str, breaks: str) -> bool:
        """Check that `actual` is not above `limit`; `meets` and `breaks` are sentences with {} for the actual figure and the limit."""
        holds = actual <= limit or actual - limit <= EQUAL_WITHIN * abs(limit)
        self.check(check, "meets" if holds else otherwise, rule, Phrase(meets if holds else breaks, actual, limit), actual=actual, limit=limit)
        return holds

    def at_least(self, check: str, actual: float, limit: float, rule: Rule, *, otherwise: Verdict = "fails", meets: str, breaks: str) -> bool:
        """Check that `actual` is not below `limit`; sentences as in `at_most`."""
        holds = actual >= limit or limit - actual <= EQUAL_WITHIN * abs(limit)
        self.check(check, "meets" if holds else otherwise, rule, Phrase(meets if holds else breaks, actual, limit), actual=actual, limit=limit)
        return holds

    def answer(self, result: ResultT) -> Answer[ResultT]:
        """The finished answer."""
        return Answer(
            calculation=self.calculation,
            rulebook=RULEBOOK,
            result=result,
            checks=self.checks,
            rules=list(self.rules.values()),
            cautions=list(self.cautions.values()),
        )
