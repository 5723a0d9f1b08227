"""Insulation of the vapor line: how cold its surface gets, how thick it has to be, and its resistance by both bases."""

from math import log

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import VaporLineInsulation
from kneewall.kernel.quantity import Dimension, Temperature, ThermalResistance

MOST_THICKNESS = Dimension.of(4, "in")


def surface_temperature(air: float, line: float, radius: float, thickness: float, conductivity: float) -> float:
    """Surface temperature of round insulation, K: Ta - (Ta - T)(1/h)/(r2 ln(r2/r1)/k + 1/h); temperatures in K, the rest SI.

    Source: refrigerant-line-sizing.surface-temperature.
    """
    film = 1.0 / rules.SURFACE_COEFFICIENT
    return air - (air - line) * film / (cylinder_resistance(radius, thickness, conductivity) + film)


def cylinder_resistance(radius: float, thickness: float, conductivity: float) -> float:
    """Resistance on the outer surface, m2 K/W: r2 ln(r2/r1)/k. Source: refrigerant-line-sizing.surface-temperature."""
    outer = radius + thickness
    return outer * log(outer / radius) / conductivity


def thickness_for_dew_point(air: float, line: float, radius: float, conductivity: float, dew_point: float) -> float | None:
    """Thickness, m, at which the surface stands at the dew point; None where more than 4 in would not do it.

    With x = r2/r1: x ln x = k/(h r1) ((Ta - T)/(Ta - Tdp) - 1), by Newton's method. Source: refrigerant-line-sizing.surface-temperature.
    """
    if line >= dew_point:
        return 0.0
    if surface_temperature(air, line, radius, MOST_THICKNESS, conductivity) < dew_point:
        return None
    wanted = conductivity / (rules.SURFACE_COEFFICIENT * radius) * ((air - line) / (air - dew_point) - 1.0)
    x = 1.0 + wanted
    for _ in range(50):
        logarithm = log(x)
        step = (x * logarithm - wanted) / (logarithm + 1.0)
        x -= step
        if abs(step) < 1e-14 * x:
            break
    return radius * (x - 1.0)


def line_insulation(question: RefrigerantLineSizingQuestion, outside_diameter: Dimension) -> VaporLineInsulation | None:
    """The vapor line's insulation as far as the question says; None where it says nothing of it."""
    insulation, air = question.insulation, question.surroundings
    if insulation is None and (air is None or air.dew_point is None):
        return None
    given = None if insulation is None else insulation.conductivity
    conductivity = rules.USUAL_CONDUCTIVITY if given is None else given
    radius, line = outside_diameter / 2.0, question.cooling.evaporating
    surface = needed = None
    if air is not None and insulation is not None:
        surface = surface_temperature(air.temperature, line, radius, insulation.thickness, conductivity)
    if air is not None and air.dew_point is not None:
        needed = thickness_for_dew_point(air.temperature, line, radius, conductivity, air.dew_point)
    return VaporLineInsulation(
        line_temperature=line,
        surface_temperature=None if surface is None else Temperature(surface),
        thickness_needed=None if needed is None else Dimension(needed),
        flat_resistance=None if insulation is None else ThermalResistance(insulation.thickness / conductivity),
        cylinder_resistance=None if insulation is None else ThermalResistance(cylinder_resistance(radius, insulation.thickness, conductivity)),
    )
