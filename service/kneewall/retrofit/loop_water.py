"""The hung unit on its water loop: which of the loop's units it is."""

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.refusal import Fault
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.work import Work


def hung_unit(work: Work) -> str | None:
    """The id of the hung unit among the units of the loop: as stated, else the first."""
    named = work.question.unit.loop_unit
    return named if named is not None else next(iter(names_on_loop(work.question)), None)


def names_on_loop(question: RetrofitCheckQuestion) -> list[str]:
    """The ids of the loop's units as the part states them; none where the job has no loop."""
    units = getattr(question.water_loop_flow, "units", None) or []
    return [unit.id for unit in units if unit.id is not None]


def unknown_loop_unit(question: RetrofitCheckQuestion) -> list[Fault]:
    """The fault of a hung unit that the loop does not have. A job without a loop may name its unit all the same."""
    names, named = names_on_loop(question), question.unit.loop_unit
    if named is None or not names or named in names:
        return []
    return [Fault(pointer="/unit/loop_unit", detail=Phrase("names no unit of the loop: {}", ", ".join(names)))]
