"""The checks made on the tubes that were taken, in words for somebody on the job."""

from collections.abc import Sequence
from math import pi

import msgspec

from kneewall.calculations.refrigerant_line_sizing import choice, rules
from kneewall.calculations.refrigerant_line_sizing.liquid_line import liquid_velocity_limit
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import HotGasFigures, LiquidCandidate, LiquidHeatingFigures, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.calculations.refrigerant_line_sizing.vapor_line import working_pressure
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import GaugePressure, Number, TemperatureDifference, Velocity
from kneewall.kernel.rule import Rule
from kneewall.physics.air import SEA_LEVEL_PRESSURE
from kneewall.physics.friction import TURBULENT_FROM, regime
from kneewall.physics.tubes import HOTTEST_RATED, RATED_PRESSURE


class GasWords(msgspec.Struct, frozen=True):
    """What is said of one mode's gas; `name` stands in the names of its checks."""

    name: str
    loss: tuple[str, str]
    too_large: str
    velocity: tuple[str, str]
    oil: tuple[str, str]
    level: tuple[str, str]


def _words(gas: str) -> GasWords:
    """Where there are two sentences, the first is said where the limit is kept."""
    return GasWords(
        gas,
        (
            f"The {gas} loses {{}} of saturation temperature, within {{}}.",
            f"The {gas} loses {{}} of saturation temperature, above {{}}: capacity goes and power rises. Take a larger tube or a shorter way.",
        ),
        f"The {gas} would lose more than a tenth of its pressure at {{}}; no figure holds there. Take a larger tube.",
        (
            f"The {gas} moves at {{}}, within {{}}.",
            f"The {gas} moves at {{}}, above {{}}: it will be heard and wears the tube. Take a larger one.",
        ),
        (
            f"At the lowest stage of {{}} the {gas} still carries the oil up; it takes {{}}.",
            f"At the lowest stage of {{}} the {gas} leaves the oil in the riser; this tube takes {{}}. Take a smaller tube, a double riser, or raise the lowest "
            "stage.",
        ),
        (
            f"At the lowest stage the {gas} still moves at {{}}, at least the {{}} that keep oil going where the line does not rise.",
            f"At the lowest stage the {gas} moves at {{}}, below the {{}} that keep oil going where the line does not rise: oil may lie in it. "
            "Keep the pitch toward the compressor, or take a smaller tube.",
        ),
    )


WORDS = {"cooling": _words("suction gas"), "heating": _words("hot gas")}


def check_vapor(findings: Findings, question: RefrigerantLineSizingQuestion, states: Sequence[ModeState], taken: VaporCandidate) -> None:
    """Loss, velocity and oil return of the vapor line in each mode, and its working pressure."""
    limit = rules.USUAL_PENALTY if question.limits.vapor_penalty is None else question.limits.vapor_penalty
    for state in states:
        figures = taken if state.mode == "cooling" else taken.heating
        assert figures is not None
        _check_gas(findings, state, figures, limit)
        _check_regime(findings, f"{WORDS[state.mode].name} flow", state.mass_flow, taken.inside_diameter, state.vapor.viscosity)
    _check_pressure(
        findings,
        "vapor line pressure",
        taken.rated_pressure,
        working_pressure(states),
        choice.design_pressure(states, "vapor"),
    )


def _check_gas(findings: Findings, state: ModeState, figures: VaporCandidate | HotGasFigures, limit: TemperatureDifference) -> None:
    words, drop = WORDS[state.mode], figures.saturation_drop
    if drop is not None:
        meets, breaks = words.loss
        findings.at_most(f"{words.name} loss", drop, limit, rules.VAPOR_LOSS, meets=meets, breaks=breaks)
    elif figures.pressure_drop is None:
        findings.check(f"{words.name} loss", "fails", rules.SATURATION_DROP, Phrase(words.too_large, figures.velocity))
    fastest = rules.MOST_SUCTION_VELOCITY if state.mode == "cooling" else rules.MOST_HOT_GAS_VELOCITY
    meets, breaks = words.velocity
    findings.at_most(f"{words.name} velocity", figures.velocity, fastest, rules.GAS_VELOCITY, meets=meets, breaks=breaks)
    if state.vapor_rise > 0.0:
        meets, breaks = words.oil
        least = figures.oil_return.minimum_capacity
        findings.at_least(f"oil return with {words.name}", state.lowest, least, rules.OIL_RETURN, meets=meets, breaks=breaks)
    else:
        meets, breaks = words.level
        slowest = Velocity(figures.velocity * state.lowest / state.capacity)
        findings.at_least(
            f"{words.name} at the lowest stage",
            slowest,
            rules.LEAST_LEVEL_VELOCITY,
            rules.LEVEL_VELOCITY,
            otherwise="watch",
            meets=meets,
            breaks=breaks,
        )


