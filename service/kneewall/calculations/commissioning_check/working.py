"""The working of a commissioning check: every reading with its uncertainty, every figure with what moves it and by how much."""

from kneewall.calculations.commissioning_check import answered as a
from kneewall.calculations.commissioning_check import limits, rules
from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.accuracy import USUAL_UNCERTAINTY
from kneewall.calculations.commissioning_check.calculate import Worked, work_out
from kneewall.calculations.commissioning_check.checks_of_air import WAY as AIRFLOW_WAY
from kneewall.calculations.commissioning_check.checks_of_water import WAY as WATER_FLOW_WAY
from kneewall.calculations.commissioning_check.estimate import Estimate, Reading
from kneewall.calculations.commissioning_check.reading_kinds import KIND_OF_READING
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Figure, Phrase
from kneewall.kernel.quantity import (
    AbsolutePressure,
    Airflow,
    AirPressure,
    Dimension,
    GaugePressure,
    Length,
    Power,
    PressureDrop,
    Quantity,
    Temperature,
    TemperatureDifference,
    Volume,
    WaterFlow,
)
from kneewall.kernel.rule import Rule
from kneewall.physics.air import MOIST_AIR, atmospheric_pressure
from kneewall.physics.fan import BLOWER_TABLE
from kneewall.physics.refrigerant import BUBBLE_AND_DEW

HOW_AIRFLOW: dict[str, tuple[str, Rule]] = {
    "flow-meter": ("as read", rules.PROPAGATION),
    "blower-table": ("q = table(static); sensitivity dq/dp is the table's slope", BLOWER_TABLE),
    "temperature-split": ("q = Q / (heat capacity per volume x split); dq/q = dQ/Q - d(split)/split", rules.AIR_HEAT),
    "water-heat": ("q = (water heat -/+ power) / heat per volume of air", rules.BALANCE),
}
HOW_WATER: dict[str, tuple[str, Rule]] = {
    "flow-meter": ("as read", rules.PROPAGATION),
    "coil-pressure-drop": ("q = q0 (dp/dp0)^(1/n); dq/q = (1/n) d(dp)/dp", rules.COIL),
    "heat-balance": ("q = (air heat +/- power) / (rho cp dT)", rules.BALANCE),
}


