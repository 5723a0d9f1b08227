"""The checks of what a loop holds when its pump has stopped: the check valve at the supply, and water shut in between two valves."""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.source import ATMOSPHERE
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import GaugePressure
from kneewall.physics.constants import STANDARD_GRAVITY


def fallen_pressures(found: Found) -> dict[str, float] | None:
    """Gauge pressure at every node, Pa, once a pump without a check valve has stopped and its water has fallen back to the resting level: -rho g (lift + height),
    not below a vacuum. None where something else holds the pressure. Source: water-loop-flow.check-valve-at-supply.
    """
    supply = found.question.supply
    if supply.kind != "pump":
        return None
    weight, lift = found.situation.density * STANDARD_GRAVITY, float(supply.lift or 0.0)
    return {node: max(-weight * (lift + height), -float(ATMOSPHERE)) for node, height in found.situation.heights.items()}


def check_supply_at_rest(findings: Findings, found: Found) -> None:
    """Whether a check valve holds the loop full when the pump stops, and whether it shuts water in."""
    supply = found.question.supply
    if supply.kind not in ("pump", "pressure-tank"):
        return
    if supply.kind == "pressure-tank":
        if supply.check_valve is False:
            says = Phrase("Without a check valve between pump and tank the tank runs back into the well whenever the pump stops: fit one.")
            findings.check("check valve at supply", "fails", rules.CHECK_AT_SUPPLY, says)
        return
    fallen = fallen_pressures(found)
    assert fallen is not None
    ends = [(fallen[node], unit.id) for unit in found.question.units for node in (unit.start, unit.end)]
    lowest, unit = min(ends)
    if supply.check_valve:
        _check_shut_in(findings, found)
    elif lowest >= 0.0:
        says = Phrase("When the pump stops its resting water keeps {} at {}, the highest coil.", GaugePressure(lowest), unit)
        findings.check("check valve at supply", "meets", rules.CHECK_AT_SUPPLY, says, actual=GaugePressure(lowest))
    elif supply.check_valve is None:
        says = Phrase(
            "When the pump stops nothing is known to hold the water: without a check or foot valve the pressure at {} falls to {} and the coil drains. Say whether "
            "the pump has one.", unit, GaugePressure(lowest),
        )  # fmt: skip
        findings.check("check valve at supply", "watch", rules.CHECK_AT_SUPPLY, says, actual=GaugePressure(lowest))
    else:
        says = Phrase(
            "When the pump stops the water falls back: the pressure at {} falls to {}, the coil drains and draws air. Fit a check or foot valve at the pump.",
            unit, GaugePressure(lowest),
        )  # fmt: skip
        findings.check("check valve at supply", "fails", rules.CHECK_AT_SUPPLY, says, actual=GaugePressure(lowest))


def _check_shut_in(findings: Findings, found: Found) -> None:
    held = GaugePressure(found.situation.static_supply)
    if found.shut is None and not all(unit.own_valve for unit in found.question.units):
        says = Phrase(
            "The check valve keeps the loop full when the pump stops, but no valve shuts it off behind the units: it runs empty through the discharge."
        )
        findings.check("check valve at supply", "watch", rules.CHECK_AT_SUPPLY, says)
        return
    says = Phrase(
        "The check valve at the pump and the shut valve hold up to {} between them, and water that warms there has no room: a small expansion tank or a relief valve "
        "set within the ratings of pipe and units.", held,
    )  # fmt: skip
    findings.check("check valve at supply", "watch", rules.CHECK_AT_SUPPLY, says, actual=held)
