"""How a powered valve stands when nothing drives it."""

from typing import Literal

ValveRest = Literal["closed", "open"]
"""Normally closed or normally open: what a power failure or a cut control wire leaves."""
