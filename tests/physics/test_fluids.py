"""The table of fluids is what CoolProp says, asked directly."""

import pytest
from CoolProp.CoolProp import PropsSI

from kneewall.physics.fluids import FLUIDS

NAMES = {"propylene-glycol": "MPG", "ethylene-glycol": "MEG", "methanol": "MMA", "ethanol": "MEA"}
KELVIN = (40 - 32) / 1.8 + 273.15


@pytest.mark.parametrize("row", FLUIDS.rows, ids=lambda row: f"{row['fluid']} {row['mass_fraction']}")
def test_a_row(row: dict) -> None:  # type: ignore[type-arg]
    fluid = "Water" if row["fluid"] == "water" else f"INCOMP::{NAMES[row['fluid']]}[{row['mass_fraction']}]"
    for column, key, scale in (("density", "D", 1), ("viscosity", "V", 1000), ("heat_capacity", "C", 1)):
        assert row[column] == pytest.approx(PropsSI(key, "T", KELVIN, "P", 3e5, fluid) * scale, rel=1e-3)
