"""How fast air may move in the ducts of a house before it is heard, by place: one table for a single duct and for a whole system."""

from pathlib import Path
from typing import Literal

from kneewall.kernel.quantity import Velocity
from kneewall.kernel.table import load_table

Place = Literal["supply-trunk", "supply-branch", "return-trunk", "return-branch", "return-grille"]

VELOCITY_TABLE = load_table(Path(__file__).parent / "tables" / "duct_velocity.toml")
VELOCITY_BY_PLACE = VELOCITY_TABLE.rule
USUAL_VELOCITY: dict[str, Velocity] = {str(row["place"]): Velocity.of(float(row["velocity"]), "fpm") for row in VELOCITY_TABLE.rows}
FASTEST_USUAL = max(USUAL_VELOCITY.values())
