"""Units: the closed list of `units.toml`, with the factors that pint works out once, when this module is first used.

Nothing a client sends ever reaches pint.
"""

import json
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

import pint

SIGNIFICANT_DIGITS = 7


@dataclass(frozen=True)
class Unit:
    """One accepted unit: SI value = value * scale + offset."""

    label: str
    scale: float
    offset: float
    shown: str

    @cached_property
    def json(self) -> bytes:
        """A quantity in this unit as JSON, with a place for the number."""
        label = json.dumps(self.label).replace("%", "%%")
        return f'{{"value":%.{SIGNIFICANT_DIGITS}g,"unit":{label}}}'.encode()


@dataclass(frozen=True, slots=True)
class UnitTable:
    """The units of one kind of quantity."""

    says: str
    units: Mapping[str, Unit]
    aliases: Mapping[str, str]
    ip: Unit
    si: Unit

    @property
    def accepted(self) -> dict[str, Unit]:
        """Every spelling that is read, with its unit: what answers print among them."""
        return {
            **self.units,
            **{unit.shown: unit for unit in self.units.values()},
            **{alias: self.units[label] for alias, label in self.aliases.items()},
        }


@cache
def unit_tables() -> Mapping[str, UnitTable]:
    """Read `units.toml` and let pint work out each unit's scale and offset to SI, once."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    entries = tomllib.loads((Path(__file__).parent / "units.toml").read_text("utf-8"))
    tables: dict[str, UnitTable] = {}
    for kind, entry in entries.items():
        elder = entries[entry["same_units_as"]] if "same_units_as" in entry else {}
        shown = elder.get("shown", {}) | entry.get("shown", {})
        units = {
            label: _conversion(registry, label, expression, shown.get(label, label))
            for label, expression in (elder.get("units", {}) | entry.get("units", {})).items()
        }
        aliases = elder.get("aliases", {}) | entry.get("aliases", {})
        tables[kind] = UnitTable(entry["says"], units, aliases, units[entry["ip"]], units[entry["si"]])
    return tables


def _conversion(registry: pint.UnitRegistry[float], label: str, expression: str, shown: str) -> Unit:
    if expression in ("degF", "degC"):
        offset = registry.Quantity(0, expression).to("kelvin").magnitude
        return Unit(label, registry.Quantity(1, expression).to("kelvin").magnitude - offset, offset, shown)
    return Unit(label, registry.parse_expression(expression).to_base_units().magnitude, 0.0, shown)
