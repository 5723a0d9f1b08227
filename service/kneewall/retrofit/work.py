"""A job while it is worked out: its question, and every part's full question and answer as they come."""

from dataclasses import dataclass, field
from typing import Any

from kneewall.kernel.answer import Answer
from kneewall.kernel.refusal import Fault
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.stated_twice import Twice


@dataclass(slots=True)
class Work:
    """What is known so far. Parts go by their field's name, such as `duct_system`."""

    question: RetrofitCheckQuestion
    questions: dict[str, Any] = field(default_factory=dict)
    answers: dict[str, Answer[Any]] = field(default_factory=dict)
    refused: dict[str, list[Fault]] = field(default_factory=dict)
    twice: list[Twice] = field(default_factory=list)

    def asked(self, part: str) -> Any:
        """The full question of a part that was answered; None where it was not."""
        return self.questions.get(part)

    def result(self, part: str) -> Any:
        """The result of a part; None where it was not answered."""
        answer = self.answers.get(part)
        return None if answer is None else answer.result

    def verdicts(self, part: str) -> dict[str, str]:
        """The verdicts of a part by check."""
        answer = self.answers.get(part)
        return {} if answer is None else {check.check: check.verdict for check in answer.checks}
