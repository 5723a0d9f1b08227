"""Where two parts of a job want different things: both sides, by how much, and the least change that would settle it."""

from collections.abc import Callable, Iterator

from kneewall.calculations.equipment_hanging.channel import OUTLINES
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension
from kneewall.retrofit.air_conflicts import blower_and_ducts, space_and_sheet_metal
from kneewall.retrofit.line_conflicts import cooling_and_heating_line
from kneewall.retrofit.loop_heights import loop_and_elevations
from kneewall.retrofit.results import Conflict
from kneewall.retrofit.stated_twice import twice_as_conflict
from kneewall.retrofit.water_conflicts import pan_and_loop_leak, water_and_supply
from kneewall.retrofit.work import Work


def conflicts(work: Work) -> list[Conflict]:
    """Every pair of parts that can clash and is known well enough to tell, those that clash first."""
    order = {"fails": 0, "refer": 1, "watch": 2, "meets": 3}
    return sorted(
        [*(found for finder in FINDERS for found in finder(work)), *map(twice_as_conflict, work.twice)], key=lambda conflict: order[conflict.verdict]
    )


def hanging_and_drain(work: Work) -> Iterator[Conflict]:
    """The drain wants the unit high, the rafters want it low. Source: retrofit-check.hanging-height."""
    drain, question = work.result("condensate_drain"), work.asked("condensate_drain")
    heights, unit = work.question.elevations, work.question.unit
    if drain is None or drain.elevations is None:
        return
    raise_by = Dimension(max(0.0, drain.elevations.lowest_pan_outlet - question.elevations.pan_outlet))
    room = None
    if heights.rafter_underside is not None and heights.unit_base is not None and unit.height is not None:
        room = Dimension(heights.rafter_underside - heights.unit_base - unit.height)
    names = ["condensate-drain", "equipment-hanging"]
    if room is not None and room < 0.0:
        says = Phrase("The unit's top would stand {} above the underside of the rafters.", Dimension(-room))
        settle = Phrase("Hang it {} lower, and let the drain fall from there; or choose a lower unit.", Dimension(-room))
        yield Conflict(conflict="headroom", between=["equipment-hanging", "framing"], verdict="fails", by=Dimension(-room), says=says, settle=settle)
    if raise_by > 1e-6 and question.pump is not None:
        yield _pumped(work, names, raise_by)
    elif raise_by > 1e-6:
        yield _too_low(names, raise_by, room)
    else:
        says = Phrase(
            "At this height trap and drain have the height they need; the pan's outlet could be as low as {}.", drain.elevations.lowest_pan_outlet
        )
        yield Conflict(conflict="hanging height and drain", between=names, verdict="meets", says=says)


def room_below(work: Work) -> Iterator[Conflict]:
    """Auxiliary pan and channel lie under the unit and over the attic floor. Source: retrofit-check.hanging-height."""
    hanging, drain, heights = work.asked("equipment_hanging"), work.asked("condensate_drain"), work.question.elevations
    pan = getattr(hanging, "pan", None) or getattr(getattr(drain, "auxiliary_pan", None), "pan", None)
    trapeze = getattr(hanging, "trapeze", None)
    needed = Dimension((0.0 if pan is None else pan.depth) + (0.0 if trapeze is None else OUTLINES[trapeze.section].depth))
    if heights.unit_base is None or heights.attic_floor is None or needed <= 0.0:
        return
    room, names = Dimension(heights.unit_base - heights.attic_floor), ["equipment-hanging", "attic floor"]
    if room >= needed * (1 - 1e-9):
        says = Phrase("Pan and channel take {} under the unit, and {} are free there.", needed, room)
        yield Conflict(conflict="room below", between=names, verdict="meets", says=says)
        return
    says = Phrase("Pan and channel take {} under the unit, and its underside hangs {} above the attic floor.", needed, room)
    short = Dimension(needed - room)
    yield Conflict(conflict="room below", between=names, verdict="fails", by=short, says=says, settle=Phrase("Hang the unit {} higher.", short))


def _pumped(work: Work, names: list[str], raise_by: Dimension) -> Conflict:
    """A pump stands in for height where it lifts high enough and stops the unit when it fails; what is not stated is to be watched."""
    pump, lift = work.asked("condensate_drain").pump, work.result("condensate_drain").pump.static_lift
    name, lifts = "hanging height and drain", work.verdicts("condensate_drain").get("pump lift")
    if pump.stops_unit and lifts == "meets":
        says = Phrase(
            "The pan's outlet hangs {} too low for gravity; the pump must lift {}, can lift {}, and stops the unit.", raise_by, lift, pump.rated_lift
        )
        return Conflict(conflict=name, between=names, verdict="meets", says=says)
    says = Phrase("The pan's outlet hangs {} too low for gravity, and the pump must lift {} and stop the unit when it fails.", raise_by, lift)
    settle = Phrase("Take a pump that lifts {} or more, with its high-level switch wired to stop the unit.", lift)
    return Conflict(
        conflict=name,
        between=names,
        verdict="fails" if pump.stops_unit is False or lifts == "fails" else "watch",
        by=raise_by,
        says=says,
        settle=settle,
    )


def _too_low(names: list[str], raise_by: Dimension, room: Dimension | None) -> Conflict:
    says = Phrase("Trap and drain need the pan's outlet {} higher than it would hang.", raise_by)
    if room is None:
        settle = Phrase("Hang the unit {} higher, if the rafters leave that room; else lower the receiver by as much, or pump.", raise_by)
    elif raise_by <= room:
        settle = Phrase("Hang the unit {} higher: {} are free under the rafters.", raise_by, room)
    else:
        sentence = (
            "Only {} are free under the rafters: hang it that much higher and lower the receiver by {}, or pump with a switch that stops the unit."
        )
        settle = Phrase(sentence, Dimension(max(room, 0.0)), Dimension(raise_by - max(room, 0.0)))
    return Conflict(conflict="hanging height and drain", between=names, verdict="fails", by=raise_by, says=says, settle=settle)


def access_and_hanging(work: Work) -> Iterator[Conflict]:
    """What hangs wider than the unit takes from the space to kneel in. Source: retrofit-check.access-space."""
    access, hanging, unit = work.asked("service_access"), work.asked("equipment_hanging"), work.question.unit
    if access is None or hanging is None or access.service_space is None or unit.width is None:
        return
    widest = max(hanging.rods.across, 0.0 if hanging.pan is None else hanging.pan.width)
    overhang = Dimension(max(0.0, (widest - unit.width) / 2.0))
    free = Dimension(min(access.service_space.length, access.service_space.width) - overhang)
    needed = Dimension.of(30, "in")
    names = ["service-access", "equipment-hanging"]
    if free >= needed * (1 - 1e-9):
        says = Phrase("Beside pan and rods {} stay free for service, where {} are needed.", free, needed)
        yield Conflict(conflict="access and what hangs there", between=names, verdict="meets", says=says)
        return
    short = Dimension(needed - free)
    says = Phrase("Pan or rods stand out {} beyond the unit and leave {} to work in, where {} are needed.", overhang, free, needed)
    settle = Phrase("Make the level service space {} deeper, or hang the unit that much further from it.", short)
    yield Conflict(conflict="access and what hangs there", between=names, verdict="fails", by=short, says=says, settle=settle)


FINDERS: tuple[Callable[[Work], Iterator[Conflict]], ...] = (
    blower_and_ducts,
    water_and_supply,
    hanging_and_drain,
    room_below,
    space_and_sheet_metal,
    cooling_and_heating_line,
    pan_and_loop_leak,
    access_and_hanging,
    loop_and_elevations,
)
