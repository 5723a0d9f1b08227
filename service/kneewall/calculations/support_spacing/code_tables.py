"""The spacing that each code or standard gives for pipe and duct; silence is kept as silence."""

from typing import Any, NamedTuple

from kneewall.calculations.support_spacing import rules
from kneewall.calculations.support_spacing.messages import Code
from kneewall.kernel.quantity import Dimension, Length, Load
from kneewall.kernel.rule import Rule
from kneewall.kernel.table import Table

SLACK = 1e-5
"""m; nominal sizes written in other units have a last digit of their own."""


class PipeRow(NamedTuple):
    """One row of a code's table, SI."""

    up_to: float
    horizontal: Length
    vertical: float | None
    floors: int | None
    guides: bool


class Rod(NamedTuple):
    """A hanger rod: the pipe it goes with and what it carries."""

    diameter: Dimension
    pipe_up_to: float
    load: Load


def _rows(table: Table) -> dict[str, list[PipeRow]]:
    found: dict[str, list[PipeRow]] = {}
    for row in table.rows:
        cells: dict[str, Any] = row
        vertical = cells.get("vertical")
        found.setdefault(cells["substance"], []).append(
            PipeRow(
                Dimension.of(cells["up_to"], "in"),
                Length.of(cells["horizontal"], "ft"),
                None if vertical is None else Length.of(vertical, "ft"),
                cells.get("floors"),
                cells.get("guides", False),
            )
        )
    return found


_TABLES: dict[Code, tuple[Rule, dict[str, list[PipeRow]]]] = {
    "IRC-2018": (rules.PIPE_IRC_2018.rule, _rows(rules.PIPE_IRC_2018)),
    "IMC-2018": (rules.PIPE_IMC_2018.rule, _rows(rules.PIPE_IMC_2018)),
    "UPC-2021": (rules.PIPE_UPC_2021.rule, _rows(rules.PIPE_UPC_2021)),
    "MSS-SP-58": (rules.PIPE_MSS_SP_58.rule, _rows(rules.PIPE_MSS_SP_58)),
}
_METAL_DUCT: dict[Code, tuple[Rule, Length]] = {
    "IRC-2018": (rules.IRC_METAL_DUCT, Length.of(10, "ft")),
    "IMC-2018": (rules.IMC_METAL_DUCT, Length.of(12, "ft")),
}
RODS = [
    Rod(Dimension.of(float(row["rod"]), "in"), Dimension.of(float(row["pipe_up_to"]), "in"), Load.of(float(row["load"]), "lb"))
    for row in rules.ROD_TABLE.rows
]


def pipe_row(code: Code, substance: str, nominal_size: float) -> tuple[Rule, PipeRow] | None:
    """The code's row for a pipe's substance and nominal size, m; None where it has none."""
    rule, rows = _TABLES[code]
    for row in rows.get("steel" if substance == "galvanized" else substance, ()):
        if nominal_size <= row.up_to + SLACK:
            return rule, row
    return None


def metal_duct(code: Code) -> tuple[Rule, Length] | None:
    """The code's distance between supports of metal duct; None where it has none."""
    return _METAL_DUCT.get(code)


def rod_for(nominal_size: float) -> Rod:
    """The hanger rod for a pipe's nominal size, m; the largest beyond the table. Source: support-spacing.rods."""
    return next((rod for rod in RODS if nominal_size <= rod.pipe_up_to + SLACK), RODS[-1])
