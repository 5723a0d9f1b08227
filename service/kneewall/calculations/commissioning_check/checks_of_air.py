"""The air side against rating and design."""

from kneewall.calculations.commissioning_check import limits, rules
from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.air_side import AirflowWay, AirSide
from kneewall.calculations.commissioning_check.estimate import Estimate, combined
from kneewall.calculations.commissioning_check.judging import agree, judge
from kneewall.kernel.answer import EQUAL_WITHIN, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Airflow, AirflowPerCapacity, AirPressure, Length, Number, Power, TemperatureDifference
from kneewall.physics.air import STANDARD
from kneewall.physics.fan import BLOWER_DENSITY, BLOWER_TABLE, RATED_DENSITY, rated_in_words, rated_limit_in

WAY: dict[AirflowWay, str] = {
    "flow-meter": "meter",
    "blower-table": "the blower's table",
    "temperature-split": "the temperature split",
    "water-heat": "the water's heat",
}


def check_air(findings: Findings, question: m.CommissioningCheckQuestion, given: m.CommissioningAirSide, air: AirSide) -> None:
    """Every check of the air side."""
    if air.filter_drop is not None and given.filter is not None:
        judge(
            findings, "filter", air.filter_drop, AirPressure, limits.FILTER_CHANGE, most=given.filter.dirty_pressure_drop,
            meets="The filter takes {}, below the {} at which it will be changed.",
            above="The filter takes {}, more than the {} at which it is to be changed: it is already past its change point. Change it and measure again.",
            unsure="It may be due for change already.",
        )  # fmt: skip
    _static(findings, question.design, given, air)
    _table_ends(findings, air)
    if "blower-table" in air.airflows and (question.altitude or 0.0) > limits.TABLE_UP_TO * (1.0 + 1e-9):
        altitude = Length(question.altitude or 0.0)
        says = Phrase(
            "At {} the table is restated by the fan laws for air much thinner than up to {}. They hold at one speed: a motor that sets its own speed departs from them. Measure the airflow too.",
            altitude,
            limits.TABLE_UP_TO,
        )
        findings.check("blower table at altitude", "watch", limits.TABLE_AT_ALTITUDE, says, actual=altitude, limit=limits.TABLE_UP_TO)
    way = next(iter([way for way in WAY if way in air.airflows]), None)
    if way is not None:
        _airflow(findings, question, air, way)
        for other in air.airflows:
            if other != way:
                agree(findings, f"airflow by {WAY[other]}", air.airflows[way], air.airflows[other], Airflow, rules.AGREEMENT, (WAY[way], WAY[other]))
    _split(findings, question, given, air)


def _static(findings: Findings, design: m.CommissioningDesign, given: m.CommissioningAirSide, air: AirSide) -> None:
    if air.total_static is None or air.return_static is None or air.supply_static is None:
        return
    findings.apply(rules.EXTERNAL_STATIC)
    if given.rated_limit is None:
        air.missing.append("External static pressure against rating: give the rated limit on the air side.")
    else:
        rated, named = rated_limit_in(given.rated_limit, air.blown), rated_in_words(air.blown)
        if air.blown is not STANDARD:
            findings.apply(RATED_DENSITY)
        judge(
            findings, "rated external static pressure", air.total_static, AirPressure, limits.RATED_STATIC, most=rated,
            meets=f"The blower works against {{}}, within the {named}.",
            above=f"The blower works against {{}}, above the {named}: look for a closed damper, a crushed or undersized duct, a wet or dirty coil.",
        )  # fmt: skip
        if air.dirty_static is not None:
            judge(
                findings, "rated external static pressure, dirty filter", air.dirty_static, AirPressure, limits.RATED_STATIC, most=rated,
                meets=f"With the filter due for change the blower would work against {{}}, within the {named}.",
                above=f"With the filter due for change the blower would work against {{}}, above the {named}: take a larger or deeper filter, or change it earlier.",
                unsure="Take a larger filter, change it earlier, or measure with it loaded.",
            )  # fmt: skip
    if design.external_static_pressure is None:
        air.missing.append("External static pressure by side: give the design's external static pressure.")
        return
    wanted = design.external_static_pressure
    total = abs(wanted.return_) + wanted.supply
    judge(
        findings, "design external static pressure", air.total_static, AirPressure, limits.DESIGN_STATIC,
        most=total + max(limits.STATIC_SHARE * total, limits.STATIC_EXTRA),
        meets="Both sides together make {}, within the {} that design allows with its margin.",
        above="Both sides together make {}, above the {} that design allows with its margin: the duct system is tighter than it was drawn.",
    )  # fmt: skip
    for side, figure, limit in (("return", air.return_static, abs(wanted.return_)), ("supply", air.supply_static, wanted.supply)):
        judge(
            findings, f"{side} static pressure", figure, AirPressure, limits.DESIGN_STATIC, most=limit, otherwise="watch",
            meets=f"The {side} side makes {{}}, within its design of {{}}.",
            above=f"The {side} side makes {{}}, above its design of {{}}: the excess sits on the {side} side.",
            unsure=f"The {side} side stands near its design.",
        )  # fmt: skip