def _check_regime(findings: Findings, name: str, mass_flow: float, bore: float, viscosity: float) -> None:
    reynolds = 4.0 * mass_flow / (pi * bore * viscosity)
    if regime(reynolds) == "transitional":
        says = Phrase("At Reynolds number {} the flow may be laminar or turbulent; the friction figure is uncertain.", reynolds)
        findings.check(name, "watch", rules.FLOW_REGIME, says, actual=Number(reynolds), limit=TURBULENT_FROM)


def _check_pressure(findings: Findings, name: str, rated: GaugePressure | None, working: float, design: float) -> None:
    in_use, wanted = GaugePressure(working - SEA_LEVEL_PRESSURE), GaugePressure(design)
    if rated is None:
        says = Phrase(
            "The hot gas is above {}, where no rating of copper tube is known here. Have the hot-gas temperature looked into.", HOTTEST_RATED
        )
        findings.check(name, "refer", RATED_PRESSURE, says)
        return
    findings.apply(RATED_PRESSURE)
    slack = 1.0 + 1e-9
    if rated * slack < in_use:
        says = Phrase(
            "The brazed tube is rated for {}, below the {} it stands in use: do not use it here. Take one with a thicker wall.", rated, in_use
        )
        findings.check(name, "fails", rules.DESIGN_PRESSURE, says, actual=rated, limit=in_use)
    elif rated * slack < wanted:
        says = Phrase(
            "The brazed tube is rated by calculation for {}, below the design pressure of {}. Use tube and joints listed by test for at least that, or a "
            "thicker wall; the equipment's plate and the authority decide.", rated, wanted,
        )  # fmt: skip
        findings.check(name, "refer", rules.DESIGN_PRESSURE, says, actual=rated, limit=wanted)
    else:
        says = Phrase("The brazed tube is rated for {}, enough for the design pressure of {}.", rated, wanted)
        findings.check(name, "meets", rules.DESIGN_PRESSURE, says, actual=rated, limit=wanted)


def check_liquid(findings: Findings, question: RefrigerantLineSizingQuestion, states: Sequence[ModeState], taken: LiquidCandidate) -> None:
    """Subcooling left in each mode, loss, velocity and working pressure of the liquid line."""
    limits = question.limits
    least = rules.USUAL_SUBCOOLING if limits.least_subcooling is None else limits.least_subcooling
    for state in states:
        figures = taken if state.mode == "cooling" else taken.heating
        assert figures is not None
        _check_subcooling(findings, state, figures, least)
        _check_regime(findings, f"liquid flow {state.mode}", state.mass_flow, taken.inside_diameter, state.liquid_viscosity)
        findings.at_most(
            f"liquid velocity {state.mode}", figures.velocity, liquid_velocity_limit(question), rules.LIQUID_VELOCITY,
            meets="The liquid moves at {}, within {}.",
            breaks="The liquid moves at {}, above {}: valves will hammer and friction rises. Take a larger tube.",
        )  # fmt: skip
    worst = choice.greatest_drop(taken)
    if worst is not None:
        findings.at_most(
            "liquid loss", worst, rules.USUAL_PENALTY if limits.liquid_penalty is None else limits.liquid_penalty, rules.LIQUID_LOSS,
            meets="Friction takes {} of saturation temperature, within {}.",
            breaks="Friction takes {} of saturation temperature, above {}: take a larger tube or fewer fittings.",
        )  # fmt: skip
    else:
        drop = taken.pressure_drop if taken.heating is None else max(taken.pressure_drop, taken.heating.pressure_drop)
        says = Phrase("Friction takes {}, more than half of the pressure there is; no figure holds there. Take a larger tube.", drop)
        findings.check("liquid loss", "fails", rules.LIQUID_LOSS, says, actual=drop)
    working = max(state.liquid_pressure for state in states)
    _check_pressure(findings, "liquid line pressure", taken.rated_pressure, working, choice.design_pressure(states, "liquid"))


