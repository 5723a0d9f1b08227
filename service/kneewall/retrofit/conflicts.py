"""Where two parts of a job want different things: both sides, by how much, and the least change that would settle it."""

from collections.abc import Callable, Iterator

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension, Duration
from kneewall.retrofit.air_conflicts import blower_and_ducts, space_and_sheet_metal
from kneewall.retrofit.results import Conflict
from kneewall.retrofit.water_conflicts import water_and_supply
from kneewall.retrofit.work import Work


def conflicts(work: Work) -> list[Conflict]:
    """Every pair of parts that can clash and is known well enough to tell, those that clash first."""
    order = {"fails": 0, "refer": 1, "watch": 2, "meets": 3}
    return sorted((found for finder in FINDERS for found in finder(work)), key=lambda conflict: order[conflict.verdict])


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
    if raise_by > 1e-6:
        yield _too_low(names, raise_by, room)
    else:
        says = Phrase(
            "At this height trap and drain have the height they need; the pan's outlet could be as low as {}.", drain.elevations.lowest_pan_outlet
        )
        yield Conflict(conflict="hanging height and drain", between=names, verdict="meets", says=says)


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


def cooling_and_heating_line(work: Work) -> Iterator[Conflict]:
    """One vapour line carries cold vapour in summer and hot gas in winter. Source: retrofit-check.one-line-two-modes."""
    lines, question = work.result("refrigerant_line_sizing"), work.asked("refrigerant_line_sizing")
    if lines is None or question.heating is None:
        return
    names = ["refrigerant-line-sizing: cooling", "refrigerant-line-sizing: heating"]
    chosen = question.vapor_line.size or lines.vapor_line.recommended
    if lines.vapor_line.recommended is not None:
        says = Phrase("One vapor line of {} serves both modes.", lines.vapor_line.recommended)
        verdict = "meets"
        if chosen is not None and abs(chosen - lines.vapor_line.recommended) > 1e-6:
            failing = "fails" in work.verdicts("refrigerant_line_sizing").values()
            verdict = "fails" if failing else "watch"
            says = Phrase("The vapor line is to be {}, where {} is the smallest that serves both modes.", chosen, lines.vapor_line.recommended)
        settle = None if verdict == "meets" else Phrase("Run {} instead.", lines.vapor_line.recommended)
        yield Conflict(conflict="one line, two modes", between=names, verdict=verdict, says=says, settle=settle)  # type: ignore[arg-type]
        return
    says = Phrase("No single vapor line satisfies cooling and heating: a small one loses too much, a large one leaves oil in the riser.")
    if lines.double_riser is not None:
        settle = Phrase("A double riser of {} and {}, or a shorter run with fewer bends.", lines.double_riser.small, lines.double_riser.large)
    else:
        settle = Phrase("A shorter run with fewer bends, or less height between the units.")
    yield Conflict(conflict="one line, two modes", between=names, verdict="fails", says=says, settle=settle)


def pan_and_loop_leak(work: Work) -> Iterator[Conflict]:
    """The pan is made for drops, a broken hose lets out the loop. Source: retrofit-check.pan-and-loop-leak."""
    drain, question = work.result("condensate_drain"), work.asked("condensate_drain")
    if drain is None or drain.auxiliary_pan is None or drain.auxiliary_pan.fills_with_loop_leak is None:
        return
    fills: Duration = drain.auxiliary_pan.fills_with_loop_leak
    names = ["condensate-drain: auxiliary pan", "water-loop-flow"]
    if question.auxiliary_pan.leak_shutoff:
        says = Phrase("A broken hose fills the pan in {}; a leak sensor shuts the loop's valve and stops the unit before that.", fills)
        yield Conflict(conflict="pan and loop leak", between=names, verdict="meets", by=fills, says=says)
        return
    says = Phrase("A broken hose or coil fills the pan in {}, and no drain of its size keeps up.", fills)
    settle = Phrase("A leak sensor low in the pan that closes the loop's valve and stops compressor and pump.")
    yield Conflict(conflict="pan and loop leak", between=names, verdict="fails", by=fills, says=says, settle=settle)


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
    space_and_sheet_metal,
    cooling_and_heating_line,
    pan_and_loop_leak,
    access_and_hanging,
)
