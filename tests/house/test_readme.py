"""What the README shows is what the service says."""

import json
import re
from pathlib import Path
from textwrap import fill

from kneewall.catalogue import all_calculations
from tests.asking import answer

README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")


def test_the_answer_shown_is_the_answer() -> None:
    asked = re.search(r"-d '(\{.*?\})'", README)
    shown = re.search(r"```json\n(.*?)```", README, re.S)
    assert asked and shown
    found = answer("duct-sizing", json.loads(asked.group(1)))
    for name, part in json.loads(shown.group(1)).items():
        assert found[name] == part


def test_every_calculation_is_listed_with_its_question() -> None:
    for calculation in all_calculations().values():
        assert f"| `{calculation.name}` | {calculation.says} |" in README


def test_the_sample_house_fails_as_shown() -> None:
    found = answer("retrofit-check", all_calculations()["retrofit-check"].examples[0].question)["result"]
    for finding in found["first"]:
        assert fill(finding["says"], 110, initial_indent="  - ", subsequent_indent="    ") in README
