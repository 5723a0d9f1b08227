"""Lays out a new calculation: `python -m tests.new_calculation NAME`. What it writes answers a question, so that every step from there is a small one."""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]

INIT = '''"""TITLE: what does it answer?"""

from kneewall.calculations.FOLDER.calculate import answer_question
from kneewall.calculations.FOLDER.examples import EXAMPLES
from kneewall.calculations.FOLDER.messages import TYPEQuestion, TYPEResult
from kneewall.calculations.FOLDER.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="NAME",
    title="TITLE",
    says="What does it answer?",
    question=TYPEQuestion,
    result=TYPEResult,
    function=answer_question,
    working=working,
    examples=EXAMPLES,
)
'''
MESSAGES = '''"""What is asked and what is answered."""

from typing import Annotated

from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import Length
from kneewall.kernel.question import Question, asked


class TYPEQuestion(Question, frozen=True, kw_only=True):
    """The question in one sentence."""

    length: Annotated[Length, asked("What it is", least="0.1 ft", most="1000 ft")]


class TYPEResult(Figured, frozen=True, kw_only=True):
    """The result in one sentence."""

    length: Length
'''
CALCULATE = '''"""The computation, its story on top."""

from kneewall.calculations.FOLDER import rules
from kneewall.calculations.FOLDER.messages import TYPEQuestion, TYPEResult
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.phrase import Phrase


def answer_question(question: TYPEQuestion) -> Answer[TYPEResult]:
    """Answer the question. Raises: Refusal."""
    findings = Findings("NAME")
    findings.check("first check", "watch", rules.FIRST, Phrase("Nothing is worked out yet: {} is only said again.", question.length), actual=question.length)
    findings.caution(rules.FIRST_CAUTION)
    return findings.answer(TYPEResult(length=question.length))
'''
RULES = '''"""Rules and cautions."""

from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Rule

FIRST = Rule(id="NAME.first", says="Say what the rule says.", kind="practice", source=COMMON_PRACTICE, standing="common-practice")
FIRST_CAUTION = Caution(id="NAME.first-caution", hazard="structural", says="Say what can hurt whom.")
'''
WORKING = '''"""The working, line by line."""

from kneewall.calculations.FOLDER.messages import TYPEQuestion, TYPEResult
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase


def working(question: TYPEQuestion, answer: Answer[TYPEResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    return [WorkingLine(step="length", formula="as asked", substituted=Phrase("{}", question.length), value=answer.result.length)]
'''
EXAMPLES = '''"""Questions worth starting from."""

from kneewall.kernel.calculation import Example

EXAMPLES = tuple(Example(f"example-{feet}", f"A length of {feet} ft", {"length": f"{feet} ft"}) for feet in (1, 2, 3))
'''
TEST = '''"""NAME against figures from outside, at its limits, and where it must refuse."""

import pytest


def test_against_something_outside() -> None:
    pytest.fail("name the outside figure and its source")
'''


def main(arguments: list[str]) -> int:
    """Write the files; 1 where the name will not do or is taken."""
    name = arguments[0] if len(arguments) == 1 else ""
    folder = ROOT / "service" / "kneewall" / "calculations" / name.replace("-", "_")
    if not re.fullmatch(r"[a-z]+(-[a-z]+)*", name) or folder.exists():
        print("use: scripts/new_calculation NAME, lower-case words joined by hyphens, not yet taken", file=sys.stderr)
        return 1
    words = {"NAME": name, "FOLDER": folder.name, "TYPE": name.title().replace("-", ""), "TITLE": name.replace("-", " ").capitalize()}
    folder.mkdir()
    files = {"__init__": INIT, "messages": MESSAGES, "calculate": CALCULATE, "rules": RULES, "working": WORKING, "examples": EXAMPLES}
    for stem, text in files.items():
        (folder / f"{stem}.py").write_text(filled(text, words), "utf-8")
    (ROOT / "tests" / "calculations" / f"test_{folder.name}.py").write_text(filled(TEST, words), "utf-8")
    print(f"{folder.relative_to(ROOT)} is laid out; then scripts/export_openapi")
    return 0


def filled(text: str, words: dict[str, str]) -> str:
    """A template with its words put in."""
    for mark, word in words.items():
        text = text.replace(mark, word)
    return text


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
