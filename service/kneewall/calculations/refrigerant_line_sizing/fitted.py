"""Tubes with what a fitting in them counts as."""

from collections.abc import Mapping
from typing import get_args

from kneewall.calculations.refrigerant_line_sizing.messages import LineRun
from kneewall.calculations.refrigerant_line_sizing.rules import FITTING_TABLE
from kneewall.kernel.quantity import Dimension, Length
from kneewall.physics.tubes import SAME_SIZE, Temper, Tube, tubes_of

Fitted = tuple[Tube, Mapping[str, float]]


def candidates_of(temper: Temper, run: LineRun) -> tuple[Fitted, ...]:
    """The made tubes that come into question, smallest bore first: all, or those of the size given."""
    if run.size is None:
        return _FITTED[temper]
    size = run.size
    return tuple(one for one in _FITTED[temper] if abs(one[0].nominal_size - size) < SAME_SIZE)


def equivalent_length(run: LineRun, lengths: Mapping[str, float]) -> float:
    """Actual length and what the fittings count as, m. Source: refrigerant-line-sizing.fitting-lengths."""
    total = float(run.length)
    for fitting, count in run.fittings.items():
        total += count * lengths[fitting]
    return total


def fitting_lengths(tube: Tube) -> dict[str, float]:
    """Equivalent length of each fitting in a tube, m. Source: refrigerant-line-sizing.fitting-lengths.

    Departs: the smallest row stands in below it; above the largest row its lengths grow with the bore, driers apart.
    """
    rows = FITTING_TABLE.rows
    sizes = [Dimension.of(float(row["nominal_size"]), "in") for row in rows]
    at = next((index for index, size in enumerate(sizes) if size > tube.nominal_size - SAME_SIZE), len(rows) - 1)
    largest = max(tubes_of(tube.temper), key=lambda one: one.inside_diameter if one.nominal_size < sizes[-1] + SAME_SIZE else 0.0)
    growth = max(1.0, tube.inside_diameter / largest.inside_diameter)
    return {
        name: Length.of(float(feet), "ft") * (1.0 if name == "filter-drier" else growth) for name, feet in rows[at].items() if name != "nominal_size"
    }


_FITTED: dict[str, tuple[Fitted, ...]] = {temper: tuple((tube, fitting_lengths(tube)) for tube in tubes_of(temper)) for temper in get_args(Temper)}
