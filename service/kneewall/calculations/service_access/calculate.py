"""Service access: the opening, the way, the floor, the space, light and power, and whether the largest piece comes out again.

The story: read what the code edition asks for, apply its own exceptions, judge every item, then see how a box goes through an opening.
"""

from kneewall.calculations.service_access import cautions, rules
from kneewall.calculations.service_access.electrical import check_electrical
from kneewall.calculations.service_access.fit import Box, best_clearance, clearance, goes_straight, least_leading, passes, ways
from kneewall.calculations.service_access.floor import check_floor, check_panel
from kneewall.calculations.service_access.judged import Judged
from kneewall.calculations.service_access.messages import (
    AccessPassage,
    Removal,
    ServiceAccessQuestion,
    ServiceAccessResult,
    ServiceSpace,
)
from kneewall.calculations.service_access.rules import ACCESS, Access
from kneewall.kernel.answer import EQUAL_WITHIN, Answer, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length
from kneewall.kernel.refusal import fault, refuse_any

AT_ARMS_LENGTH = Length.of(20, "ft")
"""The longest passage of a low attic: who has to walk further than that does not stand in the opening."""


def reach_equipment(question: ServiceAccessQuestion) -> Answer[ServiceAccessResult]:
    """Answer a service-access question. Raises: Refusal where the question contradicts itself."""
    refuse_contradictions(question)
    access = ACCESS[question.code]
    judged = Judged("service-access")
    removal = removal_of(question)
    _check_opening(judged, question, access)
    _check_removal(judged, question, removal)
    at_opening = question.serviced_through_opening and removal.through_opening != "no"
    excused = at_opening and (access.excuses_space or _has_space(question.service_space, access))
    limit = None
    unsure = at_opening and not excused and question.service_space is None
    if question.passage is None or excused:
        _check_no_passage(judged, question, access, excused, unsure)
    else:
        limit = length_limit(question.passage, access)
        _check_passage(judged, question.passage, access, limit)
        check_floor(judged, question.passage, access)
    _check_space(judged, question, access, at_opening and access.excuses_space, unsure)
    check_electrical(judged, question)
    check_panel(judged, question.floor_panel)
    judged.caution(
        cautions.STEP_ON_FLOOR, cautions.LADDER, cautions.HEAVY_PIECES, cautions.ATTIC_LOAD, cautions.LOCK_OUT, cautions.WITHDRAWAL_LENGTH,
        cautions.PAN_UNDER_FOOT,
    )  # fmt: skip
    if access.all_sides:
        judged.caution(cautions.HOUSE_HATCH)
    result = ServiceAccessResult(code=question.code, passage_length_limit=limit, removal=removal, requirements=judged.requirements)
    return judged.answer(result)


def refuse_contradictions(question: ServiceAccessQuestion) -> None:
    """Raises: Refusal naming every field that contradicts another."""
    found = []
    passage = question.passage
    if question.serviced_through_opening and passage is not None and passage.length > AT_ARMS_LENGTH * (1.0 + EQUAL_WITHIN):
        says = "nobody services through the opening what stands at the end of a passage {} long"
        found.append(fault("/serviced_through_opening", says, passage.length))
    if question.receptacle_on_load_side and question.receptacle_distance is None:
        found.append(fault("/receptacle_distance", "is missing: say how far away the receptacle is that the disconnect switches off"))
    refuse_any(found)


def length_limit(passage: AccessPassage, access: Access) -> Length:
    """How long the passage may be. Each edition's own exception for a passage one can stand in."""
    tall = passage.height >= access.tall_height * (1.0 - EQUAL_WITHIN) and passage.width >= access.passage_width * (1.0 - EQUAL_WITHIN)
    return access.tall_length if tall else access.passage_length


def removal_of(question: ServiceAccessQuestion) -> Removal:
    """How the largest piece goes through the opening and along the passage. Source: service-access.removal."""
    piece = question.largest_component
    box = Box(piece.length, piece.width, piece.height)
    short, long = sorted((question.opening.length, question.opening.width))
    through = passes(box, long, short)
    passage = question.passage
    if passage is None:
        return Removal(through_opening=through, opening_clearance=Dimension(best_clearance(box, long, short)))
    leading = least_leading(box, long, short)
    low, high = sorted((passage.width, passage.height))
    lies = any(goes_straight(way, high, low) for way in ways(box))
    return Removal(
        through_opening=through,
        opening_clearance=Dimension(best_clearance(box, long, short)),
        through_passage="straight" if lies else "no",
        passage_clearance=Dimension(max(clearance(way, high, low) for way in ways(box))),
        must_be_tipped=None if leading is None else leading > passage.height * (1.0 + EQUAL_WITHIN),
    )


def _check_opening(judged: Judged, question: ServiceAccessQuestion, access: Access) -> None:
    short, long = sorted((question.opening.length, question.opening.width))
    judged.least("opening length", long, access.opening_length)
    holds = judged.least("opening width", short, access.opening_width) and judged.requirements[0].verdict == "meets"
    says = "The opening is {} x {} clear, {} x {} is the least." if holds else "The opening is {} x {} clear; {} x {} is the least: make it larger."
    judged.check("opening", "meets" if holds else "fails", access.rule, Phrase(says, long, short, access.opening_length, access.opening_width))


