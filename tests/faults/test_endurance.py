"""The endurance run of the bench, shortened to a few seconds: no error, and memory that stays."""

import os
import subprocess
import sys

from tests.faults.service import ROOT


def test_a_short_full_load_has_no_error_and_keeps_its_memory() -> None:
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "service"), "KNEEWALL_SECONDS": "4"}
    ran = subprocess.run(
        [sys.executable, "scripts/bench.d", "endurance"], cwd=ROOT, env=environment, capture_output=True, text=True, timeout=60, check=False
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert ran.stdout.count("met: goal") == 2 and "MISSED" not in ran.stdout
