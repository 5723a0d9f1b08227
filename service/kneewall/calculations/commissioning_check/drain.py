"""Trap and drain: the trap's heights against the suction in the pan, and what the drain carried away."""

from dataclasses import dataclass, field

from kneewall.calculations.commissioning_check.estimate import Estimate, Readings, combined, difference
from kneewall.calculations.commissioning_check.tests_asked import CommissioningCondensate
from kneewall.physics.constants import STANDARD_GRAVITY

WATER_COLUMN = 1000.0 * STANDARD_GRAVITY
"""Pa per m: one inch of water column is one inch of height"""


@dataclass(slots=True)
class Drain:
    """What trap and drain come to. SI; the pan's pressure as a height of water."""

    readings: Readings
    pressure: Estimate | None = None
    dirty_filter_counted: bool = False
    outlet_drop: Estimate | None = None
    seal_depth: Estimate | None = None
    rate: Estimate | None = None
    lost: Estimate | None = None
    missing: list[str] = field(default_factory=list)


def work_out_drain(given: CommissioningCondensate, filter_growth: Estimate | None) -> Drain:
    """Trap heights and the pour test; on a draw-through unit a filter that loads up deepens the suction by what it adds."""
    found = Drain(Readings("condensate", given.uncertainty))
    if given.pan_static_pressure is None:
        found.missing.append("Trap against suction: give the pan's static pressure, measured with the blower at its highest speed.")
    else:
        _pressure(found, given, given.pan_static_pressure, filter_growth)
    if given.outlet_drop is not None:
        found.outlet_drop = found.readings.take("trap outlet drop", given.outlet_drop, "dimension")
    if given.seal_depth is not None:
        found.seal_depth = found.readings.take("trap seal", given.seal_depth, "dimension")
    if given.outlet_drop is None or given.seal_depth is None:
        found.missing.append("Trap's heights: give its outlet drop and seal depth.")
    if given.pour_test is None:
        found.missing.append("Drain under running blower: give the pour test.")
        return found
    poured = found.readings.take("water poured", given.pour_test.poured, "volume")
    found.rate = combined(poured.value / given.pour_test.duration, (1.0 / given.pour_test.duration, poured))
    if given.pour_test.collected is None:
        found.missing.append("Water lost on the way: catch the water at the end of the drain and give what the pour test collected.")
    else:
        found.lost = difference(poured, found.readings.take("water caught", given.pour_test.collected, "volume"))
    return found


def _pressure(found: Drain, given: CommissioningCondensate, pan: float, filter_growth: Estimate | None) -> None:
    read = found.readings.take("pan static pressure", abs(pan), "static_pressure")
    if given.fan_position == "draw-through" and filter_growth is not None:
        found.dirty_filter_counted = True
        pressure = combined(read.value + max(0.0, filter_growth.value), (1.0, read), (1.0 if filter_growth.value > 0.0 else 0.0, filter_growth))
    else:
        pressure = read
        if given.fan_position == "draw-through":
            found.missing.append(
                "Trap with the filter dirty: give the filter's drops (air side), or measure the pan with the filter blanked off to its final drop."
            )
    found.pressure = combined(pressure.value / WATER_COLUMN, (1.0 / WATER_COLUMN, pressure))
