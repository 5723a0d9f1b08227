"""Runs that are killed at any instant, and go on without losing or doubling a row."""

import os
import random
import signal
import subprocess
import sys
import time
from concurrent.futures import Future
from pathlib import Path
from typing import Any

import psutil
import pytest

from kneewall.bulk import ledger, runner
from kneewall.bulk.chunk import Chunk, Job, run_chunk
from kneewall.bulk.runner import Run
from kneewall.bulk.source import Source
from kneewall.bulk.tally import Outcome
from tests.bulk.conftest import environment, kneewall

COLUMNS = ("/result/size/diameter", "/result/velocity")


def table(path: Path, rows: int) -> Path:
    """A file of questions; every hundredth is refused, every fiftieth has a line end inside a cell."""
    source = random.Random(5)
    lines = ["/airflow [cfm],/friction_rate [inH2O/100ft],id"]
    for number in range(rows):
        identity = f'"n\n{number}"' if number % 50 == 0 else f"n{number}"
        lines.append(f"{'?' if number % 100 == 7 else round(source.uniform(40, 2000), 1)},{source.choice(['0.06', '0.1'])},{identity}")
    path.write_text("\n".join(lines) + "\n")
    return path


class Inline:
    """Answers in this process, at once."""

    says, width = "this process", 3

    def submit(self, job: Job, chunk: Chunk) -> "Future[Outcome]":
        done: Future[Outcome] = Future()
        done.set_result(run_chunk(job, chunk))
        return done

    def close(self) -> None: ...


class Silent:
    """Shows nothing."""

    def begin(self, says: str, share: float, rows: int) -> None: ...

    def went_on(self, share: float, rows: int) -> None: ...

    def end(self) -> None: ...


def inline_run(path: Path, out: Path) -> Run:
    source, form = Source(path), out.suffix[1:]
    columns = () if form == "ndjson" else COLUMNS
    return Run(source, Job("csv", "duct-sizing", source.heading, form, columns, name=path.name), out, Inline())  # type: ignore[arg-type]


