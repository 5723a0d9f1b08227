"""The checks on what shuts things off: the level switch that stops the unit, and the leak sensor that stops the loop's water."""

from kneewall.calculations.condensate_drain import rules
from kneewall.calculations.condensate_drain.codes import CodeText
from kneewall.calculations.condensate_drain.messages import AuxiliaryPan, LevelSwitch
from kneewall.calculations.condensate_drain.results import PanAnswer
from kneewall.kernel.answer import Findings, Verdict
from kneewall.kernel.phrase import Phrase


def check_switch(findings: Findings, asked: AuxiliaryPan, code: CodeText) -> None:
    """A level switch that is the protection, or a part of it: whether it trips between outlet and rim, and what it stops."""
    alone, switch = asked.protection == "switch-only", asked.switch
    if switch is None:
        if asked.protection == "pan-and-switch":
            says = Phrase("Of the level switch in the pan nothing is said: see that it trips below the rim and stops the unit.")
            findings.check("level switch", "watch", rules.LEVEL_SWITCH, says)
        return
    wrong = _wrong(switch, alone)
    open_points = _not_said(switch, alone)
    if wrong:
        says = Phrase("The level switch {}: it protects nothing.", " and ".join(wrong))
        findings.check("level switch", "fails", rules.LEVEL_SWITCH, says, actual=switch.below_rim)
    elif open_points:
        says = Phrase("Of the level switch it is not said {}: find out, and try it with water.", " nor ".join(open_points))
        findings.check("level switch", "watch", rules.LEVEL_SWITCH, says, actual=switch.below_rim)
    elif alone:
        says = Phrase(
            "The level switch trips {} above the outlet of the first drain and {} below the rim, and stops the unit; over a finished ceiling add a pan.",
            switch.above_outlet, switch.below_rim,
        )  # fmt: skip
        findings.check("level switch", "meets", code.protection, says, actual=switch.below_rim)
    else:
        says = Phrase("The level switch trips {} below the pan's rim and stops the unit.", switch.below_rim)
        findings.check("level switch", "meets", rules.LEVEL_SWITCH, says, actual=switch.below_rim)


def _wrong(switch: LevelSwitch, alone: bool) -> list[str]:
    found = []
    if alone and switch.above_outlet is not None and switch.above_outlet <= 0.0:
        found.append("trips no higher than the outlet, so the unit stops with every drain of water")
    if switch.below_rim is not None and switch.below_rim <= 0.0:
        found.append("trips when the water already runs over the rim")
    if switch.stops_unit is False:
        found.append("does not stop the unit")
    return found


def _not_said(switch: LevelSwitch, alone: bool) -> list[str]:
    found = []
    if alone and switch.above_outlet is None:
        found.append("how far above the outlet it trips")
    if switch.below_rim is None:
        found.append("how far below the rim it trips")
    if switch.stops_unit is None:
        found.append("whether it stops the unit")
    return found


def check_leak(findings: Findings, asked: AuxiliaryPan, found: PanAnswer) -> None:
    """A leak of the loop: the pan does not hold it, and only a valve between supply and break stops it. Source: condensate-drain.loop-leak."""
    if found.volume is None:
        if asked.loop_flow is None and not asked.leak_shutoff:
            return
        filling = Phrase("There is no pan in which loop water would gather and a sensor could lie.")
    else:
        sentence = "The pan holds {} and fills in {} at {} of loop water; a 3/4 in pan drain takes {} away at best."
        filling = Phrase(sentence, found.volume, found.fills_with_loop_leak, found.loop_flow, found.pan_drain_capacity)
    verdict, end = _after_a_leak(asked)
    findings.check("loop leak", verdict, rules.LOOP_LEAK, Phrase("{} {}", filling, end), actual=found.fills_with_loop_leak)
    if asked.leak_shutoff and asked.leak_valve != "leaving-side":
        _check_rest(findings, asked)


def _after_a_leak(asked: AuxiliaryPan) -> tuple[Verdict, str]:
    if not asked.leak_shutoff:
        if asked.loop_flow is None:
            return "watch", "If the unit is on a water loop, fit a leak sensor that closes a valve before the unit and stops compressor and pump."
        return "fails", (
            "Fit a leak sensor that closes a valve between supply and unit and stops compressor and pump: the pan protects against condensate only."
        )
    if asked.leak_valve is None:
        return "watch", (
            "Say where the valve stands that the sensor shuts: only one between supply and unit stops a broken hose, one behind the unit leaves it under pressure."
        )
    if asked.leak_valve == "leaving-side":
        return "fails", (
            "The valve that the sensor shuts stands behind the unit: a broken hose stays on the supply's pressure and runs on. Put one between supply and unit."
        )
    if asked.leak_valve == "supply-side":
        return "watch", (
            "The valve between supply and unit stops what comes from the supply; where another unit or a discharge under pressure can push water back, the return "
            "wants a check valve or a second valve. It must close well before the pan is full: try it."
        )
    return "meets", "The sensor shuts both sides of the unit. That must be done well before the pan is full: try it."


def _check_rest(findings: Findings, asked: AuxiliaryPan) -> None:
    """How the valve stands without power."""
    if asked.leak_valve_rests == "closed":
        says = Phrase("The valve that the leak sensor shuts is closed without power.")
        findings.check("leak valve at rest", "meets", rules.LEAK_VALVE, says, actual="closed")
    elif asked.leak_valve_rests == "open":
        says = Phrase(
            "The valve that the leak sensor shuts is open without power: a wet board, a blown fuse or a power failure leaves the break running. Take one that is "
            "closed without power."
        )
        findings.check("leak valve at rest", "fails", rules.LEAK_VALVE, says, actual="open")
    else:
        says = Phrase("Say how the valve stands without power that the leak sensor shuts: one that is closed then needs nothing to stop the water.")
        findings.check("leak valve at rest", "watch", rules.LEAK_VALVE, says)
