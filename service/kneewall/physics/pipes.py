"""Pipe and tube for water and drains: true diameters by material and nominal size, and what the walls are made of."""

from dataclasses import dataclass
from math import pi
from pathlib import Path
from typing import Any, Literal

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length, MassPerLength, Stress
from kneewall.kernel.refusal import Fault
from kneewall.kernel.rule import Rule
from kneewall.kernel.table import Table, load_table
from kneewall.kernel.words import in_words

PipeMaterial = Literal[
    "copper-type-k",
    "copper-type-l",
    "copper-type-m",
    "pvc-schedule-40",
    "pvc-schedule-80",
    "cpvc-schedule-40",
    "cpvc-schedule-80",
    "cpvc-cts",
    "pex",
    "pe-dr-11",
    "pe-dr-13.5",
    "steel-schedule-40",
    "galvanized-steel-schedule-40",
    "rubber-hose",
]
Substance = Literal["copper", "steel", "galvanized-steel", "pvc", "cpvc", "pex", "pe", "rubber"]

_TABLES = Path(__file__).parent / "tables"
COPPER_TUBE = load_table(_TABLES / "pipe_copper.toml")
PLASTIC_SCHEDULE = load_table(_TABLES / "pipe_plastic_schedule.toml")
CPVC_COPPER_TUBE_SIZE = load_table(_TABLES / "pipe_cpvc_cts.toml")
PEX_TUBE = load_table(_TABLES / "pipe_pex.toml")
POLYETHYLENE = load_table(_TABLES / "pipe_polyethylene.toml")
STEEL = load_table(_TABLES / "pipe_steel.toml")
HOSE = load_table(_TABLES / "pipe_hose.toml")
MATERIAL_TABLE = load_table(_TABLES / "pipe_materials.toml")
PIPE_MATERIAL = MATERIAL_TABLE.rule

SAME_SIZE_WITHIN = 1e-5
"""m; a nominal size written in other units has a last digit of its own."""


@dataclass(frozen=True, slots=True)
class Wall:
    """What a pipe's wall is made of. SI: roughness m, density kg/m3, elastic modulus Pa, expansion 1/K."""

    substance: Substance
    roughness: Length
    density: float
    elastic_modulus: Stress
    expansion: float


@dataclass(frozen=True, slots=True)
class PipeSize:
    """One size of one pipe: the diameters that it really has, the thickness of wall that goes with them, and the open cross-section `bore`, m2."""

    material: PipeMaterial
    nominal_size: Dimension
    outside_diameter: Dimension
    inside_diameter: Dimension
    thickness: Dimension
    bore: float
    wall: Wall
    rule: Rule

    @property
    def empty_mass(self) -> MassPerLength:
        """Mass of the empty pipe per length: pi/4 (D^2 - d^2) rho."""
        return MassPerLength(pi / 4.0 * (self.outside_diameter**2 - self.inside_diameter**2) * self.wall.density)


def _walls() -> dict[str, Wall]:
    found: dict[str, Wall] = {}
    for row in MATERIAL_TABLE.rows:
        cells: dict[str, Any] = row
        found[cells["material"]] = Wall(
            substance=cells["material"],
            roughness=Length(cells["roughness"] * 1e-6),
            density=cells["density"],
            elastic_modulus=Stress.of(cells["elastic_modulus"], "psi"),
            expansion=cells["expansion"] * 1.8e-6,
        )
    return found


def _substance(material: str) -> str:
    if material.startswith("galvanized"):
        return "galvanized-steel"
    return "rubber" if material == "rubber-hose" else material.partition("-")[0]


def _sizes(tables: tuple[Table, ...]) -> dict[str, tuple[PipeSize, ...]]:
    walls = _walls()
    found: dict[str, tuple[PipeSize, ...]] = {}
    for table in tables:
        for row in table.rows:
            cells: dict[str, Any] = row
            material = cells["material"]
            nominal, outside, inside = (Dimension.of(cells[name], "in") for name in ("nominal_size", "outside_diameter", "inside_diameter"))
            thickness, bore = Dimension((outside - inside) / 2.0), pi / 4.0 * inside * inside
            size = PipeSize(material, nominal, outside, inside, thickness, bore, walls[_substance(material)], table.rule)
            found[material] = (*found.get(material, ()), size)
    return found


PIPE_SIZES = _sizes((COPPER_TUBE, PLASTIC_SCHEDULE, CPVC_COPPER_TUBE_SIZE, PEX_TUBE, POLYETHYLENE, STEEL, HOSE))
"""Every size of every pipe, by material, from the smallest up."""


def sixteenths(size: float) -> int:
    """A size, m, to the nearest sixteenth of an inch."""
    return round(size / 0.0015875)


_BY_SIXTEENTHS = {(size.material, sixteenths(size.nominal_size)): size for sizes in PIPE_SIZES.values() for size in sizes}


def pipe_size(material: PipeMaterial, nominal_size: Dimension) -> PipeSize | None:
    """The pipe of this material and nominal size; None where it is not made or not in the table."""
    size = _BY_SIXTEENTHS.get((material, sixteenths(nominal_size)))
    return size if size is not None and abs(size.nominal_size - nominal_size) < SAME_SIZE_WITHIN else None


def expansion(wall: Wall, length: float, change: float) -> Length:
    """By how much a pipe grows: alpha L dT; length m, change of temperature K. Source: pipes.material. Not for hose, which gives."""
    return Length(wall.expansion * length * change)


def not_made(material: PipeMaterial, pointer: str) -> Fault:
    """What to tell somebody who asked for a nominal size that is not in the table."""
    made = ", ".join(fraction(size.nominal_size) for size in PIPE_SIZES[material])
    return Fault(
        pointer=pointer, detail=Phrase("{} is known in the nominal sizes {} in", in_words(material), made), rule=PIPE_SIZES[material][0].rule.id
    )


def fraction(size: float) -> str:
    """A nominal size as the trade writes it, in inches: 1-1/4."""
    eighths = round(size / 0.0254 * 8)
    whole, rest = divmod(eighths, 8)
    if rest == 0:
        return str(whole)
    part = {1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}[rest]
    return f"{whole}-{part}" if whole else part
