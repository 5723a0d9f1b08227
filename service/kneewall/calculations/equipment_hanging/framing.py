"""What the members of the house get of a hung unit."""

from kneewall.calculations.equipment_hanging.answers import FramingResult
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion, Framing
from kneewall.kernel.quantity import AreaLoad, Dimension, Load, Moment, Stress
from kneewall.kernel.refusal import Fault, fault
from kneewall.physics.beams import midspan_load_moment, rectangle_section

RODS = 4.0
LUMBER_DEPTHS = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}
LUMBER_MODULI = {size: rectangle_section(Dimension.of(1.5, "in"), Dimension.of(depth, "in")).modulus for size, depth in LUMBER_DEPTHS.items()}


def framing_faults(question: EquipmentHangingQuestion) -> list[Fault]:
    """What contradicts itself in the framing: half members, rods without a member, thread without wood."""
    framing, anchor = question.framing, question.anchor
    found = [
        fault(f"/framing/{name}", "must be a whole number, not {}", number)
        for name, number in (("members", framing.members), ("rods_on_one_member", framing.rods_on_one_member))
        if number is not None and number != int(number)
    ]
    if framing.rods_on_one_member is not None and framing.rods_on_one_member * framing.members < RODS:
        says = "{} on each of {} members do not make four rods"
        found.append(fault("/framing/rods_on_one_member", says, framing.rods_on_one_member, framing.members))
    if framing.size is not None and anchor.thread_length is not None and anchor.into == "side-grain":
        depth = Dimension.of(LUMBER_DEPTHS[framing.size], "in")
        if anchor.thread_length > depth * (1.0 + 1e-9):
            says = "{} of thread cannot be in the wood of a {}, which is {} deep: what stands out above it holds nothing"
            found.append(fault("/anchor/thread_length", says, anchor.thread_length, framing.size, depth))
    return found


def rods_on_one_member(framing: Framing) -> float:
    """How many of the four rods one member has to be reckoned with: as given, else as few as their number allows, two where rods run along it."""
    if framing.rods_on_one_member is not None:
        return framing.rods_on_one_member
    return 1.0 if framing.members >= RODS else 2.0 if framing.members > 1.0 else RODS


def framing_under(question: EquipmentHangingQuestion, total: float, off_centre: float, worst_rod: float) -> FramingResult:
    """What each member gets: an even share, and all of the rods on the most loaded one: the worst rod, the two of the loaded side, or everything.

    Source: equipment-hanging.member-share.
    """
    framing, equipment = question.framing, question.equipment
    rods = rods_on_one_member(framing)
    worst = worst_rod if rods < 2.0 else total * (1.0 + off_centre) / 2.0 if rods < 3.0 else total
    moment = modulus = None
    if framing.size is not None and framing.span is not None and framing.kind != "truss":
        moment = midspan_load_moment(worst, framing.span)
        modulus = LUMBER_MODULI[framing.size]
    return FramingResult(
        load_per_member=Load(total / framing.members),
        most_loaded_member=Load(worst),
        footprint_load=AreaLoad(total / (equipment.length * equipment.width)),
        added_moment=None if moment is None else Moment(moment),
        added_stress=None if moment is None or modulus is None else Stress(moment / modulus),
    )
