"""The order of work: each stage can be proved before the next one covers it."""

from kneewall.kernel.rule import Hazard
from kneewall.retrofit.proof import PROOFS
from kneewall.retrofit.results import Material, Stage
from kneewall.retrofit.work import Work

Row = tuple[str, str, str, tuple[Hazard, ...], tuple[str, ...]]

EVERYWHERE = "support_spacing"
"""Supports belong to many stages and make none of their own."""

STAGES: tuple[Row, ...] = (
    (
        "make safe", "Lock out power, recover the old refrigerant, shut and drain the loop, cover the ceiling below, light and planks to stand on.",
        "No voltage at the unit, no pressure in lines and loop, nobody stands between joists.", ("electrical", "refrigerant", "pressure", "fall"), (),
    ),
    (
        "access", "Enlarge the opening if it must be, lay the floor of the passage, before anything heavy is carried.",
        "The largest piece passes the opening; the floor does not give under two people.", ("fall", "structural"), ("service_access",),
    ),
    (
        "take out the old", "Carry out the old unit, ducts and lines; cap every loop pipe, wire, flue and duct that stays open.",
        "Nothing open is left: no duct into the house, no pipe, no wire end.", ("fall", "air-quality", "electrical"), (),
    ),
    (
        "hang", "Framing first, as the engineer has agreed to it; then anchors, rods and channel, the auxiliary pan on the channel, and the unit with its pitch over it.",
        "Every rod tight and plumb, the unit pitched to its drain and clear of the pan's rim, nothing has crept overnight.", ("structural", "fall"), ("equipment_hanging",),
    ),
    (
        "drain", "Auxiliary pan and level switch if they do not hang yet; trap, run at its slope on its hangers, pan drain: what must fall takes its way first.",
        "Power still off: the old outlet swallows a bucket; water poured into the unit's pan leaves at once and comes out at the receiver, every joint dry; water in "
        "the auxiliary pan opens the switch, by the meter.",
        ("water-damage", "biological", "freezing"), ("condensate_drain", "support_spacing"),
    ),
    (
        "refrigerant lines", "Run and support the lines, brazed with nitrogen flowing; joints stay bare.",
        "The falls and traps of the vapor line are as planned, no kink, no tube on bare steel.", ("refrigerant", "fall"), ("refrigerant_line_sizing", "support_spacing"),
    ),
    (
        "pressure test of the lines", "Nitrogen from a regulator with relief, never oxygen or air; soap on every joint.",
        "No fall while it stands, temperature allowed for; only then is a vacuum drawn.", ("pressure", "refrigerant"), ("refrigerant_line_sizing",),
    ),
    (
        "vacuum and charge", "Evacuate, isolate the pump, watch the gauge; break the vacuum with refrigerant and weigh in what the lines add.",
        "500 micron or less with the pump shut off, by a gauge at the unit, not at the pump; the scale shows what was added.", ("refrigerant",), ("refrigerant_line_sizing",),
    ),
    (
        "water loop", "Run pipe, isolation and flush valves, strainer, check and control valves as planned; the valves of the coils stay shut.",
        "Filled and purged of air by the flush valves, it stands at its test pressure, every joint looked at.", ("pressure", "water-damage", "freezing"), ("water_loop_flow", "support_spacing"),
    ),
    (
        "flush the loop", "Flush round the coils, through hoses from flush valve to flush valve, until it runs clear; clean the strainer; only then open the coils.",
        "A white bucket stays clean, the strainer too; no air in the hose.", ("pressure", "water-damage"), ("water_loop_flow",),
    ),
    (
        "plenums, boxes and ducts", "Set plenums and boxes on hangers of their own, pull the flexible duct straight, fasten and seal every inner liner.",
        "Look at every joint, with light and mirror; no strap pinches.", ("air-quality", "fall"), ("duct_system", "static_pressure_budget", "support_spacing"),
    ),
    (
        "leakage test of the ducts", "Seal the outlets, press the ducts with a test fan where the code asks, with smoke at the joints elsewhere.",
        "Before wrap or jacket covers a joint: no smoke goes where no outlet is.", ("air-quality",), ("duct_system",),
    ),
    (
        "insulate", "Wrap metal ducts, vapor line, cold loop pipe and the drain's first feet; close the vapor retarder.",
        "No bare spot, no compressed corner; only joints that are proved are covered.", ("water-damage",),
        ("duct_system", "refrigerant_line_sizing", "water_loop_flow", "condensate_drain"),
    ),
    (
        "wire and interlock", "Disconnect in sight; float, pump and leak switches in series with the call; one valve for either call through isolated contacts.",
        "Control voltage alone, blower and compressor still locked out: lift each switch, the call drops and the valve shuts; take its power away and see where it goes.",
        ("electrical", "water-damage"), ("equipment_hanging", "condensate_drain", "water_loop_flow"),
    ),
    (
        "start the air", "Pan, switch and drain being proved: blower alone, clean filter, panels on; then set the dampers.",
        "Static pressure on either side and air at every outlet, written down; the trap keeps its water with the blower at top speed.",
        ("electrical", "air-quality"), ("duct_system", "static_pressure_budget", "condensate_drain"),
    ),
    (
        "start the water", "Open the valve by a call, compressor still locked out; one unit, then the other, then both.",
        "Flow at each coil before any compressor runs; no knock when the valve shuts; dry after an hour.", ("water-damage", "pressure"), ("water_loop_flow",),
    ),
    (
        "start and prove", "Run cooling and heating for a quarter of an hour each. The charge is touched only where air and water flow are as designed.",
        "Heat on both sides, superheat and subcooling against design, with the uncertainty of the gauges.", ("electrical", "refrigerant", "pressure"), (),
    ),
    (
        "hand over", "Finish walkway and level service space, light and receptacle; label valves, switches and disconnect; put the figures on the unit.",
        "Somebody else walks to the unit, shuts it off and takes the filter out; the auxiliary pan is dry after the first day of cooling.", ("fall", "water-damage"), (),
    ),
)  # fmt: skip

HUNG_FOR = (
    ("strap", "plenums, boxes and ducts"),
    ("hanger, refrigerant", "refrigerant lines"),
    ("riser clamp, refrigerant", "refrigerant lines"),
    ("hanger, duct", "plenums, boxes and ducts"),
)
"""Supports are first missed where what they carry is run; those of pipe by the first stage that runs pipe."""


def order_of_work(work: Work) -> list[Stage]:
    """The stages whose parts the job has, and those that every job has, with the figures that each is proved against."""
    return [
        Stage(
            stage=stage, does=does, proves=proves, hazards=list(hazards), against=list(PROOFS[stage](work)) if stage in PROOFS else [],
            parts=[part.replace("_", "-") for part in parts if part in work.answers],
        )
        for stage, does, proves, hazards, parts in STAGES
        if not parts or any(part in work.answers or part in work.refused for part in parts if part != EVERYWHERE)
    ]  # fmt: skip


def stage_of(material: Material, stages: list[Stage]) -> str | None:
    """The stage of this job that a material is first needed for; None where no stage needs it."""
    hung_for = next((stage for start, stage in HUNG_FOR if material.item.startswith(start)), None)
    return hung_for or next((stage.stage for stage in stages if material.part in stage.parts), None)
