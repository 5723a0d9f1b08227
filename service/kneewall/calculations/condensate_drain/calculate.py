"""Condensate: from the pan's pressure to the trap, from the air to the water, from the heights to the receiver, and the pan for when it blocks.

The story: find the trap, the water and the line; add up the heights; see what the auxiliary pan holds; then check each against code and practice.
"""

from kneewall.calculations.condensate_drain import cautions, checks, heights, pan, trap, water_made
from kneewall.calculations.condensate_drain.codes import CODES, CodeText, least_size
from kneewall.calculations.condensate_drain.gravity_line import fill_ratio, full_flow
from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.condensate_drain.results import Condensate, CondensateDrainResult, DrainLine, DrainPipeAnswer, DrainTrap, TrapCandidate
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.quantity import Dimension, Length, Number, Temperature, WaterFlow
from kneewall.kernel.refusal import Fault, fault, refuse_any
from kneewall.physics.pipe_span import HUNG_PIPES, PLASTICS, HungPipe, hung_pipe, sag_between, slope_at_support, span_that_drains
from kneewall.physics.pipes import fraction

ROUGHNESS_PLASTIC, ROUGHNESS_METAL = 0.009, 0.012
HOT = {"attic": Temperature.of(140, "degF"), "crawl-space": Temperature.of(73, "degF"), "occupied-space": Temperature.of(73, "degF")}
"""Taken for the sag of plastic where the question gives no highest temperature."""


def drain_condensate(question: CondensateDrainQuestion) -> Answer[CondensateDrainResult]:
    """Answer a condensate-drain question. Raises: Refusal where the question contradicts itself or the pipe is not made."""
    pipe = hung_pipe(question.pipe.material, question.pipe.nominal_size)
    made, water_rules, faults = water_made.water_made(question)
    refuse_any([*_faults(question, pipe), *faults])
    assert pipe is not None
    code = CODES[question.code]
    findings = Findings("condensate-drain")
    result = describe(question, pipe, code, made)
    findings.apply(*water_rules, pipe.rule)
    checks.check_all(findings, question, result, code, pipe)
    _caution(findings, question, pipe)
    return findings.answer(result)


def _faults(question: CondensateDrainQuestion, pipe: HungPipe | None) -> list[Fault]:
    found = []
    if pipe is None:
        known = ", ".join(fraction(key * 2.54e-5) for key in HUNG_PIPES[question.pipe.material])
        found.append(fault("/pipe/nominal_size", "{} is known in the nominal sizes {} in", question.pipe.material, known))
    if question.manifold_capacity is not None and question.manifold_capacity < question.cooling_capacity * (1.0 - 1e-9):
        found.append(
            fault("/manifold_capacity", "is {}, less than this unit's own {}; it counts every unit on the line",
                  question.manifold_capacity, question.cooling_capacity)
        )  # fmt: skip
    auxiliary = question.auxiliary_pan
    if auxiliary is not None and not auxiliary.leak_shutoff:
        stray = [name for name in ("leak_valve", "leak_valve_rests") if getattr(auxiliary, name) is not None]
        found += [
            fault(f"/auxiliary_pan/{name}", "is told of a leak sensor that is not there: say that there is a leak shut-off too") for name in stray
        ]
    if question.pump is not None and question.elevations is None:
        found.append(fault("/elevations", "are needed to tell what the pump must lift"))
    return found


def describe(question: CondensateDrainQuestion, pipe: HungPipe, code: CodeText, made: Condensate) -> CondensateDrainResult:
    """Everything that is worked out before anything is judged."""
    chosen = describe_trap(question, pipe.outside)
    drop, seal = (chosen.outlet_drop, chosen.seal_depth) if question.trap is None else (question.trap.outlet_drop, question.trap.seal_depth)
    manifold = question.manifold_capacity is not None
    found = None
    if question.elevations is not None:
        found = heights.heights(question.elevations, question.run, drop, drop + seal + pipe.outside, pipe.inside)
    auxiliary = question.auxiliary_pan
    return CondensateDrainResult(
        code=question.code,
        trap=chosen,
        pipe=DrainPipeAnswer(
            minimum_size=least_size(code, question.manifold_capacity or question.cooling_capacity, manifold),
            inside_diameter=pipe.inside,
            outside_diameter=pipe.outside,
        ),
        fall=Dimension(heights.fall_of(question.run)),
        condensate=made,
        line=describe_line(question, pipe, made),
        elevations=found,
        auxiliary_pan=None if auxiliary is None else pan.pan_answer(auxiliary, code, made.volume_flow, question.cooling_capacity),
        pump=None if found is None else heights.pumping(question.pump, found),
    )


def describe_trap(question: CondensateDrainQuestion, outside: Dimension) -> DrainTrap:
    """The deepest of the candidate traps, and all of them."""
    capability = None if question.blower_capability is None else question.blower_capability * trap.WATER_COLUMN
    shapes = trap.candidates(question.fan_position, question.pan_static_pressure * trap.WATER_COLUMN, capability)
    best = trap.deepest(shapes)
    offered = [
        TrapCandidate(
            rule=shape.rule.id,
            outlet_drop=Dimension(shape.outlet_drop),
            seal_depth=Dimension(shape.seal_depth),
            overall_height=Dimension(shape.outlet_drop + shape.seal_depth + outside),
        )
        for shape in shapes
    ]
    chosen = offered[shapes.index(best)]
    return DrainTrap(
        outlet_drop=chosen.outlet_drop,
        seal_depth=chosen.seal_depth,
        overall_height=chosen.overall_height,
        governing_rule=best.rule.id,
        candidates=offered,
    )


def describe_line(question: CondensateDrainQuestion, pipe: HungPipe, made: Condensate) -> DrainLine:
    """The pipe as a gravity line, and its sag between hangers where the modulus of its wall is known."""
    run = question.run
    flow = made.volume_flow * (question.manifold_capacity or question.cooling_capacity) / question.cooling_capacity
    capacity = full_flow(pipe.inside, run.slope, ROUGHNESS_PLASTIC if pipe.substance in PLASTICS else ROUGHNESS_METAL)
    around = question.surroundings
    modulus = pipe.stiffness(HOT[around.place] if around.highest_temperature is None else around.highest_temperature)
    longest = sag = turn = None
    if modulus is not None and run.slope > 0.0:
        longest = Length(span_that_drains(pipe.full_weight, run.slope, modulus, pipe.second_moment))
    if modulus is not None and run.hanger_spacing is not None:
        sag = sag_between(pipe.full_weight, run.hanger_spacing, modulus, pipe.second_moment)
        turn = slope_at_support(pipe.full_weight, run.hanger_spacing, modulus, pipe.second_moment)
    filled = fill_ratio(flow / capacity) if capacity > 0.0 else None
    return DrainLine(
        flow=WaterFlow(flow),
        full_capacity=WaterFlow(capacity),
        fill_ratio=None if filled is None else Number(filled),
        longest_hanger_spacing=longest,
        sag=sag,
        slope_at_hanger=turn,
    )


def _caution(findings: Findings, question: CondensateDrainQuestion, pipe: HungPipe) -> None:
    findings.caution(
        cautions.MAKER_FIRST, cautions.ONE_TRAP, cautions.CLEANABLE, cautions.DRIES_OUT, cautions.FREEZES, cautions.SWEATS, cautions.POWER_OFF
    )
    if pipe.substance in PLASTICS:
        findings.caution(cautions.HOT_PLASTIC)
    if question.auxiliary_pan is not None:
        findings.caution(cautions.LOOP_WATER, cautions.PAN_LOAD)
