"""The output of a run and the note of how far it has come, so that a run which was stopped at any instant goes on without losing or doubling a row.

Answers are appended to `OUT.partial`. From time to time what was appended is made durable, and then the note `OUT.progress` is replaced in one step by
one that says how much of the input this is and how long the output then was. A run that finds a note cuts the output to that length, which drops whatever
came after it, and goes on from there. The finished output takes its name in one step.
"""

import fcntl
import os
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from time import monotonic
from typing import BinaryIO

import msgspec

from kneewall.bulk.tally import Tally

SECONDS_BETWEEN_NOTES = 1.0


class Note(msgspec.Struct):
    """How far a run has come: which work it is, where in the input it goes on, with which row, how long the output is, and what was counted."""

    work: str
    at: int
    first: int
    length: int
    tally: Tally
    finished: bool = False


class OtherWork(Exception):
    """The output holds something that this run must not touch."""


class Ledger:
    """Appends answers and keeps the note. Only one run at a time can hold it."""

    def __init__(self, out: Path, work: str, at: int, first: int, heading: bytes) -> None:
        """Take up the run where it was left, or begin. Raises: OtherWork, OSError."""
        self.out = out
        self._partial, self._note_path = beside(out, "partial"), beside(out, "progress")
        self._last = monotonic()
        self._work = sha256(work.encode()).hexdigest()
        self._file = self._opened()
        try:
            self._take_up(at, first, heading)
        except BaseException:
            self._file.close()
            raise

    def _opened(self) -> BinaryIO:
        file = os.fdopen(os.open(self._partial, os.O_RDWR | os.O_CREAT, 0o666), "r+b", buffering=0)
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            file.close()
            raise OtherWork(f"another run is writing {self.out}") from None
        return file

    def _take_up(self, at: int, first: int, heading: bytes) -> None:
        found = _read_note(self._note_path)
        if found is not None and found.work != self._work:
            raise OtherWork(
                f"{self._note_path.name} belongs to another run: the input, the columns or the calculation were different. "
                f"Finish that run, or delete {self._note_path} and {self._partial} to begin anew"
            )
        self.resumed = found is not None
        self.note = found or Note(self._work, at, first, len(heading), Tally())
        if not self.note.finished:
            if found is None:
                self._file.truncate(0)
                _write(self._file, heading)
            self._file.truncate(self.note.length)
            self._file.seek(self.note.length)
            self.make_durable()

    def append(self, text: bytes, at: int, first: int, tally: Tally) -> None:
        """Append the answers to the input up to `at`, whose next row is number `first`."""
        _write(self._file, text)
        self.note.at, self.note.first = at, first
        self.note.length += len(text)
        self.note.tally.add(tally)
        if monotonic() - self._last >= SECONDS_BETWEEN_NOTES:
            self.make_durable()

    def make_durable(self) -> None:
        """Bring the output to the disk, then note that it is there: in this order, a note never promises what is not written."""
        os.fsync(self._file.fileno())
        waiting = beside(self._note_path, "new")
        with waiting.open("wb") as file:
            file.write(msgspec.json.encode(self.note))
            file.flush()
            os.fsync(file.fileno())
        os.replace(waiting, self._note_path)
        _sync_folder(self.out)
        self._last = monotonic()

    def finish(self, shape: Callable[[Path, Path], None] | None) -> None:
        """Give the finished output its name; `shape` first turns the rows into another form. Every step can be repeated."""
        if not self.note.finished:
            self.note.finished = True
            self.make_durable()
        if os.fstat(self._file.fileno()).st_size == self.note.length:  # else it got its name before the run was stopped
            ready = self._partial
            if shape is not None:
                ready = beside(self.out, "shaped")
                shape(self._partial, ready)
            os.replace(ready, self.out)
            _sync_folder(self.out)
        self._note_path.unlink()
        self._partial.unlink(missing_ok=True)
        self._file.close()

    def stop(self) -> None:
        """Let go before the end, noting how far the run came."""
        try:
            if not self.note.finished:
                self.make_durable()
        finally:
            self._file.close()


def beside(path: Path, suffix: str) -> Path:
    """The file of the same name with a suffix more."""
    return path.with_name(f"{path.name}.{suffix}")


def _read_note(path: Path) -> Note | None:
    try:
        return msgspec.json.decode(path.read_bytes(), type=Note)
    except FileNotFoundError:
        return None
    except msgspec.DecodeError as error:
        raise OtherWork(f"{path} is not the note of a run: {error}") from None


def _write(file: BinaryIO, text: bytes) -> None:
    """Write all of it: a raw file may take less than it is given."""
    view = memoryview(text)
    while view:
        view = view[file.write(view) :]


def _sync_folder(path: Path) -> None:
    folder = os.open(path.resolve().parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
