"""The whole job: every part answered as its own endpoint would, held against each other, taken off, and put in order.

The story: fill each part from the shared facts and the answers before it; answer it; find where two parts clash; say first what fails.
"""

from kneewall.kernel.answer import Answer, Check, Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.refusal import Fault
from kneewall.kernel.words import in_words, place_in_words
from kneewall.retrofit import rules
from kneewall.retrofit.conflicts import conflicts
from kneewall.retrofit.delivery import delivery
from kneewall.retrofit.loop_heights import lacks_loop_heights
from kneewall.retrofit.materials import materials
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.pan_pressure import lacks_coil
from kneewall.retrofit.parts import CALCULATIONS, work_through
from kneewall.retrofit.results import Conflict, DeliveryLine, Finding, NotChecked, PartAnswers, RetrofitCheckResult
from kneewall.retrofit.stages import order_of_work
from kneewall.retrofit.work import Work

GRAVITY: dict[Verdict, int] = {"fails": 0, "refer": 1, "watch": 2, "meets": 3}


def check_job(question: RetrofitCheckQuestion) -> Answer[RetrofitCheckResult]:
    """Answer a whole job. Raises: Refusal naming every figure that a given part still lacks."""
    work = work_through(question)
    clashes = conflicts(work)
    taken_off = materials(work)
    stages = order_of_work(work)
    came = None if question.delivered is None else delivery(question.delivered, taken_off, stages)
    first = what_fails(work, clashes, came)
    verdict = worst([*(finding.verdict for finding in first), *_verdicts(work), *(clash.verdict for clash in clashes)])
    result = RetrofitCheckResult(
        verdict=verdict,
        says=in_a_sentence(question, work, first, verdict),
        first=first,
        conflicts=clashes,
        not_checked=not_checked(work),
        order_of_work=stages,
        materials=taken_off,
        delivery=came,
        parts=PartAnswers(**work.answers),
        questions={CALCULATIONS[part].name: full for part, full in work.questions.items()},
    )
    return _findings(work, clashes).answer(result)


def worst(verdicts: list[Verdict]) -> Verdict:
    """The gravest of several verdicts; `meets` of none. Source: retrofit-check.worst-part."""
    return min(verdicts, key=lambda verdict: GRAVITY[verdict], default="meets")


def _verdicts(work: Work) -> list[Verdict]:
    return [check.verdict for answer in work.answers.values() for check in answer.checks]


def what_fails(work: Work, clashes: list[Conflict], came: list[DeliveryLine] | None) -> list[Finding]:
    """Everything that fails, clashes first with what would settle them, then the parts in the order of work, then what did not come."""
    found = [
        Finding(
            part=" and ".join(clash.between), verdict="fails", says=clash.says if clash.settle is None else Phrase("{} {}", clash.says, clash.settle)
        )
        for clash in clashes
        if clash.verdict == "fails"
    ]
    found += [
        Finding(part=part.replace("_", "-"), verdict="fails", says=_no_answer(fault)) for part, faults in work.refused.items() for fault in faults
    ]
    found += [
        Finding(part=answer.calculation, verdict="fails", says=check.says)
        for answer in work.answers.values()
        for check in answer.checks
        if check.verdict == "fails"
    ]
    found += [_not_delivered(stage, lines) for stage, lines in _stopped(came or []).items()]
    return found


def _no_answer(fault: Fault) -> Phrase:
    """Why a part has no answer; its field in words, the part's own name before it."""
    return Phrase("No answer at {}: {}.", place_in_words(fault.pointer), fault.detail)


def _stopped(came: list[DeliveryLine]) -> dict[str, list[DeliveryLine]]:
    stopped: dict[str, list[DeliveryLine]] = {}
    for line in came:
        if line.verdict == "fails":
            stopped.setdefault(line.stops or "its stage", []).append(line)
    return stopped


