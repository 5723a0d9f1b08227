"""Tubes with what a fitting in them counts as."""

from collections.abc import Mapping, Sequence
from typing import get_args

from msgspec.structs import astuple

from kneewall.calculations.refrigerant_line_sizing.messages import FITTING_NAMES, LineFittings, LineRun
from kneewall.calculations.refrigerant_line_sizing.rules import FITTING_TABLE
from kneewall.kernel.quantity import Dimension, Length
from kneewall.physics.tubes import SAME_SIZE, Temper, Tube, tubes_of

NO_FITTINGS = LineFittings()


def fitted_tubes(temper: Temper, run: LineRun) -> tuple[Sequence[Tube], Sequence[float]]:
    """The made tubes that come into question, smallest bore first, all or those of the size given, and the line's equivalent length, m, in each.

    Source: refrigerant-line-sizing.fitting-lengths.
    """
    size, made = run.size, tubes_of(temper)
    lengths = [float(run.length)] * len(made)
    if run.fittings != NO_FITTINGS:
        for count, each in zip(astuple(run.fittings), _FITTED[temper], strict=True):
            if count:
                lengths = [length + count * more for length, more in zip(lengths, each, strict=True)]
    if size is None:
        return made, lengths
    wanted = [place for place, tube in enumerate(made) if abs(tube.nominal_size - size) < SAME_SIZE]
    return [made[place] for place in wanted], [lengths[place] for place in wanted]


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


def _by_fitting(temper: Temper) -> tuple[tuple[float, ...], ...]:
    by_tube = [fitting_lengths(tube) for tube in tubes_of(temper)]
    return tuple(tuple(lengths[name] for lengths in by_tube) for name in LineFittings.__struct_fields__)


_FITTED: Mapping[str, tuple[tuple[float, ...], ...]] = {temper: _by_fitting(temper) for temper in get_args(Temper)}
"""Equivalent length, m, of each fitting, in the order of `LineFittings`, in every made tube, smallest bore first."""
