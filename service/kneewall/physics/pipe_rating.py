"""The pressure that a pipe is rated for at the temperature of the water in it."""

from pathlib import Path

from kneewall.kernel.quantity import GaugePressure, Temperature
from kneewall.kernel.rule import Rule, Source
from kneewall.kernel.table import load_table
from kneewall.physics.pipes import PipeSize

TEMPERATURE_TABLE = load_table(Path(__file__).parent / "tables" / "pipe_temperature_factors.toml")
TEMPERATURE_FACTOR = TEMPERATURE_TABLE.rule
_factor_at = {column.name: TEMPERATURE_TABLE.along("temperature", column.name) for column in TEMPERATURE_TABLE.columns[1:]}
COPPER_RATING = Rule(
    id="pipe-rating.copper",
    says="Copper tube, annealed as brazing leaves it: P = 2 S t/(D - 0.8 t), t the least wall (0.9 of the nominal), S 6000 psi up to 100 °F, "
    "5100 psi at 150 °F. Joints may hold less.",
    kind="formula",
    source=Source(title="The Copper Tube Handbook, rated internal working pressures", publisher="Copper Development Association"),
    standing="published",
)
PLASTIC_RATING = Rule(
    id="pipe-rating.plastic",
    says="PVC and CPVC pipe at 73 °F: P = 2 S t/(D - t), S 2000 psi, t the least wall; CPVC of copper-tube size 400 psi; PEX 160 psi; "
    "polyethylene of the older grade 160 psi (DR 11) and 128 psi (DR 13.5). Threads halve it. Less when warm.",
    kind="formula",
    source=Source(title="ASTM D1785, D2846, F876 and D3035; the formula and S read with suppliers' tables of PVC and CPVC, PEX and PE from memory"),
    standing="from-memory",
)
STEEL_RATING = Rule(
    id="pipe-rating.steel",
    says="Threaded steel pipe is taken at 300 psi, which its class 150 fittings hold cold; rust may leave less.",
    kind="limit",
    source=Source(title="ASME B16.3, Malleable iron threaded fittings", publisher="ASME"),
    standing="from-memory",
)

_FIXED = {"cpvc-cts": 400.0, "pex": 160.0, "pe-dr-11": 160.0, "pe-dr-13.5": 128.0}
_LEAST_WALL = 1.06
"""Average wall over least wall of schedule 40 and 80 plastic pipe."""


def rated_pressure(pipe: PipeSize, temperature: Temperature) -> tuple[GaugePressure, tuple[Rule, ...]] | None:
    """What a pipe is rated for, and by which rules; None for a hose, which says so itself, and above the temperatures that are known.

    Source: pipe-rating.copper, pipe-rating.plastic, pipe-rating.steel, pipe-rating.temperature-factor. Valid: up to 140 °F.
    """
    fahrenheit = temperature.to("degF")
    substance = pipe.wall.substance
    if fahrenheit > 140.0 + 1e-9 or substance == "rubber":
        return None
    if substance == "copper":
        return _copper_rating(pipe, fahrenheit), (COPPER_RATING,)
    if substance in ("steel", "galvanized-steel"):
        return GaugePressure.of(300.0, "psig"), (STEEL_RATING,)
    fixed = _FIXED.get(pipe.material)
    wall = pipe.thickness / _LEAST_WALL
    cold = fixed if fixed is not None else 2.0 * 2000.0 * wall / (pipe.outside_diameter - wall)
    factor = _factor_at[substance](min(fahrenheit, 140.0)) if fahrenheit > 73.0 + 1e-9 else None
    if factor is None:
        return GaugePressure.of(cold, "psig"), (PLASTIC_RATING,)
    return GaugePressure.of(cold * factor, "psig"), (PLASTIC_RATING, TEMPERATURE_FACTOR)


def _copper_rating(pipe: PipeSize, fahrenheit: float) -> GaugePressure:
    stress = 6000.0 - max(0.0, fahrenheit - 100.0) * 18.0
    wall = 0.9 * pipe.thickness
    return GaugePressure.of(2.0 * stress * wall / (pipe.outside_diameter - 0.8 * wall), "psig")
