"""The result of a commissioning check, put together from what was worked out."""

from typing import TypeVar

from kneewall.calculations.commissioning_check import answered as a
from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.air_side import AirSide
from kneewall.calculations.commissioning_check.checks_of_air import WAY as AIRFLOW_WAY
from kneewall.calculations.commissioning_check.checks_of_water import WAY as WATER_FLOW_WAY
from kneewall.calculations.commissioning_check.drain import Drain
from kneewall.calculations.commissioning_check.estimate import Estimate
from kneewall.calculations.commissioning_check.heat import Heat
from kneewall.calculations.commissioning_check.refrigerant_side import RefrigerantSide
from kneewall.calculations.commissioning_check.tightness import Tightness
from kneewall.calculations.commissioning_check.water_side import WaterSide
from kneewall.kernel.answer import EQUAL_WITHIN
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


def compared(kind: type[KindT], figure: Estimate, design: float | None = None) -> a.Compared[KindT]:
    """A figure with its band and, where there is a design, how far it is from that."""
    if design is None:
        return a.Compared(measured=kind(figure.value), uncertainty=kind(figure.uncertainty))
    return a.Compared(
        measured=kind(figure.value), uncertainty=kind(figure.uncertainty), design=kind(design), difference=kind(apart(figure.value, design))
    )


def apart(measured: float, design: float) -> float:
    """How far a figure is from design; nought where only last digits of unit conversion are left, as in Findings' comparisons."""
    difference = measured - design
    return 0.0 if abs(difference) <= EQUAL_WITHIN * abs(design) else difference


def maybe(kind: type[KindT], figure: Estimate | None, design: float | None = None) -> a.Compared[KindT] | None:
    """As `compared`; None where there is no figure."""
    return None if figure is None else compared(kind, figure, design)


def describe(
    question: m.CommissioningCheckQuestion,
    air: AirSide | None,
    water: WaterSide | None,
    heat: Heat,
    refrigerant: RefrigerantSide | None,
    tightness: Tightness | None,
    drain: Drain | None,
    missing: list[str],
    usual: list[str],
) -> a.CommissioningCheckResult:
    """The whole result."""
    given, design = question.refrigerant_side, question.design
    split = None if question.air_side is None or question.air_side.split is None else question.air_side.split.target
    return a.CommissioningCheckResult(
        external_static_pressure=None if air is None else _static(air, design.external_static_pressure),
        airflow=None if air is None else _airflow(air, design.airflow),
        temperature_split=None if air is None else maybe(TemperatureDifference, air.split, split if question.mode == "cooling" else None),
        water_flow=None if water is None else _water_flow(water, design.water_flow),
        heat=_heat(heat, design.capacity),
        superheat=None
        if refrigerant is None or given is None
        else _saturation(refrigerant.superheat, refrigerant.dew, given.target_superheat if given.metering == "fixed-orifice" else None),
        subcooling=None
        if refrigerant is None or given is None
        else _saturation(refrigerant.subcooling, refrigerant.bubble, given.target_subcooling if given.metering == "expansion-valve" else None),
        tightness=None if tightness is None else _tightness(tightness),
        condensate=None if drain is None else _condensate(drain, design.condensate_flow),
        not_compared=missing,
        usual_uncertainty_taken=usual,
    )


def is_empty(result: a.CommissioningCheckResult) -> bool:
    """Whether nothing was worked out: no figure stands in the result."""
    return all(getattr(result, name) is None for name in result.__struct_fields__ if name not in ("not_compared", "usual_uncertainty_taken"))


def _static(air: AirSide, design: m.CommissioningStatic | None) -> a.StaticCompared | None:
    if air.return_static is None or air.supply_static is None or air.total_static is None:
        return None
    sides = (None, None, None) if design is None else (abs(design.return_), float(design.supply), abs(design.return_) + design.supply)
    return a.StaticCompared(
        return_=compared(AirPressure, air.return_static, sides[0]),
        supply=compared(AirPressure, air.supply_static, sides[1]),
        total=compared(AirPressure, air.total_static, sides[2]),
        with_dirty_filter=maybe(AirPressure, air.dirty_static),
    )


