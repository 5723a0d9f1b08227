"""What fittings and valves in water pipe lose: loss coefficients by fitting and size, valves by Cv, tees by how the flow divides."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from kneewall.kernel.rule import Rule, Source
from kneewall.kernel.table import load_table
from kneewall.physics.friction import turbulent_factor
from kneewall.physics.pipes import sixteenths

Fitting = Literal[
    "elbow-90",
    "elbow-45",
    "elbow-90-long",
    "return-bend",
    "tee-run",
    "tee-branch",
    "ball-valve",
    "gate-valve",
    "globe-valve",
    "swing-check",
    "swing-check-angled-seat",
    "elbow-90-insert",
    "tee-run-insert",
    "tee-branch-insert",
    "coupling-insert",
    "hose-barb",
    "entrance",
    "exit",
    "elbow-90-solder",
    "elbow-45-solder",
    "tee-run-solder",
    "tee-branch-solder",
    "diverging-tee-run",
    "diverging-tee-branch",
    "converging-tee-run",
    "converging-tee-branch",
]
SPLITTING = frozenset({"diverging-tee-run", "diverging-tee-branch", "converging-tee-run", "converging-tee-branch"})
SOLDERED = frozenset({"elbow-90-solder", "elbow-45-solder", "tee-run-solder", "tee-branch-solder"})

FITTING_TABLE = load_table(Path(__file__).parent / "tables" / "pipe_fittings.toml")
SOLDER_TABLE = load_table(Path(__file__).parent / "tables" / "solder_fittings.toml")
LOSS_COEFFICIENT = FITTING_TABLE.rule
WROUGHT_SOLDER = SOLDER_TABLE.rule
VALVE_COEFFICIENT = Rule(
    id="fittings.valve-coefficient",
    says="Cv is the flow in gpm of water at 60 °F that loses 1 psi; the loss goes with the square of the flow and with density. Cv = 1.156 Kv.",
    kind="formula",
    source=Source(title="IEC 60534-2-1, Industrial-process control valves, sizing equations", publisher="IEC"),
    standing="from-memory",
)
TEES = Rule(
    id="fittings.tees",
    says="What a tee loses goes by the share of the flow that takes its branch and by the bores, referred to the leg that carries all of it; "
    "a coefficient may be negative where one stream draws the other along.",
    kind="formula",
    source=Source(
        title="Flow of Fluids Through Valves, Fittings and Pipe, Technical Paper 410, 2013 form, as reproduced in fluids", publisher="Crane"
    ),
    standing="published",
)

STEEL_ROUGHNESS = 45e-6
"""m; the tables of fittings rest on commercial steel pipe, whatever the pipe is."""
CV_DENSITY = 999.1033
"""kg/m3, water at 15 °C, to which Cv and Kv refer."""
_GPM, _PSI, _FOOT = 0.003785411784 / 60.0, 6894.757293168361, 0.3048

_LENGTHS: dict[str, float] = {}
_COEFFICIENTS: dict[str, float] = {}
for _row in FITTING_TABLE.rows:
    _cells: dict[str, Any] = _row
    if "coefficient" in _cells:
        _COEFFICIENTS[_cells["fitting"]] = _cells["coefficient"]
    else:
        _LENGTHS[_cells["fitting"]] = _cells["turbulent_lengths"]
_SOLDERED_SIZES: dict[int, dict[str, Any]] = {round(float(row["nominal_size"]) * 16.0): row for row in SOLDER_TABLE.rows}


def is_known(fitting: str, nominal_size: float) -> bool:
    """Whether the tables have this fitting in this nominal size, m."""
    return fitting not in SOLDERED or sixteenths(nominal_size) in _SOLDERED_SIZES


def coefficient_of_fittings(fittings: Mapping[Fitting, float], nominal_size: float, bore: float) -> float:
    """Loss coefficient K of the fittings in a pipe of this nominal size and bore, m, from how many there are of each. Tees by their split are left out.

    K = n fT, or K = fT Le/D for wrought solder fittings, fT = 0.25/log10(e/3.7 D)^2 for commercial steel.
    Source: fittings.loss-coefficient, fittings.wrought-solder. Valid: fittings that are known in this size.
    """
    lengths = constant = 0.0
    soldered = _SOLDERED_SIZES.get(sixteenths(nominal_size), {})
    for fitting, count in fittings.items():
        if fitting in _LENGTHS:
            lengths += count * _LENGTHS[fitting]
        elif fitting in soldered:
            lengths += count * soldered[fitting] * _FOOT / bore
        elif fitting in _COEFFICIENTS:
            constant += count * _COEFFICIENTS[fitting]
    return constant + lengths * turbulent_factor(STEEL_ROUGHNESS / bore) if lengths else constant


def loss_of_valve(cv: float, density: float) -> float:
    """What a valve loses per flow squared, Pa/(m3/s)^2: dp = (rho/rho0) (q/Cv)^2, psi and gpm. Source: fittings.valve-coefficient."""
    return density / CV_DENSITY * _PSI / (cv * _GPM) ** 2


def converging_branch(share: float, bores: float) -> float:
    """K of the branch of a converging 90 degree tee, by the share of flow from the branch and branch bore over run bore. Source: fittings.tees."""
    square = bores * bores
    factor = 1.0 if square <= 0.35 else 0.9 * (1.0 - share) if share <= 0.4 else 0.55
    return factor * (1.0 + (share / square) ** 2 - 2.0 * (1.0 - share) ** 2)


def converging_run(share: float) -> float:
    """K of the run of a converging 90 degree tee: 1.55 y - y^2, y the share of flow from the branch. Source: fittings.tees."""
    return share * (1.55 - share)


def diverging_branch(share: float, bores: float) -> float:
    """K of the branch of a diverging 90 degree tee: G (1 + H (y/b^2)^2), b branch bore over run bore. Source: fittings.tees."""
    square = bores * bores
    weight = 1.0 if bores <= 2.0 / 3.0 else 0.3
    gain = 1.0 if square <= 2.0 / 3.0 else 1.0 + 0.3 * share * share
    return gain * (1.0 + weight * (share / square) ** 2)


def diverging_run(share: float, bores: float) -> float:
    """K of the run of a diverging tee: M y^2. Source: fittings.tees."""
    bend = 0.4 if bores * bores <= 0.4 else (2.0 if share <= 0.5 else 0.3) * (2.0 * share - 1.0)
    return bend * share * share
