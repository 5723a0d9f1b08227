"""Duct sizing: the round diameter at which friction and velocity both stay within bounds, then the nominal size above it.

The story: find the air, find the exact diameter, round up in the shape asked for, and say what the air does in that size.
"""

from kneewall.calculations.duct_sizing import rules
from kneewall.calculations.duct_sizing.messages import ROUND_STEEL, DuctSizingQuestion, DuctSizingResult, FrictionRateBand, GovernedBy, SizeOffered
from kneewall.kernel.answer import EQUAL_WITHIN, Answer, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import AirPressure, Density, Dimension, FrictionRate, Number, Velocity
from kneewall.kernel.refusal import fault, refuse, refuse_any
from kneewall.physics import ducts, friction
from kneewall.physics.air import Air, air_of
from kneewall.physics.constants import QUARTER_PI
from kneewall.physics.duct_noise import FASTEST_USUAL, USUAL_VELOCITY, VELOCITY_BY_PLACE
from kneewall.physics.duct_sizes import (
    ASPECT_RATIO,
    MOST_ASPECT,
    aspect_ratio,
    duct_faults,
    governed_by_velocity,
    size_faults,
    size_rules,
    sizes_for,
)
from kneewall.physics.ducts import DEFAULT_STRETCH, Duct, DuctSize

_STEEL: dict[str, Duct] = {shape: Duct(shape=shape) for shape in ("round", "rectangular", "flat-oval")}


def size_duct(question: DuctSizingQuestion) -> Answer[DuctSizingResult]:
    """Answer a duct-sizing question. Raises: Refusal where the question contradicts itself or no made size is large enough."""
    refuse_contradictions(question)
    findings = Findings("duct-sizing")
    air = air_of(question.air)
    findings.apply(*air.rules, friction.DARCY_WEISBACH, friction.COLEBROOK, ducts.ROUGHNESS)
    duct = duct_of(question)
    stretch = stretch_of(duct)
    by_friction = diameter_by_friction(question, air, stretch)
    area = 0.0 if question.velocity_limit is None else question.airflow / question.velocity_limit
    exact, governed_by = governing(by_friction, diameter_by_velocity(question))
    if question.size is None:
        findings.apply(rules.ROUND_UP, size_rules(duct))
        sizes = sizes_for(duct, by_friction or 0.0, area)
    else:
        sizes = [question.size]
    findings.apply(*ducts.size_rules(sizes[0]))
    if by_friction is not None and area and sizes[0].shape != "round":
        governed_by = "velocity" if governed_by_velocity(sizes[0], by_friction, area) else "friction"
    result = describe(question, sizes, air, stretch, exact, governed_by)
    _check(findings, question, result)
    if stretch is not None:
        _check_slack(findings, duct, stretch, result)
    findings.caution(rules.SIZE_IS_NOT_THE_SYSTEM)
    return findings.answer(result)


def refuse_contradictions(question: DuctSizingQuestion) -> None:
    """Raises: Refusal naming every field that contradicts another or is missing."""
    duct = duct_of(question)
    found = duct_faults(duct, "/duct")
    if question.size is not None:
        found += size_faults(question.size, duct, "/size")
    elif question.friction_rate is None and question.velocity_limit is None:
        found.append(fault("/friction_rate", "give a friction rate, a velocity limit or both to choose a size by, or a size to check"))
    refuse_any(found)


def duct_of(question: DuctSizingQuestion) -> Duct:
    """The duct that is asked about; where nothing is said of it, galvanized steel in the shape of the given size, else round."""
    # The very default, and not an equal one: whoever says round is held to it.
    return _STEEL[question.size.shape] if question.duct is ROUND_STEEL and question.size is not None else question.duct


def stretch_of(duct: Duct) -> float | None:
    """Installed over fully extended length of a flexible duct; None for others."""
    if duct.material != "flexible":
        return None
    return DEFAULT_STRETCH if duct.stretch is None else duct.stretch


