"""The checks on what goes with the tubes: charge, leak, insulation; and the run as drawn."""

from kneewall.calculations.refrigerant_line_sizing import cautions, rules
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import DoubleRiser, LeakSafety, LineCharge, LineElevations, RunPoint, VaporLineInsulation
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Length, Mass, ThermalResistance
from kneewall.physics.refrigerant import SAFETY_DATA

CODE_RESISTANCE = ThermalResistance.of(3, "ft2.h.degF/Btu")


def check_double_riser(findings: Findings, riser: DoubleRiser) -> None:
    """What a double riser would take; the maker has to agree to it."""
    says = Phrase(
        "Two risers side by side would do: {} alone at the lowest stage, with {} beside it at full capacity, and an oil trap at the foot of the larger. "
        "Have the equipment's maker agree.", riser.small, riser.large,
    )  # fmt: skip
    findings.check("double riser", "refer", rules.DOUBLE_RISER, says)


def check_charge(findings: Findings, charge: LineCharge) -> None:
    """Charge to add or take out: always the manual's word in the end."""
    findings.apply(rules.CHARGE)
    if charge.added is None:
        return
    if charge.added >= 0.0:
        says = Phrase("Add about {} to the factory charge, by weight; the equipment's own adder and its subcooling go before this.", charge.added)
    else:
        says = Phrase(
            "The lines are shorter than the factory charge covers: about {} too much. Recover it, if the manual says so; never vent it.",
            Mass(-charge.added),
        )
    findings.check("charge", "refer", rules.CHARGE, says, actual=charge.added)


def check_leak(findings: Findings, question: RefrigerantLineSizingQuestion, leak: LeakSafety) -> None:
    """Leak safety of the room: always `refer`, with what the formulas say."""
    findings.apply(SAFETY_DATA)
    if leak.lower_flammability_limit is not None:
        findings.caution(cautions.IGNITION)
        _check_room(findings, question, leak)
    if leak.charge is not None and leak.concentration_mass is not None:
        above = leak.charge > leak.concentration_mass * (1.0 + 1e-9)
        says = Phrase(
            "The charge of {} is above the {} that fills this room to the concentration limit: a leak could harm people. The manual and the authority decide."
            if above
            else "The charge of {} is below the {} that fills this room to the concentration limit. The manual and the authority decide.",
            leak.charge, leak.concentration_mass,
        )  # fmt: skip
        findings.check("concentration", "refer", SAFETY_DATA, says, actual=leak.charge, limit=leak.concentration_mass)


def _check_room(findings: Findings, question: RefrigerantLineSizingQuestion, leak: LeakSafety) -> None:
    end = "The equipment's manual, the edition of its standard and the authority decide."
    if leak.charge is None or leak.limit_mass is None or question.room is None:
        says = Phrase(f"This refrigerant burns ({{}}). Give the charge and the smallest room to have its limit worked out. {end}", leak.safety_group)
        findings.check("leak safety", "refer", rules.ROOM_AREA, says)
        return
    assert leak.exempt_mass is not None and leak.minimum_floor_area is not None
    if question.room.release_height is not None and question.room.release_height > rules.MOST_RELEASE_HEIGHT:
        findings.apply(rules.RELEASE_HEIGHT)
    if leak.charge <= leak.exempt_mass * (1.0 + 1e-9):
        says = Phrase(
            f"The charge of {{}} is no more than {{}}, below which the formulas do not ask for the room's size. {end}", leak.charge, leak.exempt_mass
        )
        limit = leak.exempt_mass
    elif leak.charge <= leak.limit_mass * (1.0 + 1e-9):
        says = Phrase(f"The charge of {{}} is within the {{}} of this room by the formulas. {end}", leak.charge, leak.limit_mass)
        limit = leak.limit_mass
    else:
        says = Phrase(
            f"The charge of {{}} is above the {{}} of this room; unventilated it would take {{}} of floor. Leak detection, air circulation or another room is "
            f"needed. {end}", leak.charge, leak.limit_mass, leak.minimum_floor_area,
        )  # fmt: skip
        limit = leak.limit_mass
    findings.check("leak safety", "refer", rules.ROOM_AREA, says, actual=leak.charge, limit=limit)
    assert leak.lower_flammability_limit is not None
    most = Mass(rules.LARGE_CHARGE_RATIO[leak.safety_group] * leak.lower_flammability_limit)
    if leak.charge > most * (1.0 + 1e-9):
        says = Phrase(f"The charge of {{}} is above {{}}, beyond which floor area alone does not make a room safe. {end}", leak.charge, most)
        findings.check("large charge", "refer", rules.LARGE_CHARGE, says, actual=leak.charge, limit=most)


