"""The heights of the second protection: a second outlet above the first, the pan below the unit."""

from kneewall.calculations.condensate_drain import rules
from kneewall.calculations.condensate_drain.codes import CodeText
from kneewall.calculations.condensate_drain.messages import AuxiliaryPan, DrainElevations
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length

LEVEL = 1e-9
"""m; heights nearer than that are the same"""


def check_pan_heights(findings: Findings, asked: AuxiliaryPan, elevations: DrainElevations | None, code: CodeText) -> None:
    """Whether a second outlet stands above the first, and the unit above the pan's rim. Source: the code's protection, condensate-drain.pan-rim."""
    if asked.protection == "second-drain":
        _check_second_outlet(findings, asked, elevations, code)
    elif elevations is not None and (asked.pan is not None or asked.drain is not None):
        _check_rim(findings, asked, elevations)


def _check_second_outlet(findings: Findings, asked: AuxiliaryPan, elevations: DrainElevations | None, code: CodeText) -> None:
    if asked.drain is None:
        return
    if elevations is None:
        says = Phrase("Whether the second outlet stands above the first was not checked: give the elevations.")
        findings.check("second outlet", "refer", code.protection, says, actual=asked.drain.outlet)
        return
    above = asked.drain.outlet > elevations.pan_outlet + LEVEL
    says = Phrase(
        "The second outlet stands at {}, above the first at {}." if above
        else "The second outlet stands at {}, not above the first at {}: it would drain the pan every day, and both block alike. Move it up.",
        asked.drain.outlet, elevations.pan_outlet,
    )  # fmt: skip
    findings.check("second outlet", "meets" if above else "fails", code.protection, says, actual=asked.drain.outlet, limit=elevations.pan_outlet)


def _check_rim(findings: Findings, asked: AuxiliaryPan, elevations: DrainElevations) -> None:
    """The pan's floor is taken where its drain leaves, else where the question says; without either there is nothing to compare."""
    pan, drain = asked.pan, asked.drain
    floor = pan.floor if pan is not None and pan.floor is not None else None if drain is None else drain.outlet
    if floor is None:
        return
    rim = Length(floor if pan is None else floor + pan.depth)
    base = elevations.outlet_above_base
    least = Length(elevations.pan_outlet if base is None else elevations.pan_outlet - Dimension(base))
    if base is None:
        sentences = ("The pan's rim is at {}, below the unit's outlet at {}.", "The pan's rim is at {}, not below the unit's outlet at {}: {}")
    else:
        sentences = ("The pan's rim is at {}, below the unit's underside at {}.", "The pan's rim is at {}, not below the unit's underside at {}: {}")
    holds = rim < least - LEVEL
    says = Phrase(sentences[0], rim, least) if holds else Phrase(
        sentences[1], rim, least, "the unit would stand in the water of a full pan. Raise it, or lower the pan."
    )  # fmt: skip
    findings.check("unit above the pan", "meets" if holds else "fails", rules.PAN_RIM, says, actual=rim, limit=least)