def _check_removal(judged: Judged, question: ServiceAccessQuestion, removal: Removal) -> None:
    spare, rule = removal.opening_clearance, rules.REMOVAL
    if removal.through_opening == "straight":
        verdict, says = "meets", Phrase("The largest piece goes straight through the opening with {} to spare.", spare)
    elif removal.through_opening == "turned":
        verdict, rule = "watch", rules.TURNED
        says = Phrase(
            "The largest piece goes through the opening only when it is turned askew: try it with a cardboard box, or make the opening larger."
        )
    else:
        verdict = "fails"
        says = Phrase("The largest piece does not go through the opening any way round: {} is missing. Make the opening larger.", Dimension(-spare))
    judged.check("removal through the opening", verdict, rule, says, actual=spare)  # type: ignore[arg-type]
    judged.require("largest component through the opening", "straight", removal.through_opening, verdict)  # type: ignore[arg-type]
    along = removal.passage_clearance
    if along is not None:
        lies = removal.through_passage == "straight"
        says = (
            Phrase("It goes along the passage with {} to spare.", along)
            if lies
            else Phrase(
                "It does not go along the passage: {} is missing. Widen or raise the passage, or take the equipment apart.", Dimension(-along)
            )
        )
        judged.check("removal along the passage", "meets" if lies else "fails", rules.REMOVAL, says, actual=along)
        judged.require("largest component along the passage", "straight", removal.through_passage, "meets" if lies else "fails")
    if removal.must_be_tipped and question.passage is not None:
        says = Phrase(
            "In a ceiling hatch it stands taller than the {} of the passage and must be tipped on the way: try it before you rely on it.",
            question.passage.height,
        )
        judged.check("tipping", "watch", rules.TIPPED, says, limit=question.passage.height)


def _has_space(space: ServiceSpace | None, access: Access) -> bool:
    return space is not None and space.level and min(space.length, space.width) >= access.space * (1.0 - EQUAL_WITHIN)


def _check_no_passage(judged: Judged, question: ServiceAccessQuestion, access: Access, excused: bool, unsure: bool) -> None:
    if excused:
        says = Phrase("No passage is needed: the equipment is serviced and removed through the opening.")
    elif unsure:
        says = Phrase(
            "Copies of this code disagree whether equipment at the opening needs no passage where it has no level space: ask the building department."
        )
    elif question.serviced_through_opening:
        says = Phrase(
            "The exception for equipment at the opening does not hold: the largest piece must go through the opening{}.",
            "" if access.excuses_space else ", and by some copies of this code the level space must be there",
        )
    else:
        says = Phrase("There is no passage to the equipment, and it is not serviced through the opening: build a floored passage.")
    verdict: Verdict = "meets" if excused else "refer" if unsure else "fails"
    judged.check("passage", verdict, access.rule, says)
    judged.require("passage", "not needed" if excused else "needed", "none" if question.passage is None else "there is one", verdict)


def _check_passage(judged: Judged, passage: AccessPassage, access: Access, limit: Length) -> None:
    high = judged.least("passage height", passage.height, access.passage_height)
    holds = judged.least("passage width", passage.width, access.passage_width) and high
    sentence = (
        "The passage is {} wide and {} high, at least {} and {}."
        if holds
        else "The passage is {} wide and {} high; it takes {} and {}: clear or move what narrows it."
    )
    judged.check(
        "passage",
        "meets" if holds else "fails",
        access.rule,
        Phrase(sentence, passage.width, passage.height, access.passage_width, access.passage_height),
    )
    if limit < passage.length * (1.0 - EQUAL_WITHIN) and access.all_sides and limit >= access.tall_length:
        says = Phrase("The passage is {} long. One that is {} high may be {} long; copies of this code disagree on more: ask the building department.",
                      passage.length, access.tall_height, limit)  # fmt: skip
        judged.check("passage length", "refer", access.rule, says, actual=passage.length, limit=limit)
        judged.require("passage length", limit, passage.length, "refer")
        return
    judged.most("passage length", passage.length, limit)
    judged.at_most(
        "passage length", passage.length, limit, access.rule,
        meets="The passage is {} long, up to {} is allowed.",
        breaks="The passage is {} long, more than {}: another opening nearer the equipment is needed, or headroom that this code edition accepts.",
    )  # fmt: skip


def _check_space(judged: Judged, question: ServiceAccessQuestion, access: Access, excused: bool, unsure: bool) -> None:
    space, least = question.service_space, access.space
    if space is None or excused:
        verdict: Verdict = "meets" if excused else "refer" if unsure else "fails"
        says = (
            Phrase("No level space is needed: the equipment is serviced and removed through the opening.")
            if excused
            else Phrase("Copies of this code disagree whether equipment at the opening needs a level {} x {}: build it, or ask.", least, least)
            if unsure
            else Phrase("There is no level space at the equipment; this code edition asks for {} x {}, also at an opening.", least, least)
        )
        judged.require("service space", "not needed" if excused else least, "none" if space is None else "there is one", verdict)
        judged.check("service space", verdict, access.rule, says)
        return
    short, long = sorted((space.length, space.width))
    judged.least("service space, shorter side", short, least)
    judged.least("service space, longer side", long, least)
    holds = _has_space(space, access)
    judged.require("service space level", True, space.level, "meets" if space.level else "fails")
    says = Phrase(
        "The space at the equipment is {} x {} and level; {} x {} is the least." if holds
        else "The space at the equipment is {} x {}; a level {} x {} is the least: build a platform.", long, short, least, least,
    )  # fmt: skip
    judged.check("service space", "meets" if holds else "fails", access.rule, says)
    wanted = "all-sides" if access.all_sides else "service-side"
    enough = space.sides == "all-sides" or not access.all_sides
    judged.require("service space at", wanted, space.sides, "meets" if enough else "fails")
    if not enough:
        says = Phrase("This code edition asks for the space along all sides where access is needed; here it is on the service side only.")
        judged.check("service space sides", "fails", access.rule, says, actual=space.sides, limit=wanted)
