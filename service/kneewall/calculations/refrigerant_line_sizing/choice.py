"""Which tube to take, and what to look at where none will do."""

from collections.abc import Sequence
from typing import TypeVar

from kneewall.calculations.refrigerant_line_sizing.results import LiquidCandidate, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.kernel.quantity import PressureDrop, TemperatureDifference
from kneewall.physics.air import SEA_LEVEL_PRESSURE

CandidateT = TypeVar("CandidateT", VaporCandidate, LiquidCandidate)
WEIGHT = {"drop-too-large": 10, "flashing": 10, "pressure": 5}


def recommended(candidates: list[CandidateT], design: float) -> CandidateT | None:
    """The smallest tube that breaks no limit, one rated for the design pressure (Pa, gauge) first. Source: refrigerant-line-sizing.smallest."""
    smallest = None
    for one in candidates:
        if not one.breaks:
            if rated_for(one, design):
                return one
            smallest = smallest or one
    return smallest


def rated_for(candidate: VaporCandidate | LiquidCandidate, design: float) -> bool:
    """Whether the brazed tube is rated by calculation for a design pressure, Pa, gauge."""
    return candidate.rated_pressure is not None and candidate.rated_pressure >= design * (1.0 - 1e-9)


def nearest(candidates: list[CandidateT]) -> CandidateT:
    """Where none keeps every limit, the one that breaks the fewest, least of all those past which nothing is computed; the smaller of equals."""
    return min(candidates, key=lambda one: sum(WEIGHT.get(broken, 1) for broken in one.breaks))


def design_pressure(states: Sequence[ModeState], line: str) -> PressureDrop:
    """The highest design pressure of a line over the modes, Pa gauge: heating's where there is one, whose vapor line is on the high side."""
    state = states[-1]
    return PressureDrop((state.vapor_design_pressure if line == "vapor" else state.liquid_design_pressure) - SEA_LEVEL_PRESSURE)


def drops(candidate: VaporCandidate | LiquidCandidate) -> list[TemperatureDifference | None]:
    """The loss of saturation temperature in each mode; None where it could not be worked out."""
    return [candidate.saturation_drop] if candidate.heating is None else [candidate.saturation_drop, candidate.heating.saturation_drop]


def greatest_drop(candidate: VaporCandidate | LiquidCandidate) -> TemperatureDifference | None:
    """The greatest loss of saturation temperature over the modes; None where it could not be worked out in one."""
    found = drops(candidate)
    known = [drop for drop in found if drop is not None]
    return max(known) if len(known) == len(found) else None


def returns_oil(candidate: VaporCandidate, states: list[ModeState]) -> bool:
    """Whether the lowest stage carries the oil up wherever the gas rises."""
    figures = [candidate.oil_return] if candidate.heating is None else [candidate.oil_return, candidate.heating.oil_return]
    return all(oil.margin >= -1e-9 for oil, state in zip(figures, states, strict=True) if state.vapor_rise > 0.0)


def smallest_within_loss(candidates: list[VaporCandidate], limit: float) -> VaporCandidate | None:
    """The smallest tube that loses no more than the limit in any mode."""
    return next((one for one in candidates if (drop := greatest_drop(one)) is not None and drop / limit <= 1.0 + 1e-9), None)


def largest_returning_oil(candidates: list[VaporCandidate], states: list[ModeState]) -> VaporCandidate | None:
    """The largest tube in which the lowest stage carries the oil up."""
    return next((one for one in reversed(candidates) if returns_oil(one, states)), None)
