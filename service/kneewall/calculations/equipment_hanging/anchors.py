"""What a lag screw, a wood screw or a listed rod hanger holds."""

from bisect import bisect_right
from math import pi
from typing import NamedTuple

from kneewall.calculations.equipment_hanging import anchor_rules as rules
from kneewall.calculations.equipment_hanging.answers import Governing, LeadHole
from kneewall.calculations.equipment_hanging.messages import Anchor, Wood
from kneewall.kernel.quantity import Dimension, Stress, Temperature, WithdrawalStrength
from kneewall.kernel.refusal import Fault, fault
from kneewall.kernel.rule import Rule

INCH = 0.0254
POUND_PER_INCH = float(WithdrawalStrength.of(1, "lb/in"))
ROOT_STRESS = float(Stress.of(50000 / 3.5 * 0.75, "psi"))
LAG_DIAMETERS = (Dimension.of(0.25, "in"), Dimension.of(1.25, "in"))
SCREW_DIAMETERS = (Dimension.of(0.138, "in"), Dimension.of(0.372, "in"))
WARM, HOT, TOO_HOT = (Temperature.of(degrees, "degF") for degrees in (100, 125, 150))
TEMPERATURE_FACTORS = {"dry": (0.8, 0.7), "wet": (0.7, 0.5)}
WET_FACTOR, END_GRAIN_FACTOR = 0.7, 0.75
WITHIN = 1e-9

DURATION_FACTORS: dict[str, float] = {str(row["duration"]): float(row["factor"]) for row in rules.DURATION_TABLE.rows}
WOOD_GRAVITIES: dict[str, float] = {str(row["group"]): float(row["specific_gravity"]) for row in rules.WOOD_TABLE.rows}
_NOMINALS, _ROOTS = [[float(Dimension.of(float(size), "in")) for size in rules.LAG_ROOT_TABLE.column(name)] for name in ("diameter", "root")]


class Holding(NamedTuple):
    """What an anchor holds, in N, and how that came about."""

    allowable: float
    governed_by: Governing
    reference: float | None
    """N/m of thread in side grain, before the factors"""
    factors: dict[str, float] | None
    withdrawal: float | None
    tension: float | None
    gravity: float | None
    rules: tuple[Rule, ...]


def lag_withdrawal(gravity: float, diameter: float) -> float:
    """What a lag screw across the grain holds per length of thread, N/m: W = 1800 G^1.5 D^0.75 lb/in, D in inches. Diameter in m.

    Source: equipment-hanging.lag-withdrawal. Valid: G 0.31 to 0.73, D 1/4 to 1-1/4 in.
    """
    return 1800.0 * gravity**1.5 * (diameter / INCH) ** 0.75 * POUND_PER_INCH  # type: ignore[no-any-return]


def screw_withdrawal(gravity: float, diameter: float) -> float:
    """What a wood screw across the grain holds per length of thread, N/m: W = 2850 G^2 D lb/in, D in inches. Diameter in m.

    Source: equipment-hanging.screw-withdrawal. Valid: D 0.138 to 0.372 in.
    """
    return 2850.0 * gravity * gravity * (diameter / INCH) * POUND_PER_INCH


def anchor_faults(anchor: Anchor, wood: Wood) -> list[Fault]:
    """What is missing or contradicts itself in the anchor and its wood."""
    found: list[Fault] = []
    if (wood.group is None) == (wood.specific_gravity is None):
        found.append(fault("/wood/group", "give either the species group or its specific gravity, one of the two"))
    if wood.temperature is not None and wood.temperature > TOO_HOT * (1.0 + WITHIN):
        found.append(
            fault("/wood/temperature", "no factor is known for wood at {}; {} is the most", wood.temperature, TOO_HOT, rule=rules.TEMPERATURE.id)
        )
    if anchor.kind == "listed-rod-hanger":
        if anchor.rated_load is None:
            found.append(fault("/anchor/rated_load", "is missing: a listed rod hanger is judged by its listed load", rule=rules.LISTED_HANGER.id))
        return found
    if anchor.rated_load is not None:
        found.append(fault("/anchor/rated_load", "belongs to a listed rod hanger only; what a screw holds follows from the wood"))
    if anchor.thread_length is None:
        found.append(fault("/anchor/thread_length", "is missing: give the length of thread in the wood, without the tip"))
    lag = anchor.kind == "lag-screw"
    if not lag and anchor.into == "end-grain":
        says = "wood screws are not loaded in withdrawal from end grain; turn them across the grain or use another anchor"
        found.append(fault("/anchor/into", says, rule=rules.END_GRAIN.id))
    least, most = LAG_DIAMETERS if lag else SCREW_DIAMETERS
    if anchor.diameter is None:
        found.append(fault("/anchor/diameter", "is missing: give the nominal diameter of the screw"))
    elif not least * (1.0 - WITHIN) <= anchor.diameter <= most * (1.0 + WITHIN):
        found.append(fault("/anchor/diameter", "the withdrawal formula holds from {} to {}, not at {}", least, most, anchor.diameter))
    return found


