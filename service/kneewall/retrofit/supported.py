"""The runs of pipe, tube and duct in every part that have to be hung."""

from typing import Any, get_args

from kneewall.calculations.support_spacing.messages import SupportedMaterial
from kneewall.retrofit.partial import Given
from kneewall.retrofit.work import Work

HUNG_MATERIALS = frozenset(get_args(SupportedMaterial))


def supported_runs(work: Work) -> list[Given]:
    """Every horizontal run that the other parts describe, in the form of the support question."""
    return [run for run in (*_ducts(work), *_drain(work), *_refrigerant(work), *_loop(work)) if run["material"] in HUNG_MATERIALS]


def _ducts(work: Work) -> list[Given]:
    ducts, result = work.asked("duct_system"), work.result("duct_system")
    if ducts is None:
        return []
    sizes = {section.id: section.size for section in result.sections}
    return [
        {
            "id": f"duct {section.id}"[:40],
            "kind": "duct",
            "material": "galvanized-steel" if section.duct is None else section.duct.material,
            "duct": sizes[section.id],
            "length": section.length,
        }
        for section in ducts.sections
        if section.kind == "duct"
    ]


def _drain(work: Work) -> list[Given]:
    drain = work.asked("condensate_drain")
    if drain is None or drain.run.length <= 0.0:
        return []
    run: Given = {
        "id": "condensate",
        "kind": "pipe",
        "material": drain.pipe.material,
        "nominal_size": drain.pipe.nominal_size,
        "length": drain.run.length,
        "temperature": work.question.surroundings.temperature,
        "slope": drain.run.slope if drain.run.slope > 0.0 else None,
        "spacing": drain.run.hanger_spacing,
    }
    return [{name: value for name, value in run.items() if value is not None}]


def _refrigerant(work: Work) -> list[Given]:
    lines, result = work.asked("refrigerant_line_sizing"), work.result("refrigerant_line_sizing")
    if lines is None:
        return []
    runs = []
    for name, asked, found in (("vapor", lines.vapor_line, result.vapor_line), ("liquid", lines.liquid_line, result.liquid_line)):
        size = asked.size or found.recommended
        if size is not None:
            runs.append(
                {
                    "id": f"refrigerant {name}",
                    "kind": "refrigerant-tube",
                    "material": f"copper-{lines.temper}",
                    "nominal_size": size,
                    "length": asked.length,
                }
            )
    return runs


def _loop(work: Work) -> list[Given]:
    loop: Any = work.asked("water_loop_flow")
    if loop is None:
        return []
    return [
        {
            "id": f"loop {pipe.id}"[:40],
            "kind": "pipe",
            "material": pipe.material,
            "nominal_size": pipe.nominal_size,
            "length": pipe.length,
            "orientation": "vertical" if pipe.rise is not None and abs(pipe.rise) > 0.7 * pipe.length else "horizontal",
        }
        for pipe in loop.pipes
    ]
