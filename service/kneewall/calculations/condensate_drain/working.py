"""The working of a condensate drain, line by line."""

from kneewall.calculations.condensate_drain import rules
from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.calculations.condensate_drain.water_made import water_in
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.words import in_words
from kneewall.physics.air import MOIST_AIR, atmospheric_pressure
from kneewall.physics.pipe_span import SIMPLE_SPAN


def working(question: CondensateDrainQuestion, answer: Answer[CondensateDrainResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    result = answer.result
    return [
        *_trap_lines(question, result),
        *_water_lines(question, result),
        *_line_lines(question, result),
        *_height_lines(question, result),
        *_pan_lines(question, result),
    ]


def _trap_lines(question: CondensateDrainQuestion, result: CondensateDrainResult) -> list[WorkingLine]:
    lines = [
        WorkingLine(
            step="trap by one rule", formula="H + J + outside diameter", value=one.overall_height, rule=one.rule,
            substituted=Phrase("{} + {} + {} at {} in the pan", one.outlet_drop, one.seal_depth, result.pipe.outside_diameter, question.pan_static_pressure),
        )
        for one in result.trap.candidates
    ]  # fmt: skip
    chosen = result.trap
    lines.append(
        WorkingLine(
            step="trap", formula="the deepest of them", value=chosen.overall_height, rule=chosen.governing_rule,
            substituted=Phrase("H {}, J {}", chosen.outlet_drop, chosen.seal_depth),
        )
    )  # fmt: skip
    return lines


def _water_lines(question: CondensateDrainQuestion, result: CondensateDrainResult) -> list[WorkingLine]:
    made = result.condensate
    if question.entering_air is None or question.leaving_air is None:
        share = Phrase("{}, sensible share {}", question.cooling_capacity, made.sensible_heat_ratio)
        formula = "m = Q (1 - SHR)/h_fg; 3 pints/h per ton where no ratio is given"
        return [WorkingLine(step="water made", formula=formula, substituted=share, value=made.mass_flow, rule=rules.WATER_FROM_CAPACITY.id)]
    pressure = atmospheric_pressure(question.altitude or 0.0)
    lines = [
        WorkingLine(
            step=f"humidity ratio of {name} air", formula="W by the wet-bulb equation", value=water_in(state, pressure), rule=MOIST_AIR.id,
            substituted=Phrase("{} dry bulb, {} wet bulb", state.dry_bulb, state.wet_bulb),
        )
        for name, state in (("entering", question.entering_air), ("leaving", question.leaving_air))
    ]  # fmt: skip
    lines.append(
        WorkingLine(
            step="water made", formula="m = q/v (W1 - W2)", value=made.mass_flow, rule=rules.WATER_FROM_AIR.id,
            substituted=Phrase("{} of air; sensible share {}", question.airflow, made.sensible_heat_ratio),
        )
    )  # fmt: skip
    return lines


def _line_lines(question: CondensateDrainQuestion, result: CondensateDrainResult) -> list[WorkingLine]:
    line, run = result.line, question.run
    lines = [
        WorkingLine(
            step="line running full", formula="Q = (1/n) A R^(2/3) s^(1/2)", value=line.full_capacity, rule=rules.MANNING.id,
            substituted=Phrase("bore {}, fall {}", result.pipe.inside_diameter, run.slope),
        ),
        WorkingLine(
            step="fall of the run", formula="s L + drops", value=result.fall, rule=rules.FALL.id,
            substituted=Phrase("{} over {}, drops {}", run.slope, run.length, run.drop_at_fittings),
        ),
    ]  # fmt: skip
    if line.longest_hanger_spacing is not None:
        lines.append(
            WorkingLine(
                step="longest hanger spacing that drains", formula="(24 E I s/w)^(1/3)", value=line.longest_hanger_spacing, rule=SIMPLE_SPAN.id,
                substituted=Phrase("{} {} full of water, fall {}", question.pipe.nominal_size, in_words(question.pipe.material), run.slope),
            )
        )  # fmt: skip
    return lines


def _height_lines(question: CondensateDrainQuestion, result: CondensateDrainResult) -> list[WorkingLine]:
    found = result.elevations
    if found is None or question.elevations is None:
        return []
    given = question.elevations
    lines = [
        WorkingLine(
            step="trap's outlet", formula="pan outlet - H", value=found.trap_outlet, rule=rules.FALL.id, substituted=Phrase("{}", given.pan_outlet)
        ),
        WorkingLine(
            step="end of the run", formula="trap's outlet - fall", value=found.end_of_run, rule=rules.FALL.id,
            substituted=Phrase("{} - {}", found.trap_outlet, result.fall),
        ),
        WorkingLine(
            step="margin", formula="end of the run - rim - air gap", value=found.margin, rule=rules.FALL.id,
            substituted=Phrase("{} - {} - {}", found.end_of_run, given.receiver_rim, found.air_gap),
        ),
        WorkingLine(
            step="lowest pan outlet", formula="rim + air gap + fall + H", value=found.lowest_pan_outlet, rule=rules.FALL.id,
            substituted=Phrase("{} + {} + {} + H", given.receiver_rim, found.air_gap, result.fall),
        ),
    ]  # fmt: skip
    if result.pump is not None and result.pump.static_lift is not None:
        lines.append(
            WorkingLine(
                step="static lift of a pump", formula="highest point - trap's outlet + sump depth", value=result.pump.static_lift, rule=rules.PUMP_LIFT.id,
                substituted=Phrase("from {}", found.trap_outlet),
            )
        )  # fmt: skip
    return lines


def _pan_lines(question: CondensateDrainQuestion, result: CondensateDrainResult) -> list[WorkingLine]:
    found = result.auxiliary_pan
    if found is None or question.auxiliary_pan is None or question.auxiliary_pan.pan is None:
        return []
    pan = question.auxiliary_pan.pan
    return [
        WorkingLine(
            step="volume of the pan", formula="length x width x depth", value=found.volume, rule=rules.LOOP_LEAK.id,
            substituted=Phrase("{} x {} x {}", pan.length, pan.width, pan.depth),
        ),
        WorkingLine(
            step="pan full of loop water", formula="volume over flow", value=found.fills_with_loop_leak, rule=rules.LOOP_LEAK.id,
            substituted=Phrase("{} at {}", found.volume, found.loop_flow),
        ),
    ]  # fmt: skip
