"""Fills every table."""

from kneewall.physics.by_coolprop.liquids import MIXTURES, mixture_nodes, water_nodes
from kneewall.physics.by_coolprop.refrigerants import FLUIDS, build_tables
from kneewall.physics.start_tables import StartTables


def filled_tables() -> StartTables:
    """All tables, worked out here and now."""
    return StartTables(
        water=water_nodes(),
        mixtures={kind: mixture_nodes(kind) for kind in MIXTURES},
        refrigerants={name: build_tables(name) for name in FLUIDS},
    )
