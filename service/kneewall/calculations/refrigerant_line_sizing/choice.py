"""Which tube to take, what to look at where none will do, and what a double riser would take."""

from typing import TypeVar

from kneewall.calculations.refrigerant_line_sizing.results import DoubleRiser, LiquidCandidate, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.kernel.quantity import PressureDrop
from kneewall.physics.air import SEA_LEVEL_PRESSURE

CandidateT = TypeVar("CandidateT", VaporCandidate, LiquidCandidate)
LOSS_EXPONENT = 1.8
"""Loss grows about so with flow, which the handbooks' tables use too."""


def recommended(candidates: list[CandidateT], design: float) -> CandidateT | None:
    """The smallest tube that breaks no limit, one rated for the design pressure (Pa, gauge) first. Source: refrigerant-line-sizing.smallest."""
    keeping = [one for one in candidates if not one.breaks]
    rated = (one for one in keeping if one.rated_pressure is not None and one.rated_pressure >= design * (1.0 - 1e-9))
    return next(rated, keeping[0] if keeping else None)


def nearest(candidates: list[CandidateT]) -> CandidateT:
    """Where none keeps every limit, the one that breaks the fewest; the smaller of equals."""
    return min(candidates, key=lambda one: len(one.breaks))


def design_pressure(states: list[ModeState], line: str) -> PressureDrop:
    """The highest design pressure of a line over the modes, Pa gauge."""
    pressures = [state.vapor_design_pressure if line == "vapor" else state.liquid_design_pressure for state in states]
    return PressureDrop(max(pressures) - SEA_LEVEL_PRESSURE)


def drop_share(candidate: VaporCandidate, limit: float) -> float | None:
    """The worst loss of a tube over the modes as a share of the limit; None where it could not be worked out."""
    drops = [candidate.saturation_drop] if candidate.heating is None else [candidate.saturation_drop, candidate.heating.saturation_drop]
    return None if any(drop is None for drop in drops) else max(float(drop or 0.0) for drop in drops) / limit


def returns_oil(candidate: VaporCandidate, states: list[ModeState]) -> bool:
    """Whether the lowest stage carries the oil up wherever the gas rises."""
    figures = [candidate.oil_return] if candidate.heating is None else [candidate.oil_return, candidate.heating.oil_return]
    return all(oil.margin >= -1e-9 for oil, state in zip(figures, states, strict=True) if state.vapor_rise > 0.0)


def smallest_within_loss(candidates: list[VaporCandidate], limit: float) -> VaporCandidate | None:
    """The smallest tube that loses no more than the limit in any mode."""
    return next((one for one in candidates if (share := drop_share(one, limit)) is not None and share <= 1.0 + 1e-9), None)


def largest_returning_oil(candidates: list[VaporCandidate], states: list[ModeState]) -> VaporCandidate | None:
    """The largest tube in which the lowest stage carries the oil up."""
    return next((one for one in reversed(candidates) if returns_oil(one, states)), None)


def double_riser(candidates: list[VaporCandidate], states: list[ModeState], limit: float) -> DoubleRiser | None:
    """Two tubes that do together what none does alone: the small one returns oil at the lowest stage without losing too much, and with the large
    one carries the full flow within the limit. A tube carries (limit/loss)^(1/1.8) of the full flow at the limit.

    Source: refrigerant-line-sizing.double-riser.
    """
    lowest = max(state.lowest / state.capacity for state in states)
    for small in reversed(candidates):
        share = drop_share(small, limit)
        if share is None or share <= 0.0 or not returns_oil(small, states) or lowest > _carried(share):
            continue
        for large in candidates:
            other = drop_share(large, limit)
            if other is not None and large.inside_diameter > small.inside_diameter and _carried(share) + _carried(other) >= 1.0:
                return DoubleRiser(small=small.nominal_size, large=large.nominal_size)
    return None


def _carried(share: float) -> float:
    """The share of the full flow at which a tube just loses the limit, when it loses `share` of the limit at full flow."""
    return float(max(share, 1e-9) ** (-1.0 / LOSS_EXPONENT))
