"""The checks made on a duct system: blower, outlets, noise, balance, leakage, sweating."""

from kneewall.calculations.duct_system import rules
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult, SectionAnswer
from kneewall.kernel.answer import Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import AirPressure, TemperatureDifference, Velocity
from kneewall.physics import ducts
from kneewall.physics.air import Air
from kneewall.physics.fan import BLOWER_TABLE, RATED_DENSITY, BlowerCurve, rated_in_words, rated_limit_in

OUTLET_WITHIN = 0.10
SIDES_WITHIN = 0.05
LEAKAGE_MOST = 0.05
USUAL_VELOCITY = {"supply": Velocity.of(900, "fpm"), "return": Velocity.of(700, "fpm")}


def check_system(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, blower: BlowerCurve | None, air: Air) -> None:
    """Every check that the question allows, the gravest first."""
    _check_blower(findings, question, result, blower)
    _check_rating(findings, question, result, air)
    _check_outlets(findings, question, result)
    _check_sides(findings, result)
    _check_friction_rate(findings, result)
    _check_velocity(findings, result)
    _check_regime(findings, result)
    _check_flexible(findings, question)
    _check_leakage(findings, result)
    _check_sweating(findings, question, result)


def _check_blower(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, blower: BlowerCurve | None) -> None:
    total = result.external_static_pressure.total
    if question.task == "size" and blower is not None:
        has = blower.static_pressure(result.operating_point.airflow)
        if has is None:
            sentence = "The blower's table does not reach the design airflow of {}: another speed or another unit is needed."
            airflow = result.operating_point.airflow
            findings.check("blower", "fails", BLOWER_TABLE, Phrase(sentence, airflow), actual=airflow)
        else:
            findings.at_most(
                "blower", total, AirPressure(has), rules.BLOWER_LIMIT,
                meets="The system takes {} at the design airflow and the blower has {} there.",
                breaks="The system takes {} at the design airflow and the blower has only {} there: larger ducts, freer fittings or a stronger blower.",
            )  # fmt: skip


def _check_rating(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, air: Air) -> None:
    if question.rated_limit is None:
        return
    named = rated_in_words(air)
    findings.at_most(
        "rated external static pressure", result.external_static_pressure.total, rated_limit_in(question.rated_limit, air), rules.RATED_LIMIT,
        meets=f"External static pressure is {{}}, within the {named}.",
        breaks=f"External static pressure is {{}}, above the {named}: the unit will not deliver its air or its capacity.",
    )  # fmt: skip
    if question.air is not None:
        findings.apply(RATED_DENSITY)


def _check_outlets(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult) -> None:
    if question.task == "size":
        return
    off = [outlet for outlet in result.outlets if abs(outlet.ratio - 1.0) > OUTLET_WITHIN + 1e-9]
    for outlet in off:
        if outlet.ratio < 1.0:
            sentence = "{} gets {} of its {}: {} per cent."
        else:
            sentence = "{} gets {} where {} is wanted: {} per cent; a damper there gives the surplus to the others."
        says = Phrase(sentence, outlet.id, outlet.airflow, outlet.design_airflow, str(round(100 * outlet.ratio)))
        findings.check(
            f"airflow at {outlet.id}",
            "fails" if outlet.ratio < 1.0 else "watch",
            rules.OUTLET_AIRFLOW,
            says,
            actual=outlet.airflow,
            limit=outlet.design_airflow,
        )
    if not off:
        says = Phrase("Every one of the {} outlets gives its design airflow within 10 per cent.", str(len(result.outlets)))
        findings.check("airflow at the outlets", "meets", rules.OUTLET_AIRFLOW, says)


def _check_sides(findings: Findings, result: DuctSystemResult) -> None:
    sums = {side: sum(outlet.design_airflow for outlet in result.outlets if outlet.side == side) for side in ("supply", "return")}
    if not sums["supply"] or not sums["return"]:
        missing = "supply" if not sums["supply"] else "return"
        says = Phrase("No {} sections are given, so that side counts as taking no pressure: the answer is too kind by all that it takes.", missing)
        findings.check("both sides", "watch", rules.NETWORK, says)
        return
    ratio = sums["return"] / sums["supply"]
    findings.check(
        "supply and return agree", "meets" if abs(ratio - 1.0) <= SIDES_WITHIN + 1e-9 else "watch", rules.BALANCED_SIDES, actual=ratio, limit=1.0,
        says=Phrase("The return grilles are designed for {} per cent of what the supply outlets give.", f"{100 * ratio:.3g}"),
    )  # fmt: skip


