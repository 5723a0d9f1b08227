"""What each part takes from the shared facts and from the answers before it. Given by the part itself, a figure is never replaced."""

from collections.abc import Callable
from typing import Any, get_args

from kneewall.calculations.condensate_drain.messages import Code as DrainCode
from kneewall.calculations.service_access.messages import AccessCode
from kneewall.calculations.support_spacing.messages import Code as SupportCode
from kneewall.calculations.water_loop_flow.messages import LoopDuty
from kneewall.kernel.quantity import Length
from kneewall.retrofit.loop_heights import fill_heights
from kneewall.retrofit.loop_water import hung_unit, leak_valve, runs_to_hung_unit
from kneewall.retrofit.pan_pressure import pan_static_pressure, static_pressure_beside
from kneewall.retrofit.partial import Given, merged
from kneewall.retrofit.sheet_metal import plenum_weights
from kneewall.retrofit.stated_twice import stated_twice
from kneewall.retrofit.supported import supported_runs, whole_run
from kneewall.retrofit.work import Work


def fill_duct_system(work: Work, _: Given) -> Given:
    """Surroundings and air."""
    around = work.question.surroundings
    taken: Given = {"air": work.question.air}
    if around.temperature is not None:
        taken["surroundings"] = {"temperature": around.temperature, "dew_point": around.dew_point}
    return taken


def fill_static_pressure_budget(work: Work, given: Given) -> Given:
    """Airflow; blower, components and air of the duct system; effective lengths of its critical paths."""
    taken: Given = {"airflow": work.question.airflow, "air": work.question.air}
    ducts, result = work.asked("duct_system"), work.result("duct_system")
    if ducts is None:
        return taken
    taken |= {"components": ducts.components, "air": ducts.air}
    if "blower_static_pressure" not in given:
        taken["blower"] = ducts.blower
    critical = result.critical_path
    lengths = {path.outlet: path.effective_length for path in result.paths}
    taken["effective_length"] = {"supply": lengths.get(critical.supply), "return": lengths.get(critical.return_, Length(0.0))}
    return taken


def fill_water_loop_flow(work: Work, given: Given) -> Given:
    """Capacity, power and height of the hung unit in its own entry among the units of the loop: a list that is given stays the one that counts."""
    capacity, name = work.question.capacity, hung_unit(work)
    shared = {
        "cooling": {"capacity": capacity.cooling, "power": capacity.cooling_power},
        "heating": {"capacity": capacity.heating, "power": capacity.heating_power},
    }
    units = given.get("units", [])
    work.twice += [one for unit in units if unit.get("id") == name for one in stated_twice("water_loop_flow", unit, shared, f"/units/{name}")]
    given["units"] = [{**unit, **_duties(unit, shared)} if unit.get("id") == name else unit for unit in units]
    return fill_heights(work, given)


def _duties(unit: Given, shared: dict[str, Given]) -> Given:
    """The seasons of which the unit itself and the shared facts together know capacity and power."""
    found = {season: merged(unit.get(season, {}), duty) for season, duty in shared.items()}
    return {season: duty for season, duty in found.items() if len(duty) == len(LoopDuty.__struct_fields__)}


def fill_equipment_hanging(work: Work, given: Given) -> Given:
    """Weight and size of the unit, the auxiliary pan that hangs with it, and half the weight of each plenum on its collars."""
    unit, drain = work.question.unit, work.question.condensate_drain
    taken: Given = {"equipment": {"weight": unit.weight, "length": unit.length, "width": unit.width}}
    pan = getattr(getattr(drain, "auxiliary_pan", None), "pan", None)
    if pan is not None:
        taken["pan"] = {"length": pan.length, "width": pan.width, "depth": pan.depth}
    stated = {weight.get("name") for weight in given.get("attached", [])}
    plenums = [weight for weight in plenum_weights(work) if weight["name"] not in stated]
    if plenums or "attached" in given:
        given["attached"] = [*given.get("attached", []), *plenums]
    return taken


def fill_condensate_drain(work: Work, given: Given) -> Given:
    """The pan's own static pressure from the ducts, capacity, heights, the auxiliary pan and what a broken hose lets out."""
    question = work.question
    taken: Given = {
        "pan_static_pressure": pan_static_pressure(work, given.get("fan_position")),
        "cooling_capacity": question.capacity.cooling,
        "airflow": question.airflow if "entering_air" in given else None,
        "altitude": None if question.air is None else question.air.altitude,
        "surroundings": {
            "lowest_temperature": question.surroundings.lowest_temperature,
            "highest_temperature": question.surroundings.temperature,
        },
        "code": _code(question.code, DrainCode),
        "elevations": _drain_elevations(work, given),
        "auxiliary_pan": _auxiliary_pan(work, given),
    }
    return taken


