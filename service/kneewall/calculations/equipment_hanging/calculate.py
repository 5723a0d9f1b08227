"""Equipment hanging: what hangs, what each rod, channel and anchor gets of it, and what the framing gets.

The story: add up the weight with the pan full, share it among four rods, judge rods, channel and anchors by the worst of them, see what the
isolators do at every speed, and hand the framing to somebody who may decide on it.
"""

from bisect import bisect_left
from math import copysign

from kneewall.calculations.equipment_hanging import rules
from kneewall.calculations.equipment_hanging.anchors import Holding, anchor_faults, holding_of, lead_hole
from kneewall.calculations.equipment_hanging.answers import (
    AnchorResult,
    EquipmentHangingResult,
    HungLoad,
    Isolation,
    RodLoad,
    SlackRod,
    TrapezeResult,
)
from kneewall.calculations.equipment_hanging.channel import SECTIONS, STEEL_DENSITY
from kneewall.calculations.equipment_hanging.checks import Worst, check_all
from kneewall.calculations.equipment_hanging.framing import framing_faults, framing_under
from kneewall.calculations.equipment_hanging.isolation import isolation_at, natural_frequency
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion, HangerRods, Trapeze
from kneewall.calculations.equipment_hanging.sharing import Hung, hung_weight, rod_shares, slack_share
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.quantity import (
    Dimension,
    Frequency,
    LinearLoad,
    Load,
    Moment,
    Number,
    SecondMomentOfArea,
    SectionModulus,
    Stress,
    Weight,
    WithdrawalStrength,
)
from kneewall.kernel.refusal import Fault, fault, refuse_any
from kneewall.kernel.table import Table
from kneewall.physics.beams import two_loads_deflection, two_loads_moment
from kneewall.physics.constants import STANDARD_GRAVITY

ALLOWABLE_STRESS = Stress.of(25000, "psi")
STEEL_MODULUS = float(Stress.of(29.5e6, "psi"))
PIERCING_FACTORS = {"solid": 1.0, "round-holes": 0.95, "long-slots": 0.90}
SECOND_MOMENTS = {name: SecondMomentOfArea(section.second_moment) for name, section in SECTIONS.items()}
MODULI = {name: SectionModulus(section.modulus) for name, section in SECTIONS.items()}
WEIGHTS = {name: LinearLoad(section.area * STEEL_DENSITY * STANDARD_GRAVITY) for name, section in SECTIONS.items()}
ROD_TABLES = {"MSS-SP-58-2002": rules.ROD_TABLE_2002, "before-MSS-SP-58-2002": rules.ROD_TABLE_BEFORE_2002}
EDITIONS = {"MSS-SP-58-2002": "By MSS SP-58 of 2002:", "before-MSS-SP-58-2002": "By the table older than MSS SP-58 of 2002:"}
NEAREST = 1e6
"""rod diameters are told apart to a micrometre"""
LAYOUT_WITHIN = Dimension.of(1, "in") * (1.0 + 1e-9)
"""by how much rods and channel, measured one after the other, may disagree"""


_UNBRACED_SPANS = [float(Dimension.of(span, "in")) for span in rules.UNBRACED_TABLE.column("span")]
_UNBRACED: list[float] = [float(factor) for factor in rules.UNBRACED_TABLE.column("factor")]


def _rod_limits(table: Table) -> dict[int, Load]:
    return {round(Dimension.of(float(row["diameter"]), "in") * NEAREST): Load.of(float(row["load"]), "lb") for row in table.rows}


ROD_LIMITS = {edition: _rod_limits(table) for edition, table in ROD_TABLES.items()}


def hang_equipment(question: EquipmentHangingQuestion) -> Answer[EquipmentHangingResult]:
    """Answer an equipment-hanging question. Raises: Refusal where the question contradicts itself or a formula does not reach."""
    hung = hung_weight(question)
    refuse_contradictions(question, hung)
    u, v = [share if -1.0 <= share <= 1.0 else copysign(1.0, share) for share in (hung.u, hung.v)]
    limit = rod_limit(question.rods)
    assert limit is not None
    rods = [
        RodLoad(corner=corner, load=Load(share * hung.total), limit=limit, use=Number(share * hung.total / limit))
        for corner, share in rod_shares(u, v)
    ]
    governing = max(rods, key=_load_of).load
    slack = Load(slack_share(u, v) * hung.total)
    holding = holding_of(question.anchor, question.wood)
    isolator = question.isolator
    frequency = None if isolator is None else natural_frequency(isolator.static_deflection)
    result = EquipmentHangingResult(
        load=HungLoad(dead=Weight(hung.dead), pan_water=Weight(hung.water), total=Weight(hung.total)),
        rods=rods,
        slack_rod=SlackRod(load=slack, use=Number(slack / limit)),
        trapeze=None if question.trapeze is None else trapeze_under(question.trapeze, governing),
        anchor=anchor_under(question, holding, governing, slack),
        natural_frequency=None if frequency is None else Frequency(frequency),
        isolation=_isolation(question, frequency),
        framing=framing_under(question, hung.total, max(abs(u), abs(v)), max(governing, slack)),
    )
    findings = Findings("equipment-hanging")
    check_all(
        findings, question, result, Worst(governing, slack, limit, holding, ROD_TABLES[question.rods.edition].rule, EDITIONS[question.rods.edition])
    )
    return findings.answer(result)


def _load_of(rod: RodLoad) -> float:
    return rod.load


def rod_limit(rods: HangerRods) -> Load | None:
    """What a rod may carry by its edition's table; None for a diameter that the table does not have."""
    return ROD_LIMITS[rods.edition].get(round(rods.diameter * NEAREST))


