"""The loop's fluids as a table for people: what the formulas give at 40 degF, by mass of antifreeze."""

from typing import get_args

from kneewall.kernel.quantity import Temperature
from kneewall.kernel.table import Column, Table
from kneewall.physics.water import ANTIFREEZE, FluidKind, properties_of

AT = Temperature.of(40, "degF")
FRACTIONS = (0.1, 0.2, 0.3, 0.4)

FLUIDS = Table(
    rule=ANTIFREEZE,
    columns=[
        Column(name="fluid"),
        Column(name="mass_fraction", says="mass of antifreeze in the mass of the mixture; none for water"),
        Column(name="freezing_point", unit="degF"),
        Column(name="density", unit="kg/m3", says="at 40 degF"),
        Column(name="viscosity", unit="mPa.s", says="at 40 degF"),
        Column(name="heat_capacity", unit="J/(kg.K)", says="at 40 degF"),
    ],
    between="refuse",
    outside="refuse",
    materials="fluids",
    rows=[
        {
            "fluid": kind,
            "mass_fraction": fraction,
            "freezing_point": round(Temperature(liquid.freezing).to("degF"), 1),
            "density": round(liquid.at(AT).density, 1),
            "viscosity": round(liquid.at(AT).viscosity * 1000, 3),
            "heat_capacity": round(liquid.at(AT).specific_heat),
        }
        for kind in get_args(FluidKind)
        for fraction in ((0.0,) if kind == "water" else FRACTIONS)
        for liquid in [properties_of(kind, fraction or None)]
        if liquid.freezing < AT
    ],
)
