"""Refusals: why a question was not answered, field by field, and what to do about it."""

from typing import Literal

import msgspec

from kneewall.kernel.phrase import Figure, Phrase

RefusalKind = Literal["invalid-question", "cannot-answer"]


class Fault(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One faulty field: a JSON pointer into the question (RFC 6901) and what is wrong with it."""

    pointer: str
    detail: Phrase
    rule: str | None = None


class Refusal(Exception):
    """The question was not answered. `invalid-question`: it does not have the shape the schema asks for;
    `cannot-answer`: its shape is right but no honest figure can be given.
    """

    def __init__(self, faults: list[Fault], kind: RefusalKind = "cannot-answer") -> None:
        super().__init__(faults)
        self.faults = faults
        self.kind: RefusalKind = kind


def fault(pointer: str, sentence: str, *figures: Figure, rule: str | None = None) -> Fault:
    """A fault whose sentence carries figures."""
    return Fault(pointer=pointer, detail=Phrase(sentence, *figures), rule=rule)


def refuse(pointer: str, sentence: str, *figures: Figure, rule: str | None = None) -> Refusal:
    """A refusal for a single field: `raise refuse("/airflow", "...")`."""
    return Refusal([fault(pointer, sentence, *figures, rule=rule)])


def refuse_any(faults: list[Fault]) -> None:
    """Raise a refusal of all the faults found, if any. Raises: Refusal."""
    if faults:
        raise Refusal(faults)