def refuse_contradictions(question: EquipmentHangingQuestion, hung: Hung) -> None:
    """Raises: Refusal naming every field that contradicts another, is missing, or lies outside a table."""
    found = anchor_faults(question.anchor, question.wood)
    if rod_limit(question.rods) is None:
        rule = ROD_TABLES[question.rods.edition].rule.id
        found.append(fault("/rods/diameter", "the rod table has 1/4, 3/8, 1/2, 5/8 and 3/4 in rod, not {}", question.rods.diameter, rule=rule))
    found += _offset_faults(question, hung)
    trapeze = question.trapeze
    if trapeze is not None and trapeze.rod_inset is not None and 2.0 * trapeze.rod_inset > trapeze.span * (1.0 + 1e-9):
        found.append(fault("/trapeze/rod_inset", "{} is more than half the span of {}", trapeze.rod_inset, trapeze.span))
    found += _layout_faults(question) + framing_faults(question)
    refuse_any(found)


def _layout_faults(question: EquipmentHangingQuestion) -> list[Fault]:
    """The channel hangs by the rods at its ends, or lies on the framing and carries them at its inset; there is no third way."""
    trapeze, across = question.trapeze, question.rods.across
    if trapeze is None or abs(trapeze.span - across) <= LAYOUT_WITHIN:
        return []
    carried = trapeze.span if trapeze.rod_inset is None else trapeze.span - 2.0 * trapeze.rod_inset
    if trapeze.span > across and (trapeze.rod_inset is None or abs(carried - across) <= LAYOUT_WITHIN):
        return []
    says = "the channel's supports are {} apart and the rods {}: give the distance of the rods where it hangs by them, or the span and the inset that put them there"
    return [fault("/trapeze/span", says, trapeze.span, across, rule=rules.CHANNEL_POINT_LOADS.id)]


def _offset_faults(question: EquipmentHangingQuestion, hung: Hung) -> list[Fault]:
    found = []
    for name, share, distance in (("along", hung.u, question.rods.along), ("across", hung.v, question.rods.across)):
        if abs(share) > 1.0 + 1e-9:
            says = "the weight's center stands {} from the middle of rods that are {} apart, outside them: it would tip"
            pointer = "/attached" if question.equipment.centre_offset is None else f"/equipment/centre_offset/{name}"
            found.append(fault(pointer, says, Dimension(abs(share) * distance / 2.0), distance, rule=rules.ROD_SHARES.id))
    return found


def trapeze_under(trapeze: Trapeze, load: float) -> TrapezeResult:
    """The channel under `load` at both of its load points. Source: equipment-hanging.channel-point-loads."""
    section = SECTIONS[trapeze.section]
    inset = inset_of(trapeze)
    moment = two_loads_moment(load, inset)
    piercing = PIERCING_FACTORS[trapeze.piercing]
    unbraced = unbraced_factor(trapeze.span)
    stress, allowable = moment / section.modulus, ALLOWABLE_STRESS * piercing * unbraced
    return TrapezeResult(
        bending_moment=Moment(moment),
        stress=Stress(stress),
        allowable_stress=Stress(allowable),
        deflection=Dimension(two_loads_deflection(load, inset, trapeze.span, STEEL_MODULUS * section.second_moment)),
        use=Number(stress / allowable),
        piercing_factor=piercing,
        unbraced_factor=Number(unbraced),
        second_moment=SECOND_MOMENTS[trapeze.section],
        section_modulus=MODULI[trapeze.section],
        weight_per_length=WEIGHTS[trapeze.section],
    )


def unbraced_factor(span: float) -> float:
    """By how much less an unbraced channel carries, straight between the table's spans. Source: equipment-hanging.unbraced-length. Valid: up to 120 in."""
    above = bisect_left(_UNBRACED_SPANS, span * (1.0 - 1e-9), 1, len(_UNBRACED_SPANS) - 1)
    low, high = _UNBRACED_SPANS[above - 1], _UNBRACED_SPANS[above]
    return _UNBRACED[above - 1] + (span - low) / (high - low) * (_UNBRACED[above] - _UNBRACED[above - 1])


def inset_of(trapeze: Trapeze) -> float:
    """Where the channel's loads stand from its supports, m: at midspan where that is not given, which is the worst place."""
    return trapeze.span / 2.0 if trapeze.rod_inset is None else trapeze.rod_inset


def anchor_under(question: EquipmentHangingQuestion, holding: Holding, load: float, slack: float) -> AnchorResult:
    """The anchor under the largest rod load, one anchor to a rod."""
    anchor, lag = question.anchor, question.anchor.kind == "lag-screw"
    diameter = anchor.diameter if lag else None
    return AnchorResult(
        withdrawal_per_length=None if holding.reference is None else WithdrawalStrength(holding.reference),
        factors=holding.factors,
        allowable=Load(holding.allowable),
        governed_by=holding.governed_by,
        use=Number(load / holding.allowable),
        slack_rod_use=Number(slack / holding.allowable),
        specific_gravity=holding.gravity,
        least_edge_distance=None if diameter is None else Dimension(1.5 * diameter),
        least_end_distance=None if diameter is None else Dimension(4.0 * diameter),
        least_spacing=None if diameter is None else Dimension(4.0 * diameter),
        lead_hole=None if diameter is None or holding.gravity is None else lead_hole(holding.gravity, diameter),
    )


def _isolation(question: EquipmentHangingQuestion, frequency: float | None) -> list[Isolation] | None:
    if question.isolator is None or frequency is None or not question.blower_speeds:
        return None
    isolator = question.isolator
    return [isolation_at(speed, frequency, isolator) for speed in question.blower_speeds]
