"""Tubes with what a fitting in them counts as."""

from collections.abc import Mapping
from typing import get_args

from kneewall.calculations.refrigerant_line_sizing.messages import FITTING_NAMES, LineFittings, LineRun
from kneewall.calculations.refrigerant_line_sizing.rules import FITTING_TABLE
from kneewall.kernel.quantity import Dimension, Length
from kneewall.physics.tubes import SAME_SIZE, Leg, Temper, Tube, tubes_of

NO_FITTINGS = LineFittings()


def legs_of(temper: Temper, run: LineRun) -> list[Leg]:
    """The made tubes that come into question, smallest bore first, all or those of the size given, each with the line's equivalent length.

    Source: refrigerant-line-sizing.fitting-lengths.
    """
    size, made = run.size, tubes_of(temper)
    lengths = [float(run.length)] * len(made)
    if run.fittings != NO_FITTINGS:
        for name, each in _FITTED[temper].items():
            if count := getattr(run.fittings, name):
                lengths = [length + count * more for length, more in zip(lengths, each, strict=True)]
    legs = list(zip(made, lengths, strict=True))
    return legs if size is None else [leg for leg in legs if abs(leg[0].nominal_size - size) < SAME_SIZE]


def fitting_lengths(tube: Tube) -> dict[str, float]:
    """Equivalent length of each fitting in a tube, m. Source: refrigerant-line-sizing.fitting-lengths.

    Departs: the smallest row stands in below it; above the largest row its lengths grow with the bore, driers apart.
    """
    rows = FITTING_TABLE.rows
    sizes = [Dimension.of(float(row["nominal_size"]), "in") for row in rows]
    at = next((index for index, size in enumerate(sizes) if size > tube.nominal_size - SAME_SIZE), len(rows) - 1)
    largest = max(one.inside_diameter for one in tubes_of(tube.temper) if one.nominal_size < sizes[-1] + SAME_SIZE)
    growth = max(1.0, tube.inside_diameter / largest)
    return {field: Length.of(float(rows[at][name]), "ft") * (1.0 if name == "filter-drier" else growth) for field, name in FITTING_NAMES.items()}


def _by_fitting(temper: Temper) -> Mapping[str, tuple[float, ...]]:
    by_tube = [fitting_lengths(tube) for tube in tubes_of(temper)]
    return {name: tuple(lengths[name] for lengths in by_tube) for name in FITTING_NAMES}


_FITTED: Mapping[str, Mapping[str, tuple[float, ...]]] = {temper: _by_fitting(temper) for temper in get_args(Temper)}
"""Equivalent length, m, of each fitting in every made tube, smallest bore first."""