def diameter_by_friction(question: DuctSizingQuestion, air: Air, stretch: float | None) -> float | None:
    """The round diameter, m, that just loses the friction rate; None where none is asked for."""
    if question.friction_rate is None:
        return None
    return ducts.diameter_for_gradient(question.airflow, question.friction_rate, ducts.roughness_of(duct_of(question).material), air, stretch)


def diameter_by_velocity(question: DuctSizingQuestion) -> float | None:
    """The round diameter, m, in which the air just keeps the velocity limit; None where none is asked for."""
    return None if question.velocity_limit is None else ducts.diameter_for_velocity(question.airflow, question.velocity_limit)


def governing(by_friction: float | None, by_velocity: float | None) -> tuple[float | None, GovernedBy | None]:
    """The larger of the two diameters, and which limit it comes from."""
    if by_friction is None or (by_velocity is not None and by_velocity > by_friction):
        return by_velocity, None if by_velocity is None else "velocity"
    return by_friction, "friction"


def describe(
    question: DuctSizingQuestion, sizes: list[DuctSize], air: Air, stretch: float | None, exact: float | None, governed_by: GovernedBy | None
) -> DuctSizingResult:
    """What the air does in the first of the sizes, and the others as alternatives. Raises: Refusal for slack duct outside the tested sizes."""
    size = sizes[0]
    equivalent = ducts.equivalent_diameter(size)
    if stretch is not None and stretch < 1.0 and not ducts.TESTED_FLEXIBLE[0] - 1e-9 <= equivalent <= ducts.TESTED_FLEXIBLE[1] + 1e-9:
        raise refuse(
            "/size/diameter" if question.size else "/duct/material",
            "what slack adds to the loss of flexible duct is known from {} to {} only, not at {}; reckon with a stretch of 1 and pull it so, split the air, or use rigid duct",
            *ducts.TESTED_FLEXIBLE,
            Dimension(equivalent),
        )
    roughness = ducts.roughness_of(duct_of(question).material)
    round_velocity = question.airflow / (QUARTER_PI * equivalent * equivalent)
    reynolds = air.density * round_velocity * equivalent / air.viscosity
    friction_factor = friction.friction_factor(reynolds, roughness / equivalent)
    taut = friction_factor * air.density * round_velocity * round_velocity / (2.0 * equivalent)
    factor = None if stretch is None else ducts.stretch_factor(equivalent, stretch)
    velocity = question.airflow / ducts.duct_area(size)
    rate = taut if factor is None else taut * factor
    return DuctSizingResult(
        exact_diameter=None if exact is None else Dimension(exact),
        size=size,
        equivalent_diameter=Dimension(equivalent),
        velocity=Velocity(velocity),
        friction_rate=FrictionRate(rate),
        velocity_pressure=AirPressure(air.density * velocity * velocity / 2.0),
        reynolds_number=Number(reynolds),
        regime=friction.regime(reynolds),
        friction_factor=Number(friction_factor),
        air_density=Density(air.density),
        governed_by=governed_by,
        alternatives=[_offer(question, other, air, stretch) for other in sizes[1:]],
        stretch_factor=None if factor is None else Number(factor),
        friction_rate_band=None
        if factor is None or stretch == 1.0
        else FrictionRateBand(low=FrictionRate(max(taut, rate / 2.0)), high=FrictionRate(rate * 2.0)),
    )


def _offer(question: DuctSizingQuestion, size: DuctSize, air: Air, stretch: float | None) -> SizeOffered:
    equivalent = ducts.equivalent_diameter(size)
    gradient = ducts.duct_gradient(question.airflow, equivalent, ducts.roughness_of(duct_of(question).material), air, stretch)
    return SizeOffered(
        size=size,
        velocity=Velocity(question.airflow / ducts.duct_area(size)),
        friction_rate=FrictionRate(gradient),
        aspect_ratio=Number(aspect_ratio(size)),
    )


