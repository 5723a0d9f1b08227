"""The water side and the heat of both sides against design and against each other."""

from kneewall.calculations.commissioning_check import limits, rules
from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.heat import Heat
from kneewall.calculations.commissioning_check.judging import agree, judge
from kneewall.calculations.commissioning_check.water_side import WaterFlowWay, WaterSide
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Power, Temperature, TemperatureDifference, WaterFlow
from kneewall.physics.water import fluid_rule

WAY: dict[WaterFlowWay, str] = {"flow-meter": "meter", "coil-pressure-drop": "the coil's pressure drop", "heat-balance": "heat balance"}


def check_water(findings: Findings, question: m.CommissioningCheckQuestion, given: m.CommissioningWaterSide, water: WaterSide) -> None:
    """Every check of the water side."""
    findings.apply(fluid_rule(given.fluid), rules.WATER_HEAT)
    if water.change is not None and water.change.high < 0.0:
        change = TemperatureDifference(water.change.value)
        says = Phrase("The water changes by {} the wrong way for {}: mode or readings are swapped.", change, question.mode)
        findings.check("direction of water-side heat", "fails", rules.WATER_HEAT, says, actual=change)
    if "coil-pressure-drop" in water.flows:
        findings.apply(rules.COIL)
    way = next(iter([way for way in WAY if way in water.flows]), None)
    if way is not None:
        _flow(findings, question.design, water, way)
        for other in water.flows:
            if other != way:
                agree(
                    findings, f"water flow by {WAY[other]}", water.flows[way], water.flows[other], WaterFlow, rules.AGREEMENT, (WAY[way], WAY[other])
                )
    if question.mode == "heating" and water.leaving is not None:
        _leaving(findings, question.design, given, water)


def _flow(findings: Findings, design: m.CommissioningDesign, water: WaterSide, way: WaterFlowWay) -> None:
    flow = water.flows[way]
    if design.water_flow is None:
        water.missing.append("Water flow against design: give design › water flow.")
    else:
        share = design.water_flow_tolerance
        judge(
            findings, "water flow", flow, WaterFlow, limits.DESIGN_WATER_FLOW,
            least=design.water_flow * (1.0 - share), most=design.water_flow * (1.0 + share),
            meets="{} flows, between the {} and {} that design allows.",
            below="{} flows, less than the {} that design allows: look at strainer, valve, regulator and air in the loop.",
            above="{} flows, more than the {} that design allows: throttle at the balancing valve; fast water wears the coil.",
        )  # fmt: skip
    if design.least_water_flow is not None:
        judge(
            findings, "least water flow", flow, WaterFlow, limits.DESIGN_WATER_FLOW, least=design.least_water_flow,
            meets="{} flows, above the least the unit allows, {}.",
            below="{} flows, under the least the unit allows, {}: do not run it so.",
        )  # fmt: skip


def _leaving(findings: Findings, design: m.CommissioningDesign, given: m.CommissioningWaterSide, water: WaterSide) -> None:
    assert water.leaving is not None
    limit: float = limits.LEAST_LEAVING if given.fluid.kind == "water" else water.freezing + limits.ABOVE_FREEZING
    if design.least_leaving_water is not None:
        limit = design.least_leaving_water
    judge(
        findings, "leaving water", water.leaving, Temperature, limits.LEAVING_WATER, least=limit, width=TemperatureDifference,
        meets="The water leaves at {}, not below {}.",
        below="The water leaves at {}, below {}: more flow, or warmer water, before the coil freezes.",
    )  # fmt: skip


def check_heat(findings: Findings, question: m.CommissioningCheckQuestion, heat: Heat, missing: list[str]) -> None:
    """Air-side against water-side heat, and capacity against the unit's table."""
    if heat.left_over is not None and heat.expected_water is not None and heat.water is not None:
        findings.apply(rules.BALANCE)
        share = question.design.heat_tolerance
        allowed = share * abs(heat.expected_water.value)
        expected = Power(heat.expected_water.value)
        verdict = judge(
            findings, "air-side against water-side heat", heat.left_over, Power, limits.HEAT_AGREES, least=-allowed, most=allowed,
            meets="Water-side heat differs by {} from what air side and power make it, between {} and {}.",
            below="Water-side heat is {} off what air side and power make it, beyond {}: water flow or a temperature is read too low, or airflow too high.",
            above="Water-side heat is {} off what air side and power make it, beyond {}: water flow or a temperature is read too high, or airflow too low.",
            unsure="The readings are too coarse to prove that both sides agree: use matched probes.",
        )  # fmt: skip
        if verdict == "fails" and expected < 0.0:
            says = Phrase("The air's heat does not even cover the electric power: {} is left for the water.", expected)
            findings.check("heat left for the water", "fails", rules.BALANCE, says, actual=expected)
    capacity, power = question.design.capacity, None
    if capacity is None:
        missing.append("Capacity against the unit's table: give design › capacity at the conditions measured.")
        return
    if heat.air is not None:
        power = heat.air
    if power is None:
        missing.append("Capacity against the unit's table: the total heat in the air could not be worked out.")
        return
    judge(
        findings, "capacity", power, Power, limits.CAPACITY, least=limits.CAPACITY_SHARE * capacity,
        meets="It delivers {}, at least the {} that is nine tenths of its table.",
        below="It delivers {}, less than the {} that is nine tenths of its table: look at airflow, water flow, then charge.",
    )  # fmt: skip
