"""The checks on a hung unit, in words for the person who hangs it."""

from typing import NamedTuple

from kneewall.calculations.equipment_hanging import anchor_rules, cautions, rules
from kneewall.calculations.equipment_hanging.anchors import Holding
from kneewall.calculations.equipment_hanging.answers import AnchorResult, EquipmentHangingResult, Isolation, TrapezeResult
from kneewall.calculations.equipment_hanging.isolation import LEAST_EFFICIENCY, LEAST_RATIO, RESONANT_WITHIN
from kneewall.calculations.equipment_hanging.messages import Anchor, EquipmentHangingQuestion
from kneewall.kernel.answer import EQUAL_WITHIN, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Load
from kneewall.kernel.rule import Rule
from kneewall.physics.beams import ELASTIC_BEAM

SAG_SHARE = 240.0
LEAST_MEMBERS = 3.0


class Worst(NamedTuple):
    """The figures that the checks are made on."""

    rod: Load
    slack: Load
    limit: Load
    holding: Holding
    rod_rule: Rule
    edition: str
    """how sentences on rods begin"""


def check_all(findings: Findings, question: EquipmentHangingQuestion, result: EquipmentHangingResult, worst: Worst) -> None:
    """Every check, rule and caution of a hung unit."""
    findings.apply(rules.ROD_SHARES, *worst.holding.rules)
    findings.caution(cautions.OVERHEAD, cautions.FALL, cautions.CABLES)
    _check_weight(findings, question, result)
    _check_rods(findings, worst)
    if question.trapeze is not None and result.trapeze is not None:
        _check_trapeze(findings, question, result.trapeze, question.trapeze.span)
    _check_anchor(findings, question, result.anchor, worst)
    _check_isolation(findings, question, result.isolation)
    _check_framing(findings, question, result)
    _check_earthquake(findings, question)