def _airflow(air: AirSide, design: Airflow | None) -> a.AirflowCompared | None:
    ways = [way for way in AIRFLOW_WAY if way in air.airflows]
    if not ways:
        return None
    flow = air.airflows[ways[0]]
    return a.AirflowCompared(
        measured=Airflow(flow.value),
        uncertainty=Airflow(flow.uncertainty),
        by=ways[0],
        design=design,
        difference=None if design is None else Airflow(apart(flow.value, design)),
        estimates=[
            a.AirflowEstimate(by=way, airflow=Airflow(air.airflows[way].value), uncertainty=Airflow(air.airflows[way].uncertainty)) for way in ways
        ],
        with_dirty_filter=maybe(Airflow, air.dirty_airflow),
    )


def _water_flow(water: WaterSide, design: WaterFlow | None) -> a.WaterFlowCompared | None:
    ways = [way for way in WATER_FLOW_WAY if way in water.flows]
    if not ways:
        return None
    flow = water.flows[ways[0]]
    return a.WaterFlowCompared(
        measured=WaterFlow(flow.value),
        uncertainty=WaterFlow(flow.uncertainty),
        by=ways[0],
        design=design,
        difference=None if design is None else WaterFlow(apart(flow.value, design)),
        estimates=[
            a.WaterFlowEstimate(by=way, flow=WaterFlow(water.flows[way].value), uncertainty=WaterFlow(water.flows[way].uncertainty)) for way in ways
        ],
        pressure_drop=maybe(PressureDrop, water.drop),
    )


def _heat(heat: Heat, capacity: Power | None) -> a.HeatCompared | None:
    if heat.sensible is None and heat.air is None and heat.water is None:
        return None
    balance = None
    if heat.water is not None and heat.left_over is not None and heat.expected_water is not None:
        balance = a.Compared(
            measured=Power(heat.water.value),
            uncertainty=Power(heat.left_over.uncertainty),
            design=Power(heat.expected_water.value),
            difference=Power(heat.left_over.value),
        )
    return a.HeatCompared(sensible=maybe(Power, heat.sensible), air=maybe(Power, heat.air, capacity), water=maybe(Power, heat.water), balance=balance)


def _saturation(figure: Estimate | None, saturation: Estimate | None, target: TemperatureDifference | None) -> a.SaturationCompared | None:
    if figure is None or saturation is None:
        return None
    return a.SaturationCompared(
        measured=TemperatureDifference(figure.value),
        uncertainty=TemperatureDifference(figure.uncertainty),
        design=target,
        difference=None if target is None else TemperatureDifference(apart(figure.value, target)),
        saturation_temperature=Temperature(saturation.value),
    )


def _tightness(found: Tightness) -> a.TightnessFound | None:
    test = vacuum = None
    if found.drop is not None and found.expected is not None:
        test = a.PressureTestFound(
            expected_pressure=AbsolutePressure(found.expected.value),
            drop=compared(PressureDrop, found.drop),
            uncorrected_drop=PressureDrop(found.uncorrected_drop),
        )
    if found.reached is not None:
        vacuum = a.EvacuationFound(reached=compared(Vacuum, found.reached), risen_to=maybe(Vacuum, found.risen_to))
    return None if test is None and vacuum is None else a.TightnessFound(pressure_test=test, evacuation=vacuum)


def _condensate(drain: Drain, design: WaterFlow | None) -> a.CondensateFound | None:
    found = a.CondensateFound(
        suction=maybe(Dimension, drain.pressure),
        outlet_drop=maybe(Dimension, drain.outlet_drop),
        seal_depth=maybe(Dimension, drain.seal_depth),
        drained=maybe(WaterFlow, drain.rate, design),
        lost=maybe(Volume, drain.lost),
    )
    return found if drain.readings.taken else None
