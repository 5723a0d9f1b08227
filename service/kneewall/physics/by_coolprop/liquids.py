"""Fills the tables of water and of water with antifreeze. See `liquid_tables` for what stands in them."""

from math import log
from typing import Any

from kneewall.physics.by_coolprop.library import CoolProp
from kneewall.physics.liquid_tables import (
    FRACTION_STEP,
    HIGHEST_ALCOHOL,
    HIGHEST_GLYCOL,
    HIGHEST_WATER,
    LEAST_FRACTION,
    MOST_FRACTION,
    PRESSURE,
    TEMPERATURE_STEPS,
    WATER_FREEZES,
    MixtureNode,
    MixtureNodes,
    WaterNode,
)

MIXTURES = {
    "propylene-glycol": ("MPG", HIGHEST_GLYCOL),
    "ethylene-glycol": ("MEG", HIGHEST_GLYCOL),
    "methanol": ("MMA", HIGHEST_ALCOHOL),
    "ethanol": ("MEA", HIGHEST_ALCOHOL),
}


def water_nodes() -> tuple[WaterNode, ...]:
    """Water every 1 K from freezing to boiling."""
    state = CoolProp.AbstractState("HEOS", "Water")
    nodes = []
    for kelvin in range(round(HIGHEST_WATER - WATER_FREEZES) + 1):
        state.update(CoolProp.PT_INPUTS, PRESSURE, WATER_FREEZES + kelvin)
        nodes.append((state.rhomass(), log(state.viscosity()), state.cpmass(), state.speed_sound()))
    return tuple(nodes)


def mixture_nodes(kind: str) -> MixtureNodes:
    """One antifreeze in water."""
    name, highest = MIXTURES[kind]
    state = CoolProp.AbstractState("INCOMP", name)
    points, rows = [], []
    for step in range(round((MOST_FRACTION - LEAST_FRACTION) / FRACTION_STEP) + 1):
        state.set_mass_fractions([LEAST_FRACTION + step * FRACTION_STEP])
        freezing = state.keyed_output(CoolProp.iT_freeze)
        points.append(freezing)
        rows.append(tuple(_node(state, freezing, highest, number) for number in range(TEMPERATURE_STEPS + 1)))
    return MixtureNodes(highest, tuple(points), tuple(rows))


def _node(state: Any, freezing: float, highest: float, number: int) -> MixtureNode:
    inward = 1e-9 if number == 0 else -1e-9 if number == TEMPERATURE_STEPS else 0.0
    state.update(CoolProp.PT_INPUTS, PRESSURE, freezing + (highest - freezing) * number / TEMPERATURE_STEPS + inward)
    return state.rhomass(), log(state.viscosity()), state.cpmass()
