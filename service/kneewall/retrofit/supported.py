"""The runs of pipe, tube and duct in every part that have to be hung, level ones and risers apart."""

from collections.abc import Iterator
from typing import Any, get_args

from kneewall.calculations.support_spacing.messages import SupportedMaterial
from kneewall.kernel.quantity import Dimension, Length
from kneewall.retrofit.partial import Given
from kneewall.retrofit.work import Work

HUNG_MATERIALS = frozenset(get_args(SupportedMaterial))
RISER, SECOND_RISER = ", riser", ", second riser"
"""What is added to a run's name for the part of it that stands upright; no name of a pipe holds a comma."""
BESIDE_CORNERS = Length.of(2, "ft")
"""Shorter pieces are held by the supports on either side of their corners. Source: retrofit-check.level-and-plumb."""

SHORTEST = Length.of(1, "in")
"""Below that a piece is no run but a fitting."""


def supported_runs(work: Work) -> list[Given]:
    """Every run that the other parts describe, in the form of the support question."""
    found = (*_ducts(work), *_drain(work), *_refrigerant(work), *_loop(work))
    return [run for run in found if run["material"] in HUNG_MATERIALS and run["length"] >= SHORTEST]


def whole_run(name: str) -> str:
    """The run to which a riser belongs."""
    return name.removesuffix(SECOND_RISER).removesuffix(RISER)


def level_and_plumb(run: Given, rise: float) -> Iterator[Given]:
    """A run whose ends differ in height by `rise`, m, as a level piece and a riser. Source: retrofit-check.level-and-plumb."""
    upright = min(abs(rise), run["length"])
    level = run["length"] - upright
    if upright < BESIDE_CORNERS:
        upright, level = 0.0, run["length"]
    elif level < BESIDE_CORNERS:
        upright, level = run["length"], 0.0
    if level > 0.0:
        yield {**run, "length": Length(level)}
    if upright > 0.0:
        yield {**run, "id": run["id"] + RISER, "length": Length(upright), "orientation": "vertical"}


def _ducts(work: Work) -> list[Given]:
    ducts, result = work.asked("duct_system"), work.result("duct_system")
    if ducts is None:
        return []
    sizes = {section.id: section.size for section in result.sections}
    return [
        {
            "id": f"duct {section.id}",
            "kind": "duct",
            "material": "galvanized-steel" if section.duct is None else section.duct.material,
            "duct": sizes[section.id],
            "length": section.length,
        }
        for section in ducts.sections
        if section.kind == "duct"
    ]


def _drain(work: Work) -> Iterator[Given]:
    """The condensate line, the drops beside its slope, and the auxiliary pan's own drain."""
    drain = work.asked("condensate_drain")
    if drain is None:
        return
    pipe: Given = {"kind": "pipe", "material": drain.pipe.material, "temperature": work.question.surroundings.temperature}
    run, own = drain.run, getattr(drain.auxiliary_pan, "drain", None)
    if run.length > 0.0:
        yield _sloped({**pipe, "id": "condensate", "nominal_size": drain.pipe.nominal_size, "spacing": run.hanger_spacing}, run)
    if (run.drop_at_fittings or 0.0) >= BESIDE_CORNERS:
        drop = {**pipe, "id": f"condensate{RISER}", "nominal_size": drain.pipe.nominal_size, "length": Length(run.drop_at_fittings)}
        yield _stated({**drop, "orientation": "vertical"})
    if own is not None and own.length > 0.0:
        yield _sloped({**pipe, "id": "pan drain", "nominal_size": own.nominal_size}, own)


def _sloped(run: Given, line: Any) -> Given:
    return _stated({**run, "length": line.length, "slope": line.slope if line.slope > 0.0 else None})


def _stated(run: Given) -> Given:
    return {name: value for name, value in run.items() if value is not None}


def _refrigerant(work: Work) -> Iterator[Given]:
    """Both lines, level and upright; of a double riser the large tube all the way and the small one beside its riser."""
    lines, result = work.asked("refrigerant_line_sizing"), work.result("refrigerant_line_sizing")
    if lines is None:
        return
    rise, riser = lines.indoor_above_outdoor, result.double_riser
    for name, asked, found in (("vapor", lines.vapor_line, result.vapor_line), ("liquid", lines.liquid_line, result.liquid_line)):
        size = asked.size or found.recommended
        tube = {"id": f"refrigerant {name}", "kind": "refrigerant-tube", "material": f"copper-{lines.temper}", "length": asked.length}
        if size is not None:
            yield from level_and_plumb({**tube, "nominal_size": size}, rise)
        elif name == "vapor" and riser is not None:
            for run in level_and_plumb({**tube, "nominal_size": riser.large}, rise):
                yield run
                if "orientation" in run:
                    yield {**run, "id": tube["id"] + SECOND_RISER, "nominal_size": Dimension(riser.small)}


def _loop(work: Work) -> Iterator[Given]:
    loop, result = work.asked("water_loop_flow"), work.result("water_loop_flow")
    if loop is None:
        return
    heights = {node.id: node.elevation for node in result.nodes}
    for pipe in loop.pipes:
        run = {"id": f"loop {pipe.id}", "kind": "pipe", "material": pipe.material, "nominal_size": pipe.nominal_size, "length": pipe.length}
        yield from level_and_plumb(run, heights.get(pipe.end, 0.0) - heights.get(pipe.start, 0.0))
