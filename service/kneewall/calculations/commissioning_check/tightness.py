"""Proof of tightness: the standing pressure test corrected for temperature, and the standing vacuum."""

from dataclasses import dataclass, field

from kneewall.calculations.commissioning_check.estimate import Estimate, Readings, combined, difference
from kneewall.calculations.commissioning_check.tests_asked import CommissioningPressureTest, CommissioningTightness
from kneewall.kernel.refusal import Fault, fault
from kneewall.physics.air import atmospheric_pressure


@dataclass(slots=True)
class Tightness:
    """What the two tests come to. SI; pressures of the test absolute."""

    readings: Readings
    first: Estimate | None = None
    expected: Estimate | None = None
    drop: Estimate | None = None
    uncorrected_drop: float = 0.0
    reached: Estimate | None = None
    risen_to: Estimate | None = None
    missing: list[str] = field(default_factory=list)


def work_out_tightness(given: CommissioningTightness, altitude: float, faults: list[Fault]) -> Tightness:
    """Both tests. Adds to `faults` what cannot be."""
    found = Tightness(Readings("tightness", given.uncertainty))
    if given.pressure_test is None:
        found.missing.append("Standing pressure test: give tightness/pressure_test.")
    else:
        _pressure_test(found, given.pressure_test, altitude)
    vacuum = given.evacuation
    if vacuum is None:
        found.missing.append("Evacuation: give tightness/evacuation.")
        return found
    found.reached = found.readings.take("vacuum reached", vacuum.reached, "vacuum")
    if vacuum.risen_to is None or vacuum.duration is None:
        found.missing.append("Standing vacuum: it needs tightness/evacuation/risen_to and duration.")
    else:
        found.risen_to = found.readings.take("vacuum at the end", vacuum.risen_to, "vacuum")
        if vacuum.risen_to < vacuum.reached * (1.0 - 1e-9):
            faults.append(
                fault("/tightness/evacuation/risen_to", "{} is deeper than the {} at which the pump was shut off", vacuum.risen_to, vacuum.reached)
            )
    return found


def _pressure_test(found: Tightness, given: CommissioningPressureTest, altitude: float) -> None:
    """Drop = p1 T2/T1 - p2, pressures and temperatures absolute; the gas law at constant volume. Source: commissioning-check.gas-law."""
    atmosphere = atmospheric_pressure(altitude)
    take = found.readings.take
    first, last = take("first pressure", given.first.pressure, "pressure"), take("last pressure", given.last.pressure, "pressure")
    warm, late = take("first temperature", given.first.temperature, "temperature"), take("last temperature", given.last.temperature, "temperature")
    absolute = given.first.pressure + atmosphere
    ratio = given.last.temperature / given.first.temperature
    found.first = first
    found.expected = combined(
        absolute * ratio, (ratio, first), (-absolute * ratio / given.first.temperature, warm), (absolute / given.first.temperature, late)
    )
    found.drop = difference(found.expected, combined(given.last.pressure + atmosphere, (1.0, last)))
    found.uncorrected_drop = given.first.pressure - given.last.pressure