def gravity_of(wood: Wood) -> float:
    """Specific gravity of the wood. Source: equipment-hanging.wood-gravity where a group is given."""
    return WOOD_GRAVITIES[wood.group] if wood.group is not None else wood.specific_gravity or 0.0


def temperature_factor(wood: Wood) -> float:
    """Factor for wood that stays hot; 1 where no temperature is given. Source: equipment-hanging.temperature. Valid: up to 150 degF."""
    if wood.temperature is None or wood.temperature <= WARM * (1.0 + WITHIN):
        return 1.0
    warm, hot = TEMPERATURE_FACTORS[wood.moisture]
    return warm if wood.temperature <= HOT * (1.0 + WITHIN) else hot


def holding_of(anchor: Anchor, wood: Wood) -> Holding:
    """What the anchor holds. The question must be free of `anchor_faults`."""
    if anchor.kind == "listed-rod-hanger":
        assert anchor.rated_load is not None
        ceiling = None
        if anchor.diameter is not None and anchor.thread_length is not None and LAG_DIAMETERS[0] <= anchor.diameter <= LAG_DIAMETERS[1]:
            ceiling = lag_withdrawal(gravity_of(wood), anchor.diameter) * DURATION_FACTORS["permanent"] * anchor.thread_length
        return Holding(anchor.rated_load, "rated-load", None, None, ceiling, None, None, (rules.LISTED_HANGER,))
    assert anchor.diameter is not None and anchor.thread_length is not None
    gravity, lag = gravity_of(wood), anchor.kind == "lag-screw"
    duration = DURATION_FACTORS[anchor.load_duration]
    wet = WET_FACTOR if wood.moisture == "wet" else 1.0
    temperature = temperature_factor(wood)
    end_grain = END_GRAIN_FACTOR if anchor.into == "end-grain" else 1.0
    reference = lag_withdrawal(gravity, anchor.diameter) if lag else screw_withdrawal(gravity, anchor.diameter)
    withdrawal = reference * duration * wet * temperature * end_grain * anchor.thread_length
    root = lag_root(anchor.diameter) if lag else anchor.diameter * 2.0 / 3.0
    tension = ROOT_STRESS * pi / 4.0 * root * root
    factors = {"load_duration": duration, "wet_service": wet, "temperature": temperature, "end_grain": end_grain}
    governed_by: Governing = "withdrawal" if withdrawal <= tension else "tension"
    applied = _rules_applied(anchor, wood, lag)
    return Holding(min(withdrawal, tension), governed_by, reference, factors, withdrawal, tension, gravity, applied)


def _rules_applied(anchor: Anchor, wood: Wood, lag: bool) -> tuple[Rule, ...]:
    applied = [rules.LAG_WITHDRAWAL if lag else rules.SCREW_WITHDRAWAL, rules.DURATION_TABLE.rule, rules.SCREW_TENSION]
    if lag:
        applied += [rules.LAG_ROOT_TABLE.rule, rules.LEAD_HOLE]
    if wood.group is not None:
        applied.append(rules.WOOD_TABLE.rule)
    if anchor.into == "end-grain":
        applied.append(rules.END_GRAIN)
    if wood.moisture == "wet":
        applied.append(rules.WET_SERVICE)
    return tuple(applied)


def lag_root(diameter: float) -> float:
    """Root diameter of a lag screw, m; between two sizes that of the smaller. Source: equipment-hanging.lag-roots. Valid: 1/4 to 1-1/4 in."""
    return _ROOTS[bisect_right(_NOMINALS, diameter * (1.0 + WITHIN)) - 1]


def lead_hole(gravity: float, diameter: float) -> LeadHole:
    """Between what the hole for a lag screw's thread is drilled. Source: equipment-hanging.lead-hole."""
    low, high = (0.40, 0.70) if gravity <= 0.5 else (0.60, 0.75) if gravity <= 0.6 else (0.65, 0.85)
    return LeadHole(least=Dimension(low * diameter), most=Dimension(high * diameter))
