"""Published tables kept as data: TOML in the printed units, with where they come from and how they may be read."""

import tomllib
from bisect import bisect_left
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import msgspec

from kneewall.kernel.rule import Rule

Between = Literal["linear", "smaller", "larger", "refuse"]


class Column(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One column as printed: its name, its unit and what it means."""

    name: str
    unit: str | None = None
    says: str | None = None


class Table(msgspec.Struct, frozen=True, kw_only=True):
    """A table behind a rule. `between` says how to read between two rows; outside the rows every reading is refused."""

    rule: Rule
    columns: list[Column]
    between: Between
    outside: Literal["refuse"]
    rows: list[dict[str, float | str | bool]]
    materials: str | None = None
    """The heading under which `GET /v1/materials` lists this table, where it describes materials."""

    def column(self, name: str) -> list[Any]:
        """One column, top to bottom; None where a row has no entry."""
        return [row.get(name) for row in self.rows]

    def row(self, **key: float | str | bool) -> dict[str, Any] | None:
        """The first row in which every named column has the given value, else None."""
        return next((row for row in self.rows if all(row.get(name) == value for name, value in key.items())), None)

    def along(self, given: str, wanted: str) -> Callable[[float], float | None]:
        """Column `wanted` by a figure of the rising column `given`, by the table's own policy; None where the table does not reach or does not permit it."""
        known, values, between = [float(value) for value in self.column(given)], [float(value) for value in self.column(wanted)], self.between

        def read(at: float) -> float | None:
            if not known[0] <= at <= known[-1]:
                return None
            above = bisect_left(known, at)
            if known[above] == at:
                return values[above]
            if between == "refuse":
                return None
            if between == "linear":
                share = (at - known[above - 1]) / (known[above] - known[above - 1])
                return values[above - 1] + share * (values[above] - values[above - 1])
            return values[above if between == "larger" else above - 1]

        return read


def load_table(path: Path) -> Table:
    """Read one table. Raises: msgspec.ValidationError where the file does not have the form of `Table`."""
    return msgspec.convert(tomllib.loads(path.read_text("utf-8")), Table)