def working(question: m.CommissioningCheckQuestion, _answer: Answer[a.CommissioningCheckResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    worked = work_out(question)
    lines = [_atmosphere_line(question), *(_reading_line(reading) for one in worked.readings() for reading in one.taken.values())]
    lines += _humidity_lines(worked)
    readings = {reading.name: reading for one in worked.readings() for reading in one.taken.values()}
    for step, formula, figure, kind, width, rule in _figures(worked):
        if figure is not None:
            lines.append(WorkingLine(step=step, formula=formula, substituted=_from(figure, readings), value=kind(figure.value), rule=rule.id))
            lines.append(_uncertainty_line(step, figure, width, readings))
    return lines


def _atmosphere_line(question: m.CommissioningCheckQuestion) -> WorkingLine:
    altitude = Length(question.altitude or 0.0)
    return WorkingLine(
        step="atmosphere", formula="14.696 psia (1 - 6.8756e-6 z)^5.2559, z in ft; added to every gauge pressure", substituted=Phrase("at {}", altitude),
        value=AbsolutePressure(atmospheric_pressure(altitude)), rule=MOIST_AIR.id,
    )  # fmt: skip


def _humidity_lines(worked: Worked) -> list[WorkingLine]:
    """Water in the air at both points, from which enthalpy and density follow."""
    if worked.air is None:
        return []
    return [
        WorkingLine(
            step=f"humidity ratio, {where}", formula="W from dry bulb and wet bulb at the atmosphere above; h = 0.240 t + W (1061 + 0.444 t)",
            substituted=Phrase("{} ± {}", ratio.value, ratio.uncertainty), value=ratio.value, rule=MOIST_AIR.id,
        )
        for where, ratio in worked.air.humidity_ratios.items()
    ]  # fmt: skip


def _reading_line(reading: Reading) -> WorkingLine:
    value, uncertainty = _shown(reading)
    basis = "stated" if reading.stated else "usual for the instrument"
    substituted = Phrase("{} ± {} of it, {}" if reading.share else "{} ± {}, {}", value, uncertainty, basis)
    return WorkingLine(
        step=reading.name, formula="as read", substituted=substituted, value=value, rule=None if reading.stated else USUAL_UNCERTAINTY.id
    )


def _shown(reading: Reading) -> tuple[Figure, Figure]:
    kinds = KIND_OF_READING.get(reading.name)
    if kinds is None:
        return reading.value, reading.uncertainty
    return kinds[0](reading.value), reading.uncertainty if reading.share else kinds[1](reading.uncertainty)


def _from(figure: Estimate, readings: dict[str, Reading]) -> Phrase:
    """Which readings the figure comes from, each with its value."""
    names = list(figure.moved)
    return Phrase("from " + "; ".join("{} {}" for _ in names), *(shown for name in names for shown in (name, _shown(readings[name])[0])))


def _uncertainty_line(step: str, figure: Estimate, width: type[Quantity], readings: dict[str, Reading]) -> WorkingLine:
    """Each reading's part: its uncertainty, and sensitivity times that, by which it moves the figure."""
    parts: list[Figure] = []
    for name, moved in figure.moved.items():
        parts += [name, _shown(readings[name])[1], width(moved)]
    sentence = "; ".join("{} ± {} moves it by {}" for _ in figure.moved)
    return WorkingLine(
        step=f"{step}: uncertainty", formula="u = sqrt(sum of (sensitivity x uncertainty)^2)", substituted=Phrase(sentence, *parts),
        value=width(figure.uncertainty), rule=rules.PROPAGATION.id,
    )  # fmt: skip


Figures = list[tuple[str, str, Estimate | None, type[Quantity], type[Quantity], Rule]]


def _figures(worked: Worked) -> Figures:
    """Every figure that was worked out: its name, formula, kinds of value and width, and rule."""
    return [*_of_air(worked), *_of_water(worked), *_of_heat(worked), *_of_refrigerant(worked), *_of_tightness(worked), *_of_drain(worked)]


def _of_air(worked: Worked) -> Figures:
    air = worked.air
    if air is None:
        return []
    static, heat = rules.EXTERNAL_STATIC, TemperatureDifference
    flows: Figures = [
        (f"airflow by {AIRFLOW_WAY[way]}", HOW_AIRFLOW[way][0], flow, Airflow, Airflow, HOW_AIRFLOW[way][1]) for way, flow in air.airflows.items()
    ]
    return [
        ("external static pressure", "return suction + supply pressure", air.total_static, AirPressure, AirPressure, static),
        ("external static pressure, dirty filter", "total - clean drop + dirty drop", air.dirty_static, AirPressure, AirPressure, static),
        *flows,
        ("airflow, dirty filter", "q = table(static with dirty filter)", air.dirty_airflow, Airflow, Airflow, BLOWER_TABLE),
        ("temperature split", "warm dry bulb - cold dry bulb", air.split, heat, heat, rules.AIR_HEAT),
    ]


def _of_water(worked: Worked) -> Figures:
    water = worked.water
    if water is None:
        return []
    flows: Figures = [
        (f"water flow by {WATER_FLOW_WAY[way]}", HOW_WATER[way][0], flow, WaterFlow, WaterFlow, HOW_WATER[way][1])
        for way, flow in water.flows.items()
    ]
    return [
        ("water temperature change", "warm - cold", water.change, TemperatureDifference, TemperatureDifference, rules.WATER_HEAT),
        ("coil pressure drop", "difference flowing - difference standing", water.drop, PressureDrop, PressureDrop, rules.COIL),
        *flows,
    ]


def _of_heat(worked: Worked) -> Figures:
    heat = worked.heat
    return [
        ("sensible heat, air side", "q x heat capacity per volume x split", heat.sensible, Power, Power, rules.AIR_HEAT),
        ("total heat, air side", "q x dry mass per volume x difference of enthalpy", heat.air, Power, Power, rules.AIR_HEAT),
        ("heat, water side", "q rho cp dT", heat.water, Power, Power, rules.WATER_HEAT),
        ("water-side heat to expect", "air heat + power in cooling, air heat - power in heating", heat.expected_water, Power, Power, rules.BALANCE),
        ("left over between the sides", "water heat - heat to expect", heat.left_over, Power, Power, rules.BALANCE),
    ]


def _of_refrigerant(worked: Worked) -> Figures:
    found = worked.refrigerant
    if found is None:
        return []
    difference = TemperatureDifference
    return [
        ("dew point", "T_dew(gauge + atmosphere); sensitivity dT/dp is the curve's slope", found.dew, Temperature, difference, BUBBLE_AND_DEW),
        ("superheat", "suction line - dew point", found.superheat, difference, difference, BUBBLE_AND_DEW),
        (
            "bubble point",
            "T_bubble(gauge + atmosphere); sensitivity dT/dp is the curve's slope",
            found.bubble,
            Temperature,
            difference,
            BUBBLE_AND_DEW,
        ),
        ("subcooling", "bubble point - liquid line", found.subcooling, difference, difference, BUBBLE_AND_DEW),
    ]


def _of_tightness(worked: Worked) -> Figures:
    found = worked.tightness
    if found is None:
        return []
    return [
        ("first pressure by gauge", "as read", found.first, GaugePressure, PressureDrop, rules.GAS_LAW),
        ("pressure drop, corrected", "p1 T2/T1 - p2, absolute", found.drop, PressureDrop, PressureDrop, rules.GAS_LAW),
    ]


def _of_drain(worked: Worked) -> Figures:
    found = worked.drain
    if found is None:
        return []
    return [
        ("pan pressure as a height of water", "P + growth of the filter's drop", found.pressure, Dimension, Dimension, rules.TRAP_BALANCE),
        ("water drained", "volume poured / time", found.rate, WaterFlow, WaterFlow, limits.POUR),
        ("water lost", "poured - caught", found.lost, Volume, Volume, limits.POUR),
    ]
