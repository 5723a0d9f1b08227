"""How far a run has come, for a person at a terminal or for a log."""

import sys
from time import monotonic
from typing import Any, TextIO

SECONDS_BETWEEN_LINES = 10.0


def reporter() -> "Bar | LogLines":
    """A bar where somebody watches and `rich` is installed, else a line from time to time."""
    stream = sys.stderr
    if stream.isatty():
        try:
            return Bar()
        except ImportError:
            pass
    return LogLines(stream)


class Pace:
    """Rows per second, and the seconds left at the pace so far."""

    def __init__(self, share: float, rows: int) -> None:
        self._began, self._share, self._rows = monotonic(), share, rows

    def __call__(self, share: float, rows: int) -> tuple[float, float]:
        """The pace when this share, so many rows, is done."""
        took = max(monotonic() - self._began, 1e-6)
        gone = share - self._share
        return (rows - self._rows) / took, took * (1.0 - share) / gone if gone > 0 else 0.0


class LogLines:
    """A plain line every few seconds."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._last = monotonic()

    def begin(self, says: str, share: float, rows: int) -> None:
        """Say where the run starts."""
        self._pace, self._reached = Pace(share, rows), (share, rows)
        resumed = f"; going on after {rows:,} rows" if rows else ""
        print(f"Answering with {says}{resumed}.", file=self._stream, flush=True)

    def went_on(self, share: float, rows: int) -> None:
        """Say how far the run is, if it was not said lately."""
        self._reached = share, rows
        if monotonic() - self._last >= SECONDS_BETWEEN_LINES:
            self._last = monotonic()
            rate, left = self._pace(share, rows)
            print(f"{share:4.0%}  {rows:,} rows  {rate:,.0f} rows/s  {time_shown(left)} left", file=self._stream, flush=True)

    def end(self) -> None:
        """Say how fast it was."""
        print(f"{self._reached[1]:,} rows done, {self._pace(*self._reached)[0]:,.0f} rows/s", file=self._stream, flush=True)


class Bar:
    """A moving bar with rate and time left."""

    def __init__(self) -> None:
        """Raises: ImportError where `rich` is not installed."""
        from rich.console import Console
        from rich.progress import BarColumn, Progress, TextColumn

        columns: list[Any] = [BarColumn(), TextColumn("{task.percentage:3.0f} %  {task.fields[rows]:,} rows  {task.fields[rate]:,.0f} rows/s"),
                              TextColumn("{task.fields[left]} left")]  # fmt: skip
        self._progress = Progress(*columns, console=Console(stderr=True))

    def begin(self, says: str, share: float, rows: int) -> None:
        """Draw the bar."""
        self._pace = Pace(share, rows)
        self._progress.console.print(f"Answering with {says}" + (f"; going on after {rows:,} rows" if rows else ""))
        self._task = self._progress.add_task("", total=1.0, rows=rows, rate=0.0, left="?")
        self._progress.update(self._task, completed=share)
        self._progress.start()

    def went_on(self, share: float, rows: int) -> None:
        """Move the bar."""
        rate, left = self._pace(share, rows)
        self._progress.update(self._task, completed=share, rows=rows, rate=rate, left=time_shown(left))

    def end(self) -> None:
        """Leave the bar as it is."""
        self._progress.stop()


def time_shown(seconds: float) -> str:
    """A time as people say it."""
    minutes, seconds = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours} h {minutes} min" if hours else f"{minutes} min {seconds} s" if minutes else f"{seconds} s"
