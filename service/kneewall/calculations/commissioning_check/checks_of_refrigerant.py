"""The refrigerant side against its targets, and the proof of tightness."""

from kneewall.calculations.commissioning_check import limits, rules
from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.banded import Banded
from kneewall.calculations.commissioning_check.judging import judge
from kneewall.calculations.commissioning_check.refrigerant_side import RefrigerantSide
from kneewall.calculations.commissioning_check.tests_asked import CommissioningEvacuation, CommissioningPressureTest, CommissioningTightness
from kneewall.calculations.commissioning_check.tightness import Tightness
from kneewall.kernel.answer import EQUAL_WITHIN, Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import GaugePressure, PressureDrop, TemperatureDifference, Vacuum
from kneewall.physics.air import MOIST_AIR
from kneewall.physics.refrigerant import BUBBLE_AND_DEW, PROPERTIES, refrigerant_named


def check_refrigerant(
    findings: Findings, question: m.CommissioningCheckQuestion, given: m.CommissioningRefrigerantSide, found: RefrigerantSide
) -> None:
    """Superheat and subcooling: one phase in each line, then the targets of the metering device."""
    findings.apply(PROPERTIES, BUBBLE_AND_DEW, MOIST_AIR)
    if given.running_time is None:
        found.missing.append("Steady running: give refrigerant side › running time.")
    else:
        findings.at_least(
            "steady running", given.running_time, limits.STEADY_AFTER, limits.STEADY,
            meets="It had run for {}, at least the {} that readings need to settle.",
            breaks="It had run for {} only: let it run for {} and read again.",
        )  # fmt: skip
    _one_phase(findings, found)
    if given.metering == "expansion-valve":
        _expansion_valve(findings, question.role, given, found)
    else:
        _fixed_orifice(findings, question.role, given, found)
    failed = {check.check for check in findings.checks if check.verdict == "fails"}
    if (found.superheat or found.subcooling) and failed & {"airflow", "airflow per ton", "water flow", "least water flow"}:
        says = Phrase(
            "Air or water flow is out of its limits: set that right first, then read superheat and subcooling again before touching the charge."
        )
        findings.check("charge after flows", "watch", limits.FLOWS_FIRST, says)


def _one_phase(findings: Findings, found: RefrigerantSide) -> None:
    if found.superheat is not None:
        judge(
            findings, "vapor in the suction line", found.superheat, TemperatureDifference, limits.ONE_PHASE, least=0.0,
            meets="The suction line is {} above its dew point: vapor only.",
            below="The suction line reads {} of superheat: liquid is coming back to the compressor, or a reading is wrong. Stop and find out.",
            unsure="Liquid may be coming back to the compressor.",
        )  # fmt: skip
    if found.subcooling is not None:
        judge(
            findings, "liquid in the liquid line", found.subcooling, TemperatureDifference, limits.ONE_PHASE, least=0.0,
            meets="The liquid line is {} below its bubble point: liquid only.",
            below="The liquid line reads {} of subcooling: it carries gas, or a reading is wrong.",
            unsure="The line may carry gas.",
        )  # fmt: skip


def _expansion_valve(findings: Findings, role: m.Role, given: m.CommissioningRefrigerantSide, found: RefrigerantSide) -> None:
    if found.superheat is not None:
        least, most = limits.VALVE_BETWEEN[role]
        judge(
            findings, "superheat", found.superheat, TemperatureDifference, limits.SUPERHEAT_VALVE, least=least, most=most,
            meets="Superheat is {}, between {} and {}: the valve controls.",
            below="Superheat is {}, below {}: the valve lets too much through, its bulb is loose, or there is too little air.",
            above="Superheat is {}, above {}: too little refrigerant gets to the coil. Look for lost charge, a choked filter-drier, a closed valve.",
        )  # fmt: skip
    if found.subcooling is None:
        return
    if given.target_subcooling is None:
        found.missing.append("Subcooling against target: give refrigerant side › target subcooling from the nameplate.")
        return
    within = limits.SUBCOOLING_WITHIN[role]
    judge(
        findings, "subcooling", found.subcooling, TemperatureDifference, limits.SUBCOOLING,
        least=given.target_subcooling - within, most=given.target_subcooling + within,
        meets="Subcooling is {}, between {} and {}.",
        below="Subcooling is {}, below {}: there is too little charge. Find the leak before adding any.",
        above="Subcooling is {}, above {}: there is too much charge, or something chokes the liquid line.",
    )  # fmt: skip


def _fixed_orifice(findings: Findings, role: m.Role, given: m.CommissioningRefrigerantSide, found: RefrigerantSide) -> None:
    if found.superheat is None:
        return
    if given.target_superheat is None:
        found.missing.append(
            "Superheat against target: give refrigerant side › target superheat from the maker's chart; where the chart shows a dash, do not charge."
        )
        return
    within = limits.ORIFICE_WITHIN[role]
    judge(
        findings, "superheat", found.superheat, TemperatureDifference, limits.SUPERHEAT_ORIFICE,
        least=given.target_superheat - within, most=given.target_superheat + within,
        meets="Superheat is {}, between {} and {}.",
        below="Superheat is {}, below {}: there is too much charge or too little air.",
        above="Superheat is {}, above {}: there is too little charge. Find the leak before adding any.",
    )  # fmt: skip


_TEST_GAS = {
    "dry-nitrogen": "Tested with dry nitrogen.",
    "oxygen": "Never test with oxygen: with oil it explodes. Use dry nitrogen.",
    "air": "Do not test with air: its oxygen and moisture stay in the lines. Use dry nitrogen.",
    "other": "Do not test with another gas: some burn or explode, and some spoil the oil. Use dry nitrogen.",
}


