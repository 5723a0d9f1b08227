"""The Dockerfile's own steps, taken in its order by a shell in a folder instead of an image: no image can be pulled where these tests run."""

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

from tests.faults.service import ROOT

DOCKERFILE = ROOT / "docker" / "Dockerfile"
PLACE = "/opt/kneewall"


def instructions() -> list[list[tuple[str, str]]]:
    """Instruction and arguments of each stage."""
    text = re.sub(r"\\\n", " ", DOCKERFILE.read_text("utf-8"))
    stages: list[list[tuple[str, str]]] = []
    for line in text.splitlines():
        word, _, rest = line.strip().partition(" ")
        if word == "FROM":
            stages.append([])
        elif word and not word.startswith("#") and word != "ARG":
            stages[-1].append((word, rest.strip()))
    return stages


@dataclass
class Container:
    """A folder in place of the image's root, and what the last stage says about running."""

    root: Path
    workdir: Path = Path()
    environment: dict[str, str] = field(default_factory=dict)
    user: str = "0:0"
    entrypoint: list[str] = field(default_factory=list)
    command: list[str] = field(default_factory=list)
    health: list[str] = field(default_factory=list)

    def here(self, text: str) -> str:
        """A text with the image's paths turned into those of the folder."""
        return text.replace(PLACE, f"{self.root}{PLACE}")

    def build(self) -> None:
        """Take every step of every stage."""
        (self.root / "bin").mkdir()
        python = self.root / "bin" / "python"
        python.write_text(f'#!/bin/sh\nexec {sys.executable} "$@"\n')
        python.chmod(0o755)
        for stage in instructions():
            for word, rest in stage:
                getattr(self, f"step_{word.lower()}")(rest)

    def step_workdir(self, rest: str) -> None:
        self.workdir = self.root / rest.strip("/")
        self.workdir.mkdir(parents=True)

    def step_copy(self, rest: str) -> None:
        source, target = rest.rsplit(" ", 1)
        if source.startswith("--from=build"):
            assert source.split()[1] == target == PLACE
            return
        place = Path(self.here(target)) if target.startswith("/") else self.workdir / target
        if (ROOT / source).is_dir():
            shutil.copytree(ROOT / source, place, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(ROOT / source, place)

    def step_run(self, rest: str) -> None:
        environment = {**os.environ, "PATH": f"{self.root / 'bin'}:{os.environ['PATH']}", "PIP_NO_COMPILE": "1"}
        environment.pop("PYTHONPATH", None)
        done = subprocess.run(
            ["sh", "-ec", self.here(rest)], cwd=self.workdir, env=environment, capture_output=True, text=True, timeout=300, check=False
        )
        assert done.returncode == 0, f"{rest}\n{done.stderr[-2000:]}"

    def step_env(self, rest: str) -> None:
        self.environment |= dict(pair.split("=", 1) for pair in shlex.split(rest))

    def step_user(self, rest: str) -> None:
        self.user = rest

    def step_expose(self, rest: str) -> None:
        assert rest == self.environment["KNEEWALL_PORT"]

    def step_healthcheck(self, rest: str) -> None:
        self.health = json.loads(self.here(rest.partition("CMD ")[2]))

    def step_entrypoint(self, rest: str) -> None:
        self.entrypoint = json.loads(self.here(rest))

    def step_cmd(self, rest: str) -> None:
        self.command = json.loads(rest)

    def confined(self) -> list[str]:
        """What runs a command as that user, without any capability and, where this machine lets us, with nothing writable."""
        user, group = self.user.split(":")
        drop = ["setpriv", "--reuid", user, "--regid", group, "--clear-groups", "--no-new-privs", "--bounding-set=-all", "--inh-caps=-all"]
        read_only = ["unshare", "-m", "--", "sh", "-c", 'mount --make-rprivate / && mount -o remount,bind,ro / && exec "$@"', "sh"]
        if subprocess.run([*read_only, "true"], capture_output=True, check=False).returncode == 0:
            return [*read_only, *drop]
        return drop
