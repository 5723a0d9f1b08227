"""What a refrigerant's tables hold and how far they reach. They are filled at start-up and never change.

Temperatures become w = -log2(Tc + 3 K - T) and superheats become u = ln(1 + superheat/10 K): in these, properties bend so evenly up to 8 K
below the critical point that few nodes do. Pressures, densities and viscosities stand as logarithms to base 2, which Python takes in a third of
the time of natural ones.
"""

import msgspec

from kneewall.physics.spline import Curve, Surface

LEAST_TEMPERATURE = 223.15
"""K, -50 degC"""
GREATEST_TEMPERATURE = 343.15
"""K, 70 degC, where the refrigerant's critical point does not come too near"""
BELOW_CRITICAL = 8.0
"""K that are kept below the critical temperature"""
MOST_SUPERHEAT = 100.0
"""K"""
BEYOND_CRITICAL, SUPERHEAT_SCALE = 3.0, 10.0


class PropertyTables(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """One refrigerant's tables; `edge` is the temperature, K, from which w is measured."""

    least_temperature: float
    greatest_temperature: float
    edge: float
    bubble_pressure: Curve
    dew_pressure: Curve
    bubble_temperature: Curve
    """K by the logarithm of pressure"""
    dew_temperature: Curve
    liquid_density: Curve
    liquid_enthalpy: Curve
    liquid_viscosity: Curve
    vapor_density: Surface
    vapor_enthalpy: Surface
    vapor_entropy: Surface
    vapor_viscosity: Surface