def _not_delivered(stage: str, lines: list[DeliveryLine]) -> Finding:
    named = ", ".join(f"{line.item} {line.size}".strip() + f" ({line.condition})" for line in lines[:4])
    more = f" and {len(lines) - 4} more" if len(lines) > 4 else ""
    return Finding(part="delivery", verdict="fails", says=Phrase("{} cannot begin: {}{}.", stage[0].upper() + stage[1:], named, more))


def in_a_sentence(question: RetrofitCheckQuestion, work: Work, first: list[Finding], verdict: Verdict) -> Phrase:
    """The job in a sentence or two."""
    parts = len(work.answers) + len(work.refused)
    if first:
        several = "1 thing fails" if len(first) == 1 else f"{len(first)} things fail"
        return Phrase("{}: {} in {} parts. Begin with this: {}", question.job.name, several, str(parts), first[0].says)
    refers = sorted({in_words(answer.calculation) for answer in work.answers.values() for check in answer.checks if check.verdict == "refer"})
    if refers:
        return Phrase(
            "{}: nothing fails in {} parts. A licensed professional or the authority still decides on {}.",
            question.job.name,
            str(parts),
            ", ".join(refers),
        )
    return Phrase("{}: nothing fails in {} parts{}.", question.job.name, str(parts), "; read what is to be watched" if verdict == "watch" else "")


def not_checked(work: Work) -> list[NotChecked]:
    """The parts that were left out, and the clashes that need them."""
    question = work.question
    found = [
        NotChecked(what=calculation.name, says=Phrase("{} was left out: {}", calculation.title, calculation.says))
        for part, calculation in CALCULATIONS.items()
        if part not in work.answers and part not in work.refused
    ]
    if lacks_coil(work):
        says = Phrase("What the unit's own wet coil adds to the pressure at the pan, and so to the trap: give the coil pressure drop of the unit.")
        found.append(NotChecked(what="coil at the pan", says=says))
    if lacks_loop_heights(work):
        says = Phrase(
            "How high the loop's coils stand above its supply; it is worked out as level: give the elevation of the loop's supply, or the rises of its pipes."
        )
        found.append(NotChecked(what="heights of the loop", says=says))
    heights = question.elevations
    if heights.unit_base is None or heights.rafter_underside is None or question.unit.height is None:
        says = Phrase(
            "Whether the unit fits under the rafters: give the elevations of the unit's base and of the rafters' underside, and the unit's height."
        )
        found.append(NotChecked(what="headroom", says=says))
    if heights.attic_floor is None or heights.rafter_underside is None:
        says = Phrase("Whether plenums and boxes fit: give the elevations of the attic floor and of the rafters' underside.")
        found.append(NotChecked(what="clear space", says=says))
    return found


def _findings(work: Work, clashes: list[Conflict]) -> Findings:
    """One check per clash and one per part, so that the job reads like any other answer."""
    findings = Findings("retrofit-check")
    for clash in clashes:
        findings.check(clash.conflict, clash.verdict, rules.CONFLICT_RULES[clash.conflict], clash.says, actual=clash.by)
    if any(clash.conflict == "water and supply" and clash.verdict == "fails" for clash in clashes):
        findings.apply(rules.STRONGER_SUPPLY)
    for part, answer in work.answers.items():
        _part_check(findings, part, answer.checks)
    for part, faults in work.refused.items():
        findings.check(part.replace("_", "-"), "fails", rules.WORST_PART, _no_answer(faults[0]))
    findings.apply(rules.SHEET_WEIGHT, rules.STOCK_LENGTHS, rules.LEVEL_AND_PLUMB, rules.PROVE_BEFORE_COVERING, rules.PAN_PRESSURE)
    findings.caution(rules.WORK_IN_ATTICS, rules.PERMITS, rules.POWER_OFF)
    return findings


def _part_check(findings: Findings, part: str, checks: list[Check]) -> None:
    verdict = worst([check.verdict for check in checks])
    counted = {kind: sum(check.verdict == kind for check in checks) for kind in GRAVITY}
    said = ", ".join(f"{count} {kind}" for kind, count in counted.items() if count)
    findings.check(part.replace("_", "-"), verdict, rules.WORST_PART, Phrase("{} checks: {}.", str(len(checks)), said))