def doom(step: int) -> None:
    """Let this process be killed at the given step among all that touch the disk: before it, after it, or, while writing, in its midst."""
    taken = 0

    def mortal(function: Any, halve: bool = False) -> Any:
        def act(*given: Any, **named: Any) -> Any:
            nonlocal taken
            taken += 1
            if taken == step:
                os.kill(os.getpid(), signal.SIGKILL)
            if halve:
                taken += 1
                if taken == step:
                    function(given[0], given[1][: len(given[1]) // 2])
                    os.kill(os.getpid(), signal.SIGKILL)
            done = function(*given, **named)
            taken += 1
            if taken == step:
                os.kill(os.getpid(), signal.SIGKILL)
            return done

        return act

    ledger._write = mortal(ledger._write, halve=True)  # type: ignore[assignment]
    for name in ("fsync", "replace"):
        setattr(ledger.os, name, mortal(getattr(os, name)))
    Path.unlink = mortal(Path.unlink)  # type: ignore[method-assign]


def killed_at(step: int, path: Path, out: Path) -> bool:
    """Whether a run was killed at this step; else it came to its end before."""
    child = os.fork()
    if child == 0:
        try:
            ledger.SECONDS_BETWEEN_NOTES = 0.0
            doom(step)
            inline_run(path, out).finish(Silent())
            os._exit(0)
        finally:
            os._exit(1)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status) or os.WEXITSTATUS(status) == 0
    return os.WIFSIGNALED(status)


@pytest.mark.parametrize("form", ["csv", "ndjson", "parquet"])
def test_killed_at_every_single_step_a_run_goes_on_as_if_nothing_had_been(tmp_path: Path, form: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Parquet is shaped by a stand-in: its library cannot live in a forked process."""
    monkeypatch.setattr(runner, "shape_parquet", lambda job, rows, ready: ready.write_bytes(rows.read_bytes()[::-1]))
    path = table(tmp_path / "in.csv", 400)
    whole = tmp_path / f"whole.{form}"
    inline_run(path, whole).finish(Silent())
    step = 1
    while killed_at(step, path, out := tmp_path / f"out.{form}"):
        if not (out.exists() and not ledger.beside(out, "progress").exists()):
            tally = inline_run(path, out).finish(Silent())
            assert (tally.items, tally.refused) == (400, 4)
        assert out.read_bytes() == whole.read_bytes(), step
        for left in tmp_path.glob("out.*"):
            left.unlink()
        step += 1
    assert step > 20
    assert not ledger.beside(out, "progress").exists()


def test_killed_again_and_again_a_run_comes_to_its_end(tmp_path: Path) -> None:
    """Each life is killed at a random step, and the next goes on."""
    path = table(tmp_path / "in.csv", 3000)
    whole, out = tmp_path / "whole.csv", tmp_path / "out.csv"
    inline_run(path, whole).finish(Silent())
    source, lives = random.Random(2), 0
    while killed_at(source.randrange(8, 40), path, out):
        lives += 1
    assert lives > 2
    assert out.read_bytes() == whole.read_bytes()


SCRIPT = """
import sys
from kneewall.__main__ import main
from kneewall.bulk import ledger, runner
ledger.SECONDS_BETWEEN_NOTES = 0.05
if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
"""


def begun(script: Path, *given: object) -> "subprocess.Popen[bytes]":
    script.write_text(SCRIPT)
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    return subprocess.Popen([sys.executable, str(script), *map(str, given)], env=environment(), **quiet)  # type: ignore[call-overload,no-any-return]


def grown(path: Path, length: int, process: "subprocess.Popen[bytes]") -> None:
    """Wait until a file has this length."""
    for _ in range(3000):
        if (path.exists() and path.stat().st_size >= length) or process.poll() is not None:
            return
        time.sleep(0.01)
    raise AssertionError(f"{path} did not grow")


def test_a_killed_command_leaves_no_process_and_goes_on(tmp_path: Path) -> None:
    """The command with its worker processes, killed outright at a sixth and a third of the way: far enough from its end to be caught."""
    path = table(tmp_path / "in.csv", 60_000)
    inline_run(path, tmp_path / "whole.csv").finish(Silent())
    length = (tmp_path / "whole.csv").stat().st_size
    out, given = tmp_path / "out.csv", ("--calculation", "duct-sizing", "--columns", ",".join(COLUMNS))
    for sixth in (1, 2):
        process = begun(tmp_path / "run.py", "bulk", path, *given, "--out", out)
        grown(tmp_path / "out.csv.partial", sixth * length // 6, process)
        family = psutil.Process(process.pid).children(recursive=True)
        assert len(family) >= 2
        process.kill()
        process.wait()
        _, alive = psutil.wait_procs(family, timeout=10)
        assert not alive
        assert not out.exists()
    done = kneewall("bulk", path, *given, "--out", out)
    assert done.returncode == 0 and "going on after" in done.stderr
    assert out.read_bytes() == (tmp_path / "whole.csv").read_bytes()
    assert "60,000 rows, 59,400 answered, 600 refused" in done.stdout


def test_killed_workers_are_replaced(tmp_path: Path) -> None:
    path = table(tmp_path / "in.csv", 60_000)
    inline_run(path, tmp_path / "whole.csv").finish(Silent())
    out = tmp_path / "out.csv"
    process = begun(tmp_path / "run.py", "bulk", path, "--calculation", "duct-sizing", "--columns", ",".join(COLUMNS), "--out", out)
    grown(tmp_path / "out.csv.partial", (tmp_path / "whole.csv").stat().st_size // 4, process)
    workers = [one for one in psutil.Process(process.pid).children(recursive=True) if not one.children() and one.cpu_times().user > 0.05]
    assert workers
    workers[0].kill()
    assert process.wait(120) == 0
    assert out.read_bytes() == (tmp_path / "whole.csv").read_bytes()


def test_a_person_who_stops_it_is_told_how_to_go_on(tmp_path: Path) -> None:
    path = table(tmp_path / "in.csv", 60_000)
    inline_run(path, tmp_path / "whole.csv").finish(Silent())
    out = tmp_path / "out.csv"
    given = ("bulk", path, "--calculation", "duct-sizing", "--columns", ",".join(COLUMNS), "--out", out)
    process = begun(tmp_path / "run.py", *given)
    grown(tmp_path / "out.csv.partial", 100_000, process)
    process.send_signal(signal.SIGINT)
    assert process.wait(60) == 130
    assert kneewall(*given).returncode == 0
    assert out.read_bytes() == (tmp_path / "whole.csv").read_bytes()


def stopped_run(tmp_path: Path) -> tuple[Path, Path]:
    """A run that was killed midway."""
    path, out = table(tmp_path / "in.csv", 400), tmp_path / "out.csv"
    assert killed_at(9, path, out)
    assert ledger.beside(out, "progress").exists()
    return path, out


def test_a_changed_input_is_not_gone_on_with(tmp_path: Path) -> None:
    path, out = stopped_run(tmp_path)
    path.write_text(path.read_text() + "400,0.1,more\n")
    with pytest.raises(ledger.OtherWork, match="belongs to another run"):
        inline_run(path, out).finish(Silent())


def test_another_question_is_not_gone_on_with(tmp_path: Path) -> None:
    path, out = stopped_run(tmp_path)
    done = kneewall("bulk", path, "--calculation", "duct-sizing", "--out", out, "--units", "si")
    assert done.returncode == 2 and "belongs to another run" in done.stderr


def test_two_runs_never_write_one_output(tmp_path: Path) -> None:
    path, out = table(tmp_path / "in.csv", 400), tmp_path / "out.csv"
    run = inline_run(path, out)
    held = ledger.Ledger(out, run._work(), 0, 1, b"")
    with pytest.raises(ledger.OtherWork, match="another run is writing"):
        inline_run(path, out).finish(Silent())
    held.stop()


def test_a_torn_note_is_said_and_nothing_is_touched(tmp_path: Path) -> None:
    path, out = stopped_run(tmp_path)
    note, partial = ledger.beside(out, "progress"), ledger.beside(out, "partial").read_bytes()
    note.write_bytes(note.read_bytes()[:20])
    with pytest.raises(ledger.OtherWork, match="is not the note of a run"):
        inline_run(path, out).finish(Silent())
    assert ledger.beside(out, "partial").read_bytes() == partial