def _check(findings: Findings, question: DuctSizingQuestion, result: DuctSizingResult) -> None:
    if question.friction_rate is not None:
        findings.at_most(
            "friction", result.friction_rate, question.friction_rate, rules.ASKED_LIMIT,
            meets="The duct loses {}, within the {} that was allowed.",
            breaks="The duct loses {}, more than the {} that was allowed: take a larger size.",
        )  # fmt: skip
    if question.velocity_limit is not None:
        findings.at_most(
            "velocity", result.velocity, question.velocity_limit, rules.ASKED_LIMIT,
            meets="The air moves at {}, within the limit of {}.",
            breaks="The air moves at {}, above the limit of {}: take a larger size.",
        )  # fmt: skip
    if question.place is not None:
        findings.at_most(
            "noise", result.velocity, USUAL_VELOCITY[question.place], VELOCITY_BY_PLACE, otherwise="watch",
            meets="At {} it stays within the {} that is usual in such a place.",
            breaks="At {} it will be heard: in such a place {} is the usual top.",
        )  # fmt: skip
    _check_usual(findings, question, result)
    _check_shape(findings, result)
    if result.regime == "transitional":
        says = Phrase("At Reynolds number {} the flow may be laminar or turbulent; the friction figure is uncertain.", result.reynolds_number)
        findings.check("flow regime", "watch", rules.FULLY_TURBULENT, says, actual=result.reynolds_number, limit=friction.TURBULENT_FROM)


def _check_usual(findings: Findings, question: DuctSizingQuestion, result: DuctSizingResult) -> None:
    """Beyond what is usual in houses, whatever the question allows."""
    most = ducts.USUAL_FRICTION_RATE[1]
    if result.friction_rate > most * (1.0 + EQUAL_WITHIN):
        says = Phrase(
            "It loses {}, more than the {} that is usual at most in houses: it takes much of the blower's pressure.", result.friction_rate, most
        )
        findings.check("usual friction", "watch", rules.USUAL_FRICTION, says, actual=result.friction_rate, limit=most)
    if question.place is None and result.velocity > FASTEST_USUAL * (1.0 + EQUAL_WITHIN):
        says = Phrase(
            "At {} it will be heard: no duct in a house usually goes above {}, a branch or return less. Say the place.",
            result.velocity,
            FASTEST_USUAL,
        )
        findings.check("noise", "watch", VELOCITY_BY_PLACE, says, actual=result.velocity, limit=FASTEST_USUAL)


def _check_slack(findings: Findings, duct: Duct, stretch: float, result: DuctSizingResult) -> None:
    """How much slack is left in, whether said or taken; the answer reckons with it but does not approve of it."""
    taken = "" if duct.stretch is not None else "Nothing was said of slack. "
    findings.at_least(
        "slack", stretch, rules.CAREFUL, rules.SLACK, otherwise="watch" if stretch > rules.LET_GO + EQUAL_WITHIN else "fails",
        meets=taken + "It is reckoned as pulled out to {} of its full length, at least the {} of a careful job.",
        breaks="It is only pulled out to {} of its full length, less than the {} of a careful job: pull it straight and cut off the surplus.",
    )  # fmt: skip
    if result.friction_rate_band is not None:
        band = result.friction_rate_band
        says = Phrase("Laboratories disagree by a factor of two: the real loss lies between {} and {}.", band.low, band.high)
        findings.check("flexible duct", "watch", ducts.FLEXIBLE_STRETCH, says, actual=result.friction_rate)
    findings.caution(rules.SLACK_IS_NOT_SAG)


def _check_shape(findings: Findings, result: DuctSizingResult) -> None:
    ratio = Number(aspect_ratio(result.size))
    if ratio > 1.0:
        findings.at_most(
            "aspect ratio", ratio, MOST_ASPECT, ASPECT_RATIO, otherwise="watch",
            meets="The long side is {} times the short one, within {}.",
            breaks="The long side is {} times the short one, above {}: a deeper duct would take less sheet and make less noise.",
        )  # fmt: skip
