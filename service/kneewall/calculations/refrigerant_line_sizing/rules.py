"""What the sizing of refrigerant lines rests on beside the physics of refrigerants, tubes and friction."""

from pathlib import Path

from kneewall.kernel.quantity import Dimension, HeatTransferCoefficient, Length, Temperature, TemperatureDifference, ThermalConductivity, Velocity
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, RuleKind, Source, Standing
from kneewall.kernel.table import load_table

FITTING_TABLE = load_table(Path(__file__).parent / "tables" / "fitting_lengths.toml")
FITTING_LENGTHS = FITTING_TABLE.rule

USUAL_PENALTY = TemperatureDifference.of(2, "degF")
USUAL_SUBCOOLING = TemperatureDifference.of(2, "degF")
MOST_SUCTION_VELOCITY = Velocity.of(4000, "fpm")
MOST_HOT_GAS_VELOCITY = Velocity.of(3500, "fpm")
MOST_LIQUID_VELOCITY = Velocity.of(600, "fpm")
MOST_LIQUID_VELOCITY_WITH_SOLENOID = Velocity.of(300, "fpm")
HIGH_SIDE_TEMPERATURE = Temperature.of(130, "degF")
LOW_SIDE_TEMPERATURE = Temperature.of(80, "degF")
LEAST_FILM_DENSITY = 1000.0
"""kg/m3"""
COMPRESSOR_EFFICIENCY = 0.70
MOST_DROP_SHARE = 0.10
USUAL_CONDUCTIVITY = ThermalConductivity.of(0.27, "Btu.in/(h.ft2.degF)")
SURFACE_COEFFICIENT = HeatTransferCoefficient.of(1.65, "Btu/(h.ft2.degF)")
LARGE_CHARGE_RATIO = {"A2L": 39.0, "A3": 26.0}
LEAST_RELEASE_HEIGHT = Length.of(0.6, "m")
MOST_RELEASE_HEIGHT = Length.of(2.2, "m")
LEAST_LEVEL_VELOCITY = Velocity.of(500, "fpm")
PITCH = Dimension.of(0.5, "in") / Length.of(10, "ft")

_REFRIGERATION = "ASHRAE Handbook - Refrigeration"


def _rule(name: str, kind: RuleKind, standing: Standing, source: Source, says: str) -> Rule:
    return Rule(id=f"refrigerant-line-sizing.{name}", kind=kind, standing=standing, source=source, says=says)


