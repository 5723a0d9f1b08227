"""People read names in words: no text of an answer shows a field's name as programs write it, nor a place as a JSON pointer."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from msgspec import inspect

from kneewall.catalogue import all_calculations
from kneewall.http.problem import refusal_document
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.refusal import Refusal, fault
from kneewall.retrofit.scenario import FIRST
from tests.asking import answer

PACKAGE = Path(__file__).parents[2] / "service" / "kneewall"
SAYING = [path for folder in ("calculations", "physics", "retrofit") for path in sorted((PACKAGE / folder).rglob("*.py"))]
CALCULATIONS = [pytest.param(calculation, id=calculation.name) for calculation in all_calculations().values()]
FOR_PEOPLE = ("says", "proves", "does", "substituted", "step", "formula", "not_compared", "settle", "against", "detail")


def field_names(described: inspect.Type, seen: set[type]) -> Iterator[str]:
    if isinstance(described, inspect.Metadata):
        yield from field_names(described.type, seen)
    elif isinstance(described, inspect.UnionType):
        for member in described.types:
            yield from field_names(member, seen)
    elif isinstance(described, inspect.ListType):
        yield from field_names(described.item_type, seen)
    elif isinstance(described, inspect.StructType) and described.cls not in seen:
        seen.add(described.cls)
        for field in described.fields:
            yield field.encode_name
            yield from field_names(field.type, seen)


NAMES = {name for one in all_calculations().values() for name in field_names(inspect.type_info(one.question), set())}
TOKEN = re.compile(r"\b(?:" + "|".join(sorted(name for name in NAMES if "_" in name)) + r")\b")
POINTER = re.compile(r"(?<![\w.])/?(?:" + "|".join(sorted(NAMES)) + r")/(?:" + "|".join(sorted(NAMES)) + r"|[0-9]+)\b|(?:^|\s)/[a-z_]{3,}")


def raw(text: str) -> bool:
    return bool(TOKEN.search(text) or POINTER.search(text))


@pytest.mark.parametrize("path", SAYING, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_sentences_in_the_source_name_nothing_raw(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    said_of_code = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    texts = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in said_of_code]
    assert [f"{node.lineno}: {node.value}" for node in texts if " " in node.value and raw(node.value)] == []


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_answers_to_the_examples_name_nothing_raw(calculation: AnyCalculation) -> None:
    for example in calculation.examples:
        found = answer(calculation.name, example.question, working=True)
        assert [text for text in texts_for_people(found) if raw(text)] == []


def texts_for_people(found: Any, name: str = "") -> Iterator[str]:
    if isinstance(found, dict):
        for key, value in found.items():
            yield from () if key == "questions" else texts_for_people(value, key)
    elif isinstance(found, list):
        for item in found:
            yield from texts_for_people(item, name)
    elif isinstance(found, str) and name in FOR_PEOPLE:
        yield found


def test_a_part_without_an_answer_is_named_in_words() -> None:
    said = [one["says"] for one in answer("retrofit-check", FIRST)["result"]["first"]]
    assert any(text.startswith("No answer at static pressure budget › components: at 1,150 cfm") for text in said)


def test_a_problem_says_where_in_words_and_points_for_programs() -> None:
    found = refusal_document(Refusal([fault("/run/hanger_spacing", "is missing")]), "ip", "x")
    assert found.detail == "run › hanger spacing: is missing" and found.errors[0].pointer == "/run/hanger_spacing"
