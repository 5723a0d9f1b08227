"""The air side: external static pressure, airflow by each way it can be known, and the heat in the air."""

from dataclasses import dataclass, field
from typing import Literal

from kneewall.calculations.commissioning_check import messages as m
from kneewall.calculations.commissioning_check.estimate import Estimate, Readings, combined, difference, product, quotient
from kneewall.calculations.commissioning_check.moist_air import AirThere, air_there
from kneewall.kernel.quantity import Length
from kneewall.kernel.refusal import Fault, Refusal
from kneewall.kernel.rule import Rule
from kneewall.physics.air import STANDARD, Air, AirState, air_of, atmospheric_pressure
from kneewall.physics.fan import Blower, BlowerCurve

AirflowWay = Literal["flow-meter", "blower-table", "temperature-split", "water-heat"]
AIR_SIDE_WAYS: tuple[AirflowWay, ...] = ("flow-meter", "blower-table", "temperature-split")


@dataclass(slots=True)
class AirSide:
    """What the air side comes to. SI."""

    readings: Readings
    blown: Air = STANDARD
    """The air in which blower table and rating are read"""
    return_static: Estimate | None = None
    supply_static: Estimate | None = None
    total_static: Estimate | None = None
    dirty_static: Estimate | None = None
    filter_drop: Estimate | None = None
    filter_growth: Estimate | None = None
    table_ends: tuple[float, float] | None = None
    table_rules: tuple[Rule, ...] = ()
    dirty_airflow: Estimate | None = None
    split: Estimate | None = None
    sensible_per_volume: Estimate | None = None
    total_per_volume: Estimate | None = None
    water_per_volume: Estimate | None = None
    humidity_ratios: dict[str, Estimate] = field(default_factory=dict)
    airflows: dict[AirflowWay, Estimate] = field(default_factory=dict)
    missing: list[str] = field(default_factory=list)

    @property
    def airflow_by(self) -> AirflowWay | None:
        """Which of the airflows known from the air side alone counts: a flow hood before the blower's table before the split."""
        return next((way for way in AIR_SIDE_WAYS if way in self.airflows), None)


def work_out_air(given: m.CommissioningAirSide, mode: m.Mode, altitude: Length | None, faults: list[Fault]) -> AirSide:
    """Everything the air side gives by itself. Adds to `faults` what cannot be.

    The blower moves air of the altitude at the usual temperature: the temperature inside the unit moves its density by 3 %, within the table's own uncertainty.
    """
    found = AirSide(Readings("air_side", given.uncertainty), air_of(None if altitude is None else AirState(altitude=altitude)))
    if given.airflow is not None:
        found.airflows["flow-meter"] = found.readings.take("airflow by meter", given.airflow, "airflow")
    _static(found, given)
    if given.blower is not None:
        try:
            _by_blower(found, given.blower)
        except Refusal as refusal:
            faults += refusal.faults
    elif given.static_pressure is not None:
        found.missing.append("Airflow by the blower's table: give air side › blower, the maker's table at the speed that is set.")
    if given.split is not None:
        _split(found, given.split, mode, altitude or 0.0, faults)
    return found


def _static(found: AirSide, given: m.CommissioningAirSide) -> None:
    static = given.static_pressure
    if static is None:
        if given.blower is not None:
            found.missing.append("Airflow by the blower's table: give air side › static pressure, measured on both sides of the unit.")
    else:
        found.return_static = found.readings.take("return static pressure", abs(static.return_), "static_pressure")
        found.supply_static = found.readings.take("supply static pressure", static.supply, "static_pressure")
        found.total_static = combined(abs(static.return_) + static.supply, (1.0, found.return_static), (1.0, found.supply_static))
    if given.filter is None:
        found.missing.append("Static pressure with the filter dirty: give air side › filter.")
        return
    clean = found.readings.take("filter drop, clean", given.filter.pressure_drop, "static_pressure")
    found.filter_drop = clean
    # A filter past its change point adds nothing more: the static pressure read is already the worst.
    more = given.filter.dirty_pressure_drop - clean.value
    growth = combined(more, (-1.0, clean)) if more > 0.0 else combined(0.0, (0.0, clean))
    found.filter_growth = growth
    if found.total_static is not None:
        found.dirty_static = combined(found.total_static.value + growth.value, (1.0, found.total_static), (1.0, growth))


def _by_blower(found: AirSide, blower: Blower) -> None:
    curve = BlowerCurve(blower, "/air_side/blower", found.blown)
    found.table_ends, found.table_rules = (float(curve.lowest), float(curve.highest)), curve.rules
    if found.total_static is not None:
        flow = _from_table(found, curve, found.total_static)
        if flow is not None:
            found.airflows["blower-table"] = flow
    if found.dirty_static is not None:
        found.dirty_airflow = _from_table(found, curve, found.dirty_static)


def _from_table(found: AirSide, curve: BlowerCurve, static: Estimate) -> Estimate | None:
    """Airflow at a static pressure: q = table(p), sensitivity the table's own slope; None beyond its ends. Source: fan.blower-table."""
    if not curve.lowest - 1e-9 <= static.value <= curve.highest * (1.0 + 1e-9):
        return None
    airflow, slope = curve.airflow_and_slope(static.value)
    table = found.readings.take("blower table, as a share", 1.0, "blower_table")
    return combined(airflow, (slope, static), (airflow, table))


def _split(found: AirSide, split: m.CommissioningSplit, mode: m.Mode, altitude: float, faults: list[Fault]) -> None:
    pressure = atmospheric_pressure(altitude)
    entering = air_there(found.readings, split.entering, "entering", pressure, faults)
    leaving = air_there(found.readings, split.leaving, "leaving", pressure, faults)
    if entering is None or leaving is None:
        return
    found.humidity_ratios = {
        where: one.humidity_ratio for where, one in (("entering", entering), ("leaving", leaving)) if one.humidity_ratio is not None
    }
    warm, cold = (entering, leaving) if mode == "cooling" else (leaving, entering)
    found.split = difference(warm.temperature, cold.temperature)
    found.sensible_per_volume = product(entering.heat_capacity, found.split)
    _total(found, entering, leaving, mode)
    if split.sensible_heat is not None:
        known = found.readings.take("sensible heat, known otherwise", split.sensible_heat, "sensible_heat")
        by_split = quotient(known, found.sensible_per_volume)
        if by_split is None:
            found.missing.append("Airflow by the temperature split: the split is no larger than its own uncertainty, or runs the wrong way.")
        else:
            found.airflows["temperature-split"] = by_split


def _total(found: AirSide, entering: AirThere, leaving: AirThere, mode: m.Mode) -> None:
    """Total heat and, in cooling, water given up, each per volume of entering air. In heating the air keeps its water."""
    if mode == "heating":
        found.total_per_volume = found.sensible_per_volume
    elif entering.humidity_ratio is None or leaving.humidity_ratio is None:
        found.missing.append("Total heat in the air: give the wet-bulb temperatures of the air entering and leaving.")
    else:
        found.total_per_volume = product(entering.dry_mass, difference(entering.enthalpy, leaving.enthalpy))
        found.water_per_volume = product(entering.dry_mass, difference(entering.humidity_ratio, leaving.humidity_ratio))
