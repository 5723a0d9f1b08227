"""Refrigerant in the lines, and what a room may hold of it."""

from math import sqrt

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion, RoomServed
from kneewall.calculations.refrigerant_line_sizing.results import LeakSafety, LineCharge, LiquidCandidate, VaporCandidate
from kneewall.calculations.refrigerant_line_sizing.states import ModeState
from kneewall.kernel.quantity import Area, Density, Mass, MassPerLength
from kneewall.physics.constants import QUARTER_PI
from kneewall.physics.refrigerant import Refrigerant


def line_charge(question: RefrigerantLineSizingQuestion, cooling: ModeState, vapor: VaporCandidate, liquid: LiquidCandidate) -> LineCharge:
    """Mass in both lines, m = pi/4 D^2 L rho, and what is to be added to the factory charge. Source: refrigerant-line-sizing.charge."""
    by_liquid = QUARTER_PI * liquid.inside_diameter**2 * cooling.liquid_density
    by_vapor = QUARTER_PI * vapor.inside_diameter**2 * cooling.vapor.density
    lengths = question.liquid_line.length, question.vapor_line.length
    added = total = None
    if question.factory_charge is not None:
        covered = question.factory_charge.line_length
        added = by_liquid * (lengths[0] - covered) + by_vapor * (lengths[1] - covered)
        total = question.factory_charge.mass + added
    if question.total_charge is not None:
        total = float(question.total_charge)
    return LineCharge(
        liquid_per_length=MassPerLength(by_liquid),
        vapor_per_length=MassPerLength(by_vapor),
        lines=Mass(by_liquid * lengths[0] + by_vapor * lengths[1]),
        added=None if added is None else Mass(added),
        total=None if total is None else Mass(total),
    )


def room_limit(limit: float, height: float, area: float) -> float:
    """Most charge of a flammable refrigerant in an unventilated room, kg: the lesser of 2.5 LFL^1.25 h sqrt A and 0.75 LFL h A.

    LFL in kg/m3, release height in m, floor area in m2. Source: refrigerant-line-sizing.room-area.
    """
    return min(2.5 * float(limit**1.25) * height * sqrt(area), 0.75 * limit * height * area)


def root_area(limit: float, height: float, charge: float) -> float:
    """Floor area by the square-root branch alone, m2: (m/(2.5 LFL^1.25 h))^2. Source: refrigerant-line-sizing.room-area."""
    return float((charge / (2.5 * limit**1.25 * height)) ** 2)


def least_area(limit: float, height: float, charge: float) -> float:
    """Least floor area for a charge, m2, both branches: the inverse of `room_limit`. Source: refrigerant-line-sizing.room-area."""
    return max(root_area(limit, height, charge), charge / (0.75 * limit * height))


def exempt_mass(refrigerant: Refrigerant, limit: float) -> float:
    """Charge, kg, at or below which the room's size is not asked: 6 LFL, A3 4 LFL. Source: refrigerant-line-sizing.room-area."""
    return (4.0 if refrigerant.safety_group == "A3" else 6.0) * limit


def release_height(room: RoomServed) -> float:
    """Release height counted, m: what is given, from 0.6 m, which is also taken where none is given, to 2.2 m, the highest the annex lists.

    Source: refrigerant-line-sizing.room-area, refrigerant-line-sizing.release-height.
    """
    return min(max(rules.LEAST_RELEASE_HEIGHT, room.release_height or 0.0), rules.MOST_RELEASE_HEIGHT)


def flammability_limit(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant) -> Density | None:
    """The lower flammability limit: the question's for a refrigerant that burns, else the table's; None where it does not burn."""
    if refrigerant.lower_flammability_limit is None:
        return None
    return question.lower_flammability_limit or refrigerant.lower_flammability_limit


def leak_safety(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant, charge: Mass | None) -> LeakSafety:
    """What the room may hold by the product standard's formulas and by the concentration limit."""
    room, limit = question.room, flammability_limit(question, refrigerant)
    exempt = limit_mass = least = root = by_concentration = None
    if limit is not None:
        exempt = exempt_mass(refrigerant, limit)
        if room is not None:
            height = release_height(room)
            limit_mass = room_limit(limit, height, room.floor_area)
            if charge is not None:
                least, root = least_area(limit, height, charge), root_area(limit, height, charge)
    if room is not None and room.ceiling_height is not None:
        by_concentration = refrigerant.concentration_limit * room.floor_area * room.ceiling_height
    return LeakSafety(
        safety_group=refrigerant.safety_group,
        lower_flammability_limit=limit,
        exempt_mass=None if exempt is None else Mass(exempt),
        limit_mass=None if limit_mass is None else Mass(limit_mass),
        minimum_floor_area=None if least is None else Area(least),
        root_floor_area=None if root is None else Area(root),
        concentration_limit=refrigerant.concentration_limit,
        concentration_mass=None if by_concentration is None else Mass(by_concentration),
        charge=charge,
    )
