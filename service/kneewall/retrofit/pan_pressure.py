"""Static pressure on either side of the blower: as it is to be measured with clean filters, and at its worst at the pan."""

from kneewall.kernel.quantity import AirPressure
from kneewall.physics.air import air_of
from kneewall.physics.components import Component, component_drop, components_in
from kneewall.retrofit.work import Work

DIRTY_FILTER = 2.0
"""A filter that is due takes about twice what it takes clean. Source: retrofit-check.pan-pressure."""


def static_pressure_beside(work: Work, side: str) -> AirPressure | None:
    """What ducts and components of one side take at the flow that settles, filters as stated; None without ducts."""
    return _beside(work, side, filters=1.0)


def pan_static_pressure(work: Work, fan_position: str | None) -> AirPressure | None:
    """How far the pan's pressure lies from the room's at its worst: on a draw-through unit what ducts, coil and dirty filter before the fan take, on a
    blow-through unit what stands after it. Never the whole external static pressure. Source: retrofit-check.pan-pressure.
    """
    beside = _beside(work, "supply" if fan_position == "blow-through" else "return", filters=DIRTY_FILTER)
    return None if beside is None else AirPressure(beside + (work.question.unit.coil_pressure_drop or 0.0))


def lacks_coil(work: Work) -> bool:
    """Whether the pan's pressure is taken from the ducts while nobody has said what the wet coil takes."""
    ducts, drain = work.asked("duct_system"), work.question.condensate_drain
    if ducts is None or drain is None or getattr(drain, "pan_static_pressure", None) is not None:
        return False
    return work.question.unit.coil_pressure_drop is None and all(component.kind != "coil" for component in ducts.components)


def _beside(work: Work, side: str, *, filters: float) -> AirPressure | None:
    result, ducts = work.result("duct_system"), work.asked("duct_system")
    if result is None:
        return None
    airflow, pressures = result.operating_point.airflow, result.external_static_pressure

    def taken(component: Component) -> float:
        return component_drop(component, airflow) * (filters if component.kind == "filter" else 1.0)

    components = sum(taken(component) for component in components_in(ducts.components, air_of(ducts.air)) if component.side == side)
    return AirPressure((pressures.supply if side == "supply" else pressures.return_) + components)
