"""The checks on what surrounds the line: sag in the heat, frost, the unit's pitch, and whether air states and capacity agree."""

from kneewall.calculations.condensate_drain import rules
from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Temperature
from kneewall.physics.pipe_span import PLASTIC_MODULUS, PLASTICS, SIMPLE_SPAN, HungPipe

FREEZING_POINT = Temperature.of(32, "degF")
USUAL_PITCH = Dimension.of(0.25, "in")
AGREES_WITHIN = 0.15
LEAST_SENSIBLE = 0.5


def check_sag(findings: Findings, question: CondensateDrainQuestion, result: CondensateDrainResult, pipe: HungPipe) -> None:
    """Whether the pipe, full and at the highest temperature, still falls between its hangers."""
    hot, spacing, line = question.surroundings.highest_temperature, question.run.hanger_spacing, result.line
    if line.longest_hanger_spacing is not None:
        findings.apply(SIMPLE_SPAN)
        if pipe.substance in PLASTICS:
            findings.apply(PLASTIC_MODULUS)
        if spacing is not None:
            findings.at_most(
                "sag between hangers", spacing, line.longest_hanger_spacing, SIMPLE_SPAN,
                meets="Hung every {} the line falls all the way; beyond {} it would hold water in mid-span.",
                breaks="Hung every {} the line holds water in mid-span when full and hot: hang it every {} or closer, or give it more slope.",
            )  # fmt: skip
    elif pipe.substance in PLASTICS and (hot is not None or spacing is not None):
        says = Phrase(
            "How stiff {} is at {} is not known here: support it continuously, or use metal.", pipe.material, "73 °F and more" if hot is None else hot
        )
        findings.check("sag between hangers", "watch", PLASTIC_MODULUS, says, actual=spacing)


def check_air(findings: Findings, question: CondensateDrainQuestion, result: CondensateDrainResult) -> None:
    """Whether the water made is plausible beside the capacity."""
    made = result.condensate
    if made.coil_capacity is not None:
        share = made.coil_capacity / question.cooling_capacity
        says = "The air states make {}, the stated capacity is {}: "
        agrees = abs(share - 1.0) <= AGREES_WITHIN + 1e-9
        says += "they agree within 15 %." if agrees else "measure air flow and temperatures again before trusting the water made."
        findings.check(
            "air states and capacity", "meets" if agrees else "watch", rules.CAPACITY_AGREES,
            Phrase(says, made.coil_capacity, question.cooling_capacity), actual=made.coil_capacity, limit=question.cooling_capacity,
        )  # fmt: skip
    if made.coil_capacity is not None or question.sensible_heat_ratio is not None:
        findings.at_least(
            "sensible heat ratio", made.sensible_heat_ratio, LEAST_SENSIBLE, rules.CAPACITY_AGREES, otherwise="watch",
            meets="{} of the cooling is sensible, at least the {} that is usual.",
            breaks="Only {} of the cooling is sensible, under the usual {}: more outdoor air than a house has, or a wrong reading.",
        )  # fmt: skip


def check_place(findings: Findings, question: CondensateDrainQuestion) -> None:
    """Frost and the unit's pitch."""
    cold = question.surroundings.lowest_temperature
    if cold is not None:
        safe = cold > FREEZING_POINT + 1e-6
        if safe:
            says = Phrase("It stays at {} or above, over {}: trap and drains do not freeze.", cold, FREEZING_POINT)
        elif question.surroundings.freeze_protected:
            says = Phrase("It falls to {}, at or under {}; the drains are protected. See to it every fall.", cold, FREEZING_POINT)
        else:
            says = Phrase(
                "It falls to {}, at or under {}: heat-trace and insulate trap and drains, or drain them for the winter.", cold, FREEZING_POINT
            )
        verdict = "meets" if safe or question.surroundings.freeze_protected else "fails"
        findings.check("freezing", verdict, rules.FREEZING, says, actual=cold, limit=FREEZING_POINT)  # type: ignore[arg-type]
    pitch = question.unit_pitch
    if pitch is not None:
        findings.at_least(
            "pitch of the unit", pitch, USUAL_PITCH, rules.PITCH, otherwise="watch" if pitch >= 0.0 else "fails",
            meets="The unit hangs {} lower toward its drain, at least {}.",
            breaks="The unit hangs {} lower toward its drain, less than {}: water stays in the pan. Adjust the rods.",
        )  # fmt: skip
