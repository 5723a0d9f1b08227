"""A calculation: one question that people ask, the function that answers it, and what the pages need to show it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Generic, TypeVar

import msgspec

from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.quantity import Number, UnitSystem
from kneewall.kernel.question import Question
from kneewall.kernel.wire import Reader

QuestionT = TypeVar("QuestionT", bound=Question)
ResultT = TypeVar("ResultT")


@dataclass(frozen=True)
class Example:
    """A question worth starting from, as it would be sent."""

    name: str
    says: str
    question: dict[str, Any]


@dataclass(frozen=True)
class Calculation(Generic[QuestionT, ResultT]):
    """One folder, one endpoint: `POST /v1/{name}`."""

    name: str
    title: str
    says: str
    question: type[QuestionT]
    result: type[ResultT]
    function: Callable[[QuestionT], Answer[ResultT]]
    examples: tuple[Example, ...]
    working: Callable[[QuestionT, Answer[ResultT]], list[WorkingLine]]
    drawing: Callable[[QuestionT, Answer[ResultT], UnitSystem], str] | None = None
    monotone: dict[str, dict[str, str]] = field(default_factory=dict)
    """For generated tests: field of the question -> {field of the result: "rises" | "falls"} when only that field grows."""

    @cached_property
    def reader(self) -> Reader[QuestionT]:
        """Reads this calculation's questions."""
        return Reader(self.question)

    def answer(self, question: QuestionT, *, working: bool = False) -> Answer[ResultT]:
        """The answer, with the working where it is wanted. Raises: Refusal."""
        answer = self.function(question)
        return msgspec.structs.replace(answer, working=[_numbered(line) for line in self.working(question, answer)]) if working else answer


def _numbered(line: WorkingLine) -> WorkingLine:
    """A line of the working whose plain number leaves as a `Number`."""
    return msgspec.structs.replace(line, value=Number(line.value)) if type(line.value) is float else line


AnyCalculation = Calculation[Any, Any]
