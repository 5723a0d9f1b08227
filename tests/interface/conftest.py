"""The Node tools, the exported document and a running service."""

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from kneewall.http.reference import openapi_body
from tests.faults.service import ROOT, Service


@pytest.fixture(scope="session")
def node_tools() -> Path:
    """Where the Node programs are. Skips plainly where they cannot be had, unless KNEEWALL_REQUIRE_NODE=1."""
    found = subprocess.run([ROOT / "scripts" / "node_tools"], capture_output=True, text=True, timeout=400, check=False)
    if found.returncode:
        assert os.environ.get("KNEEWALL_REQUIRE_NODE") != "1", found.stderr
        pytest.skip(f"the Node tools cannot be had: {found.stderr.strip().splitlines()[-1]}")
    return Path(found.stdout.strip()) / "node_modules"


@pytest.fixture(scope="session")
def document(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The OpenAPI document as it is served now."""
    path = tmp_path_factory.mktemp("interface") / "openapi.json"
    path.write_bytes(openapi_body())
    return path


@pytest.fixture(scope="session")
def service() -> Iterator[Service]:
    with Service() as running:
        yield running
