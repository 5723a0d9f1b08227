"""The static-pressure budget: what the blower has, less what stands in its way, spread over the length of duct."""

from kneewall.calculations.static_pressure_budget import messages as m
from kneewall.calculations.static_pressure_budget import rules
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import AirPressure, FrictionRate, Length
from kneewall.kernel.refusal import fault, refuse, refuse_any
from kneewall.physics.air import STANDARD, Air, air_of
from kneewall.physics.components import COMPONENT_DENSITY, COMPONENT_EXPONENT, check_component_range, component_drop, components_in
from kneewall.physics.ducts import USUAL_FRICTION_RATE
from kneewall.physics.fan import BLOWER_DENSITY, RATED_DENSITY, BlowerCurve, rated_in_words, rated_limit_in

FILTER_SHARE = 0.25
USUALLY_THERE = {"filter": ("filter",), "coil": ("coil",), "supply outlet": ("outlet", "register", "diffuser"), "return grille": ("grille",)}
"""What every system has, and the words by which it is told."""


def budget(question: m.StaticPressureBudgetQuestion) -> Answer[m.StaticPressureBudgetResult]:
    """Answer a static-pressure budget. Raises: Refusal where nothing is left for ducts, or the blower is not or twice given."""
    findings = Findings("static-pressure-budget")
    air = air_of(question.air)
    has = blower_static_pressure(findings, question, air)
    components = components_in(question.components, air)
    drops = [m.ComponentDrop(name=one.name, pressure_drop=AirPressure(component_drop(one, question.airflow))) for one in components]
    taken = sum(drop.pressure_drop for drop in drops)
    if taken >= has:
        raise refuse(
            "/components",
            "at {} the components take {} and the blower has {}: nothing is left for ducts. Take a larger filter or a freer coil, less air, a higher blower speed or a stronger blower",
            question.airflow,
            AirPressure(taken),
            AirPressure(has),
        )
    result = _result(question, has, drops, has - taken)
    findings.apply(rules.AVAILABLE, rules.FRICTION_RATE, *([COMPONENT_EXPONENT] if drops else []))
    if question.air is not None:
        findings.apply(*air.rules, BLOWER_DENSITY, *([COMPONENT_DENSITY] if drops else []))
    _check(findings, result)
    _check_rating(findings, question, result, air)
    _check_complete(findings, question)
    check_component_range(findings, question.components, question.airflow)
    findings.caution(rules.MEASURE, rules.STARVED_COIL)
    return findings.answer(result)


def blower_static_pressure(findings: Findings, question: m.StaticPressureBudgetQuestion, air: Air) -> float:
    """What the blower has at the design airflow in this air, Pa. Source: fan.blower-density. Raises: Refusal."""
    if (question.blower is None) == (question.blower_static_pressure is None):
        refuse_any([fault("/blower_static_pressure", "give either the blower's static pressure or a blower, exactly one of the two")])
    if question.blower_static_pressure is not None:
        return question.blower_static_pressure * (air.density / STANDARD.density)
    assert question.blower is not None
    curve = BlowerCurve(question.blower, "/blower", air)
    findings.apply(*curve.rules)
    return curve.needed_static_pressure(question.airflow)


def _result(question: m.StaticPressureBudgetQuestion, has: float, drops: list[m.ComponentDrop], available: float) -> m.StaticPressureBudgetResult:
    lengths = question.effective_length
    total = lengths.supply + lengths.return_
    share = {"supply": available * lengths.supply / total, "return": available * lengths.return_ / total}
    beside = dict.fromkeys(share, 0.0)
    for component, drop in zip(question.components, drops, strict=True):
        beside[component.side] += drop.pressure_drop
    return m.StaticPressureBudgetResult(
        blower_static_pressure=AirPressure(has),
        components=drops,
        available_static_pressure=AirPressure(available),
        total_effective_length=Length(total),
        friction_rate=FrictionRate(available / total),
        duct_pressure=m.DuctPressure(supply=AirPressure(share["supply"]), return_=AirPressure(share["return"])),
        external_static_pressure=m.BudgetExternalStaticPressure(
            supply=AirPressure(share["supply"] + beside["supply"]), return_=AirPressure(share["return"] + beside["return"]), total=AirPressure(has)
        ),
    )


def _check(findings: Findings, result: m.StaticPressureBudgetResult) -> None:
    rate = result.friction_rate
    low, high = USUAL_FRICTION_RATE
    if rate < low * (1 - 1e-9):
        says = Phrase(
            "Only {} is left per length, below the usual {}: the ducts will be large. Shorter runs, freer fittings or a stronger blower help.",
            rate,
            low,
        )
        findings.check("friction rate", "watch", rules.USUAL, says, actual=rate, limit=low)
    else:
        findings.at_most(
            "friction rate", rate, high, rules.USUAL, otherwise="watch",
            meets="The ducts may lose {}, within the usual {}.",
            breaks="The ducts may lose {}, above the usual {}: size them for less, or slow the blower, and it stays quiet.",
        )  # fmt: skip


def _check_complete(findings: Findings, question: m.StaticPressureBudgetQuestion) -> None:
    """What usually takes pressure and is not among the components, by kind or by name."""
    named = " ".join(f"{one.kind} {one.name.lower()} {one.side}" if one.kind == "other" else one.kind for one in question.components)
    left_out = [what for what, words in USUALLY_THERE.items() if not any(word in named for word in words)]
    if left_out:
        sentence = "Not among the components: {}. What the blower's table does not already count, as it often does a coil, is missing here, and the budget is too kind by that."
        findings.check("components", "watch", rules.COMPLETE, Phrase(sentence, ", ".join(left_out)))


def _check_rating(findings: Findings, question: m.StaticPressureBudgetQuestion, result: m.StaticPressureBudgetResult, air: Air) -> None:
    if question.rated_limit is None:
        return
    rated, named = rated_limit_in(question.rated_limit, air), rated_in_words(air)
    if question.air is not None:
        findings.apply(RATED_DENSITY)
    findings.at_most(
        "rated external static pressure", result.external_static_pressure.total, rated, rules.RATED_LIMIT,
        meets=f"The blower works against {{}}, within the {named}.",
        breaks=f"The blower would work against {{}}, above the {named}.",
    )  # fmt: skip
    filters = sum(drop.pressure_drop for one, drop in zip(question.components, result.components, strict=True) if one.kind == "filter")
    if filters:
        findings.at_most(
            "filter", AirPressure(filters), AirPressure(FILTER_SHARE * rated), rules.FILTER_SHARE, otherwise="watch",
            meets="The filter takes {}, within a quarter of the rating, {}.",
            breaks="The filter takes {}, more than a quarter of the rating, {}: a larger or deeper filter leaves more for the ducts.",
        )  # fmt: skip
