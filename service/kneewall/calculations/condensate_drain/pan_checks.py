"""The checks on what keeps the house dry where the first drain blocks: auxiliary pan, switch and pump."""

from kneewall.calculations.condensate_drain import rules
from kneewall.calculations.condensate_drain.codes import LEAST_SIZE, LEAST_SLOPE, CodeText
from kneewall.calculations.condensate_drain.messages import AuxiliaryPan, CondensateDrainQuestion, PanDrain, PanOffered
from kneewall.calculations.condensate_drain.results import DrainPump, PanAnswer
from kneewall.calculations.condensate_drain.switch_checks import check_leak, check_switch
from kneewall.kernel.answer import EQUAL_WITHIN, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length
from kneewall.kernel.words import in_words


def check_pan(findings: Findings, asked: AuxiliaryPan, found: PanAnswer, code: CodeText) -> None:
    """The pan's size by the code, its reach under the trap, the way of protection, and a loop leak."""
    if asked.protection is None:
        says = Phrase("Choose one of the code's ways: pan-and-drain, second-drain, pan-and-switch or switch-only.")
        findings.check("protection", "watch", code.protection, says)
    elif missing := [name for name in _NEEDS[asked.protection] if getattr(asked, name) is None]:
        says = Phrase("{} was chosen, but nothing of it was checked: give the {}.", asked.protection, " and the ".join(missing))
        findings.check("protection", "refer", code.protection, says, actual=asked.protection)
    elif asked.protection == "pan-and-switch":
        findings.apply(rules.PAN_AND_SWITCH)
        findings.check(
            "protection", "meets", code.protection, Phrase("A pan with a level switch is one of the code's ways."), actual=asked.protection
        )
    else:
        findings.apply(rules.PAN_AND_SWITCH)
        says = Phrase("{} is one of the code's ways; over a finished ceiling add what is missing to a pan and a float switch.", asked.protection)
        findings.check("protection", "meets", code.protection, says, actual=asked.protection)
    if code.pan is None:
        says = Phrase("{} has no size, depth or sheet for the pan: ask the authority.", code.name)
        findings.check("pan size", "refer", code.pan_rule, says)
    else:
        findings.apply(code.pan_rule)
    if asked.drain is not None and found.drain_end is not None:
        _check_drain(findings, asked.drain, found.drain_end, code)
    if asked.pan is not None:
        if code.pan is not None:
            _check_size(findings, asked.pan, found, code)
        if found.length_over_trap is not None:
            _check_reach(findings, asked, asked.pan, found.length_over_trap)
    check_switch(findings, asked, code)
    check_leak(findings, asked, found)


_NEEDS: dict[str, tuple[str, ...]] = {
    "pan-and-drain": ("pan", "drain"),
    "second-drain": ("drain",),
    "pan-and-switch": ("pan",),
    "switch-only": ("switch",),
}


def _check_reach(findings: Findings, asked: AuxiliaryPan, pan: PanOffered, least: Dimension) -> None:
    reach, beyond = asked.trap_reach, Dimension((pan.length - asked.unit.length) / 2.0)
    if reach is not None and pan.length >= least * (1.0 - EQUAL_WITHIN) and beyond < reach * (1.0 - EQUAL_WITHIN):
        says = Phrase("The pan, {} long, takes in the trap only if it is shifted towards it: centered it reaches {} beyond the unit, and the trap {}.",
                      pan.length, beyond, reach)  # fmt: skip
        findings.check("trap over the pan", "watch", rules.TRAP_OVER_PAN, says, actual=beyond, limit=reach)
        return
    findings.at_least(
        "trap over the pan", pan.length, least, rules.TRAP_OVER_PAN, otherwise="watch",
        meets="The pan is {} long and takes in the trap, {}.",
        breaks="The pan is {} long and the trap wants {}: a drip from the trap lands on the ceiling.",
    )  # fmt: skip


