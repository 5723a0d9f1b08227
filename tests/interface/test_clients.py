"""Clients made from the document by existing generators ask the running service and read its answers, every calculation of it."""

import json
import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from kneewall.catalogue import all_calculations
from tests.asking import answer
from tests.faults.service import Service

GENERATOR = "literal_enums: true\npost_hooks: []\n"
"""Units differ only in case (cfm, CFM), which names of Python enumerations cannot: so they are literals."""

COMPILER = {"strict": True, "target": "es2022", "module": "nodenext", "skipLibCheck": True, "lib": ["es2022", "dom"], "types": []}
CALL = """
{{
  const {{ data, error, response }} = await client.POST({path}, {{ params: {{ query: {{ units: "si" }} }}, body: {body} }});
  if (error !== undefined) throw new Error(error.detail);
  if (typeof data === "string") throw new Error("JSON was asked for");
  const verdicts: ("meets" | "watch" | "fails" | "refer")[] = data.checks.map((check) => check.verdict);
  console.log(JSON.stringify({{ calculation: data.calculation, status: response.status, verdicts, result: data.result }}));
}}
"""
REFUSED = """
{
  const { error, response } = await client.POST("/v1/duct-sizing", { body: { airflow: "-1 cfm" } });
  console.log(JSON.stringify({ calculation: "refused", status: response.status, detail: error?.errors[0]?.pointer }));
}
"""


@pytest.fixture(scope="module")
def python_client(document: Path, tmp_path_factory: pytest.TempPathFactory) -> Any:
    folder = tmp_path_factory.mktemp("client")
    (folder / "how.yaml").write_text(GENERATOR)
    program = "from openapi_python_client.cli import app; app()"
    command = [
        sys.executable,
        "-c",
        program,
        "generate",
        "--config",
        folder / "how.yaml",
        "--path",
        document,
        "--output-path",
        folder / "asker",
        "--meta",
        "none",
    ]
    made = subprocess.run([*command], capture_output=True, text=True, timeout=120, check=True, env={**os.environ, "COLUMNS": "200"})
    left_out = [line for line in made.stdout.splitlines() if line.startswith(("Unable", "Unsupported", "Could not", "Cannot", "Found"))]
    assert set(left_out) <= {"Unsupported content type application/msgpack", "Unsupported content type application/x-ndjson"}, made.stdout[:3000]
    sys.path.insert(0, str(folder))
    yield import_module("asker")
    sys.path.remove(str(folder))


@pytest.mark.parametrize("name", all_calculations())
def test_the_generated_python_client_asks_every_calculation(service: Service, python_client: Any, name: str) -> None:
    calculation = all_calculations()[name]
    module = import_module(f"asker.api.calculations.{name.replace('-', '_')}")
    question_type = getattr(import_module("asker.models"), calculation.question.__name__)
    with python_client.Client(base_url=f"http://127.0.0.1:{service.port}", raise_on_unexpected_status=True) as client:
        for example in calculation.examples:
            reply = module.sync_detailed(client=client, body=question_type.from_dict(example.question), units="si")
            assert reply.status_code == 200
            assert reply.parsed.result.to_dict() == answer(name, example.question, units="si")["result"]


def test_the_generated_python_client_reads_a_refusal(service: Service, python_client: Any) -> None:
    from asker.api.calculations import duct_sizing  # type: ignore[import-not-found]
    from asker.models import DuctSizingQuestion, Problem  # type: ignore[import-not-found]

    with python_client.Client(base_url=f"http://127.0.0.1:{service.port}") as client:
        reply = duct_sizing.sync_detailed(client=client, body=DuctSizingQuestion(airflow="-1 cfm"))
    assert reply.status_code == 422
    assert isinstance(reply.parsed, Problem)
    assert reply.parsed.errors[0].pointer == "/airflow"


def test_the_generated_typescript_client_asks_every_calculation(service: Service, node_tools: Path, document: Path, tmp_path: Path) -> None:
    (tmp_path / "node_modules").symlink_to(node_tools)
    (tmp_path / "package.json").write_text('{"type": "module"}')
    generate = [node_tools / ".bin" / "openapi-typescript", document, "--default-non-nullable=false", "-o", tmp_path / "schema.d.ts"]
    subprocess.run(generate, check=True, capture_output=True, timeout=120)
    asked = [(name, example.question) for name, one in all_calculations().items() for example in one.examples]
    text = 'import createClient from "openapi-fetch";\nimport type { paths } from "./schema.js";\n'
    text += f'const client = createClient<paths>({{ baseUrl: "http://127.0.0.1:{service.port}" }});\n'
    text += "".join(CALL.format(path=json.dumps(f"/v1/{name}"), body=json.dumps(question)) for name, question in asked) + REFUSED
    (tmp_path / "ask.ts").write_text(text)
    (tmp_path / "tsconfig.json").write_text(json.dumps({"compilerOptions": COMPILER, "files": ["ask.ts"]}))
    compiled = subprocess.run([node_tools / ".bin" / "tsc"], cwd=tmp_path, capture_output=True, text=True, timeout=200, check=False)
    assert compiled.returncode == 0, compiled.stdout[:3000]
    ran = subprocess.run(["node", "ask.js"], cwd=tmp_path, capture_output=True, text=True, timeout=100, check=False)
    assert ran.returncode == 0, ran.stderr[:2000]
    *answers, refused = map(json.loads, ran.stdout.splitlines())
    assert refused == {"calculation": "refused", "status": 422, "detail": "/airflow"}
    for (name, question), told in zip(asked, answers, strict=True):
        expected = answer(name, question, units="si")
        assert told["calculation"] == name and told["status"] == 200
        assert told["result"] == expected["result"]
        assert told["verdicts"] == [check["verdict"] for check in expected["checks"]]
