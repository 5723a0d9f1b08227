"""Which tube to take, and what to look at where none will do."""

from typing import TypeVar

from kneewall.calculations.refrigerant_line_sizing.results import LiquidCandidate, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.kernel.quantity import PressureDrop
from kneewall.physics.air import SEA_LEVEL_PRESSURE

CandidateT = TypeVar("CandidateT", VaporCandidate, LiquidCandidate)
WEIGHT = {"drop-too-large": 10, "flashing": 10, "pressure": 5}


def recommended(candidates: list[CandidateT], design: float) -> CandidateT | None:
    """The smallest tube that breaks no limit, one rated for the design pressure (Pa, gauge) first. Source: refrigerant-line-sizing.smallest."""
    least, smallest = design * (1.0 - 1e-9), None
    for one in candidates:
        if not one.breaks:
            if one.rated_pressure is not None and one.rated_pressure >= least:
                return one
            smallest = smallest or one
    return smallest


def nearest(candidates: list[CandidateT]) -> CandidateT:
    """Where none keeps every limit, the one that breaks the fewest, least of all those past which nothing is computed; the smaller of equals."""
    return min(candidates, key=lambda one: sum(WEIGHT.get(broken, 1) for broken in one.breaks))


def design_pressure(states: list[ModeState], line: str) -> PressureDrop:
    """The highest design pressure of a line over the modes, Pa gauge: heating's where there is one, whose vapor line is on the high side."""
    state = states[-1]
    return PressureDrop((state.vapor_design_pressure if line == "vapor" else state.liquid_design_pressure) - SEA_LEVEL_PRESSURE)


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