def check_insulation(findings: Findings, question: RefrigerantLineSizingQuestion, insulation: VaporLineInsulation) -> None:
    """Whether the vapor line sweats, and whether its insulation is what the code asks."""
    air, surface = question.surroundings, insulation.surface_temperature
    findings.apply(rules.SURFACE_TEMPERATURE)
    if air is not None and air.dew_point is not None and surface is not None:
        findings.at_least(
            "condensation", surface, air.dew_point, rules.SURFACE_TEMPERATURE,
            meets="The insulation's surface stands at {}, above the air's dew point of {}: it stays dry.",
            breaks="The insulation's surface stands at {}, below the air's dew point of {}: it will drip. Take it thicker, sealed at every joint.",
        )  # fmt: skip
    if insulation.thickness_needed is None and air is not None and air.dew_point is not None:
        says = Phrase(
            "No practical thickness keeps the surface above a dew point of {} in air of {}: the air itself is too damp.",
            air.dew_point,
            air.temperature,
        )
        findings.check("insulation thickness", "watch", rules.SURFACE_TEMPERATURE, says)
    if insulation.flat_resistance is not None and insulation.cylinder_resistance is not None:
        _check_code(findings, insulation.flat_resistance, insulation.cylinder_resistance)


def _check_code(findings: Findings, flat: ThermalResistance, round_: ThermalResistance) -> None:
    slack = 1.0 + 1e-9
    if flat * slack >= CODE_RESISTANCE:
        says = Phrase("Thickness over conductivity is {}, at least the code's {}.", flat, CODE_RESISTANCE)
        findings.check("insulation resistance", "meets", rules.INSULATION_CODE, says, actual=flat, limit=CODE_RESISTANCE)
    elif round_ * slack >= CODE_RESISTANCE:
        says = Phrase(
            "On the outer surface it is {}, thickness over conductivity only {}, against the code's {}: ask the inspector which counts.",
            round_,
            flat,
            CODE_RESISTANCE,
        )
        findings.check("insulation resistance", "refer", rules.INSULATION_CODE, says, actual=round_, limit=CODE_RESISTANCE)
    else:
        says = Phrase("It is {} on the outer surface, below the code's {}: take it thicker.", round_, CODE_RESISTANCE)
        findings.check("insulation resistance", "fails", rules.INSULATION_CODE, says, actual=round_, limit=CODE_RESISTANCE)


def elevations(question: RefrigerantLineSizingQuestion) -> LineElevations:
    """The vapor line as drawn: level from the outdoor unit, then one riser to the indoor coil. Source: refrigerant-line-sizing.pitch."""
    height, length = question.indoor_above_outdoor, question.vapor_line.length
    level = length - abs(height)
    flows = "level" if height == 0.0 else "down" if height > 0.0 else "up"
    return LineElevations(
        points=[
            RunPoint(place="outdoor unit", along=Length(0.0), elevation=Length(0.0)),
            RunPoint(place="foot of the riser" if height >= 0.0 else "head of the riser", along=Length(level), elevation=Length(0.0)),
            RunPoint(place="indoor coil", along=length, elevation=height),
        ],
        vapor_flows=flows,  # type: ignore[arg-type]
        fall_toward_outdoor=Dimension(level * rules.PITCH),
    )
