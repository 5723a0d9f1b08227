"""Heights: where the run ends, how far it may go, how low the unit may hang, what a pump would lift."""

from kneewall.calculations.condensate_drain.messages import CondensatePump, DrainElevations, DrainRun
from kneewall.calculations.condensate_drain.results import DrainHeights, DrainPump
from kneewall.kernel.quantity import Dimension, Length

LEAST_AIR_GAP = 0.0254
SUMP_DEPTH = Dimension.of(6, "in")


def fall_of(run: DrainRun) -> float:
    """Fall of the run, m: slope times length plus the drops at fittings. Source: condensate-drain.fall."""
    return run.slope * run.length + (run.drop_at_fittings or 0.0)


def air_gap_of(elevations: DrainElevations, bore: float) -> float:
    """The air gap, m: as given, else two bores and at least 1 in. Source: condensate-drain.air-gap."""
    return max(2.0 * bore, LEAST_AIR_GAP) if elevations.air_gap is None else elevations.air_gap


def heights(elevations: DrainElevations, run: DrainRun, drop: float, height: float, bore: float) -> DrainHeights:
    """Every height that follows from the trap's outlet `drop` and overall `height`, m.

    end = pan outlet - H - s L - drops; longest run = (pan outlet - H - drops - rim - gap)/s; lowest pan outlet = rim + gap + s L + drops + H.
    Source: condensate-drain.fall.
    """
    outlet, fall, gap = elevations.pan_outlet, fall_of(run), air_gap_of(elevations, bore)
    needed = elevations.receiver_rim + gap
    end = outlet - drop - fall
    room = outlet - drop - (run.drop_at_fittings or 0.0) - needed
    lowest = needed + fall + drop
    base = lowest if elevations.clear_below is None else max(lowest, elevations.clear_below + height)
    return DrainHeights(
        trap_outlet=Length(outlet - drop),
        trap_bottom=Length(outlet - height),
        end_of_run=Length(end),
        margin=Dimension(end - needed),
        air_gap=Dimension(gap),
        longest_run=Length(room / run.slope) if run.slope > 1e-6 and room >= 0.0 else None,
        lowest_pan_outlet=Length(lowest),
        lowest_unit_base=None if elevations.outlet_above_base is None else Length(base - elevations.outlet_above_base),
        clear_height=None if elevations.clear_below is None else Dimension(outlet - elevations.clear_below),
    )


def pumping(pump: CondensatePump | None, found: DrainHeights) -> DrainPump:
    """Whether a pump is needed, and its static lift.

    The pump takes the water at the trap's outlet and its lowest water lies a sump's depth below. Without a stated highest point the discharge rises to where
    the rest of the run falls to the receiver: the shortfall above the trap's outlet. Source: condensate-drain.pump-lift.
    """
    needed = found.margin < -1e-9
    if not needed and pump is None:
        return DrainPump(needed=False)
    depth = SUMP_DEPTH if pump is None or pump.sump_depth is None else pump.sump_depth
    rise = -found.margin if pump is None or pump.highest_point is None else pump.highest_point - found.trap_outlet
    return DrainPump(needed=needed, static_lift=Length(max(rise, 0.0) + depth))
