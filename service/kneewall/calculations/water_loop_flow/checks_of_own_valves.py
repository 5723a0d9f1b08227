"""The checks on a unit's own valve: the surge when it shuts, and the peak in the pipes that the wave reaches."""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.checks_of_closing import check_closing
from kneewall.calculations.water_loop_flow.checks_of_rating import check_loaded, resting_in
from kneewall.calculations.water_loop_flow.found import Found
from kneewall.calculations.water_loop_flow.messages import LoopUnit
from kneewall.calculations.water_loop_flow.surge import Surge, surge_of, way_back
from kneewall.kernel.answer import Findings
from kneewall.kernel.quantity import GaugePressure


def check_own_valves(findings: Findings, found: Found, ratings: list[GaugePressure | None]) -> None:
    """Every unit that has a valve of its own. Source: hammer.joukowsky, hammer.critical-time, water-loop-flow.arrester."""
    for number, unit in enumerate(found.question.units):
        surge = _surge(found, number, unit) if unit.own_valve else None
        if surge is None:
            continue
        findings.apply(*surge.rules)
        end = "." if unit.own_valve_closing_time is not None else ". Its closing time is not given, so it counts as closing at once."
        check_closing(findings, f"closing of {unit.id}", f"The own valve of {unit.id}", surge, unit.own_valve_closing_time, unit.own_arrester, end)
        loaded = [
            (pipe.id, resting_in(found, index) + surge.rises[index], rating)
            for index, (pipe, rating) in enumerate(zip(found.question.pipes, ratings, strict=True))
            if rating is not None and surge.rises.get(index)
        ]
        advice = f"a slower valve at {unit.id}, or an arrester right before it"
        check_loaded(
            findings, f"peak from {unit.id}", rules.PEAK_PRESSURE, loaded, f"When {unit.id} shuts its valve the pressure in", "peaks at", advice,
            "watch" if unit.own_arrester and not surge.slow else "fails",
        )  # fmt: skip


def _surge(found: Found, number: int, unit: LoopUnit) -> Surge | None:
    """The surge in the pipe that feeds the unit, at the greatest flow through it of the states that are worked out; None where no pipe feeds it."""
    piping = found.situation.piping
    link = piping.unit_link(number)
    flows = max((found.greatest, *[state for _, state in found.calls]), key=lambda state: abs(state.flows[link])).flows
    way = way_back(piping, flows, link)
    feed = next((place for place, index in enumerate(way) if index < len(piping.sizes)), None)
    if feed is None or not flows[link]:
        return None
    idle = [piping.unit_link(other) for other, one in enumerate(found.question.units) if other == number or not flows[piping.unit_link(other)]]
    lengths = [pipe.length for pipe in found.question.pipes]
    return surge_of(unit.own_valve_closing_time, piping, lengths, flows, found.water.entering.density, way[feed:], idle)
