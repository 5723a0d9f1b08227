"""What the answer of a commissioning check says: each figure with its uncertainty and, where there is one, its design."""

from typing import Generic, TypeVar

import msgspec

from kneewall.calculations.commissioning_check.air_side import AirflowWay
from kneewall.calculations.commissioning_check.water_side import WaterFlowWay
from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import (
    AbsolutePressure,
    Airflow,
    AirPressure,
    Dimension,
    Power,
    PressureDrop,
    Quantity,
    Temperature,
    TemperatureDifference,
    Vacuum,
    Volume,
    WaterFlow,
)

KindT = TypeVar("KindT", bound=Quantity)


class Compared(Figured, Generic[KindT], frozen=True, kw_only=True):
    """A measured figure, plus or minus its uncertainty, and how far it is from design."""

    measured: KindT
    uncertainty: KindT
    design: KindT | None = None
    difference: KindT | None = None


class StaticCompared(Figured, frozen=True, kw_only=True):
    """External static pressure by side; the return side's as suction."""

    return_: Compared[AirPressure] = msgspec.field(name="return")
    supply: Compared[AirPressure]
    total: Compared[AirPressure]
    with_dirty_filter: Compared[AirPressure] | None = None


class AirflowEstimate(Figured, frozen=True, kw_only=True):
    """Airflow by one way."""

    by: AirflowWay
    airflow: Airflow
    uncertainty: Airflow


class AirflowCompared(Figured, frozen=True, kw_only=True):
    """The airflow that counts, and every way it was found."""

    measured: Airflow
    uncertainty: Airflow
    by: AirflowWay
    design: Airflow | None = None
    difference: Airflow | None = None
    estimates: list[AirflowEstimate]
    with_dirty_filter: Compared[Airflow] | None = None


class WaterFlowEstimate(Figured, frozen=True, kw_only=True):
    """Water flow by one way."""

    by: WaterFlowWay
    flow: WaterFlow
    uncertainty: WaterFlow


class WaterFlowCompared(Figured, frozen=True, kw_only=True):
    """The water flow that counts, and every way it was found."""

    measured: WaterFlow
    uncertainty: WaterFlow
    by: WaterFlowWay
    design: WaterFlow | None = None
    difference: WaterFlow | None = None
    estimates: list[WaterFlowEstimate]
    pressure_drop: Compared[PressureDrop] | None = None


class HeatCompared(Figured, frozen=True, kw_only=True):
    """Heat on each side, as the mode moves it."""

    sensible: Compared[Power] | None = None
    air: Compared[Power] | None = None
    water: Compared[Power] | None = None
    balance: Compared[Power] | None = None
    """Water-side heat against what air-side heat and electric power make it, which stands as its design"""


class SaturationCompared(Figured, frozen=True, kw_only=True):
    """Superheat or subcooling, and the saturation temperature it is counted from."""

    measured: TemperatureDifference
    uncertainty: TemperatureDifference
    design: TemperatureDifference | None = None
    difference: TemperatureDifference | None = None
    saturation_temperature: Temperature


class PressureTestFound(Figured, frozen=True, kw_only=True):
    """The standing pressure test."""

    expected_pressure: AbsolutePressure
    drop: Compared[PressureDrop]
    uncorrected_drop: PressureDrop


class EvacuationFound(Figured, frozen=True, kw_only=True):
    """The evacuation and the standing vacuum."""

    reached: Compared[Vacuum]
    risen_to: Compared[Vacuum] | None = None


class TightnessFound(Figured, frozen=True, kw_only=True):
    """Both tests."""

    pressure_test: PressureTestFound | None = None
    evacuation: EvacuationFound | None = None


class CondensateFound(Figured, frozen=True, kw_only=True):
    """Trap and drain."""

    suction: Compared[Dimension] | None = None
    """The pan's pressure as a height of water, dirty filter counted"""
    outlet_drop: Compared[Dimension] | None = None
    seal_depth: Compared[Dimension] | None = None
    drained: Compared[WaterFlow] | None = None
    lost: Compared[Volume] | None = None


class CommissioningCheckResult(Figured, frozen=True, kw_only=True):
    """Every figure that could be worked out, what could not and why, and which uncertainties were not stated."""

    external_static_pressure: StaticCompared | None = None
    airflow: AirflowCompared | None = None
    temperature_split: Compared[TemperatureDifference] | None = None
    water_flow: WaterFlowCompared | None = None
    heat: HeatCompared | None = None
    superheat: SaturationCompared | None = None
    subcooling: SaturationCompared | None = None
    tightness: TightnessFound | None = None
    condensate: CondensateFound | None = None
    not_compared: list[str]
    usual_uncertainty_taken: list[str]