def _check_weight(findings: Findings, question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> None:
    if question.pan is None:
        findings.caution(cautions.NO_PAN)
    else:
        findings.apply(rules.PAN_FULL)
        findings.caution(cautions.LOOP_LEAK, cautions.FREEZING)
    if not question.attached:
        says = Phrase("Only the unit's own {} was counted: add the plenum's share, piping with water, rods and channel.", result.load.dead)
        findings.check("listed weights", "watch", rules.LISTED_WEIGHTS, says, actual=result.load.dead)


def _check_rods(findings: Findings, worst: Worst) -> None:
    findings.at_most(
        "rods", worst.rod, worst.limit, worst.rod_rule,
        meets=worst.edition + " The most loaded rod carries {}, within the {} it is good for.",
        breaks=worst.edition + " The most loaded rod carries {}, more than the {} it is good for: take thicker rod or move the rods under the weight.",
    )  # fmt: skip
    findings.at_most(
        "slack rod", worst.slack, worst.limit, rules.SLACK_ROD,
        meets="If one rod hangs slack, another carries {}, within the {} it is good for.",
        breaks="If one rod hangs slack, another carries {}, more than the {} it is good for: take thicker rod.",
    )  # fmt: skip
    findings.apply(worst.rod_rule)


def _check_trapeze(findings: Findings, question: EquipmentHangingQuestion, trapeze: TrapezeResult, span: float) -> None:
    findings.apply(ELASTIC_BEAM, rules.CHANNEL_TABLE.rule, rules.CHANNEL_POINT_LOADS, rules.CHANNEL_PIERCING, rules.UNBRACED_TABLE.rule)
    findings.caution(cautions.BEARING)
    findings.at_most(
        "channel bending", trapeze.stress, trapeze.allowable_stress, rules.CHANNEL_STRESS,
        meets="The channel is bent to {}, within {}.",
        breaks="The channel is bent to {}, above {}: shorten its span, move the loads towards the supports or take a deeper channel.",
    )  # fmt: skip
    findings.at_most(
        "channel sag", trapeze.deflection, Dimension(span / SAG_SHARE), rules.CHANNEL_DEFLECTION, otherwise="watch",
        meets="The channel sags {}, within {} (1/240 of its span).",
        breaks="The channel sags {}, more than {} (1/240 of its span): the unit and its drain pan will not stay level.",
    )  # fmt: skip
    findings.at_least(
        "rods clear of the unit", question.rods.across, question.equipment.width, rules.ROD_CLEARANCE, otherwise="watch",
        meets="Rods {} apart pass beside a unit that is {} wide.",
        breaks="Rods {} apart do not pass beside a unit that is {} wide: check where the rods go.",
    )  # fmt: skip


def _check_anchor(findings: Findings, question: EquipmentHangingQuestion, result: AnchorResult, worst: Worst) -> None:
    anchor, holding = question.anchor, worst.holding
    rule = holding.rules[0]
    findings.at_most(
        "anchor", worst.rod, result.allowable, rule,
        meets="The anchor of the most loaded rod is pulled with {}, within the {} it may hold.",
        breaks="The anchor of the most loaded rod is pulled with {}, more than the {} it may hold: more thread in the wood, a thicker screw, or blocking with two.",
    )  # fmt: skip
    findings.at_most(
        "anchor with a slack rod", worst.slack, result.allowable, rule,
        meets="If one rod hangs slack, an anchor is pulled with {}, within {}.",
        breaks="If one rod hangs slack, an anchor is pulled with {}, more than {}: take a stronger anchor.",
    )  # fmt: skip
    if anchor.kind == "listed-rod-hanger":
        _check_listing(findings, anchor, result, holding)
    else:
        _check_screw(findings, anchor)
        findings.caution(cautions.SPLITTING)
    _check_heat(findings, question, result)


def _check_listing(findings: Findings, anchor: Anchor, result: AnchorResult, holding: Holding) -> None:
    if anchor.into == "end-grain":
        says = Phrase(
            "The listed load holds in end grain only where the listing says so: read it there, or ask the maker, before anything hangs on it."
        )
        findings.check("listing for end grain", "refer", anchor_rules.LISTED_HANGER, says, actual=anchor.into)
    if holding.withdrawal is not None:
        findings.at_most(
            "listing against the wood", result.allowable, Load(holding.withdrawal), anchor_rules.LISTED_CEILING, otherwise="watch",
            meets="The listed {} is not above the {} that a lag screw of that size would hold.",
            breaks="The listed {} is above the {} that a lag screw of that size would hold: read the listing again, for this wood and direction.",
        )  # fmt: skip


def _check_screw(findings: Findings, anchor: Anchor) -> None:
    assert anchor.diameter is not None and anchor.thread_length is not None
    lag = anchor.kind == "lag-screw"
    findings.at_least(
        "penetration", anchor.thread_length, Dimension(anchor.diameter * (4.0 if lag else 6.0)),
        anchor_rules.LAG_PENETRATION if lag else anchor_rules.SCREW_PENETRATION,
        meets="{} of thread is in the wood, at least the {} it takes.",
        breaks="Only {} of thread is in the wood; it takes {}: use a longer screw.",
    )  # fmt: skip
    if lag:
        _check_distances(findings, anchor, anchor.diameter)
    if anchor.load_duration != "permanent":
        says = Phrase("A hung unit is there for good: the factor for {} load does not apply to it, take 0.9.", anchor.load_duration)
        findings.check("load duration", "fails", anchor_rules.DURATION_TABLE.rule, says, actual=anchor.load_duration, limit="permanent")


def _check_distances(findings: Findings, anchor: Anchor, diameter: float) -> None:
    edge, end, rule = Dimension(1.5 * diameter), Dimension(4.0 * diameter), anchor_rules.LAG_DISTANCES
    if anchor.edge_distance is None or anchor.end_distance is None:
        findings.check(
            "edge and end distance", "watch", rule, Phrase("Keep the screw {} from the edge, {} from the end and from the next screw.", edge, end)
        )
    if anchor.edge_distance is not None:
        findings.at_least(
            "edge distance", anchor.edge_distance, edge, rule,
            meets="{} from the edge, at least {}.", breaks="Only {} from the edge; it takes {}: the wood will split. Move the screw or take a thinner one.",
        )  # fmt: skip
    if anchor.end_distance is not None:
        findings.at_least(
            "end distance", anchor.end_distance, end, rule,
            meets="{} from the end, at least {}.", breaks="Only {} from the end; it takes {}: the wood will split. Move the screw.",
        )  # fmt: skip


def _check_heat(findings: Findings, question: EquipmentHangingQuestion, result: AnchorResult) -> None:
    temperature = question.wood.temperature
    if temperature is None:
        findings.caution(cautions.HOT_ATTIC)
    elif result.factors is None:
        says = Phrase("The listed load holds at the temperature of the listing; ask whether it holds at {}.", temperature)
        findings.check("hot wood", "watch", anchor_rules.LISTED_HANGER, says, actual=temperature)
    elif (factor := result.factors["temperature"]) < 1.0:
        says = Phrase("Wood that stays at {} holds {} of what it holds when cool; that is counted here.", temperature, factor)
        findings.check("hot wood", "watch", anchor_rules.TEMPERATURE, says, actual=temperature)
    else:
        findings.apply(anchor_rules.TEMPERATURE)


def _check_isolation(findings: Findings, question: EquipmentHangingQuestion, isolation: list[Isolation] | None) -> None:
    if question.isolator is None:
        return
    findings.caution(cautions.RIGID_CONNECTIONS)
    if isolation is None:
        says = Phrase("Isolators are judged by the blower's speeds: give every one of them.")
        findings.check("isolation", "watch", rules.ISOLATION, says)
        return
    for at in isolation:
        if at.frequency_ratio <= LEAST_RATIO * (1.0 + EQUAL_WITHIN):
            _check_bad_speed(findings, at)
    worst = min(isolation, key=_ratio_of)
    if worst.frequency_ratio > LEAST_RATIO * (1.0 + EQUAL_WITHIN) and worst.efficiency is not None:
        worth, percent = worst.efficiency >= LEAST_EFFICIENCY * (1.0 - EQUAL_WITHIN), 100.0 * worst.efficiency
        says = Phrase(
            "At every speed the isolators keep force away from the house, at {}, the slowest, {} % of it." if worth
            else "At {}, the slowest speed, the isolators keep only {} % of the force away from the house: take ones that sink deeper.",
            worst.speed, percent,
        )  # fmt: skip
        findings.apply(rules.ISOLATION)
        findings.check("isolation", "meets" if worth else "watch", rules.ISOLATION_WORTH, says, actual=worst.efficiency, limit=LEAST_EFFICIENCY)


def _ratio_of(at: Isolation) -> float:
    return at.frequency_ratio


def _check_bad_speed(findings: Findings, at: Isolation) -> None:
    if abs(at.frequency_ratio - 1.0) <= RESONANT_WITHIN:
        name, sentence = "resonance", (
            "At {} the unit swings at its own frequency (resonance) and the isolators shake the house. Take ones that sink deeper, or lock that speed out."
        )  # fmt: skip
    else:
        name, sentence = "isolation", "At {} the isolators pass on {} times what they get: worse than hanging it rigidly. Take ones that sink deeper."
    says = Phrase(sentence, at.speed, at.transmissibility)
    findings.check(f"{name} at {at.speed.shown('ip')}", "fails", rules.ISOLATION, says, actual=at.frequency_ratio, limit=LEAST_RATIO)


def _check_framing(findings: Findings, question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> None:
    framing, share = question.framing, result.framing.most_loaded_member
    if framing.kind == "truss":
        says = Phrase(
            "Stop here until the truss designer agrees in writing: trusses are designed to the last pound, and {} on one of them is a load they do not know of. "
            "Nothing is drilled, cut or hung before.", share,
        )  # fmt: skip
        findings.check("framing", "refer", rules.TRUSS_REFERRED, says, actual=share)
        findings.caution(cautions.TRUSS)
    else:
        says = Phrase(
            "Up to {} comes on one {}. No span table covers that: a structural engineer or the building department must decide.", share, framing.kind
        )
        findings.check("framing", "refer", rules.FRAMING_REFERRED, says, actual=share)
    findings.apply(rules.ATTIC_LIVE_LOAD, rules.MEMBER_SHARE)
    if result.framing.added_moment is not None:
        findings.apply(ELASTIC_BEAM, rules.ADDED_BENDING)
    if framing.members < LEAST_MEMBERS:
        says = Phrase("The unit hangs on {} members; spread it over at least {}.", framing.members, LEAST_MEMBERS)
        findings.check("spread", "watch", rules.SPREAD, says, actual=framing.members, limit=LEAST_MEMBERS)


def _check_earthquake(findings: Findings, question: EquipmentHangingQuestion) -> None:
    category = question.seismic_design_category
    if category is None:
        return
    if category in ("A", "B"):
        says = Phrase("In seismic design category {} mechanical equipment needs no bracing by the code.", category)
        findings.check("earthquake", "meets", rules.SEISMIC, says, actual=category)
    elif category == "C":
        says = Phrase("In category {} it needs no bracing by the code as long as nothing vital depends on it (importance factor 1.0).", category)
        findings.check("earthquake", "watch", rules.SEISMIC, says, actual=category)
    else:
        says = Phrase("In category {} a hung unit needs earthquake bracing, designed by an engineer. These rods hold its weight only.", category)
        findings.check("earthquake", "refer", rules.SEISMIC, says, actual=category)
        findings.caution(cautions.TWELVE_INCH_RODS)
