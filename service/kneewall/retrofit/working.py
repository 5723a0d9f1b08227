"""The working of a whole job: the working of every part, each line under its part's name."""

import msgspec

from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.words import in_words
from kneewall.retrofit import rules
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.parts import CALCULATIONS
from kneewall.retrofit.results import RetrofitCheckResult


def working(question: RetrofitCheckQuestion, answer: Answer[RetrofitCheckResult]) -> list[WorkingLine]:
    """The lines of every part, then how the job's verdict follows."""
    lines: list[WorkingLine] = []
    for part, calculation in CALCULATIONS.items():
        found = getattr(answer.result.parts, part)
        if found is not None:
            own = calculation.working(answer.result.questions[calculation.name], found)
            lines += [msgspec.structs.replace(line, step=f"{in_words(calculation.name)}: {line.step}") for line in own]
    verdicts = ", ".join(check.verdict for check in answer.checks)
    last = Phrase("{}: {}", question.job.name, verdicts)
    lines.append(WorkingLine(step="verdict", formula="the gravest of all", substituted=last, value=answer.result.verdict, rule=rules.WORST_PART.id))
    return lines
