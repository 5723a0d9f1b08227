"""A figure with a band against a limit: meets, fails, or to be watched because the limit lies inside the band."""

from math import inf
from typing import Literal

from kneewall.calculations.commissioning_check.banded import Banded
from kneewall.calculations.commissioning_check.estimate import Estimate, difference
from kneewall.kernel.answer import EQUAL_WITHIN, Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Quantity
from kneewall.kernel.rule import Rule

Side = Literal["inside", "astride", "below", "above"]


def judge(
    findings: Findings,
    check: str,
    figure: Estimate,
    kind: type[Quantity],
    rule: Rule,
    *,
    least: float | None = None,
    most: float | None = None,
    meets: str,
    below: str = "",
    above: str = "",
    unsure: str = "Measure closer before you call it.",
    otherwise: Verdict = "fails",
    width: type[Quantity] | None = None,
) -> Verdict:
    """Hold a figure to the limits that are given, by its whole band. Sentences carry the figure with its uncertainty and the limit; `meets` carries
    both limits where there are two. Source: commissioning-check.band.
    """
    verdict, limit, side = _verdict(figure, least, most)
    actual, bound = kind(figure.value), kind(limit)
    band = Banded(actual, (width or kind)(figure.uncertainty), least=least, most=most)
    if side == "inside":
        says = Phrase(meets, band, bound) if least is None or most is None else Phrase(meets, band, kind(least), kind(most))
    elif side == "astride":
        says = Phrase("{}: {} may lie on either side of the limit of {}. {}", check.capitalize(), band, bound, unsure)
    else:
        says = Phrase(below if side == "below" else above, band, bound)
    verdict = otherwise if verdict == "fails" else verdict
    findings.check(check, verdict, rule, says, actual=actual, limit=bound)
    return verdict


def _verdict(figure: Estimate, least: float | None, most: float | None) -> tuple[Verdict, float, Side]:
    """The verdict, the limit that decides it and where the band lies. A band that touches a limit from the right side meets it."""
    value, uncertainty = figure.value, figure.uncertainty
    to_least = inf if least is None else value - least
    to_most = inf if most is None else most - value
    limit, spare, side = (least, to_least, "below") if to_least <= to_most else (most, to_most, "above")
    assert limit is not None
    slack = EQUAL_WITHIN * max(abs(limit), abs(value), uncertainty)
    if spare >= uncertainty - slack:
        return "meets", limit, "inside"
    if spare < -uncertainty - slack:
        return "fails", limit, side  # type: ignore[return-value]
    return "watch", limit, "astride"


def agree(findings: Findings, check: str, one: Estimate, other: Estimate, kind: type[Quantity], rule: Rule, ways: tuple[str, str]) -> None:
    """Say whether two ways to the same figure agree within their common uncertainty. Source: commissioning-check.agreement."""
    apart = difference(one, other)
    limit = apart.uncertainty
    agrees = abs(apart.value) <= limit * (1.0 + EQUAL_WITHIN)
    sentence = (
        "{} by {} and {} by {} agree within {}."
        if agrees
        else "{} by {} and {} by {} differ by more than the {} that readings explain: one of them is wrong. Find out which before you trust either."
    )
    says = Phrase(
        sentence, Banded(kind(one.value), kind(one.uncertainty)), ways[0], Banded(kind(other.value), kind(other.uncertainty)), ways[1], kind(limit)
    )
    findings.check(check, "meets" if agrees else "watch", rule, says, actual=kind(abs(apart.value)), limit=kind(limit))
