"""The working of support spacing, run by run."""

from kneewall.calculations.support_spacing import rules
from kneewall.calculations.support_spacing.carried import carried
from kneewall.calculations.support_spacing.messages import SupportSpacingQuestion, SupportSpacingResult
from kneewall.calculations.support_spacing.spacing import spacing_of
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.words import in_words
from kneewall.physics.pipe_span import SIMPLE_SPAN


def working(question: SupportSpacingQuestion, answer: Answer[SupportSpacingResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    lines = []
    for run, found in zip(question.runs, answer.result.runs, strict=True):
        load = carried(run)
        lines += [
            WorkingLine(
                step=f"{run.id}: allowed", formula="the least of these governs", value=most, rule=rule.id,
                substituted=Phrase("{} {} {}", run.orientation, in_words(run.material), "duct" if run.nominal_size is None else run.nominal_size),
            )
            for rule, most in spacing_of(run, load, question.code).allowed
        ]  # fmt: skip
        lines += [
            WorkingLine(
                step=f"{run.id}: supports", formula="length / spacing, rounded up, and one more; flexible duct one less", value=found.supports,
                substituted=Phrase("{} / {}", run.length, found.maximum_spacing if run.spacing is None else run.spacing), rule=found.governing_rule,
            ),
            WorkingLine(
                step=f"{run.id}: load of a support", formula="w L + valves", value=found.load_per_support, rule=rules.LOAD.id,
                substituted=Phrase("{} over {} at most, valves {}", found.weight, found.maximum_spacing if run.spacing is None else run.spacing, run.valves),
            ),
        ]  # fmt: skip
        if found.sag is not None:
            lines.append(
                WorkingLine(
                    step=f"{run.id}: sag", formula="5 w L^4/(384 E I)", value=found.sag, rule=SIMPLE_SPAN.id, substituted=Phrase("{}", found.weight)
                )
            )
    return lines
