"""The checks made on what surrounds the ducts: heat on the way, insulation, sweating."""

from kneewall.calculations.duct_system import rules
from kneewall.calculations.duct_system.heat import share_lost
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult
from kneewall.kernel.answer import Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Number, Power, TemperatureDifference, ThermalResistance
from kneewall.physics.air import Air
from kneewall.physics.ducts import equivalent_diameter

HEAT_USUAL, HEAT_MOST = 0.10, 0.25
SMALL_BELOW = Dimension.of(3, "in")
WANTED_R = {"small": ThermalResistance.of(6, "ft2.h.degF/Btu"), "large": ThermalResistance.of(8, "ft2.h.degF/Btu")}
NAMES = 6
"""So many sections are named in one sentence."""


def check_heat(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, air: Air) -> None:
    """Every check that surroundings and supply air allow."""
    if question.surroundings is None and question.supply_air is None:
        return
    if question.surroundings is None or question.supply_air is None:
        given, missing = ("surroundings", "supply air") if question.supply_air is None else ("supply air", "surroundings")
        says = Phrase("What is said of {} needs what is left out, {}: neither heat on the way nor sweating was worked out.", given, missing)
        findings.check("heat and sweating", "watch", rules.HEAT_GAIN, says)
    else:
        _check_gain(findings, question, result, air)
        _check_sweating(findings, question, result)
    if question.surroundings is not None:
        _check_insulation(findings, question, result)


def _check_gain(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, air: Air) -> None:
    assert question.supply_air is not None
    gain = sum(section.heat_gain or 0.0 for section in result.sections)
    airflow = sum(outlet.airflow for outlet in result.outlets if outlet.side == "supply")
    found = share_lost(gain, airflow * air.density, question.supply_air.temperature)
    if found is None:
        return
    share, room = found
    verdict: Verdict = "meets" if share <= HEAT_USUAL * (1 + 1e-9) else "watch" if share <= HEAT_MOST * (1 + 1e-9) else "fails"
    sentence = "On its way the air {} {}, {} percent of what it carries for rooms at {}."
    if verdict != "meets":
        sentence += " Insulate better, shorten the ducts or bring them inside."
    says = Phrase(sentence, "takes up" if gain > 0 else "gives off", Power(abs(gain)), f"{100 * share:.2g}", room)
    findings.check("heat on the way", verdict, rules.HEAT_SHARE, says, actual=Number(share), limit=HEAT_USUAL)


def _check_insulation(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult) -> None:
    sizes = {section.id: section.size for section in result.sections}
    thin = []
    for section in question.sections:
        wanted = WANTED_R["small" if equivalent_diameter(sizes[section.id]) < SMALL_BELOW * (1 - 1e-9) else "large"]
        if (0.0 if section.insulation is None else section.insulation.nominal_r) < wanted * (1 - 1e-9):
            thin.append(section.id)
    if thin:
        sentence = "{} of {} sections are insulated with less than the {} that energy codes usually ask for in attics ({}): ask the local code; in a crawl space it may ask for less."
        says = Phrase(sentence, str(len(thin)), str(len(question.sections)), WANTED_R["large"], named(thin))
        findings.check("insulation", "refer", rules.ATTIC_INSULATION, says, limit=WANTED_R["large"])
    else:
        says = Phrase("Every section carries at least the {} that energy codes usually ask for in attics.", WANTED_R["large"])
        findings.check("insulation", "meets", rules.ATTIC_INSULATION, says, limit=WANTED_R["large"])


def named(sections: list[str]) -> str:
    """The first of these names, and how many more there are."""
    more = len(sections) - NAMES
    return ", ".join(sections[:NAMES]) + (f" and {more} more" if more > 0 else "")


def _check_sweating(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult) -> None:
    around = question.surroundings
    if around is None or around.dew_point is None:
        return
    cooled = [section for section in result.sections if section.surface_temperature is not None]
    wet = [section for section in cooled if section.surface_temperature is not None and section.surface_temperature <= around.dew_point]
    if cooled and not wet:
        coldest = min(section.surface_temperature for section in cooled if section.surface_temperature is not None)
        margin = TemperatureDifference(coldest - around.dew_point)
        findings.check(
            "sweating",
            "meets",
            rules.SWEATING,
            Phrase("The coldest surface, {}, stays {} above the dew point of {}.", coldest, margin, around.dew_point),
            actual=coldest,
            limit=around.dew_point,
        )
    for section in wet:
        if section.least_r is None:
            says = Phrase("{} sweats and no insulation helps: the air around is saturated.", section.id)
        else:
            says = Phrase(
                "{} sweats: its surface is {}, the dew point {}; it needs at least {}.",
                section.id,
                section.surface_temperature,
                around.dew_point,
                section.least_r,
            )
        findings.check(f"sweating of {section.id}", "fails", rules.SWEATING, says, actual=section.surface_temperature, limit=around.dew_point)
        findings.caution(rules.SWEATING_DUCTS)
