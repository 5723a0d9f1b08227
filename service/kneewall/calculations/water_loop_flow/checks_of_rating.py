"""The checks of what pipes are rated for: at rest and, where a control valve shuts, at the peak of the wave."""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.answered import WaterLoopResult
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.kernel.answer import EQUAL_WITHIN, Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import GaugePressure, Temperature
from kneewall.kernel.rule import Rule
from kneewall.physics.loops import DISCHARGE
from kneewall.physics.pipe_rating import rated_pressure

HIGHEST_AT_REST = GaugePressure.of(80, "psig")
AS_FAR_AS_KNOWN = " A steady supply may stand higher at rest than while water flows: read it with every tap shut."

Loaded = tuple[str, float, GaugePressure]
"""A pipe, the gauge pressure in it, Pa, and its rating."""


def check_ratings(findings: Findings, found: Found, result: WaterLoopResult) -> list[GaugePressure | None]:
    """The rating of every pipe, None where it is not known. Every pipe at rest, at the highest pressure of the supply at its lower end, and at the peak where the wave reaches it."""
    _check_rest(findings, found)
    ratings = _ratings(findings, found, _warmest(found, result))
    at_rest = [resting_in(found, index) for index in range(len(found.question.pipes))]
    rises = {} if found.surge is None else found.surge.rises
    unrated, resting, peaking = [], [], []
    for index, (pipe, rating, rest) in enumerate(zip(found.question.pipes, ratings, at_rest, strict=True)):
        if rating is None:
            unrated.append((rest + rises.get(index, 0.0), pipe.id))
            continue
        resting.append((pipe.id, rest, rating))
        if rises.get(index):
            peaking.append((pipe.id, rest + rises[index], rating))
    if unrated:
        worst = GaugePressure(max(unrated)[0])
        says = Phrase(
            "{} must hold {}; the rating is not known here: read it off the pipe and give it as the pipe's rated pressure.", _listed(unrated), worst
        )
        findings.check("unrated pipe", "refer", rules.PEAK_PRESSURE if rises else rules.PIPE_RATING, says, actual=worst)
    check_loaded(
        findings, "pipe rating", rules.PIPE_RATING, resting, "At rest the pressure in", "stands at", "lower the pressure or take stronger pipe"
    )
    _check_peak(findings, found, peaking)
    _check_equipment(findings, found, rises)
    return ratings


def resting_in(found: Found, index: int) -> float:
    """The highest gauge pressure at rest in a pipe, Pa: at its lower end. Source: water-loop-flow.pipe-rating."""
    pipe, heights = found.question.pipes[index], found.situation.heights
    return found.situation.at_rest(min(heights[pipe.start], heights[pipe.end]))


def _check_equipment(findings: Findings, found: Found, rises: dict[int, float]) -> None:
    """Units and tank against what their plates say, where that is given; a coil gets the wave of the pipes at its ends."""
    question, situation = found.question, found.situation
    for unit in question.units:
        if unit.rated_pressure is not None:
            wave = max(
                [rises.get(index, 0.0) for index, pipe in enumerate(question.pipes) if {unit.start, unit.end} & {pipe.start, pipe.end}], default=0.0
            )
            peak = situation.at_rest(situation.heights[unit.start]) + wave
            findings.at_most(
                f"rating of {unit.id}", GaugePressure(peak), unit.rated_pressure, rules.EQUIPMENT_RATING,
                meets=f"At rest and at the peak {unit.id} gets up to {{}}, within its rating of {{}}.",
                breaks=f"At rest or at the peak {unit.id} gets {{}}, above its rating of {{}}: lower the pressure or close more slowly.",
            )  # fmt: skip
    if question.supply.rated_pressure is not None:
        findings.at_most(
            "rating of the tank", GaugePressure(situation.static_supply), question.supply.rated_pressure, rules.EQUIPMENT_RATING,
            meets="At cut-out the tank stands at {}, within its rating of {}.",
            breaks="At cut-out the tank stands at {}, above its rating of {}: lower the switch or take a stronger tank.",
        )  # fmt: skip


def _check_peak(findings: Findings, found: Found, peaking: list[Loaded]) -> None:
    """The peak as it is without an arrester, which is all that can be worked out; one that stands before the valve may take the rest."""
    control = found.question.control_valve
    if control is not None and control.arrester and found.surge is not None and not found.surge.slow:
        advice = "the arrester must take the rest, or the valve close more slowly"
        check_loaded(
            findings, "peak pressure", rules.PEAK_PRESSURE, peaking, "Without its arrester the pressure in", "would peak at", advice, "watch"
        )
    else:
        check_loaded(findings, "peak pressure", rules.PEAK_PRESSURE, peaking, "When the valve shuts the pressure in", "peaks at", "close more slowly")


def _check_rest(findings: Findings, found: Found) -> None:
    """The highest pressure at rest of an open loop, wherever it is shut off."""
    if found.question.loop == "closed":
        return
    situation = found.situation
    at_rest = found.shut or {node: situation.at_rest(height) for node, height in situation.heights.items() if node != DISCHARGE}
    highest = GaugePressure(max(at_rest.values()))
    more = AS_FAR_AS_KNOWN if found.question.supply.kind == "fixed-pressure" else ""
    findings.at_most(
        "pressure at rest", highest, HIGHEST_AT_REST, rules.SERVICE_PRESSURE,
        meets="Shut off, the highest pressure in the loop is {}, within {}." + more,
        breaks="Shut off, the highest pressure in the loop is {}, above {}: a pressure-reducing valve is wanted." + more,
    )  # fmt: skip


def _warmest(found: Found, result: WaterLoopResult) -> Temperature:
    """The warmest water of the loop, which any pipe may get at rest."""
    leaving = [unit.leaving_water.cooling for unit in result.units]
    return max([Temperature(found.water.entering.temperature), *[temperature for temperature in leaving if temperature is not None]])


def _ratings(findings: Findings, found: Found, temperature: Temperature) -> list[GaugePressure | None]:
    """What each pipe is rated for: as it says itself, else by its size."""
    by_size: dict[int, GaugePressure | None] = {}
    ratings: list[GaugePressure | None] = []
    for pipe, size in zip(found.question.pipes, found.situation.piping.sizes, strict=True):
        if pipe.rated_pressure is not None:
            ratings.append(pipe.rated_pressure)
            continue
        if id(size) not in by_size:
            rated = rated_pressure(size, temperature)
            by_size[id(size)] = None if rated is None else rated[0]
            if rated is not None:
                findings.apply(*rated[1])
        ratings.append(by_size[id(size)])
    return ratings


def check_loaded(
    findings: Findings, name: str, rule: Rule, loaded: list[Loaded], before: str, stands: str, advice: str, otherwise: Verdict = "fails"
) -> None:
    """The pipe that is nearest to its rating, or the farthest above it, and which others are above theirs."""
    if not loaded:
        return
    where, pressure, rating = max(loaded, key=lambda one: one[1] / one[2])
    over = [pipe for pipe, here, most in loaded if here > most * (1.0 + EQUAL_WITHIN) and pipe != where]
    also = f" Above theirs too: {', '.join(over)}." if over else ""
    findings.at_most(
        name, GaugePressure(pressure), rating, rule, otherwise=otherwise,
        meets=f"{before} {where} {stands} {{}}, within its rating of {{}}; no pipe is nearer to its own.",
        breaks=f"{before} {where} {stands} {{}}, above its rating of {{}}: {advice}.{also}",
    )  # fmt: skip


def _listed(unrated: list[tuple[float, str]]) -> str:
    return ", ".join([name for _, name in unrated])