def _check_subcooling(findings: Findings, state: ModeState, figures: LiquidCandidate | LiquidHeatingFigures, least: TemperatureDifference) -> None:
    name = f"subcooling at the valve {state.mode}"
    started = TemperatureDifference(state.condensing - state.liquid_temperature)
    if figures.flashes:
        says = Phrase(
            "The liquid boils before the valve: the {} of subcooling it starts with are used up. No figure holds beyond that point. Take a larger tube, "
            "more subcooling, less height or a cooler way.", started,
        )  # fmt: skip
        findings.check(name, "fails", rules.SUBCOOLING_LEFT, says, actual=TemperatureDifference(0.0), limit=least)
    elif figures.subcooling_left is not None:
        findings.at_least(
            name, figures.subcooling_left, least, rules.SUBCOOLING_LEFT, otherwise="watch",
            meets="The liquid reaches the valve with {} of subcooling, at least {}.",
            breaks="The liquid reaches the valve with {} of subcooling, below the {} wanted: little more and it boils. Take a larger tube or more subcooling.",
        )  # fmt: skip


def check_choice(
    findings: Findings, states: list[ModeState], candidates: list[VaporCandidate], taken: VaporCandidate, limit: TemperatureDifference, given: bool
) -> None:
    """Say which limits fight where no tube keeps them all."""
    says = _given_says(taken) if given else _fight(states, candidates, limit)
    findings.check("vapor line size", "fails", rules.SMALLEST, says)


def check_taken(findings: Findings, check: str, taken: VaporCandidate | LiquidCandidate, design: float, given: bool) -> None:
    """Say which tube it is where one keeps every limit; the design pressure in Pa, gauge. Source: refrigerant-line-sizing.smallest."""
    if given:
        sentence = "{}, {} inside, as given, keeps every limit."
    elif choice.rated_for(taken, design):
        sentence = "Take {}, {} inside: the smallest made tube that keeps every limit and is rated for the design pressure."
    else:
        sentence = "Take {}, {} inside: the smallest made tube that keeps every limit. None of those that do is rated by calculation for the design pressure."
    findings.check(check, "meets", rules.SMALLEST, Phrase(sentence, taken.nominal_size, taken.inside_diameter), actual=taken.nominal_size)


def _given_says(taken: VaporCandidate | LiquidCandidate) -> Phrase:
    return Phrase("The size given, {}, does not keep: {}.", taken.nominal_size, ", ".join(taken.breaks))


def _fight(states: list[ModeState], candidates: list[VaporCandidate], limit: TemperatureDifference) -> Phrase:
    within = choice.smallest_within_loss(candidates, limit)
    returning = choice.largest_returning_oil(candidates, states)
    if within is None:
        return Phrase("Every made tube loses more than {}: shorten the way, take fewer fittings, or split the load over two systems.", limit)
    if returning is None:
        return Phrase(
            "The lowest stage is too low to carry oil up in any made tube: run the line so that this gas does not rise, or raise the lowest stage."
        )
    if returning.inside_diameter < within.inside_diameter:
        return Phrase(
            "Loss and oil return fight: {} is the smallest that loses no more than {}, but the largest that returns the oil at the lowest stage is {}. "
            "A double riser, a higher lowest stage, or a way on which this gas does not rise would do.",
            within.nominal_size, limit, returning.nominal_size,
        )  # fmt: skip
    return Phrase("No made tube keeps every limit; {} comes nearest and does not keep: {}.", *_nearest(candidates))


def _nearest(candidates: list[VaporCandidate]) -> tuple[VaporCandidate, str] | tuple[float, str]:
    taken = choice.nearest(candidates)
    return taken.nominal_size, ", ".join(taken.breaks)


def check_liquid_choice(findings: Findings, candidates: list[LiquidCandidate], given: bool) -> None:
    """Say what stands in the way where no tube for the liquid keeps every limit."""
    taken = choice.nearest(candidates)
    if given:
        says = _given_says(taken)
    else:
        says = Phrase("No made tube keeps every limit; {} comes nearest and does not keep: {}.", taken.nominal_size, ", ".join(taken.breaks))
        if all("flashing" in one.breaks for one in candidates):
            says = Phrase(
                "The liquid boils in every made tube: height, accessories and heat use up its subcooling. More subcooling or less height is needed."
            )
    findings.check("liquid line size", "fails", rules.SMALLEST, says)


RULES_BY_MODE: dict[str, tuple[Rule, ...]] = {"heating": (rules.DISCHARGE,), "cooling": (rules.CAPACITY_FACTOR,)}
