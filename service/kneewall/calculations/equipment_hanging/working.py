"""The working of a hung unit, line by line."""

from kneewall.calculations.equipment_hanging import rules
from kneewall.calculations.equipment_hanging.anchors import holding_of
from kneewall.calculations.equipment_hanging.answers import EquipmentHangingResult
from kneewall.calculations.equipment_hanging.calculate import inset_of
from kneewall.calculations.equipment_hanging.framing import rods_on_one_member
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion
from kneewall.calculations.equipment_hanging.sharing import hung_weight, rigid_share, trapeze_share
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Load, Weight
from kneewall.kernel.words import in_words


def working(question: EquipmentHangingQuestion, answer: Answer[EquipmentHangingResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    result = answer.result
    return [
        *_weight_lines(question, result),
        *_rod_lines(question, result),
        *_trapeze_lines(question, result),
        *_anchor_lines(question, result),
        *_isolation_lines(question, result),
        *_framing_lines(question, result),
    ]


def _weight_lines(question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> list[WorkingLine]:
    lines = [
        WorkingLine(
            step="dead load", formula="unit + share x weight of what is attached", value=result.load.dead,
            substituted=Phrase("{} and {} attached", question.equipment.weight, Weight(result.load.dead - question.equipment.weight)),
        )
    ]  # fmt: skip
    pan = question.pan
    if pan is not None:
        lines.append(
            WorkingLine(
                step="water in the pan", formula="length x width x depth x 62.4 lb/ft3", value=result.load.pan_water, rule=rules.PAN_FULL.id,
                substituted=Phrase("{} x {} x {}", pan.length, pan.width, pan.depth),
            )
        )  # fmt: skip
    lines.append(
        WorkingLine(
            step="total",
            formula="W = dead load + water",
            value=result.load.total,
            substituted=Phrase("{} + {}", result.load.dead, result.load.pan_water),
        )
    )
    return lines


def _rod_lines(question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> list[WorkingLine]:
    hung, rods, total = hung_weight(question), question.rods, result.load.total
    u, v = abs(hung.u), abs(hung.v)
    along, across = Dimension(hung.u * rods.along / 2.0), Dimension(hung.v * rods.across / 2.0)
    worst = max(result.rods, key=lambda rod: rod.load)
    return [
        WorkingLine(
            step="center", formula="u = 2 ex/a, v = 2 ey/b", value=u, rule=rules.ROD_SHARES.id,
            substituted=Phrase("ex {}, a {}, ey {}, b {}: u {}, v {}", along, rods.along, across, rods.across, hung.u, hung.v),
        ),
        WorkingLine(
            step="stiff frame, worst rod", formula="W/4 (1 + u + v); W/2 (u + v) where a rod would push", value=Load(total * rigid_share(u, v)),
            substituted=Phrase("{}, u {}, v {}", total, u, v), rule=rules.ROD_SHARES.id,
        ),
        WorkingLine(
            step="two trapezes, worst rod", formula="W/4 (1 + u)(1 + v)", value=Load(total * trapeze_share(u, v)),
            substituted=Phrase("{}, u {}, v {}", total, u, v), rule=rules.ROD_SHARES.id,
        ),
        WorkingLine(
            step="most loaded rod", formula="load / limit", value=worst.use, substituted=Phrase("{} at {} over {}", worst.load, in_words(worst.corner), worst.limit)
        ),
        WorkingLine(
            step="one rod slack", formula="W/2 (1 + min(u, v))", value=result.slack_rod.load, substituted=Phrase("{}, u {}, v {}", total, u, v),
            rule=rules.SLACK_ROD.id,
        ),
    ]  # fmt: skip


def _trapeze_lines(question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> list[WorkingLine]:
    asked, found = question.trapeze, result.trapeze
    if asked is None or found is None:
        return []
    inset, load = Dimension(inset_of(asked)), max(rod.load for rod in result.rods)
    return [
        WorkingLine(
            step="channel", formula="I and S from the outline", value=found.section_modulus, rule=rules.CHANNEL_TABLE.rule.id,
            substituted=Phrase("{}: I {}, S {}", in_words(asked.section), found.second_moment, found.section_modulus),
        ),
        WorkingLine(
            step="bending moment", formula="M = P a", value=found.bending_moment, substituted=Phrase("P {}, a {}", load, inset), rule=rules.CHANNEL_POINT_LOADS.id
        ),
        WorkingLine(step="stress", formula="M / S", value=found.stress, substituted=Phrase("{} / {}", found.bending_moment, found.section_modulus)),
        WorkingLine(
            step="allowable stress", formula="25 000 psi x piercing x unbraced length", value=found.allowable_stress, rule=rules.CHANNEL_STRESS.id,
            substituted=Phrase("{} ({}), {} at {}", found.piercing_factor, in_words(asked.piercing), found.unbraced_factor, Dimension(asked.span)),
        ),
        WorkingLine(
            step="sag", formula="P a (3 L^2 - 4 a^2) / (24 E I)", value=found.deflection, substituted=Phrase("P {}, a {}, L {}", load, inset, asked.span),
            rule=rules.CHANNEL_POINT_LOADS.id,
        ),
    ]  # fmt: skip


def _anchor_lines(question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> list[WorkingLine]:
    anchor, found = question.anchor, result.anchor
    holding = holding_of(anchor, question.wood)
    rule, load = holding.rules[0].id, max(rod.load for rod in result.rods)
    lines = []
    if found.withdrawal_per_length is not None and found.factors is not None and holding.withdrawal is not None and holding.tension is not None:
        formula = "W = 1800 G^1.5 D^0.75" if anchor.kind == "lag-screw" else "W = 2850 G^2 D"
        factors = found.factors
        lines += [
            WorkingLine(
                step="withdrawal per length of thread", formula=formula, value=found.withdrawal_per_length, rule=rule,
                substituted=Phrase("G {}, D {}", found.specific_gravity, anchor.diameter),
            ),
            WorkingLine(
                step="withdrawal", formula="W CD CM Ct Ceg x thread", value=Load(holding.withdrawal), rule=rule,
                substituted=Phrase(
                    "{} x {} x {} x {} x {} x {}", found.withdrawal_per_length, factors["load_duration"], factors["wet_service"], factors["temperature"],
                    factors["end_grain"], anchor.thread_length,
                ),
            ),
            WorkingLine(
                step="screw at its root", formula="10 714 psi x root area", value=Load(holding.tension), substituted=Phrase("D {}", anchor.diameter),
                rule="equipment-hanging.screw-tension",
            ),
        ]  # fmt: skip
    lines.append(
        WorkingLine(
            step="anchor", formula="rod load / allowable", value=found.use, rule=rule,
            substituted=Phrase("{} over {}, {} governs", load, found.allowable, found.governed_by),
        )
    )  # fmt: skip
    return lines


def _isolation_lines(question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> list[WorkingLine]:
    isolator, frequency = question.isolator, result.natural_frequency
    if isolator is None or frequency is None:
        return []
    first = WorkingLine(
        step="natural frequency",
        formula="f = sqrt(g/d) / (2 pi)",
        value=frequency,
        substituted=Phrase("d {}", isolator.static_deflection),
        rule=rules.ISOLATION.id,
    )
    return [
        first,
        *(
            WorkingLine(
                step="transmissibility", formula="sqrt((1 + (2 z r)^2) / ((1 - r^2)^2 + (2 z r)^2))", value="without limit" if at.transmissibility is None else at.transmissibility, rule=rules.ISOLATION.id,
                substituted=Phrase("{}: r {}, z {}", at.speed, at.frequency_ratio, isolator.damping_ratio),
            )
            for at in result.isolation or []
        ),
    ]  # fmt: skip


def _framing_lines(question: EquipmentHangingQuestion, result: EquipmentHangingResult) -> list[WorkingLine]:
    framing, found = question.framing, result.framing
    hung = hung_weight(question)
    off_centre = max(abs(hung.u), abs(hung.v))
    lines = [
        WorkingLine(
            step="share of a member", formula="W / n", value=found.load_per_member, substituted=Phrase("{} / {}", result.load.total, framing.members)
        ),
        WorkingLine(
            step="most loaded member", formula="by its rods: one: its largest load; two: W (1 + the larger of u and v) / 2; more: W",
            value=found.most_loaded_member, rule=rules.MEMBER_SHARE.id,
            substituted=Phrase("{} of 4 rods, {}, {} off center", rods_on_one_member(framing), result.load.total, off_centre),
        ),
    ]  # fmt: skip
    lines.append(
        WorkingLine(
            step="footprint", formula="W / (length x width)", value=found.footprint_load, rule=rules.ATTIC_LIVE_LOAD.id,
            substituted=Phrase("{} on {} x {}", result.load.total, question.equipment.length, question.equipment.width),
        )
    )  # fmt: skip
    if found.added_moment is not None and found.added_stress is not None:
        lines += [
            WorkingLine(
                step="added moment", formula="P L / 4", value=found.added_moment, substituted=Phrase("{}, {}", found.most_loaded_member, framing.span),
                rule=rules.ADDED_BENDING.id,
            ),
            WorkingLine(
                step="added stress", formula="M / S", value=found.added_stress, substituted=Phrase("{} in {}", found.added_moment, framing.size),
                rule=rules.ADDED_BENDING.id,
            ),
        ]  # fmt: skip
    return lines
