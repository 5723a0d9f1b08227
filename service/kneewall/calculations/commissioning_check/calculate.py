"""A commissioning check: each part worked out from its readings, the parts held against each other, the figures against design."""

from dataclasses import dataclass

from kneewall.calculations.commissioning_check import cautions, rules
from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.accuracy import USUAL_UNCERTAINTY
from kneewall.calculations.commissioning_check.air_side import AirSide, work_out_air
from kneewall.calculations.commissioning_check.answered import CommissioningCheckResult
from kneewall.calculations.commissioning_check.checks_of_air import check_air
from kneewall.calculations.commissioning_check.checks_of_drain import check_drain
from kneewall.calculations.commissioning_check.checks_of_refrigerant import check_refrigerant, check_tightness
from kneewall.calculations.commissioning_check.checks_of_water import check_heat, check_water
from kneewall.calculations.commissioning_check.describe import describe, is_empty
from kneewall.calculations.commissioning_check.drain import Drain, work_out_drain
from kneewall.calculations.commissioning_check.estimate import Readings
from kneewall.calculations.commissioning_check.heat import Heat, work_out_heat
from kneewall.calculations.commissioning_check.refrigerant_side import RefrigerantSide, work_out_refrigerant
from kneewall.calculations.commissioning_check.tightness import Tightness, work_out_tightness
from kneewall.calculations.commissioning_check.water_side import WaterSide, work_out_water
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.refusal import Fault, fault, refuse, refuse_any
from kneewall.kernel.words import field_in_words
from kneewall.physics.air import MOIST_AIR
from kneewall.physics.refrigerant import refrigerant_named

PARTS = ("air_side", "water_side", "refrigerant_side", "tightness", "condensate")


@dataclass(slots=True)
class Worked:
    """Everything worked out, part by part; None where a part was not asked."""

    air: AirSide | None
    water: WaterSide | None
    heat: Heat
    refrigerant: RefrigerantSide | None
    tightness: Tightness | None
    drain: Drain | None
    missing: list[str]

    def parts(self) -> list[AirSide | WaterSide | RefrigerantSide | Tightness | Drain]:
        """The parts that were asked, in the order of the question."""
        return [part for part in (self.air, self.water, self.refrigerant, self.tightness, self.drain) if part is not None]

    def readings(self) -> list[Readings]:
        """The readings of each part that was asked."""
        return [part.readings for part in self.parts()]


def check_commissioning(question: m.CommissioningCheckQuestion) -> Answer[CommissioningCheckResult]:
    """Answer a commissioning check. Raises: Refusal where a part contradicts itself or nothing can be worked out."""
    worked = work_out(question)
    findings = Findings("commissioning-check")
    findings.apply(rules.PROPAGATION, rules.BAND)
    _check(findings, question, worked)
    usual = [f"{field_in_words(one.part)}: {reading.name}" for one in worked.readings() for reading in one.taken.values() if not reading.stated]
    missing = _missing(worked)
    result = describe(question, worked.air, worked.water, worked.heat, worked.refrigerant, worked.tightness, worked.drain, missing, usual)
    if not findings.checks and is_empty(result):
        raise refuse("", "nothing can be worked out from this yet. {}", " ".join(missing))
    if usual:
        findings.apply(USUAL_UNCERTAINTY)
    _caution(findings, question)
    return findings.answer(result)


def work_out(question: m.CommissioningCheckQuestion) -> Worked:
    """Every part that was asked, then the heat of both sides. Raises: Refusal."""
    faults: list[Fault] = []
    altitude = question.altitude or 0.0
    asked = question
    air = None if asked.air_side is None else work_out_air(asked.air_side, asked.mode, asked.altitude, faults)
    water = None if asked.water_side is None else work_out_water(asked.water_side, asked.mode, faults)
    refrigerant = None if asked.refrigerant_side is None else work_out_refrigerant(asked.refrigerant_side, altitude, faults)
    tightness = None if asked.tightness is None else work_out_tightness(asked.tightness, altitude, faults)
    drain = None if asked.condensate is None else work_out_drain(asked.condensate, None if air is None else air.filter_growth)
    if all(part is None for part in (air, water, refrigerant, tightness, drain)):
        faults.append(fault("", "give what was measured: at least one of {}", ", ".join(PARTS)))
    if (
        asked.tightness is not None
        and asked.refrigerant_side is not None
        and asked.tightness.refrigerant not in (None, asked.refrigerant_side.refrigerant)
    ):
        faults.append(
            fault(
                "/tightness/refrigerant", "is {}, but the refrigerant side says {}", asked.tightness.refrigerant, asked.refrigerant_side.refrigerant
            )
        )
    refuse_any(faults)
    missing: list[str] = []
    heat = work_out_heat(air, water, asked.mode, missing) if air is not None or water is not None else Heat()
    return Worked(air, water, heat, refrigerant, tightness, drain, missing)


def refrigerant_of(question: m.CommissioningCheckQuestion) -> str | None:
    """The refrigerant, wherever it is named."""
    if question.refrigerant_side is not None:
        return question.refrigerant_side.refrigerant
    return None if question.tightness is None else question.tightness.refrigerant


def _check(findings: Findings, question: m.CommissioningCheckQuestion, worked: Worked) -> None:
    """The checks in the order of the job: tight lines, air, water, heat, charge, drain."""
    if worked.tightness is not None and question.tightness is not None:
        check_tightness(findings, question.tightness, refrigerant_of(question), worked.tightness)
    if worked.air is not None and question.air_side is not None:
        check_air(findings, question, question.air_side, worked.air)
        if question.air_side.split is not None:
            findings.apply(MOIST_AIR)
    if worked.water is not None and question.water_side is not None:
        check_water(findings, question, question.water_side, worked.water)
    if worked.air is not None or worked.water is not None:
        check_heat(findings, question, worked.heat, worked.missing)
    if worked.refrigerant is not None and question.refrigerant_side is not None:
        check_refrigerant(findings, question, question.refrigerant_side, worked.refrigerant)
    if worked.drain is not None and question.condensate is not None:
        check_drain(findings, question, question.condensate, worked.drain, worked.heat.condensate)


def _missing(worked: Worked) -> list[str]:
    """Everything that could not be held against anything, each once."""
    every = [*(one for part in worked.parts() for one in part.missing), *worked.missing]
    return list(dict.fromkeys(every))


def _caution(findings: Findings, question: m.CommissioningCheckQuestion) -> None:
    findings.caution(cautions.ATTIC)
    if question.air_side is not None or question.water_side is not None:
        findings.caution(cautions.LIVE, cautions.COIL_FREEZES)
    if question.water_side is not None:
        findings.caution(cautions.WATER_PRESSURE)
    if question.refrigerant_side is not None:
        findings.caution(cautions.AIRFLOW_FIRST, cautions.REFRIGERANT)
    if question.tightness is not None:
        findings.caution(cautions.NITROGEN, cautions.CODE)
    if question.condensate is not None:
        findings.caution(cautions.CEILING)
    name = refrigerant_of(question)
    if name is not None and refrigerant_named(name).safety_group != "A1":  # type: ignore[arg-type]
        findings.caution(cautions.FLAMMABLE)
