"""The command `kneewall bulk FILE`: what it does with what was said to it, and what it says at the end."""

import sys
from argparse import Namespace
from importlib.util import find_spec
from pathlib import Path

from kneewall.bulk.against import Unanswered
from kneewall.bulk.chunk import Job, reading_of, writing_of
from kneewall.bulk.ledger import OtherWork, beside
from kneewall.bulk.progress import reporter
from kneewall.bulk.runner import Run
from kneewall.bulk.source import Source, Unreadable, form_of
from kneewall.bulk.tally import Tally
from kneewall.bulk.ways import Cluster, Here, Service, Unusable, Way
from kneewall.catalogue import all_calculations, calculation_of
from kneewall.kernel.refusal import Refusal

FINISHED, NOT_BEGUN, STOPPED, INTERRUPTED = 0, 2, 3, 130


class Misused(Exception):
    """What was asked of the command cannot be done."""


def run(given: Namespace) -> int:
    """Run a file and say what came of it. The exit code: 0 finished, 2 not begun, 3 stopped by a fault, 130 stopped by a person."""
    try:
        prepared = prepare(given)
        way = chosen_way(given)
    except (Misused, Unreadable, Unusable, OSError) as error:
        return _say(f"Not begun: {error}", NOT_BEGUN)
    except Refusal as refusal:
        return _say("Not begun:\n" + "\n".join(f"  {fault.pointer} {fault.detail}" for fault in refusal.faults), NOT_BEGUN)
    again = "Run the same command again to go on where it stopped."
    try:
        tally = Run(*prepared, way).finish(reporter())
    except KeyboardInterrupt:
        return _say(f"Stopped. {again}", INTERRUPTED)
    except OtherWork as error:
        return _say(f"Not begun: {error}", NOT_BEGUN)
    except (Unreadable, Unanswered, OSError, RuntimeError) as error:
        return _say(f"Stopped: {error}. {again}", STOPPED)
    finally:
        way.close()
    print(summary_of(tally, given.out))
    return FINISHED


def prepare(given: Namespace) -> tuple[Source, Job, Path]:
    """The file, the job and the output. Raises: Misused, Unreadable, Refusal, OSError."""
    source, out = Source(given.file), form_of(given.out)
    if given.calculation is None and (source.form != "ndjson" or out != "ndjson"):
        raise Misused("say --calculation: only NDJSON with NDJSON as output can mix calculations")
    if given.calculation is not None and calculation_of(given.calculation) is None:
        raise Misused(f"there is no calculation {given.calculation}; there are {', '.join(all_calculations())}")
    if given.columns and out == "ndjson":
        raise Misused("--columns is for tables: NDJSON carries whole answers")
    if given.out.exists() and not given.replace and not beside(given.out, "progress").exists():
        raise Misused(f"{given.out} is there already; name another output or say --replace")
    if given.workers is not None and not 1 <= given.workers <= 1024:
        raise Misused("--workers is between 1 and 1024")
    if out == "parquet":
        _need_polars()
    columns = tuple(name.strip() for name in given.columns.split(",") if name.strip())
    job = Job(source.form, given.calculation, source.heading, out, columns, given.units, source.path.name)
    _tell_unread(job)
    writing_of(job)
    return source, job, given.out


def _tell_unread(job: Job) -> None:
    unread = getattr(getattr(reading_of(job), "heading", None), "unread", [])
    if unread:
        print(f"Columns not read, since their names are not JSON pointers: {', '.join(unread)}", file=sys.stderr)


def _need_polars() -> None:
    if find_spec("polars") is None:  # loaded only where Parquet is read or shaped
        raise Misused("Parquet needs the optional part of the installation: pip install 'kneewall[bulk]'")


def chosen_way(given: Namespace) -> Way:
    """Where the rows are answered. Raises: Unusable."""
    if given.cluster:
        return Cluster(given.cluster)
    return Service(given.against, given.workers) if given.against else Here(given.workers, given.calculation and calculation_of(given.calculation))


def summary_of(tally: Tally, out: Path) -> str:
    """What came of the rows, in words."""
    lines = [f"{tally.items:,} rows, {tally.items - tally.refused:,} answered, {tally.refused:,} refused; written to {out}"]
    lines += [f"  {verdict:<10}{count:>14,}" for verdict, count in sorted(tally.verdicts.items(), key=lambda one: -one[1])]
    if tally.faults:
        lines.append("Commonest faults")
        lines += [f"  {group.count:>10,}  {group.pointer or 'the row'}: {group.example}" for group in tally.commonest_faults()]
    return "\n".join(lines)


def _say(text: str, code: int) -> int:
    print(text, file=sys.stderr)
    return code
