"""The checks made on a duct system: blower, rating, airflow, balance, limits asked for, noise; then its layout and its surroundings."""

from kneewall.calculations.duct_system import rules
from kneewall.calculations.duct_system.check_heat import check_heat, named
from kneewall.calculations.duct_system.check_layout import check_layout
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult, SectionAnswer, VelocityLimits
from kneewall.calculations.duct_system.tree import Node
from kneewall.kernel.answer import Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Airflow, AirPressure, FrictionRate, Number, Velocity
from kneewall.physics import ducts
from kneewall.physics.air import Air
from kneewall.physics.duct_noise import USUAL_VELOCITY, VELOCITY_BY_PLACE, Place
from kneewall.physics.fan import BLOWER_TABLE, RATED_DENSITY, BlowerCurve, rated_in_words, rated_limit_in

OUTLET_WITHIN = 0.10
SIDES_WITHIN = 0.05


def check_system(
    findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, nodes: list[Node], blower: BlowerCurve | None, air: Air
) -> None:
    """Every check that the question allows, the gravest first."""
    _check_blower(findings, question, result, blower)
    _check_rating(findings, question, result, air)
    _check_outlets(findings, question, result)
    _check_sides(findings, result)
    _check_asked(findings, question, result)
    _check_friction_rate(findings, result)
    _check_velocity(findings, result, nodes)
    check_layout(findings, question, result, nodes)
    check_heat(findings, question, result, air)


def _check_blower(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, blower: BlowerCurve | None) -> None:
    total = result.external_static_pressure.total
    if question.task == "size" and blower is not None:
        has = blower.static_pressure(result.operating_point.airflow)
        if has is None:
            airflow, most, least = result.operating_point.airflow, Airflow(blower.curve.y[0]), Airflow(blower.curve.y[-1])
            sentence = "The blower's table does not reach the design airflow of {}; it shows {} to {}: another speed or another unit is needed."
            findings.check(
                "blower", "fails", BLOWER_TABLE, Phrase(sentence, airflow, least, most), actual=airflow, limit=most if airflow > most else least
            )
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
    moved = 1.0 if question.blower is None else _check_unit(findings, result)
    off = [outlet for outlet in result.outlets if abs(outlet.ratio - 1.0) > OUTLET_WITHIN + 1e-9]
    for outlet in off:
        if outlet.ratio < 1.0:
            sentence = "{} gets {} of its {}: {} percent."
        elif outlet.ratio <= moved * (1.0 + OUTLET_WITHIN):
            sentence = "{} gets {} where {} is wanted: {} percent, because the unit moves too much; set its speed before any damper."
        else:
            sentence = "{} gets {} where {} is wanted: {} percent; a damper there gives the surplus to the others."
        says = Phrase(sentence, outlet.id, outlet.airflow, outlet.design_airflow, str(round(100 * outlet.ratio)))
        verdict: Verdict = "fails" if outlet.ratio < 1.0 else "watch"
        findings.check(f"airflow at {outlet.id}", verdict, rules.OUTLET_AIRFLOW, says, actual=outlet.airflow, limit=outlet.design_airflow)
    if not off and question.blower is not None:
        says = Phrase("Every one of the {} outlets gives its design airflow within 10 percent.", str(len(result.outlets)))
        findings.check("airflow at the outlets", "meets", rules.OUTLET_AIRFLOW, says)
    elif not off and any(sum(outlet.side == side for outlet in result.outlets) > 1 for side in ("supply", "return")):
        says = Phrase("If the unit moves its design airflow, it divides so that every outlet gets its own within 10 percent. A blower was not given.")
        findings.check("airflow at the outlets", "meets", rules.OUTLET_AIRFLOW, says)


