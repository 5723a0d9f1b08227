"""What the pages say of the examples: words instead of tokens and pointers, units once, sentences as sentences."""

import re
from functools import cache
from typing import Any

import pytest

from kneewall.catalogue import all_calculations
from kneewall.kernel.answer import Figured
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length
from kneewall.web.fields import Field, form_of
from kneewall.web.shown import Entry, entries_of
from kneewall.web.views import answered
from tests.web.conftest import CALCULATIONS

EXAMPLES = [(one, example) for one in CALCULATIONS.values() for example in one.examples]
TRADE = frozenset({"hem-fir", "spruce-pine-fir", "tongue-and-groove", "pilot-operated", "direct-acting", "draw-through", "blow-through"})
"""Choices that are written with hyphens in the trade, too (common practice, no source)."""


def choices(field: Field) -> set[str]:
    """Every choice below a field that is no word of the trade as it stands."""
    found = {one for one in field.choices if "-" in one and one == one.lower() and one not in TRADE}
    for inner in (*field.fields, *([field.item] if field.item else [])):
        found |= choices(inner)
    return found


@cache
def tokens() -> re.Pattern[str]:
    every = {token for one in CALCULATIONS.values() for token in choices(form_of(one.question))}
    return re.compile(rf"(?<![\w.-])(?:{'|'.join(map(re.escape, [*every, *CALCULATIONS]))})(?![\w.-])")


def said(entries: list[Entry]) -> list[str]:
    """Every figure and sentence of some entries."""
    return [text for one in entries for text in (one.text, *(cell for row in one.rows for cell in row), *said(one.entries)) if text]


@pytest.mark.parametrize(("calculation", "example"), EXAMPLES, ids=[f"{one.name} {example.name}" for one, example in EXAMPLES])
def test_neither_tokens_nor_pointers_are_shown(calculation: Any, example: Any) -> None:
    question = calculation.reader.plain(dict(example.question))
    shown = answered(calculation, question, calculation.answer(question, working=True), "ip")
    texts = said(shown["result"]) + said(entries_of(question, "ip"))
    texts += [text for line in shown["working"] for text in (line["step"], line["substituted"], line["value"])]
    texts += [text for one in shown["checks"] for text in (one["check"], one["says"])]
    texts += re.findall("<text[^>]*>([^<]*)<", "".join(shown["drawing"]))
    assert [text for text in texts if tokens().search(text)] == []
    assert [text for text in texts if re.search("[a-z]_[a-z]+/|/[a-z]+_|(?<![a-z])(?:give|needs) [a-z]+_", text)] == []


class Told(Figured, frozen=True, kw_only=True):
    """A result with lists."""

    sentences: list[Phrase]
    lengths: list[Length]
    pressures: list[str]


def test_lists_are_parted_as_they_are_read() -> None:
    told = Told(
        sentences=[Phrase("Lift the switch and see."), Phrase("Pour {} into the pan.", "1 gal")],
        lengths=[Length.of(2, "ft"), Length.of(3, "ft")],
        pressures=["0.7 in. w.c.", "1 in. w.c."],
    )
    assert said(entries_of(told, "ip")) == ["Lift the switch and see. Pour 1 gal into the pan.", "2 ft, 3 ft", "0.7 in. w.c., 1 in. w.c."]


def test_a_whole_answer_inside_an_answer_is_folded_with_its_verdicts() -> None:
    job = CALCULATIONS["retrofit-check"]
    question = job.reader.plain(dict(job.examples[0].question))
    parts = next(one for one in entries_of(job.function(question).result, "ip") if one.title == "Parts").entries
    assert all(one.large and sum(one.tally.values()) > 0 for one in parts)
    assert list(parts[0].tally) == sorted(parts[0].tally, key=["fails", "watch", "refer", "meets"].index)


def test_what_only_programs_use_is_not_printed() -> None:
    """The full questions of the parts stand in the JSON answer of a whole job, and on no page."""
    calculation = all_calculations()["retrofit-check"]
    answer = calculation.answer(calculation.reader.plain(calculation.examples[0].question))
    assert answer.result.questions
    assert "Questions" not in [entry.title for entry in entries_of(answer, "ip")]
