"""Fills the tables of refrigerants. See `refrigerant_tables` for what stands in them."""

from collections.abc import Callable, Sequence
from math import exp, exp2, isfinite, log, log1p, log2, nan
from typing import Any

import msgspec

from kneewall.physics.by_coolprop.library import CoolProp
from kneewall.physics.refrigerant_tables import (
    BELOW_CRITICAL,
    BEYOND_CRITICAL,
    GREATEST_TEMPERATURE,
    LEAST_TEMPERATURE,
    MOST_SUPERHEAT,
    SUPERHEAT_SCALE,
    PropertyTables,
)
from kneewall.physics.spline import Curve, Surface, Through, curve, even_steps, inverse, surface

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


def build_tables(name: str) -> PropertyTables:
    """The tables of one refrigerant. Raises: ValueError where CoolProp does not know it or its curves break off."""
    fluid = FLUIDS[name]
    greatest = min(GREATEST_TEMPERATURE, fluid.critical_temperature - BELOW_CRITICAL)
    edge = fluid.critical_temperature + BEYOND_CRITICAL
    start, stop = -log2(edge - (LEAST_TEMPERATURE - 10.0 * MARGIN)), -log2(edge - (greatest + MARGIN))
    state = CoolProp.AbstractState("HEOS", fluid.name)
    places = even_steps(start, stop, SATURATION_NODES)

    def by_place(values: list[float]) -> Curve:
        return curve(start, stop, bridged(places, values))

    def by_pressure(pressure: Curve) -> Curve:
        return inverse(lambda temperature: pressure.at(-log2(edge - temperature)), edge - exp2(-start), edge - exp2(1e-9 - stop), SATURATION_NODES)

    liquid = saturation(state, 0.0, edge, places)
    vapor = saturation(state, 1.0, edge, places)
    bubble, dew = by_place(logarithms(liquid["pressure"])), by_place(logarithms(vapor["pressure"]))
    viscosity = liquid["viscosity"] if fluid.mixed is None else [mixed_viscosity(fluid.mixed, edge - exp2(-place)) for place in places]
    return PropertyTables(
        least_temperature=LEAST_TEMPERATURE,
        greatest_temperature=greatest,
        edge=edge,
        bubble_pressure=bubble,
        dew_pressure=dew,
        bubble_temperature=by_pressure(bubble),
        dew_temperature=by_pressure(dew),
        liquid_density=by_place(logarithms(liquid["density"])),
        liquid_enthalpy=by_place(liquid["enthalpy"]),
        liquid_viscosity=by_place(logarithms(viscosity)),
        **superheated(state, edge, start, stop, dew.at),
    )


def saturation(state: Any, quality: float, edge: float, places: Sequence[float]) -> dict[str, list[float]]:
    """Pressure, density, enthalpy and viscosity of saturated liquid (quality 0) or vapor (1); not-a-number where CoolProp's flash fails."""
    found: dict[str, list[float]] = {"pressure": [], "density": [], "enthalpy": [], "viscosity": []}
    for place in places:
        try:
            state.update(CoolProp.QT_INPUTS, quality, edge - exp2(-place))
            here = (state.p(), state.rhomass(), state.hmass(), state.viscosity())
        except ValueError:
            here = (nan,) * 4
        for values, value in zip(found.values(), here, strict=True):
            values.append(value)
    return found


def superheated(state: Any, edge: float, start: float, stop: float, log_dew: Callable[[float], float]) -> dict[str, Surface]:
    """Density over pressure, enthalpy, entropy and viscosity of vapor by dew point and superheat. The phase is imposed: no flash can fail."""
    across = log1p((MOST_SUPERHEAT + 10.0 * MARGIN) / SUPERHEAT_SCALE)
    superheats = [SUPERHEAT_SCALE * (exp(u) - 1.0) for u in even_steps(0.0, across, SUPERHEAT_NODES)]
    found: dict[str, list[list[float]]] = {"vapor_density": [], "vapor_enthalpy": [], "vapor_entropy": [], "vapor_viscosity": []}
    state.specify_phase(CoolProp.iphase_gas)
    for place in even_steps(start, stop, VAPOR_NODES):
        pressure, dew = exp2(log_dew(min(place, stop - 1e-9))), edge - exp2(-place)
        row = []
        for superheat in superheats:
            state.update(CoolProp.PT_INPUTS, pressure, dew + superheat)
            row.append((log2(state.rhomass() / pressure), state.hmass(), state.smass(), log2(state.viscosity())))
        for rows, values in zip(found.values(), zip(*row, strict=True), strict=True):
            rows.append(list(values))
    return {name: surface(start, stop, across, rows) for name, rows in found.items()}


def mixed_viscosity(mixed: Mixed, temperature: float) -> float:
    """Viscosity of a saturated liquid blend, Pa.s: ln mu = sum x_i ln mu_i of the pure components at the same temperature, x mole fractions.

    Departs: CoolProp's own figure for mixtures, which is several times too high.
    """
    total = 0.0
    for name, share in mixed.components:
        total += share * log(CoolProp.PropsSI("V", "T", temperature, "Q", 0.0, name))
    return exp(total)


def bridged(places: Sequence[float], values: list[float]) -> list[float]:
    """The values, with those that are not numbers put on the spline through their neighbours. Raises: ValueError where an end or a quarter is missing."""
    known = [(place, value) for place, value in zip(places, values, strict=True) if isfinite(value)]
    if not (isfinite(values[0]) and isfinite(values[-1])) or len(known) < 0.75 * len(places):
        raise ValueError("the saturation curve breaks off")
    through = Through(*zip(*known, strict=True))
    return [value if isfinite(value) else through.at(place) for place, value in zip(places, values, strict=True)]


def logarithms(values: list[float]) -> list[float]:
    """Logarithms to base 2; not-a-number stays."""
    return [log2(value) for value in values]