def check_tightness(findings: Findings, given: CommissioningTightness, refrigerant: str | None, found: Tightness) -> None:
    """The standing pressure test and the standing vacuum."""
    if given.pressure_test is not None and found.drop is not None and found.first is not None:
        _hold(findings, given.pressure_test, refrigerant, found)
        _drop(findings, given.pressure_test, found)
    if given.evacuation is not None:
        burns = refrigerant is not None and refrigerant_named(refrigerant).safety_group != "A1"  # type: ignore[arg-type]
        _vacuum(findings, given.evacuation, found, burns)


def _hold(findings: Findings, test: CommissioningPressureTest, refrigerant: str | None, found: Tightness) -> None:
    assert found.first is not None and found.highest is not None
    findings.apply(rules.GAS_LAW)
    first = GaugePressure(found.first.value)
    nitrogen = test.gas == "dry-nitrogen"
    says = _TEST_GAS[test.gas]
    findings.check("test gas", "meets" if nitrogen else "fails", limits.TEST_GAS, Phrase(says))
    if test.required_pressure is None:
        found.missing.append("Test pressure: give tightness › pressure test › required pressure, the design pressure of that side.")
        band = Banded(first, PressureDrop(found.first.uncertainty))
        enough = Phrase("Tested at {}: the unit's plate and the local code say whether that is enough.", band)
        findings.check("test pressure", "refer", limits.HOLD, enough, actual=first)
    else:
        judge(
            findings, "test pressure", found.first, GaugePressure, limits.HOLD, least=test.required_pressure, width=PressureDrop,
            meets="Tested at {}, at least the {} that is asked for.",
            below="Tested at {}, less than the {} that is asked for: test again at full pressure.",
        )  # fmt: skip
    if test.highest_pressure is not None:
        judge(
            findings, "highest pressure", found.highest, GaugePressure, limits.HOLD, most=test.highest_pressure, width=PressureDrop,
            meets="It never stood above {}, within the {} that the weakest part allows.",
            above="It stood at {}, above the {} that the weakest part allows: have that part checked before the system runs.",
        )  # fmt: skip
    burns = refrigerant is None or refrigerant_named(refrigerant).safety_group != "A1"  # type: ignore[arg-type]
    limit = test.required_duration or (limits.HOLD_FLAMMABLE if burns else limits.HOLD_OTHER)
    findings.at_least(
        "holding time", test.duration, limit, limits.HOLD,
        meets="It stood for {}, at least {}.", breaks="It stood for {} only: let it stand for {}.",
    )  # fmt: skip


def _drop(findings: Findings, test: CommissioningPressureTest, found: Tightness) -> None:
    """With an allowed drop its band decides. Without, any drop beyond its uncertainty is a leak, and a small one must have been visible."""
    assert found.drop is not None and found.expected is not None
    drop, expected = found.drop, found.expected
    if test.allowed_drop is not None:
        judge(
            findings, "pressure drop", drop, PressureDrop, limits.NO_DROP, most=test.allowed_drop,
            meets="Corrected for temperature it lost {}, within the {} allowed.",
            above="Corrected for temperature it lost {}, more than the {} allowed: there is a leak.",
        )  # fmt: skip
        return
    band = Banded(PressureDrop(drop.value), PressureDrop(drop.uncertainty))
    visible = limits.DROP_TO_BE_SEEN * expected.value
    slack = EQUAL_WITHIN * expected.value
    verdict: Verdict = "watch"
    if drop.low > slack:
        verdict, says = (
            "fails",
            "Corrected for temperature it lost {}, more than the readings explain: there is a leak. Find it with bubbles, joint by joint.",
        )
    elif drop.high < -slack:
        says = "Corrected for temperature it lost {}, which is a gain: the gas was not at the temperatures read, or the bottle was still open."
    elif drop.value > found.gauge_step + slack:
        says = "Corrected for temperature it lost {}: the gauge shows a loss, and the readings are too coarse to tell a leak from none. Hold longer or read closer."
    elif drop.high > visible + slack:
        says = "A loss of {} proves no leak, but one of {} cannot be excluded either: hold longer or read closer."
    else:
        verdict, says = "meets", "Corrected for temperature a loss of {} is none, and one of {} would have been seen."
    limit = PressureDrop(drop.uncertainty if abs(drop.value) > drop.uncertainty else visible)
    findings.check("pressure drop", verdict, limits.NO_DROP, Phrase(says, band, limit), actual=PressureDrop(drop.value), limit=limit)


def _vacuum(findings: Findings, given: CommissioningEvacuation, found: Tightness, burns: bool) -> None:
    assert found.reached is not None
    rule, risen_to, stands = (
        (limits.VACUUM_FLAMMABLE, limits.RISEN_TO_FLAMMABLE, limits.STANDS_FLAMMABLE) if burns else (limits.VACUUM, limits.RISEN_TO, limits.STANDS)
    )
    judge(
        findings, "vacuum", found.reached, Vacuum, rule, most=given.required_vacuum or limits.DRAWN_TO,
        meets="Drawn down to {}, within {}.",
        above="Drawn down to {} only, not to {}: change the pump's oil, shorten the hoses, take the cores out, look for a leak.",
    )  # fmt: skip
    if found.risen_to is None or given.duration is None:
        return
    judge(
        findings, "standing vacuum", found.risen_to, Vacuum, rule, most=given.allowed_rise_to or risen_to,
        meets="Shut off it stood at {} at the end, within {}.",
        above="Shut off it rose to {}, beyond {}: a rise that levels off is moisture, one that goes on is a leak.",
    )  # fmt: skip
    findings.at_least(
        "standing time", given.duration, given.required_duration or stands, rule,
        meets="It stood for {}, at least {}.", breaks="It stood for {} only: let it stand for {} with the pump shut off.",
    )  # fmt: skip
