"""The OpenAPI document pleases two linters, breaks no client of the last released one, and its examples are answered."""

import json
import subprocess
from pathlib import Path
from typing import Any

import msgspec
import pytest

from kneewall.app import create_application
from kneewall.catalogue import all_calculations
from kneewall.http.reference import reference_documents
from kneewall.http.settings import Settings
from tests.faults.service import ROOT
from tests.http.calling import call
from tests.http.document import served_document

EXAMPLES = [
    pytest.param(path, media, example["value"], id=f"{path} {media} {name}")
    for path, operations in served_document()["paths"].items()
    if "post" in operations
    for media, content in operations["post"]["requestBody"]["content"].items()
    for name, example in content.get("examples", {}).items()
]


def lint(*documents: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([ROOT / "scripts" / "interface", *documents], capture_output=True, text=True, timeout=200, check=False)


def test_it_is_linted_without_error_or_warning_and_breaks_nobody(node_tools: Path, document: Path) -> None:
    found = lint(document)
    assert found.returncode == 0, found.stdout + found.stderr
    assert "nothing breaks" in found.stdout


def planted(document: dict[str, Any], what: str) -> str:
    """Spoil the document; what the tools should then say."""
    question = document["components"]["schemas"]["DuctSizingQuestion"]
    if what == "a field becomes required":
        question["required"].append("place")
        return "place"
    if what == "a result disappears":
        del document["components"]["schemas"]["DuctSizingResult"]["properties"]["velocity"]
        document["components"]["schemas"]["DuctSizingResult"]["required"].remove("velocity")
        return "velocity"
    document["components"]["schemas"]["Nobody"] = {"type": "string"}
    return "Nobody"


@pytest.mark.parametrize("what", ["a field becomes required", "a result disappears", "a component nobody uses"])
def test_a_planted_fault_is_found(node_tools: Path, tmp_path: Path, what: str) -> None:
    small = reference_documents({name: all_calculations()[name] for name in ("duct-sizing", "static-pressure-budget")})[-1]
    document = json.loads(small.body)
    released, spoilt = tmp_path / "released.json", tmp_path / "spoilt.json"
    released.write_bytes(small.body)
    expected = planted(document, what)
    spoilt.write_text(json.dumps(document))
    found = lint(spoilt, released)
    assert found.returncode != 0
    assert expected in found.stdout + found.stderr


@pytest.mark.parametrize(("path", "media", "value"), EXAMPLES)
def test_every_example_is_answered(path: str, media: str, value: Any) -> None:
    body = value.encode() if isinstance(value, str) else msgspec.json.encode(value)
    answer = call(create_application(settings=Settings(log="faults")), "POST", path, body, "working=true", content_type=media)
    assert answer.status == 200, answer.body[:500]
    assert b'"problem"' not in answer.body
