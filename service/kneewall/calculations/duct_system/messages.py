"""What a duct-system question asks and what its answer says."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Figured
from kneewall.kernel.quantity import Airflow, AirPressure, FrictionRate, Length, Number, Power, Temperature, ThermalResistance, Velocity
from kneewall.kernel.question import Question, asked
from kneewall.kernel.words import TOKENS
from kneewall.physics.air import AirState
from kneewall.physics.components import Component
from kneewall.physics.duct_fittings import DuctFitting
from kneewall.physics.ducts import Duct, DuctSize
from kneewall.physics.fan import Blower
from kneewall.physics.friction import Regime

Side = Literal["supply", "return"]
SectionId = Annotated[str, msgspec.Meta(pattern="^[A-Za-z0-9][A-Za-z0-9 ._-]{0,39}$", description="The section's name; not `unit`")]
LeakageClass = Literal["unsealed", "C", "B", "A"]


class Outlet(Question, frozen=True, kw_only=True):
    """A register, diffuser or grille at the end of a section."""

    airflow: Annotated[Airflow, asked("Design airflow", least="1 cfm", most="20000 cfm")]
    pressure_drop: Annotated[
        AirPressure, asked("Its total-pressure drop at the design airflow, neck to room, in standard air", least="0 inH2O", most="2 inH2O")
    ]


class DuctInsulation(Question, frozen=True, kw_only=True):
    """What is wrapped around a section."""

    nominal_r: Annotated[ThermalResistance, asked("Resistance as labeled", least="0 ft2.h.degF/Btu", most="40 ft2.h.degF/Btu")]


class DuctSection(Question, frozen=True, kw_only=True):
    """A length of duct, a plenum or a splitter box, between the unit and its outlets."""

    id: SectionId
    side: Annotated[Side, msgspec.Meta(description="Which side of the unit it is on")]
    toward_unit: Annotated[str, msgspec.Meta(description="The next section on the way to the unit, or `unit`", min_length=1, max_length=40)]
    kind: Annotated[Literal["duct", "plenum", "splitter-box"], msgspec.Meta(description="What it is")] = "duct"
    duct: (
        Annotated[Duct, msgspec.Meta(description="Material and shape; round galvanized steel (plenums and boxes: rectangular) where left out")] | None
    ) = None
    size: Annotated[DuctSize, msgspec.Meta(description="Its size: needed to analyze; to size, a size that is already there")] | None = None
    length: Annotated[Length, asked("Length along its center line", least="0.1 ft", most="1000 ft")]
    fittings: Annotated[list[DuctFitting], msgspec.Meta(description="Its fittings", max_length=30)] = []
    outlet: Annotated[Outlet, msgspec.Meta(description="The outlet or grille at its far end")] | None = None
    insulation: Annotated[DuctInsulation, msgspec.Meta(description="Bare where it is left out")] | None = None
    leakage_class: Annotated[LeakageClass, msgspec.Meta(description="How its joints are sealed: seal class, or unsealed")] = "unsealed"


class DuctSurroundings(Question, frozen=True, kw_only=True):
    """The attic or crawl space in which the ducts hang."""

    temperature: Annotated[Temperature, asked("Air around the ducts", least="-40 degF", most="180 degF")]
    dew_point: Annotated[Temperature, asked("Its dew point, for sweating", least="-60 degF", most="100 degF")] | None = None
    jacket: Annotated[Literal["foil", "dull"], msgspec.Meta(description="Outside of the insulation: foil runs colder and sweats sooner")] = "foil"


class SupplyAir(Question, frozen=True, kw_only=True):
    """The air as it leaves the unit."""

    temperature: Annotated[Temperature, asked("Its temperature", least="20 degF", most="180 degF")]


class VelocityLimits(Question, frozen=True, kw_only=True):
    """Velocities that no duct may exceed."""

    supply: Annotated[Velocity, asked("On the supply side", least="100 fpm", most="6000 fpm")] | None = None
    return_: Annotated[Velocity, asked("On the return side", least="100 fpm", most="6000 fpm")] | None = msgspec.field(default=None, name="return")


class DuctSystemQuestion(Question, frozen=True, kw_only=True):
    """Size a whole duct system, or find out what the one that is there really delivers."""

    task: Annotated[Literal["size", "analyse"], msgspec.Meta(description="Choose sizes, or solve the true flow at every outlet for given sizes")]
    friction_rate: (
        Annotated[
            FrictionRate,
            asked(
                "Loss per length that sizes may have; to size, found from blower and components where left out",
                least="0.005 inH2O/100ft",
                most="2 inH2O/100ft",
            ),
        ]
        | None
    ) = None
    velocity_limit: (
        Annotated[VelocityLimits, msgspec.Meta(description="No duct faster than this: sizes are chosen so, given ones are checked")] | None
    ) = None
    blower: Annotated[Blower, msgspec.Meta(description="The blower's table")] | None = None
    components: Annotated[list[Component], msgspec.Meta(description="What else takes pressure and is not in the blower's rating", max_length=20)] = []
    sections: Annotated[list[DuctSection], msgspec.Meta(description="All sections, in any order", min_length=1, max_length=200)]
    surroundings: Annotated[DuctSurroundings, msgspec.Meta(description="For heat gained and sweating, together with the supply air")] | None = None
    supply_air: Annotated[SupplyAir, msgspec.Meta(description="For heat gained and sweating, together with surroundings")] | None = None
    air: Annotated[AirState, msgspec.Meta(description="The air in the ducts; standard air where it is left out")] | None = None
    rated_limit: (
        Annotated[AirPressure, asked("Highest external static pressure the unit is rated for, in standard air", least="0.05 inH2O", most="5 inH2O")]
        | None
    ) = None


class SectionAnswer(Figured, frozen=True, kw_only=True):
    """One section as it will be or as it is."""

    id: str
    side: Side
    airflow: Airflow
    size: DuctSize
    velocity: Velocity
    friction_rate: FrictionRate
    regime: Regime
    fitting_loss: AirPressure
    pressure_drop: Annotated[AirPressure, msgspec.Meta(description="Friction, fittings and box; without the outlet")]
    leakage: Airflow
    heat_gain: Power | None = None
    leaving_temperature: Temperature | None = None
    surface_temperature: Temperature | None = None
    least_r: Annotated[ThermalResistance, msgspec.Meta(description="Least insulation that does not sweat")] | None = None


class Path(Figured, frozen=True, kw_only=True):
    """The way from the unit to one outlet."""

    outlet: str
    side: Side
    sections: list[str]
    length: Length
    effective_length: Length
    pressure_drop: Annotated[AirPressure, msgspec.Meta(description="Ducts, fittings and the outlet itself")]
    surplus_pressure: Annotated[AirPressure, msgspec.Meta(description="What a balancing damper must take at these flows")]


class CriticalPath(Figured, frozen=True, kw_only=True):
    """The outlet on each side whose path loses most."""

    supply: str | None = None
    return_: str | None = msgspec.field(default=None, name="return")


class TapReading(Figured, frozen=True, kw_only=True):
    """What a gauge against the room reads at a tap in the first section of each side; left out where several sections begin at the unit."""

    supply: (
        Annotated[AirPressure, msgspec.Meta(description="Total pressure less velocity pressure; components of this side stand beyond the tap")] | None
    ) = None
    return_: (
        Annotated[
            AirPressure, msgspec.Meta(description="As suction: velocity pressure makes it larger; components of this side stand before the tap")
        ]
        | None
    ) = msgspec.field(default=None, name="return")


class ExternalStaticPressure(Figured, frozen=True, kw_only=True):
    """What the blower must overcome outside its own rating, as losses of total pressure: no gauge at a tap reads the figure of one side."""

    supply: Annotated[AirPressure, msgspec.Meta(description="Total pressure lost from the unit to the room, components apart")]
    return_: Annotated[AirPressure, msgspec.Meta(description="Total pressure lost from the room to the unit, components apart")] = msgspec.field(
        name="return"
    )
    components: AirPressure
    total: AirPressure
    at_taps: TapReading | None = None


class OperatingPoint(Figured, frozen=True, kw_only=True):
    """Where blower and system agree."""

    airflow: Airflow
    static_pressure: AirPressure


class OutletAnswer(Figured, frozen=True, kw_only=True):
    """One outlet: what it should give and what it gives."""

    id: str
    side: Side
    design_airflow: Airflow
    airflow: Airflow
    ratio: Number


class Leakage(Figured, frozen=True, kw_only=True):
    """Air lost or drawn in through the joints at these pressures."""

    supply: Airflow
    return_: Airflow = msgspec.field(name="return")
    share: Annotated[Number, msgspec.Meta(description="Of the unit's airflow")]


class MaterialNeeded(Figured, frozen=True, kw_only=True):
    """A line of the take-off."""

    item: Annotated[str, TOKENS]
    size: str
    quantity: float
    unit: str


class DuctSystemResult(Figured, frozen=True, kw_only=True):
    """The system section by section and as a whole."""

    friction_rate: FrictionRate | None = None
    sections: list[SectionAnswer]
    paths: list[Path]
    critical_path: CriticalPath
    external_static_pressure: ExternalStaticPressure
    operating_point: OperatingPoint
    outlets: list[OutletAnswer]
    leakage: Leakage
    materials: list[MaterialNeeded]
