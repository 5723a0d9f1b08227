"""The checks of what sits in the pipes: which way the water runs through it, whether it shuts off the units, what counts as full bore."""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.states import AGAINST
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import WaterFlow
from kneewall.physics.fittings import LOSS_COEFFICIENT, Fitting

FULL_BORE: tuple[Fitting, ...] = ("elbow-90", "tee-run", "tee-branch")
ONE_WAY = {"check": "check valve", "strainer": "strainer", "flow-regulator": "flow regulator", "solenoid": "solenoid valve"}


def check_fitted(findings: Findings, found: Found) -> None:
    """Every check of what sits in the pipes."""
    _check_direction(findings, found)
    _check_isolation(findings, found)
    _check_insert_fittings(findings, found)


def _check_direction(findings: Findings, found: Found) -> None:
    """Water against the direction of what passes it one way only: held back by a check valve, wrong through anything else."""
    control = found.question.control_valve
    for index, (pipe, flow) in enumerate(zip(found.question.pipes, found.least.flows, strict=False)):
        if index in found.held:
            says = Phrase(
                "Water would run backwards through {}: its check valve holds it, and nothing flows there. Where it should flow, swap from and to.",
                pipe.id,
            )
            findings.check(f"check valve in {pipe.id}", "watch", rules.REVERSED, says)
        elif min(flow, found.greatest.flows[index]) < -AGAINST:
            wrong = [ONE_WAY[valve.kind] for valve in pipe.valves if valve.kind in ONE_WAY]
            if control is not None and control.on == pipe.id and control.body in ("pilot-operated", "direct-acting"):
                wrong.append("control valve")
            if wrong:
                says = Phrase("Water runs backwards through {} ({}): turn it round, or swap from and to.", pipe.id, ", ".join(wrong))
                findings.check(f"direction of {pipe.id}", "fails", rules.REVERSED, says, actual=WaterFlow(min(flow, found.greatest.flows[index])))


def _check_isolation(findings: Findings, found: Found) -> None:
    """Whether every unit has an isolation valve in a pipe at each of its ends."""
    shut_off: set[str] = set()
    for pipe in found.question.pipes:
        if pipe.fittings.get("ball-valve", 0.0) > 0.0:
            shut_off.update((pipe.start, pipe.end))
        for valve in pipe.valves:
            if valve.kind == "isolation":
                shut_off.update((pipe.start, pipe.end))
    without = [unit.id for unit in found.question.units if not {unit.start, unit.end} <= shut_off]
    if without:
        says = Phrase("{} cannot be shut off on both sides: fit ball valves with hose connections toward the coil.", ", ".join(without))
        findings.check("isolation", "watch", rules.ISOLATION, says)
    else:
        findings.check("isolation", "meets", rules.ISOLATION, Phrase("Every unit can be shut off on both sides."))


def _check_insert_fittings(findings: Findings, found: Found) -> None:
    """PEX with fittings that are counted as if they had the pipe's own bore."""
    names = [
        pipe.id
        for pipe, size in zip(found.question.pipes, found.situation.piping.sizes, strict=True)
        if size.wall.substance == "pex" and any(pipe.fittings.get(fitting) for fitting in FULL_BORE)
    ]
    if names:
        says = Phrase(
            "The fittings of {} count as full bore; insert (crimp) fittings in PEX lose about four times as much: count those as such.",
            ", ".join(names),
        )
        findings.check("PEX fittings", "watch", LOSS_COEFFICIENT, says)
