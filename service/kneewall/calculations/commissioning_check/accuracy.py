"""How closely each instrument reads: stated by whoever asks, else usual for its kind."""

from pathlib import Path
from typing import Annotated

from kneewall.kernel.quantity import AirPressure, Dimension, PressureDrop, Quantity, TemperatureDifference, kinds
from kneewall.kernel.question import Question, asked
from kneewall.kernel.table import load_table

INSTRUMENTS = load_table(Path(__file__).parent / "tables" / "instruments.toml")
USUAL_UNCERTAINTY = INSTRUMENTS.rule

Degrees = Annotated[TemperatureDifference, asked("Uncertainty of each reading, plus or minus", least="0 degF", most="20 degF")]
AirStep = Annotated[AirPressure, asked("Uncertainty of each reading, plus or minus", least="0 inH2O", most="1 inH2O")]
Step = Annotated[PressureDrop, asked("Uncertainty of each reading, plus or minus", least="0 psi", most="50 psi")]
Share = Annotated[float, asked("Uncertainty as a share of the reading, plus or minus", least=0.0, most=0.5)]


class AirSideUncertainty(Question, frozen=True, kw_only=True):
    """How closely the air side was measured; the usual accuracy of the instrument where a field is left out."""

    static_pressure: AirStep | None = None
    dry_bulb: Degrees | None = None
    wet_bulb: Degrees | None = None
    airflow: Share | None = None
    blower_table: Share | None = None
    sensible_heat: Share | None = None


class WaterSideUncertainty(Question, frozen=True, kw_only=True):
    """How closely the water side was measured; the usual accuracy of the instrument where a field is left out."""

    temperature: Degrees | None = None
    flow: Share | None = None
    pressure_drop: Annotated[PressureDrop, asked("Uncertainty of each difference that is read", least="0 psi", most="50 psi")] | None = None
    zero: (
        Annotated[
            PressureDrop, asked("What height and gauge may add where no difference was read with the water standing", least="0 psi", most="50 psi")
        ]
        | None
    ) = None
    coil_table: Share | None = None
    power: Share | None = None


class RefrigerantSideUncertainty(Question, frozen=True, kw_only=True):
    """How closely the refrigerant side was measured; the usual accuracy of the instrument where a field is left out."""

    suction_pressure: Step | None = None
    liquid_pressure: Step | None = None
    temperature: Degrees | None = None


class TightnessUncertainty(Question, frozen=True, kw_only=True):
    """How closely the tests were read; the usual accuracy of the instrument where a field is left out."""

    pressure: Step | None = None
    temperature: Degrees | None = None
    pressure_step: (
        Annotated[PressureDrop, asked("By how much one gauge may miss a change between two readings", least="0 psi", most="50 psi")] | None
    ) = None
    temperature_step: (
        Annotated[TemperatureDifference, asked("By how much one thermometer may miss a change between two readings", least="0 degF", most="20 degF")]
        | None
    ) = None
    vacuum: Share | None = None


class CondensateUncertainty(Question, frozen=True, kw_only=True):
    """How closely trap and drain were measured; the usual accuracy of the instrument where a field is left out."""

    static_pressure: AirStep | None = None
    dimension: Annotated[Dimension, asked("Uncertainty of each height by tape", least="0 in", most="2 in")] | None = None
    volume: Share | None = None


def _usual() -> dict[str, dict[str, float]]:
    """The usual uncertainty by part and field: SI quantities, or shares of the reading."""
    by_name = {kind.__name__: kind for kind in kinds()}
    found: dict[str, dict[str, float]] = {}
    for row in INSTRUMENTS.rows:
        kind: type[Quantity] | None = by_name.get(str(row["kind"]))
        number = float(row["uncertainty"])
        found.setdefault(str(row["part"]), {})[str(row["field"])] = number if kind is None else kind.of(number, str(row["unit"]))
    return found


USUAL = _usual()