def _table_ends(findings: Findings, air: AirSide) -> None:
    if air.table_ends is None or air.total_static is None:
        return
    findings.apply(*air.table_rules, *([] if air.blown is STANDARD else [BLOWER_DENSITY]))
    total = air.total_static.value
    low, high = air.table_ends
    if "blower-table" not in air.airflows:
        end = AirPressure(low if total < low else high)
        says = Phrase(
            "At {} the blower's table says nothing; it ends at {}. Airflow cannot be read from it: measure it another way.", AirPressure(total), end
        )
        findings.check("blower table", "watch", BLOWER_TABLE, says, actual=AirPressure(total), limit=end)
    if air.dirty_static is not None and air.dirty_airflow is None:
        air.missing.append("Airflow with the filter dirty: the blower's table does not reach that static pressure.")


def _airflow(findings: Findings, question: m.CommissioningCheckQuestion, air: AirSide, way: AirflowWay) -> None:
    design, flow = question.design, air.airflows[way]
    if design.airflow is None:
        air.missing.append("Airflow against design: give the design's airflow.")
    else:
        share = design.airflow_tolerance
        judge(
            findings, "airflow", flow, Airflow, limits.DESIGN_AIRFLOW, least=design.airflow * (1.0 - share), most=design.airflow * (1.0 + share),
            meets="The unit moves {}, between the {} and {} that design allows.",
            below="The unit moves {}, less than the {} that design allows: check filter, coil, dampers and blower speed before anything else.",
            above="The unit moves {}, more than the {} that design allows: set a lower blower speed; water may be carried off the coil.",
        )  # fmt: skip
    if question.mode == "cooling" and design.nominal_capacity is not None:
        _airflow_per_ton(findings, design.nominal_capacity, limits.LEAST_PER_TON[design.ducts], flow, air.dirty_airflow)


def _airflow_per_ton(findings: Findings, capacity: Power, least: AirflowPerCapacity, flow: Estimate, dirty_flow: Estimate | None) -> None:
    """Airflow over nominal capacity, clean and dirty: q/Q. Source: commissioning-check.airflow-per-ton."""
    per_ton = _per(flow, capacity)
    judge(
        findings, "airflow per ton", per_ton, AirflowPerCapacity, limits.AIRFLOW_PER_TON, least=least,
        meets="The unit moves {} of nominal capacity, at least {}.",
        below="The unit moves {} of nominal capacity, less than {}: the coil may freeze and capacity is lost.",
    )  # fmt: skip
    if dirty_flow is not None:
        judge(
            findings, "airflow per ton, dirty filter", _per(dirty_flow, capacity), AirflowPerCapacity, limits.AIRFLOW_PER_TON, least=least,
            otherwise="watch",
            meets="With the filter due for change it would move {} of nominal capacity, at least {}.",
            below="With the filter due for change it would move {} of nominal capacity, less than {}: take a larger filter or change it earlier.",
            unsure="Take a larger filter, or change it earlier.",
        )  # fmt: skip
    if per_ton.value > limits.MOST_PER_TON * (1.0 + EQUAL_WITHIN):
        moved = AirflowPerCapacity(per_ton.value)
        says = Phrase(
            "The unit moves {} of nominal capacity, more than the {} that is usual: water may be carried off the coil, or a reading or the capacity is wrong.",
            moved, limits.MOST_PER_TON,
        )  # fmt: skip
        findings.check("most airflow per ton", "watch", limits.AIRFLOW_PER_TON, says, actual=moved, limit=limits.MOST_PER_TON)


def _per(flow: Estimate, capacity: Power) -> Estimate:
    return combined(flow.value / capacity, (1.0 / capacity, flow))


def _split(findings: Findings, question: m.CommissioningCheckQuestion, given: m.CommissioningAirSide, air: AirSide) -> None:
    if air.split is None or given.split is None:
        return
    findings.apply(rules.AIR_HEAT)
    if air.split.high < 0.0:
        says = Phrase(
            "The air changes by {} the wrong way for {}: mode or readings are swapped.", TemperatureDifference(air.split.value), question.mode
        )
        findings.check("direction of air-side heat", "fails", rules.AIR_HEAT, says, actual=TemperatureDifference(air.split.value))
    if question.mode == "heating":
        return
    wetter = air.water_per_volume
    if wetter is not None and wetter.high < 0.0:
        ratios = air.humidity_ratios
        says = Phrase(
            "The air is read to leave wetter ({} lb of water per lb) than it came ({}): a coil that cools cannot do that, so a bulb is read wrong or its wick "
            "is dry. Total heat, condensate and what follows from them cannot be trusted.",
            ratios["leaving"].value, ratios["entering"].value,
        )  # fmt: skip
        findings.check("moisture", "fails", rules.AIR_HEAT, says, actual=Number(ratios["leaving"].value), limit=Number(ratios["entering"].value))
    if given.split.target is None:
        air.missing.append("Temperature split against target: give the split's target on the air side, for the return air's state.")
        return
    within = limits.SPLIT_WITHIN[question.role]
    judge(
        findings, "temperature split", air.split, TemperatureDifference, limits.SPLIT, least=given.split.target - within, most=given.split.target + within,
        meets="The split is {}, between {} and {}.",
        below="The split is {}, below {}: the capacity is low, or there is more air than thought.",
        above="The split is {}, above {}: the airflow is low.",
    )  # fmt: skip
