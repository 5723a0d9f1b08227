"""Two risers side by side, where no single tube both returns the oil at the lowest stage and loses little at full capacity."""

from collections.abc import Sequence

from kneewall.calculations.refrigerant_line_sizing.fitted import fitted_tubes
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import DoubleRiser
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.calculations.refrigerant_line_sizing.vapor_line import dew_points, least_oil_flow
from kneewall.physics.refrigerant import Refrigerant
from kneewall.physics.tubes import Tube, tube_losses

Leg = tuple[Tube, float]
"""A tube and the equivalent length, m, of the line made of it."""


def double_riser(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant, states: Sequence[ModeState], limit: float) -> DoubleRiser | None:
    """The largest small leg, and the smallest large one beside it, that do together what none does alone; None where no pair does.

    Source: refrigerant-line-sizing.double-riser.
    """
    legs = list(zip(*fitted_tubes(question.temper, question.vapor_line), strict=True))
    for at, small in reversed(list(enumerate(legs))):
        if all(_alone(refrigerant, state, small, limit) for state in states):
            for large in legs[at + 1 :]:
                if all(_together(refrigerant, state, small, large, limit) for state in states):
                    return DoubleRiser(small=small[0].nominal_size, large=large[0].nominal_size)
    return None


def _alone(refrigerant: Refrigerant, state: ModeState, leg: Leg, limit: float) -> bool:
    """Whether the small leg alone carries the lowest stage: oil where the gas rises, and within the loss."""
    share = state.lowest / state.capacity
    return _returns(state, leg, share) and _within(refrigerant, state, _friction(state, leg, share), limit)


def _together(refrigerant: Refrigerant, state: ModeState, small: Leg, large: Leg, limit: float) -> bool:
    """Whether both carry the full flow: oil in each where the gas rises, and within the loss."""
    share = split(state, small, large)
    oil = _returns(state, small, share) and _returns(state, large, 1.0 - share)
    return oil and _within(refrigerant, state, _friction(state, small, share), limit)


def split(state: ModeState, one: Leg, other: Leg) -> float:
    """The share of the flow that takes the first of two legs: both lose the same. By halving."""
    low, high = 1e-6, 1.0 - 1e-6
    for _ in range(40):
        share = (low + high) / 2.0
        if _friction(state, one, share) > _friction(state, other, 1.0 - share):
            high = share
        else:
            low = share
    return (low + high) / 2.0


def _friction(state: ModeState, leg: Leg, share: float) -> float:
    """What a share of the full flow loses in a leg, Pa."""
    tube, length = leg
    return tube_losses([tube], [length], share * state.mass_flow, state.vapor.density, state.vapor.viscosity)[0]


def _returns(state: ModeState, leg: Leg, share: float) -> bool:
    return state.vapor_rise <= 0.0 or share * state.mass_flow >= least_oil_flow(state, leg[0]) * (1.0 - 1e-9)


def _within(refrigerant: Refrigerant, state: ModeState, friction: float, limit: float) -> bool:
    (dew,) = dew_points(refrigerant, state, [friction])
    return dew is not None and state.dew - dew <= limit * (1.0 + 1e-9)
