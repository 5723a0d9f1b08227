"""The order of work: each stage can be proved before the next one covers it."""

from kneewall.kernel.rule import Hazard
from kneewall.retrofit.results import Stage
from kneewall.retrofit.work import Work

Row = tuple[str, str, str, tuple[Hazard, ...], tuple[str, ...]]

EVERYWHERE = "support_spacing"
"""Supports belong to many stages and make none of their own."""

STAGES: tuple[Row, ...] = (
    (
        "make safe", "Lock out power, recover the old refrigerant, shut and drain the loop, cover the ceiling below.",
        "No voltage at the unit, no pressure in lines and loop.", ("electrical", "refrigerant", "pressure"), (),
    ),
    (
        "access", "Enlarge the opening if it must be, lay the floor of passage and service space, light and receptacle.",
        "The largest piece passes the opening; the floor does not give under two people.", ("fall", "structural", "electrical"), ("service_access",),
    ),
    (
        "hang", "Set anchors, rods and channel in framing that the engineer has agreed to; hang the unit with its pitch.",
        "Every rod tight and plumb, level with the pan full of water, nothing creeps overnight.", ("structural", "fall"), ("equipment_hanging",),
    ),
    (
        "drain", "Set auxiliary pan and switch, build the trap, run the line at its slope on its hangers.",
        "Pour water into the pan: it leaves at once, the trap stays full with the blower running, the switch stops the unit.",
        ("water-damage", "biological", "freezing"), ("condensate_drain", "support_spacing"),
    ),
    (
        "water loop", "Run pipe, isolation and flush valves, strainer and the control valve on the leaving side.",
        "Pressure holds; flush to clear with the coils isolated, purge at 2 ft/s; flow at each coil within a tenth of design.",
        ("pressure", "water-damage", "freezing"), ("water_loop_flow", "support_spacing"),
    ),
    (
        "refrigerant lines", "Run, support and braze the lines with nitrogen flowing; pressure test, evacuate, then open the valves and add the charge worked out.",
        "Nitrogen test without fall, temperature allowed for; vacuum to 500 micron and its rise after isolation.",
        ("refrigerant", "pressure"), ("refrigerant_line_sizing", "support_spacing"),
    ),
    (
        "plenums, boxes and ducts", "Set plenums and boxes on hangers of their own, run the flexible duct pulled straight, seal every joint.",
        "Look at every joint before the wrap goes on; leakage tested where the code asks.", ("air-quality", "fall"), ("duct_system", "static_pressure_budget", "support_spacing"),
    ),
    (
        "insulate", "Wrap ducts and lines, close the vapour retarder.",
        "No bare spot, no compressed corner; done only when the joints under it are proved.", ("water-damage",), ("duct_system", "refrigerant_line_sizing"),
    ),
    (
        "wire and interlock", "Disconnect in sight, float and leak switches in series with the call, one valve for either call through isolated contacts.",
        "Lift each switch: the unit stops and the valve closes.", ("electrical", "water-damage"), ("condensate_drain", "water_loop_flow"),
    ),
    (
        "start and prove", "Static pressure by side, air at every outlet, water flow, heat on both sides, superheat and subcooling.",
        "Measured figures against design with their uncertainty.", ("electrical", "refrigerant", "pressure"), (),
    ),
)  # fmt: skip


def order_of_work(work: Work) -> list[Stage]:
    """The stages whose parts the job has, and those that every job has."""
    return [
        Stage(stage=stage, does=does, proves=proves, hazards=list(hazards), parts=[part.replace("_", "-") for part in parts if part in work.answers])
        for stage, does, proves, hazards, parts in STAGES
        if not parts or any(part in work.answers or part in work.refused for part in parts if part != EVERYWHERE)
    ]


def stage_of(part: str) -> str | None:
    """The stage that a part's materials are first needed for; None where no stage needs them."""
    return next((stage for stage, _, _, _, parts in STAGES if part.replace("-", "_") in parts), None)