def _check_unit(findings: Findings, result: DuctSystemResult) -> float:
    """The unit's airflow against what its outlets are designed for; their ratio."""
    moved = result.operating_point.airflow
    sums = {side: sum(outlet.design_airflow for outlet in result.outlets if outlet.side == side) for side in ("supply", "return")}
    design = Airflow(sums["supply"] or sums["return"])
    ratio = moved / design
    if ratio < 1.0 - OUTLET_WITHIN - 1e-9:
        verdict: Verdict = "fails"
        sentence = "The unit moves {} of the {} for which its outlets are designed: no damper makes up for that; less loss or a stronger blower does."
    elif ratio > 1.0 + OUTLET_WITHIN + 1e-9:
        verdict, sentence = "watch", "The unit moves {}, more than the {} for which its outlets are designed: set a lower speed."
    else:
        verdict, sentence = "meets", "The unit moves {}, within 10 percent of the {} for which its outlets are designed."
    findings.check("unit airflow", verdict, rules.OUTLET_AIRFLOW, Phrase(sentence, moved, design), actual=moved, limit=design)
    return ratio


def _check_sides(findings: Findings, result: DuctSystemResult) -> None:
    sums = {side: sum(outlet.design_airflow for outlet in result.outlets if outlet.side == side) for side in ("supply", "return")}
    if not sums["supply"] or not sums["return"]:
        missing = "supply" if not sums["supply"] else "return"
        says = Phrase("No {} sections are given, so that side counts as taking no pressure: the answer is too kind by all that it takes.", missing)
        findings.check("both sides", "watch", rules.NETWORK, says)
        return
    ratio = sums["return"] / sums["supply"]
    findings.check(
        "supply and return agree", "meets" if abs(ratio - 1.0) <= SIDES_WITHIN + 1e-9 else "watch", rules.BALANCED_SIDES, actual=Number(ratio), limit=1.0,
        says=Phrase("The return grilles are designed for {} percent of what the supply outlets give.", f"{100 * ratio:.3g}"),
    )  # fmt: skip


def _check_asked(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult) -> None:
    """Sizes that are given against the limits that are asked for. Sizes that are chosen keep them by themselves."""
    given = {section.id for section in question.sections if section.size is not None}
    limits = question.velocity_limit or VelocityLimits()
    fixed = [section for section in result.sections if section.id in given]
    held: list[tuple[str, FrictionRate | Velocity | None, list[tuple[FrictionRate | Velocity, str]]]] = [
        ("asked friction rate", question.friction_rate, [(section.friction_rate, section.id) for section in fixed]),
        ("asked velocity, supply", limits.supply, [(section.velocity, section.id) for section in fixed if section.side == "supply"]),
        ("asked velocity, return", limits.return_, [(section.velocity, section.id) for section in fixed if section.side == "return"]),
    ]
    for check, limit, figures in held:
        if limit is None or not figures:
            continue
        worst, where = max(figures)
        if worst <= limit * (1 + 1e-9):
            says = Phrase("Among the given sizes {} has most, {}, within the {} that was asked for.", where, worst, limit)
            findings.check(check, "meets", rules.ASKED_LIMIT, says, actual=worst, limit=limit)
        else:
            over = [name for figure, name in sorted(figures, reverse=True) if figure > limit * (1 + 1e-9)]
            says = Phrase("{} has {}, more than the {} that was asked for. Too small as given: {}.", where, worst, limit, named(over))
            findings.check(check, "fails", rules.ASKED_LIMIT, says, actual=worst, limit=limit)


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


def _check_velocity(findings: Findings, result: DuctSystemResult, nodes: list[Node]) -> None:
    limits = {node.section.id: USUAL_VELOCITY[place_of(node)] for node in nodes}

    def over(section: SectionAnswer) -> float:
        return section.velocity / limits[section.id]

    worst = max(result.sections, key=over)
    limit, heard = limits[worst.id], over(worst) > 1 + 1e-9
    sentence = (
        "At {} the air in {} will be heard: {} is the usual top there."
        if heard
        else "The fastest air for its place moves at {} in {}, within the usual {}."
    )
    says = Phrase(sentence, worst.velocity, worst.id, limit)
    findings.check("noise", "watch" if heard else "meets", rules.TRUNK_VELOCITY, says, actual=worst.velocity, limit=limit)
    findings.apply(VELOCITY_BY_PLACE)


def place_of(node: Node) -> Place:
    """Where a section is, for the velocity usual there: a branch is what ends at an outlet and does not carry a whole side's air."""
    if node.section.side == "supply":
        return "supply-trunk" if node.parent is None or node.children else "supply-branch"
    return "return-trunk" if node.parent is None or node.children else "return-branch"