def _check_friction_rate(findings: Findings, result: DuctSystemResult) -> None:
    rate = result.friction_rate
    if rate is None:
        return
    usual = ducts.USUAL_FRICTION_RATE[0] * (1 - 1e-9) <= rate <= ducts.USUAL_FRICTION_RATE[1] * (1 + 1e-9)
    sentence = (
        "The friction rate of {} lies within the usual {} to {}."
        if usual
        else "The friction rate of {} lies outside the usual {} to {}: ducts grow large below it and are heard above it."
    )
    findings.check(
        "friction rate", "meets" if usual else "watch", rules.USUAL_FRICTION_RATE, Phrase(sentence, rate, *ducts.USUAL_FRICTION_RATE), actual=rate
    )


def _check_velocity(findings: Findings, result: DuctSystemResult) -> None:
    def over(section: SectionAnswer) -> float:
        return section.velocity / USUAL_VELOCITY[section.side]

    worst = max(result.sections, key=over)
    limit = USUAL_VELOCITY[worst.side]
    sentence = (
        "The fastest air for its side moves at {} in {}, within the usual {}."
        if over(worst) <= 1 + 1e-9
        else "At {} the air in {} will be heard: {} is the usual top there."
    )
    findings.check(
        "noise",
        "meets" if over(worst) <= 1 + 1e-9 else "watch",
        rules.TRUNK_VELOCITY,
        Phrase(sentence, worst.velocity, worst.id, limit),
        actual=worst.velocity,
        limit=limit,
    )


def _check_regime(findings: Findings, result: DuctSystemResult) -> None:
    unsure = [section.id for section in result.sections if section.regime == "transitional"]
    if unsure:
        says = Phrase("So little air moves in {} that the flow may be laminar or turbulent; its friction is uncertain.", ", ".join(unsure[:6]))
        findings.check("flow regime", "watch", rules.FLOW_REGIME, says)


def _check_flexible(findings: Findings, question: DuctSystemQuestion) -> None:
    if any(section.duct is not None and section.duct.material == "flexible" for section in question.sections):
        says = Phrase(
            "Laboratories disagree by a factor of two on flexible duct that is not pulled straight; every pressure and flow here shares that doubt."
        )
        findings.check("flexible duct", "watch", ducts.FLEXIBLE_STRETCH, says)


def _check_leakage(findings: Findings, result: DuctSystemResult) -> None:
    share = result.leakage.share
    sentence = "About {} per cent of the air is lost or drawn in through joints; the flows here do not count it."
    if share > LEAKAGE_MOST * (1 + 1e-9):
        sentence += " Seal the joints with mastic."
    verdict: Verdict = "watch" if share > LEAKAGE_MOST * (1 + 1e-9) else "meets"
    findings.check("leakage", verdict, rules.LEAKAGE_SHARE, Phrase(sentence, f"{100 * share:.2g}"), actual=share, limit=LEAKAGE_MOST)
    findings.apply(rules.LEAKAGE)


def _check_sweating(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult) -> None:
    around = question.surroundings
    if around is None or around.dew_point is None:
        return
    cooled = [section for section in result.sections if section.surface_temperature is not None]
    wet = [section for section in cooled if section.surface_temperature is not None and section.surface_temperature <= around.dew_point]
    if cooled and not wet:
        coldest = min(section.surface_temperature for section in cooled if section.surface_temperature is not None)
        margin = TemperatureDifference(coldest - around.dew_point)
        findings.check(
            "sweating",
            "meets",
            rules.SWEATING,
            Phrase("The coldest surface, {}, stays {} above the dew point of {}.", coldest, margin, around.dew_point),
            actual=coldest,
            limit=around.dew_point,
        )
    for section in wet:
        if section.least_r is None:
            says = Phrase("{} sweats and no insulation helps: the air around is saturated.", section.id)
        else:
            says = Phrase(
                "{} sweats: its surface is {}, the dew point {}; it needs at least {}.",
                section.id,
                section.surface_temperature,
                around.dew_point,
                section.least_r,
            )
        findings.check(f"sweating of {section.id}", "fails", rules.SWEATING, says, actual=section.surface_temperature, limit=around.dew_point)
        findings.caution(rules.SWEATING_DUCTS)