def _drain_elevations(work: Work, given: Given) -> Given | None:
    heights = work.question.elevations
    stated = given.get("elevations", {})
    taken: Given = {"receiver_rim": heights.receiver_rim, "clear_below": heights.attic_floor}
    above = stated.get("outlet_above_base")
    if heights.unit_base is not None and above is not None:
        taken["pan_outlet"] = Length(heights.unit_base + above)
    reachable = {**taken, **stated}
    complete = reachable.get("pan_outlet") is not None and reachable.get("receiver_rim") is not None
    return taken if complete or stated else None


def _auxiliary_pan(work: Work, given: Given) -> Given | None:
    if "auxiliary_pan" not in given:
        return None
    unit, loop = work.question.unit, work.result("water_loop_flow")
    taken: Given = {"unit": {"length": unit.length, "width": unit.width}}
    hanging = work.question.equipment_hanging
    if "pan" not in given["auxiliary_pan"] and getattr(hanging, "pan", None) is not None:
        pan = hanging.pan  # type: ignore[union-attr]
        taken["pan"] = {"length": pan.length, "width": pan.width, "depth": pan.depth}
    if loop is not None and runs_to_hung_unit(work):
        taken["loop_flow"] = next((unit.flow for unit in loop.units if unit.id == hung_unit(work)), None)
        if given["auxiliary_pan"].get("leak_shutoff"):
            taken |= leak_valve(work.asked("water_loop_flow"), hung_unit(work))
    return taken


def fill_refrigerant_line_sizing(work: Work, given: Given) -> Given:
    """Refrigerant, capacities, how far the indoor unit stands above the other, and the attic's air."""
    question, heights, around = work.question, work.question.elevations, work.question.surroundings
    taken: Given = {"refrigerant": question.refrigerant, "cooling": {"capacity": question.capacity.cooling}}
    if "heating" in given:
        taken["heating"] = {"capacity": question.capacity.heating}
    if heights.unit_base is not None and heights.outdoor_unit is not None:
        taken["indoor_above_outdoor"] = Length(heights.unit_base - heights.outdoor_unit)
    if around.temperature is not None:
        taken["surroundings"] = {"temperature": around.temperature, "dew_point": around.dew_point}
    return taken


def fill_support_spacing(work: Work, given: Given) -> Given:
    """The runs of every other part, beside those given here; a run that is given under its name counts with its riser."""
    stated = given.get("runs", [])
    names = {run.get("id") for run in stated}
    given["runs"] = [*stated, *(run for run in supported_runs(work) if not {run["id"], whole_run(run["id"])} & names)]
    return {"code": _code(work.question.code, SupportCode)}


def fill_service_access(work: Work, _: Given) -> Given:
    """The unit as the largest piece that must come out."""
    unit = work.question.unit
    taken: Given = {"code": _code(work.question.code, AccessCode)}
    if unit.length is not None and unit.width is not None and unit.height is not None:
        taken["largest_component"] = {"length": unit.length, "width": unit.width, "height": unit.height}
    return taken


def fill_commissioning_check(work: Work, given: Given) -> Given:
    """Design figures from the parts that were designed; refrigerant, altitude and the pan's pressure."""
    question, ducts, loop, drain = work.question, work.result("duct_system"), work.result("water_loop_flow"), work.result("condensate_drain")
    design: Given = {"airflow": question.airflow, "nominal_capacity": question.capacity.cooling}
    if ducts is not None:
        beside = {side: static_pressure_beside(work, side) for side in ("return", "supply")}
        design |= {"external_static_pressure": beside, "airflow": question.airflow or ducts.operating_point.airflow}
    if loop is not None:
        design["water_flow"] = next((unit.flow for unit in loop.units if unit.id == hung_unit(work)), None)
    if drain is not None:
        design["condensate_flow"] = drain.condensate.volume_flow
    taken: Given = {"altitude": None if question.air is None else question.air.altitude, "design": design}
    for part in ("refrigerant_side", "tightness"):
        if part in given:
            taken[part] = {"refrigerant": question.refrigerant}
    if "condensate" in given and work.asked("condensate_drain") is not None:
        pan = work.asked("condensate_drain")
        taken["condensate"] = {"fan_position": pan.fan_position, "pan_static_pressure": pan.pan_static_pressure}
    return taken


def _code(code: str | None, held: Any) -> str | None:
    """The shared code where a part holds it as data; else the part's own default."""
    return code if code in get_args(held) else None


FILLS: dict[str, Callable[[Work, Given], Given]] = {
    "duct_system": fill_duct_system,
    "static_pressure_budget": fill_static_pressure_budget,
    "water_loop_flow": fill_water_loop_flow,
    "equipment_hanging": fill_equipment_hanging,
    "condensate_drain": fill_condensate_drain,
    "refrigerant_line_sizing": fill_refrigerant_line_sizing,
    "support_spacing": fill_support_spacing,
    "service_access": fill_service_access,
    "commissioning_check": fill_commissioning_check,
}
"""The parts in the order in which each finds what it takes already answered."""
