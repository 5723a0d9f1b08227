"""What the tables of water and of water with antifreeze hold and how far they reach. They are filled at start-up and never change."""

import msgspec

WATER_FREEZES = 273.15
PRESSURE = 3e5
HIGHEST_WATER, HIGHEST_GLYCOL, HIGHEST_ALCOHOL = 373.15, 333.15, 313.15
LEAST_FRACTION, MOST_FRACTION = 0.05, 0.50
FRACTION_STEP, TEMPERATURE_STEPS = 0.01, 64

WaterNode = tuple[float, float, float, float]
"""Density, logarithm of viscosity, heat capacity, speed of sound."""
MixtureNode = tuple[float, float, float]
"""Density, logarithm of viscosity, heat capacity."""


class MixtureNodes(msgspec.Struct, frozen=True, gc=False):
    """One antifreeze in water: nodes by mass fraction, each row from its own freezing point to `highest` in equal steps."""

    highest: float
    freezing: tuple[float, ...]
    rows: tuple[tuple[MixtureNode, ...], ...]
