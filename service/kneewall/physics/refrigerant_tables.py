"""Tables of refrigerant properties, worked out by CoolProp when the service starts and never changed. CoolProp is called nowhere else.

Temperatures become w = -ln(Tc + 3 K - T) and superheats become u = ln(1 + superheat/10 K): in these, properties bend so evenly up to 8 K
below the critical point that few nodes do. Pressures, densities and viscosities stand as logarithms.
"""

from collections.abc import Callable
from math import exp, log, log1p
from typing import Any

import msgspec
import numpy as np
from CoolProp import CoolProp
from scipy.interpolate import CubicSpline

from kneewall.physics.spline import Curve, Surface, curve, inverse, surface

LEAST_TEMPERATURE = 223.15
"""K, -50 degC"""
GREATEST_TEMPERATURE = 343.15
"""K, 70 degC, where the refrigerant's critical point does not come too near"""
BELOW_CRITICAL = 8.0
"""K that are kept below the critical temperature"""
MOST_SUPERHEAT = 100.0
"""K"""
BEYOND_CRITICAL, SUPERHEAT_SCALE = 3.0, 10.0
SATURATION_NODES, VAPOR_NODES, SUPERHEAT_NODES = 90, 40, 24
MARGIN = 0.15
"""K by which nodes reach beyond the range offered at its top; at the bottom it is ten times as much"""


class Mixed(msgspec.Struct, frozen=True):
    """A blend whose liquid viscosity comes from its components: CoolProp's names and mole fractions."""

    components: tuple[tuple[str, float], ...]


class Fluid(msgspec.Struct, frozen=True):
    """How CoolProp knows a refrigerant."""

    name: str
    critical_temperature: float
    mixed: Mixed | None = None


FLUIDS = {
    "R-410A": Fluid("R410A", 344.494),
    "R-454B": Fluid("R454B.mix", 351.4, Mixed((("R32", 0.8292), ("R1234yf", 0.1708)))),
    "R-32": Fluid("R32", 351.255),
    "R-22": Fluid("R22", 369.295),
    "R-407C": Fluid("R407C", 359.345),
    "R-134a": Fluid("R134a", 374.212),
    "R-290": Fluid("R290", 369.890),
}


class PropertyTables(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """One refrigerant's tables; `edge` is the temperature, K, from which w is measured."""

    least_temperature: float
    greatest_temperature: float
    edge: float
    bubble_pressure: Curve
    dew_pressure: Curve
    bubble_place: Curve
    """w by the logarithm of pressure"""
    dew_place: Curve
    liquid_density: Curve
    liquid_enthalpy: Curve
    liquid_viscosity: Curve
    vapor_density: Surface
    vapor_enthalpy: Surface
    vapor_entropy: Surface
    vapor_viscosity: Surface


def build_tables(name: str) -> PropertyTables:
    """The tables of one refrigerant. Raises: ValueError where CoolProp does not know it or its curves break off."""
    fluid = FLUIDS[name]
    greatest = min(GREATEST_TEMPERATURE, fluid.critical_temperature - BELOW_CRITICAL)
    edge = fluid.critical_temperature + BEYOND_CRITICAL
    start, stop = -log(edge - (LEAST_TEMPERATURE - 10.0 * MARGIN)), -log(edge - (greatest + MARGIN))
    state = CoolProp.AbstractState("HEOS", fluid.name)
    places = np.linspace(start, stop, SATURATION_NODES)

    def by_place(values: list[float]) -> Curve:
        return curve(start, stop, bridged(places, values))

    liquid = saturation(state, 0.0, edge, places)
    vapor = saturation(state, 1.0, edge, places)
    bubble, dew = by_place(logarithms(liquid["pressure"])), by_place(logarithms(vapor["pressure"]))
    viscosity = liquid["viscosity"] if fluid.mixed is None else [mixed_viscosity(fluid.mixed, edge - exp(-place)) for place in places.tolist()]
    return PropertyTables(
        least_temperature=LEAST_TEMPERATURE,
        greatest_temperature=greatest,
        edge=edge,
        bubble_pressure=bubble,
        dew_pressure=dew,
        bubble_place=inverse(bubble.at, start, stop - 1e-9, SATURATION_NODES),
        dew_place=inverse(dew.at, start, stop - 1e-9, SATURATION_NODES),
        liquid_density=by_place(logarithms(liquid["density"])),
        liquid_enthalpy=by_place(liquid["enthalpy"]),
        liquid_viscosity=by_place(logarithms(viscosity)),
        **superheated(state, edge, start, stop, dew.at),
    )


def saturation(state: Any, quality: float, edge: float, places: Any) -> dict[str, list[float]]:
    """Pressure, density, enthalpy and viscosity of saturated liquid (quality 0) or vapour (1); not-a-number where CoolProp's flash fails."""
    found: dict[str, list[float]] = {"pressure": [], "density": [], "enthalpy": [], "viscosity": []}
    for place in places.tolist():
        try:
            state.update(CoolProp.QT_INPUTS, quality, edge - exp(-place))
            here = (state.p(), state.rhomass(), state.hmass(), state.viscosity())
        except ValueError:
            here = (float("nan"),) * 4
        for values, value in zip(found.values(), here, strict=True):
            values.append(value)
    return found


def superheated(state: Any, edge: float, start: float, stop: float, log_dew: Callable[[float], float]) -> dict[str, Surface]:
    """Density over pressure, enthalpy, entropy and viscosity of vapour by dew point and superheat. The phase is imposed: no flash can fail."""
    across = log1p((MOST_SUPERHEAT + 10.0 * MARGIN) / SUPERHEAT_SCALE)
    values = np.empty((4, VAPOR_NODES, SUPERHEAT_NODES))
    state.specify_phase(CoolProp.iphase_gas)
    for row, place in enumerate(np.linspace(start, stop, VAPOR_NODES).tolist()):
        pressure, dew = exp(log_dew(min(place, stop - 1e-9))), edge - exp(-place)
        for column, u in enumerate(np.linspace(0.0, across, SUPERHEAT_NODES).tolist()):
            state.update(CoolProp.PT_INPUTS, pressure, dew + SUPERHEAT_SCALE * (exp(u) - 1.0))
            values[:, row, column] = log(state.rhomass() / pressure), state.hmass(), state.smass(), log(state.viscosity())
    names = ("vapor_density", "vapor_enthalpy", "vapor_entropy", "vapor_viscosity")
    return {name: surface(start, stop, across, table) for name, table in zip(names, values, strict=True)}


def mixed_viscosity(mixed: Mixed, temperature: float) -> float:
    """Viscosity of a saturated liquid blend, Pa.s: ln mu = sum x_i ln mu_i of the pure components at the same temperature, x mole fractions.

    Departs: CoolProp's own figure for mixtures, which is several times too high.
    """
    total = 0.0
    for name, share in mixed.components:
        total += share * log(CoolProp.PropsSI("V", "T", temperature, "Q", 0.0, name))
    return exp(total)


def bridged(places: Any, values: list[float]) -> Any:
    """The values, with those that are not numbers put on the spline through their neighbours. Raises: ValueError where an end or a quarter is missing."""
    known = np.isfinite(values)
    if not (known[0] and known[-1]) or known.sum() < 0.75 * len(places):
        raise ValueError("the saturation curve breaks off")
    return np.where(known, values, CubicSpline(places[known], np.asarray(values)[known])(places))


def logarithms(values: list[float]) -> list[float]:
    """Natural logarithms; not-a-number stays."""
    return [log(value) for value in values]
