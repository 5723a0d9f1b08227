"""Trap and drain against the suction in the pan and the water they must carry."""

from kneewall.calculations.commissioning_check import limits, rules
from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.banded import Banded
from kneewall.calculations.commissioning_check.drain import Drain
from kneewall.calculations.commissioning_check.estimate import Estimate, combined, difference
from kneewall.calculations.commissioning_check.judging import judge
from kneewall.calculations.commissioning_check.tests_asked import CommissioningCondensate, FanPosition
from kneewall.kernel.answer import EQUAL_WITHIN, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Volume, WaterFlow

COOL_WATER = 999.0
"""kg/m3"""


def check_drain(
    findings: Findings, question: m.CommissioningCheckQuestion, given: CommissioningCondensate, found: Drain, made: Estimate | None
) -> None:
    """Trap heights, pour test, seal and overflow switch; `made` is the condensate, kg/s, that the air gave up."""
    if found.pressure is not None:
        findings.apply(rules.TRAP_BALANCE)
        _trap(findings, given.fan_position, found, found.pressure)
    if found.rate is not None:
        _poured(findings, question.design, found, made)
    _tried(findings, "trap seal held", given.seal_held, found,
           "The trap kept its water with the blower running.",
           "The trap lost its water with the blower running: air passes through the drain and the pan does not empty. Make the trap deeper.",
           "Trap under running blower: say whether it held, condensate › seal held.")  # fmt: skip
    _tried(findings, "overflow switch", given.overflow_switch_stopped_unit, found,
           "Lifting the overflow switch stopped the unit.",
           "Lifting the overflow switch did not stop the unit: wire it into the control circuit before the unit is left alone.",
           "Overflow switch: lift it and say whether the unit stopped, condensate › overflow switch stopped unit.")  # fmt: skip


def _trap(findings: Findings, fan: FanPosition, found: Drain, pressure: Estimate) -> None:
    if fan == "draw-through":
        if found.outlet_drop is not None:
            _height(findings, "trap outlet drop", found.outlet_drop, pressure, 1.0, limits.INCH)
        if found.seal_depth is not None:
            _height(findings, "trap seal", found.seal_depth, pressure, 0.5, limits.HALF_INCH)
    elif found.seal_depth is not None:
        _height(findings, "trap seal", found.seal_depth, pressure, 1.0, limits.HALF_INCH)


def _height(findings: Findings, check: str, height: Estimate, pressure: Estimate, share: float, margin: float) -> None:
    """Below what the water columns need it fails; between that and the usual margin, and where a band straddles either, it is to be watched."""
    need = combined(share * pressure.value, (share, pressure))
    spare = difference(height, need)
    if spare.high < -EQUAL_WITHIN * max(height.value, need.value):
        says = Phrase(
            "It is {}; the pan's pressure needs more than {}: the pan cannot drain or the seal is blown. Hang the unit higher or deepen the trap.",
            Banded(Dimension(height.value), Dimension(spare.uncertainty), least=need.value), Dimension(need.value),
        )  # fmt: skip
        findings.check(check, "fails", rules.TRAP_BALANCE, says, actual=Dimension(height.value), limit=Dimension(need.value))
        return
    # Sensitivities of height less need are the check's band; the limit shown is the need with its margin.
    banded = Estimate(height.value, spare.moved)
    judge(
        findings, check, banded, Dimension, limits.TRAP_INCH_MORE, least=need.value + margin, otherwise="watch",
        meets="It is {}, at least the {} that the pan's pressure and its margin ask for.",
        below="It is {}, less than the {} that the pan's pressure and its margin ask for: it drains as long as nothing changes.",
    )  # fmt: skip


def _poured(findings: Findings, design: m.CommissioningDesign, found: Drain, made: Estimate | None) -> None:
    assert found.rate is not None
    wanted = design.condensate_flow if design.condensate_flow is not None else None if made is None or made.value <= 0.0 else made.value / COOL_WATER
    if wanted is None:
        found.missing.append("Drain against the condensate it must carry: give design › condensate flow.")
    else:
        judge(
            findings, "drain", found.rate, WaterFlow, limits.POUR, least=wanted,
            meets="The drain carried {} with the blower running, at least the {} of condensate.",
            below="The drain carried only {} with the blower running, less than the {} of condensate: look for slope, air lock, a second trap.",
        )  # fmt: skip
    if found.lost is not None:
        _lost(findings, found.lost)


def _lost(findings: Findings, lost: Estimate) -> None:
    missing, band = Volume(lost.value), Volume(lost.uncertainty)
    if lost.low > EQUAL_WITHIN * abs(lost.value):
        says = Phrase(
            "{} of the water poured did not come out, more than the measures' {}: find where it goes before the ceiling shows it.", missing, band
        )
        findings.check("water lost", "fails", limits.POUR, says, actual=missing, limit=band)
    else:
        says = Phrase("All the water poured came out, within the measures' {}.", band)
        findings.check("water lost", "meets", limits.POUR, says, actual=missing, limit=band)


def _tried(findings: Findings, check: str, held: bool | None, found: Drain, yes: str, no: str, untried: str) -> None:
    if held is None:
        found.missing.append(untried)
    else:
        findings.check(check, "meets" if held else "fails", limits.POUR, Phrase(yes if held else no), actual=held)
