"""Proof of tightness: the standing pressure test corrected for temperature, and the standing vacuum."""

from dataclasses import dataclass, field
from math import sqrt

from kneewall.calculations.commissioning_check.estimate import Estimate, Readings, combined, difference
from kneewall.calculations.commissioning_check.tests_asked import CommissioningPressureTest, CommissioningTightness, Instruments
from kneewall.kernel.refusal import Fault, fault
from kneewall.physics.air import atmospheric_pressure


@dataclass(slots=True)
class Tightness:
    """What the two tests come to. SI; pressures of the test absolute."""

    readings: Readings
    first: Estimate | None = None
    highest: Estimate | None = None
    gauge_step: float = 0.0
    """By how much a reading of the gauge can miss a change."""
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
        found.missing.append("Standing pressure test: give tightness › pressure test.")
    else:
        _pressure_test(found, given.pressure_test, altitude)
        _contradiction(given.pressure_test, faults)
    vacuum = given.evacuation
    if vacuum is None:
        found.missing.append("Evacuation: give tightness › evacuation.")
        return found
    found.reached = found.readings.take("vacuum reached", vacuum.reached, "vacuum")
    if vacuum.risen_to is None or vacuum.duration is None:
        found.missing.append("Standing vacuum: it needs tightness › evacuation › risen to and duration.")
    else:
        found.risen_to = found.readings.take("vacuum at the end", vacuum.risen_to, "vacuum")
        if vacuum.risen_to < vacuum.reached * (1.0 - 1e-9):
            faults.append(
                fault("/tightness/evacuation/risen_to", "{} is deeper than the {} at which the pump was shut off", vacuum.risen_to, vacuum.reached)
            )
    return found


def _contradiction(test: CommissioningPressureTest, faults: list[Fault]) -> None:
    if test.required_pressure is not None and test.highest_pressure is not None and test.highest_pressure < test.required_pressure * (1.0 - 1e-9):
        faults.append(
            fault(
                "/tightness/pressure_test/highest_pressure", "{} is below the {} that the test needs", test.highest_pressure, test.required_pressure
            )
        )


def _pressure_test(found: Tightness, given: CommissioningPressureTest, altitude: float) -> None:
    """Drop = p1 T2/T1 - p2, pressures and temperatures absolute; the gas law at constant volume.

    What one instrument reads wrong both times nearly cancels; what it may miss between two readings does not. Source: commissioning-check.gas-law.
    """
    atmosphere = atmospheric_pressure(altitude)
    first, last = _read_twice(found.readings, "pressure", "gauge", (given.first.pressure, given.last.pressure), given.instruments)
    warm, late = _read_twice(found.readings, "temperature", "thermometer", (given.first.temperature, given.last.temperature), given.instruments)
    absolute = given.first.pressure + atmosphere
    ratio = given.last.temperature / given.first.temperature
    found.first, found.highest = first, max(first, last, key=lambda one: one.value)
    found.gauge_step = found.readings.taken["last pressure"].uncertainty
    found.expected = combined(
        absolute * ratio, (ratio, first), (-absolute * ratio / given.first.temperature, warm), (absolute / given.first.temperature, late)
    )
    found.drop = difference(found.expected, combined(given.last.pressure + atmosphere, (1.0, last)))
    found.uncorrected_drop = given.first.pressure - given.last.pressure


def _read_twice(readings: Readings, what: str, by: str, values: tuple[float, float], instruments: Instruments) -> tuple[Estimate, Estimate]:
    """The first and the last reading: by one instrument they share its error, by two they do not."""
    names = (f"first {what}", f"last {what}")
    if instruments == "different":
        return readings.take(names[0], values[0], what), readings.take(names[1], values[1], what)
    name = f"{by}, both times"
    each = readings.take(name, 0.0, what).uncertainty
    one, other = (readings.take(names[at], values[at], f"{what}_step", each) for at in (0, 1))
    # The uncertainty of a reading is what the instrument is wrong by each time together with what it may miss in between.
    share = sqrt(max(0.0, each * each - one.uncertainty * one.uncertainty))
    readings.taken[name] = readings.taken[name]._replace(uncertainty=share)
    shared = Estimate(0.0, {name: share})
    return combined(values[0], (1.0, one), (1.0, shared)), combined(values[1], (1.0, other), (1.0, shared))