MASS_FLOW = _rule(
    "mass-flow", "formula", "computed", Source(title="Energy balance of the indoor coil"),
    "The refrigerant that flows is the coil's capacity over the difference of enthalpy across it: cooling, vapor in the suction line less liquid in "
    "the liquid line; heating, hot gas less liquid.",
)  # fmt: skip
DISCHARGE = _rule(
    "discharge-temperature", "formula", "common-practice", Source(title="Isentropic compression; the efficiency is common practice, no source document"),
    "Where the hot gas's temperature is not given, it leaves a compressor of 0.70 isentropic efficiency that takes in gas at the stated superheat.",
)  # fmt: skip
SATURATION_DROP = _rule(
    "saturation-drop", "formula", "computed", Source(title=f"{_REFRIGERATION}, chapter on halocarbon piping: losses are counted in saturation temperature"),
    "A pressure lost is counted as the fall of dew temperature (vapor) or bubble temperature (liquid) between the pressure before and after. The "
    "density at the start is used; above 10 % of the absolute pressure no figure is given.",
)  # fmt: skip
VAPOR_LOSS = _rule(
    "vapor-loss", "limit", "common-practice", COMMON_PRACTICE,
    "The vapor line may lose 2 degF of saturation temperature, as suction line and as hot-gas line, unless the question says otherwise.",
)  # fmt: skip
LIQUID_LOSS = _rule(
    "liquid-loss", "limit", "common-practice", COMMON_PRACTICE,
    "Friction in the liquid line may take 2 degF of saturation temperature, unless the question says otherwise; handbook tables are made for 1 degF.",
)  # fmt: skip
GAS_VELOCITY = _rule(
    "gas-velocity", "limit", "published", Source(title=_REFRIGERATION, edition="2010", clause="chapter 1, Table 1", publisher="ASHRAE"),
    "Gas velocity: suction 900 to 4000 fpm, discharge 2000 to 3500 fpm. The upper ends are held here; in a riser the oil-return criterion stands for the "
    "lower ends, in a level or falling line the rule of 500 fpm.",
)  # fmt: skip
LEVEL_VELOCITY = _rule(
    "level-velocity", "limit", "common-practice", COMMON_PRACTICE,
    "Where the gas does not rise it should move at 500 fpm or more at the lowest stage, so that oil does not lie in the line. The figure was found with "
    "older refrigerants; others ask 800 fpm. Pitch toward the compressor helps.",
)  # fmt: skip
LIQUID_VELOCITY = _rule(
    "liquid-velocity", "limit", "common-practice", COMMON_PRACTICE,
    "Liquid moves at 600 fpm at most, and at 300 fpm where a solenoid valve can shut on it.",
)  # fmt: skip
FLOW_REGIME = _rule(
    "flow-regime", "limit", "common-practice", COMMON_PRACTICE,
    "Between Reynolds numbers 2000 and 4000 the flow may flip between laminar and turbulent, and no friction figure is better than a guess.",
)  # fmt: skip
OIL_RETURN = _rule(
    "oil-return", "formula", "from-memory", Source(title="ASHRAE Transactions 82(2), oil transport by refrigerant vapor in risers", edition="1976"),
    "Gas carries oil up a riser from a mass flux of 0.7225 sqrt(rho g D (rho_film - rho)). The film is taken as dense as the liquid refrigerant and at "
    "least 1000 kg/m3, unless the question says otherwise. It is asked at the lowest stage, in the mode in which the gas rises.",
)  # fmt: skip
CAPACITY_FACTOR = _rule(
    "capacity-factor", "formula", "computed", Source(title="Density of the suction gas by dew point, from the equation of state"),
    "A compressor moves the same volume of gas, so cooling falls as the gas's density falls with its dew point.",
)  # fmt: skip
LIFT = _rule(
    "lift", "formula", "computed", Source(title="Hydrostatics: dp = rho g H"),
    "Liquid that has to rise loses rho g H; liquid that falls gains it. Cooling, the liquid rises to an indoor coil above the outdoor unit; heating, it falls.",
)  # fmt: skip
SUBCOOLING_LEFT = _rule(
    "subcooling-left", "limit", "common-practice", COMMON_PRACTICE,
    "At the valve the liquid must still be subcooled: bubble temperature at the pressure there less the liquid's temperature, 2 degF or as the question "
    "says, at full capacity. Liquid that boils in the line is beyond these formulas and no figure is given for it.",
)  # fmt: skip
HEAT_GAIN = _rule(
    "heat-gain", "formula", "computed", Source(title="Heat exchanger of one stream, film coefficient 1.65 Btu/(h.ft2.degF), common practice"),
    "A bare liquid line in hotter air warms by (Ta - T)(1 - exp(-h pi D L/(m c))); cooling in colder air is not counted.",
)  # fmt: skip
DESIGN_PRESSURE = _rule(
    "design-pressure", "limit", "from-memory", Source(title="ASHRAE Standard 15, design pressure of high and low side", publisher="ASHRAE"),
    "The high side stands the bubble pressure at 130 degF or as the question says, which is the vapor line's too when it is the hot-gas line; the low side "
    "that at 80 degF or at the hotter surroundings. Below the working pressure a tube fails; between working and design pressure its listing decides.",
)  # fmt: skip
SMALLEST = _rule(
    "smallest", "practice", "common-practice", COMMON_PRACTICE,
    "The smallest made tube that keeps every limit in both modes is taken; one rated for the design pressure goes before one that is not.",
)  # fmt: skip
DOUBLE_RISER = _rule(
    "double-riser", "practice", "common-practice", COMMON_PRACTICE,
    "Two risers side by side: the small one returns oil alone at the lowest stage, an oil trap shuts the large one then, both carry the full flow.",
)  # fmt: skip
CHARGE = _rule(
    "charge", "formula", "computed", Source(title="Volume of the bore times density"),
    "The lines hold bore times actual length times density; what the factory charge covers is taken off. The equipment's own adder goes before this figure.",
)  # fmt: skip
ROOM_AREA = _rule(
    "room-area", "formula", "published",
    Source(title="IEC 60335-2-40, annex GG", edition="2018", publisher="IEC; read in equipment manuals that quote formula and tables"),
    "Unventilated room: at most the lesser of 2.5 LFL^1.25 h sqrt A and 0.75 LFL h A, h the release height, at least 0.6 m. At or below 6 LFL (A2L) or "
    "4 LFL (A3), LFL in kg/m3 and charge in kg, the size of the room is not asked. Other editions and listed leak detection change this.",
)  # fmt: skip
RELEASE_HEIGHT = _rule(
    "release-height", "limit", "from-memory", Source(title="IEC 60335-2-40, annex GG, heights by way of installing", edition="2018", publisher="IEC"),
    "A release height above 2.2 m, the highest that the annex lists, counts as 2.2 m: a leak high up makes no room safer than that.",
)  # fmt: skip
LARGE_CHARGE = _rule(
    "large-charge", "limit", "from-memory",
    Source(title="IEC 60335-2-40, annex GG; UL 60335-2-40 sets 52 LFL in its 4th edition", edition="2018", publisher="IEC"),
    "Above 39 LFL (A2L) or 26 LFL (A3), LFL in kg/m3 and charge in kg, no room is large enough without ventilation, circulation or leak detection.",
)  # fmt: skip
SURFACE_TEMPERATURE = _rule(
    "surface-temperature", "formula", "computed", Source(title="Conduction through a cylinder and a film of 1.65 Btu/(h.ft2.degF), common practice"),
    "The surface stands at Ta - (Ta - T)(1/h)/(r2 ln(r2/r1)/k + 1/h); it stays dry above the dew point.",
)  # fmt: skip
INSULATION_CODE = _rule(
    "insulation-code", "limit", "published", Source(title="International Residential Code", clause="M1411.6", publisher="ICC"),
    "Vapor (suction) lines are insulated to R-3 at least, permeance 0.05 perm at most. The clause does not say on which area R is counted; some states ask R-4.",
)  # fmt: skip
LEVEL_PITCH = _rule(
    "pitch", "practice", "common-practice", COMMON_PRACTICE,
    "Level vapor line falls 1/2 in per 10 ft toward the compressor; some manuals ask 1 in.",
)  # fmt: skip