def _check_size(findings: Findings, pan: PanOffered, found: PanAnswer, code: CodeText) -> None:
    sides = (("length", pan.length, found.minimum_length, found.cautious_length), ("width", pan.width, found.minimum_width, found.cautious_width))
    for name, actual, least, cautious in sides:
        assert least is not None and cautious is not None
        if least * (1.0 - EQUAL_WITHIN) <= actual < cautious * (1.0 - EQUAL_WITHIN):
            says = Phrase(
                "The pan's {} is {}: enough where the 3 in are a total ({}), too little where the authority wants them on every side ({}). Ask.",
                name, actual, least, cautious,
            )  # fmt: skip
            findings.check(f"pan {name}", "watch", code.pan_rule, says, actual=actual, limit=cautious)
            continue
        findings.at_least(
            f"pan {name}", actual, least if actual < cautious * (1.0 - EQUAL_WITHIN) else cautious, code.pan_rule,
            meets="The pan measures {}, at least {}: 3 in beyond the unit on every side.",
            breaks="The pan measures {}, less than the {} of the code: 3 in more than the unit.",
        )  # fmt: skip
    assert found.minimum_depth is not None
    findings.at_least(
        "pan depth", pan.depth, found.minimum_depth, code.pan_rule,
        meets="The pan is {} deep, at least {}.",
        breaks="The pan is {} deep, less than the {} of the code.",
    )  # fmt: skip
    if pan.thickness is not None and found.minimum_thickness is not None:
        findings.at_least(
            "pan sheet", pan.thickness, found.minimum_thickness, code.pan_rule,
            meets="The sheet is {} thick, at least {}.",
            breaks="The sheet is {} thick, less than the {} of the code for this material.",
        )  # fmt: skip
    elif found.minimum_thickness is None:
        says = Phrase("{} has no thickness for {}; it must resist corrosion.", code.name, in_words(pan.material))
        findings.check("pan sheet", "refer", code.pan_rule, says)


def _check_drain(findings: Findings, drain: PanDrain, end: Length, code: CodeText) -> None:
    findings.at_least(
        "pan drain size", drain.nominal_size, LEAST_SIZE, code.protection,
        meets="The pan's own drain is {}, at least {}.",
        breaks="The pan's own drain is {}, under the {} of the code.",
    )  # fmt: skip
    findings.at_least(
        "pan drain slope", drain.slope, LEAST_SLOPE, code.slope,
        meets="The pan's own drain falls {}, at least {}.",
        breaks="The pan's own drain falls {}, less than {}.",
    )  # fmt: skip
    holds = end >= drain.end - 1e-9
    sentence = "The pan's own drain ends at {} and comes out at {}: it falls there." if holds else (
        "The pan's own drain would end at {}, below the {} where it comes out: raise the pan, or take a pan with a switch."
    )  # fmt: skip
    findings.check("pan drain end", "meets" if holds else "fails", rules.FALL, Phrase(sentence, end, drain.end), actual=end, limit=drain.end)


def check_pump(findings: Findings, question: CondensateDrainQuestion, found: DrainPump, code: CodeText) -> None:
    """Whether a pump that is needed or there stops the unit when it fails, and lifts high enough."""
    pump = question.pump
    if not found.needed and pump is None:
        return
    findings.apply(rules.PUMP_LIFT)
    required = question.surroundings.place in code.pump_place
    if pump is None or pump.stops_unit is None:
        verdict = "watch"
        says = Phrase("A pump must lift {}; wire it so that the unit stops when the pump fails.", found.static_lift)
    elif pump.stops_unit:
        verdict, says = "meets", Phrase("The unit stops when the pump fails; the pump lifts {}.", found.static_lift)
    else:
        verdict = "fails" if required else "watch"
        says = Phrase("The unit runs on when the pump fails: wire the pump's high-level switch to stop it.")
    findings.check("pump interlock", verdict, code.pump, says, actual=None if pump is None else pump.stops_unit)  # type: ignore[arg-type]
    if pump is not None and pump.rated_lift is not None and found.static_lift is not None:
        findings.at_least(
            "pump lift", pump.rated_lift, found.static_lift, rules.PUMP_LIFT,
            meets="The pump moves the water up to {} and must lift {}, losses in its tube not counted.",
            breaks="The pump moves the water up to {} and must lift {}: take a stronger one.",
        )  # fmt: skip
