"""The duct system: choose every size for one friction rate, or solve what given sizes really deliver.

The story: order the sections into two trees; to size, find the friction rate that blower and components leave and take the next nominal sizes; to analyze,
let blower, ducts and outlets settle; then describe every section and path, and check.
"""

from kneewall.calculations.duct_system import describe, rules
from kneewall.calculations.duct_system.check import check_system
from kneewall.calculations.duct_system.choose import chosen_sizes, rate_that_fits
from kneewall.calculations.duct_system.heat import supply_heat
from kneewall.calculations.duct_system.losses import Run, box_coefficient, run_of
from kneewall.calculations.duct_system.messages import (
    CriticalPath,
    DuctSystemQuestion,
    DuctSystemResult,
    ExternalStaticPressure,
    OperatingPoint,
    OutletAnswer,
)
from kneewall.calculations.duct_system.solve import Solved, solve
from kneewall.calculations.duct_system.tree import Node, build_tree
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.quantity import Airflow, AirPressure, FrictionRate, Number
from kneewall.kernel.refusal import refuse
from kneewall.physics import ducts, friction
from kneewall.physics.air import Air, air_of
from kneewall.physics.components import COMPONENT_DENSITY, COMPONENT_EXPONENT, Component, component_drop, components_in
from kneewall.physics.fan import BLOWER_DENSITY, BlowerCurve


def answer_duct_system(question: DuctSystemQuestion) -> Answer[DuctSystemResult]:
    """Answer a duct-system question. Raises: Refusal."""
    nodes = build_tree(question)
    _refuse_impossible_surroundings(question)
    findings = Findings("duct-system")
    air = air_of(question.air)
    blower = None if question.blower is None else BlowerCurve(question.blower, "/blower", air)
    components = components_in(question.components, air)
    findings.apply(rules.NETWORK, *air.rules, friction.DARCY_WEISBACH, friction.COLEBROOK, ducts.ROUGHNESS)
    airflow = design_airflow(nodes)
    rate = None
    if question.task == "size":
        rate = wanted_friction_rate(question, nodes, blower, components, air)
        runs = chosen_sizes(nodes, rate, air)
        solved = at_design(components, runs, airflow)
        findings.apply(rules.FRICTION_RATE)
    else:
        runs = [run_of(node, node.section.size, air) for node in nodes if node.section.size is not None]
        solved = solve(runs, components, blower, airflow)
    result = _result(question, components, runs, solved, air, rate)
    _apply_rules(findings, question, nodes, runs)
    if blower is not None:
        findings.apply(*blower.rules, *([] if question.air is None else [BLOWER_DENSITY]))
    check_system(findings, question, result, nodes, blower, air)
    findings.caution(rules.MEASURE_IT, rules.RETURN_AIR, rules.STRUCTURE)
    return findings.answer(result)


def design_airflow(nodes: list[Node]) -> float:
    """What the unit must move, m3/s: all supply outlets, or all return grilles where no supply side is given."""
    sums = {side: sum(node.design_airflow for node in nodes if node.parent is None and node.section.side == side) for side in ("supply", "return")}
    return sums["supply"] or sums["return"]


def wanted_friction_rate(question: DuctSystemQuestion, nodes: list[Node], blower: BlowerCurve | None, components: list[Component], air: Air) -> float:
    """The friction rate, Pa/m: as asked, else what blower and components leave. Source: duct-system.friction-rate. Raises: Refusal."""
    if question.friction_rate is not None:
        return question.friction_rate
    if blower is None:
        raise refuse("/friction_rate", "to size, give a friction rate, or a blower from which it is found")
    airflow = design_airflow(nodes)
    has = blower.needed_static_pressure(Airflow(airflow))
    taken = sum(component_drop(component, airflow) for component in components)
    if taken >= has:
        sentence = "at {} the components take {} and the blower has only {}: nothing is left for ducts; choose freer components, less air or a stronger blower"
        raise refuse("/components", sentence, Airflow(airflow), AirPressure(taken), AirPressure(has))
    return rate_that_fits(nodes, has - taken, air)


def at_design(components: list[Component], runs: list[Run], airflow: float) -> Solved:
    """Every section at its design airflow, and the static pressure that takes."""
    flows = [run.node.design_airflow for run in runs]
    found = describe.stretches(runs, flows)
    every = describe.paths(found)
    worst = [path.pressure_drop for side in ("supply", "return") if (path := describe.critical(every, side, found)) is not None]
    taken = sum(component_drop(component, airflow) for component in components)
    return Solved(flows, airflow, sum(worst) + taken, 0)


def _result(
    question: DuctSystemQuestion, components: list[Component], runs: list[Run], solved: Solved, air: Air, rate: float | None
) -> DuctSystemResult:
    found = describe.stretches(runs, solved.flows)
    every = describe.paths(found)
    supply, return_ = describe.critical(every, "supply", found), describe.critical(every, "return", found)
    sections = describe.section_answers(question, found, supply_heat(question, runs, solved.flows, air))
    beside = {side: sum(component_drop(one, solved.airflow) for one in components if one.side == side) for side in ("supply", "return")}
    taken = beside["supply"] + beside["return"]
    drops = [AirPressure(0.0 if path is None else path.pressure_drop) for path in (supply, return_)]
    return DuctSystemResult(
        friction_rate=None if rate is None else FrictionRate(rate),
        sections=sections,
        paths=every,
        critical_path=CriticalPath(supply=supply.outlet if supply else None, return_=return_.outlet if return_ else None),
        external_static_pressure=ExternalStaticPressure(
            supply=drops[0],
            return_=drops[1],
            components=AirPressure(taken),
            total=AirPressure(drops[0] + drops[1] + taken),
            at_taps=describe.at_taps(found, {"supply": drops[0] + beside["supply"], "return": drops[1] + beside["return"]}),
        ),
        operating_point=OperatingPoint(airflow=Airflow(solved.airflow), static_pressure=AirPressure(solved.static_pressure)),
        outlets=_outlets(question, found),
        leakage=describe.leakage(sections, solved.airflow),
        materials=describe.materials(question, found),
    )


def _outlets(question: DuctSystemQuestion, found: dict[str, describe.Stretch]) -> list[OutletAnswer]:
    return [
        OutletAnswer(
            id=section.id,
            side=section.side,
            design_airflow=section.outlet.airflow,
            airflow=Airflow(found[section.id].flow),
            ratio=Number(found[section.id].flow / section.outlet.airflow),
        )
        for section in question.sections
        if section.outlet is not None
    ]


def _apply_rules(findings: Findings, question: DuctSystemQuestion, nodes: list[Node], runs: list[Run]) -> None:
    for node, run in zip(nodes, runs, strict=True):
        for loss in node.losses:
            findings.apply(*loss.rules)
        if run.size is not None:
            findings.apply(*ducts.size_rules(run.size))
        if box_coefficient(node):
            findings.apply(rules.SPLITTER_BOX)
    if question.components:
        findings.apply(COMPONENT_EXPONENT)
    if question.air is not None:
        findings.apply(COMPONENT_DENSITY)
    if question.surroundings is not None and question.supply_air is not None:
        findings.apply(rules.EFFECTIVE_RESISTANCE, rules.HEAT_GAIN, rules.SWEATING)


def _refuse_impossible_surroundings(question: DuctSystemQuestion) -> None:
    around = question.surroundings
    if around is not None and around.dew_point is not None and around.dew_point > around.temperature:
        raise refuse("/surroundings/dew_point", "{} cannot be above the temperature of that air, {}", around.dew_point, around.temperature)
