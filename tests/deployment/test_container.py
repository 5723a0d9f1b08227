"""The container's steps are taken as shell, and what they make runs as another user, without capabilities, on a read-only root."""

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.deployment.container import DOCKERFILE, Container
from tests.faults.service import Service, request, status_of

ALONE = os.geteuid() == 0 and shutil.which("setpriv") is not None


@pytest.fixture(scope="module")
def container() -> Iterator[Container]:
    folder = Path(tempfile.mkdtemp(prefix="kneewall-image-"))
    folder.chmod(0o755)
    try:
        made = Container(folder)
        made.build()
        yield made
    finally:
        shutil.rmtree(folder)


def lint(text: str) -> subprocess.CompletedProcess[str]:
    hadolint = shutil.which("hadolint", path=os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]]))
    assert hadolint
    return subprocess.run([hadolint, "-"], input=text, capture_output=True, text=True, timeout=60, check=False)


def test_the_dockerfile_is_linted_and_the_linter_sees() -> None:
    text = DOCKERFILE.read_text("utf-8")
    found = lint(text)
    assert found.returncode == 0 and found.stdout == "", found.stdout
    assert "DL3004" in lint(text.replace("RUN echo", "RUN sudo echo")).stdout


def test_the_steps_make_an_environment_of_exactly_the_locked_versions(container: Container) -> None:
    lock = (DOCKERFILE.parent / "requirements.lock").read_text("utf-8")
    locked = {name.replace("_", "-") for name in re.findall(r"^([a-z0-9-]+)==", lock, re.M)}
    installed = {
        path.name.partition("-")[0].replace("_", "-").lower() for path in container.root.glob("opt/kneewall/lib/*/site-packages/*.dist-info")
    }
    assert installed == locked
    assert not {"pip", "setuptools", "pytest"} & installed


@pytest.mark.skipif(not ALONE, reason="needs root and setpriv to become another user")
def test_it_runs_as_another_user_without_capabilities_on_a_read_only_root(container: Container) -> None:
    assert container.user == "10001:10001"
    confined = container.confined()
    environment = {**container.environment, "KNEEWALL_HOST": "127.0.0.1", "KNEEWALL_PORT": "0", "PATH": os.environ["PATH"]}
    running = subprocess.Popen(
        [*confined, *container.entrypoint, *container.command], env=environment, cwd="/", stdout=subprocess.PIPE, text=True, stderr=subprocess.DEVNULL
    )
    try:
        assert running.stdout is not None
        port = int(re.findall(r":(\d+)/", running.stdout.readline())[0])
        status = Path(f"/proc/{running.pid}/status").read_text("ascii")
        assert re.findall(r"Uid:\s+(\d+)\s+(\d+)", status) == [("10001", "10001")]
        assert set(re.findall(r"Cap(?:Prm|Eff|Bnd):\s+(\w+)", status)) == {"0" * 16}
        assert "NoNewPrivs:\t1" in status
        service = Service.__new__(Service)
        service.port = port
        assert status_of(service.exchange(request())) == 200
        health = [part.replace(":8017", f":{port}") for part in container.health]
        assert subprocess.run([*confined, *health], env=environment, timeout=30, check=False).returncode == 0
        assert subprocess.run([*confined, *container.health], env=environment, timeout=30, check=False, stderr=subprocess.DEVNULL).returncode != 0
        if "unshare" in confined:
            assert subprocess.run([*confined, "touch", "/tmp/written"], check=False, stderr=subprocess.DEVNULL).returncode != 0
    finally:
        running.terminate()
        ended = time.monotonic()
        assert running.wait(20) in (0, -15, 143)
        assert time.monotonic() - ended < 10
        running.stdout.close()  # type: ignore[union-attr]
