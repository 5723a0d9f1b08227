"""What a commissioning check asks: what was measured, part by part, how closely, and what it should have been."""

from typing import Annotated, Literal

import msgspec

from kneewall.calculations.commissioning_check.accuracy import (
    AirSideUncertainty,
    RefrigerantSideUncertainty,
    WaterSideUncertainty,
)
from kneewall.calculations.commissioning_check.tests_asked import CommissioningCondensate, CommissioningTightness
from kneewall.kernel.quantity import (
    Airflow,
    AirPressure,
    Duration,
    ElectricPower,
    GaugePressure,
    Length,
    Power,
    PressureDrop,
    Temperature,
    TemperatureDifference,
    WaterFlow,
)
from kneewall.kernel.question import Question, asked
from kneewall.physics.fan import Blower
from kneewall.physics.refrigerant import RefrigerantName
from kneewall.physics.water import Fluid

Mode = Literal["cooling", "heating"]
Role = Literal["installer", "verifier"]
Metering = Literal["expansion-valve", "fixed-orifice"]
Ducts = Literal["new", "altered"]


class CommissioningStatic(Question, frozen=True, kw_only=True):
    """External static pressure at the unit, each side against the room, with panels on and filter in."""

    return_: Annotated[AirPressure, asked("Suction on the return side, with or without its minus sign", least="-10 inH2O", most="10 inH2O")] = (
        msgspec.field(name="return")
    )
    supply: Annotated[AirPressure, asked("Pressure on the supply side", least="0 inH2O", most="10 inH2O")]


class CommissioningAir(Question, frozen=True, kw_only=True):
    """Air entering or leaving the unit."""

    dry_bulb: Annotated[Temperature, asked("Dry-bulb temperature", least="-20 degF", most="200 degF")]
    wet_bulb: Annotated[Temperature, asked("Wet-bulb temperature; total heat needs it", least="-20 degF", most="120 degF")] | None = None


class CommissioningSplit(Question, frozen=True, kw_only=True):
    """Air before and after the unit, with the fan between the two points."""

    entering: CommissioningAir
    leaving: CommissioningAir
    sensible_heat: (
        Annotated[
            Power,
            asked("Sensible heat given to or taken from the air, where it is known: electric heaters' input", least="100 Btu/h", most="600 MBH"),
        ]
        | None
    ) = None
    target: Annotated[TemperatureDifference, asked("Target temperature split for the return air's state", least="2 degF", most="60 degF")] | None = (
        None
    )


class CommissioningFilter(Question, frozen=True, kw_only=True):
    """The filter, upstream of the blower, as it is and as it will be when it is changed."""

    pressure_drop: Annotated[AirPressure, asked("Drop across the filter as measured, clean", least="0 inH2O", most="5 inH2O")]
    dirty_pressure_drop: Annotated[AirPressure, asked("Drop at which it will be changed", least="0 inH2O", most="5 inH2O")]


class CommissioningAirSide(Question, frozen=True, kw_only=True):
    """What was measured on the air side."""

    static_pressure: CommissioningStatic | None = None
    rated_limit: (
        Annotated[AirPressure, asked("Highest external static pressure of the unit's rating, in standard air", least="0.05 inH2O", most="5 inH2O")]
        | None
    ) = None
    blower: Annotated[Blower, msgspec.Meta(description="The blower's table at the speed that is set; read in the air of `altitude`")] | None = None
    airflow: Annotated[Airflow, asked("Airflow measured by itself: flow hood or grid", least="1 cfm", most="100000 cfm")] | None = None
    split: CommissioningSplit | None = None
    filter: CommissioningFilter | None = None
    uncertainty: AirSideUncertainty | None = None


class CommissioningCoil(Question, frozen=True, kw_only=True):
    """One point of the unit's own table of water flow and pressure drop, for water."""

    flow: Annotated[WaterFlow, asked("Flow of water in the unit's table", least="0.2 gpm", most="200 gpm")]
    pressure_drop: Annotated[PressureDrop, asked("Pressure drop there", least="0.02 psi", most="60 psi")]
    exponent: Annotated[float, asked("How the drop rises with flow, from two points of the table; 1.85 where not known", least=1.5, most=2.3)] = 1.85


class CommissioningWaterSide(Question, frozen=True, kw_only=True):
    """What was measured on the water side."""

    fluid: Annotated[Fluid, msgspec.Meta(description="What flows; water where it is left out")] = Fluid()
    entering: Annotated[Temperature, asked("Entering water", least="-40 degF", most="212 degF")]
    leaving: Annotated[Temperature, asked("Leaving water", least="-40 degF", most="212 degF")]
    flow: Annotated[WaterFlow, asked("Flow by a meter", least="0.1 gpm", most="500 gpm")] | None = None
    coil: CommissioningCoil | None = None
    pressure_drop: (
        Annotated[PressureDrop, asked("Difference of the readings at the coil's two ports, one gauge, water flowing", least="0 psi", most="100 psi")]
        | None
    ) = None
    no_flow_pressure_drop: (
        Annotated[PressureDrop, asked("The same difference by the same gauge, water standing", least="-30 psi", most="30 psi")] | None
    ) = None
    power: Annotated[ElectricPower, asked("All electric power of the unit, fan included", least="1 W", most="100000 W")] | None = None
    uncertainty: WaterSideUncertainty | None = None


class CommissioningRefrigerantSide(Question, frozen=True, kw_only=True):
    """What was measured at the refrigerant ports."""

    refrigerant: RefrigerantName
    metering: Metering = "expansion-valve"
    suction_pressure: Annotated[GaugePressure, asked("Suction pressure by gauge", least="-14 psig", most="1000 psig")] | None = None
    suction_temperature: Annotated[Temperature, asked("Suction line at the gauge", least="-60 degF", most="200 degF")] | None = None
    liquid_pressure: Annotated[GaugePressure, asked("Liquid-line pressure by gauge", least="-14 psig", most="1000 psig")] | None = None
    liquid_temperature: Annotated[Temperature, asked("Liquid line at the gauge", least="-60 degF", most="200 degF")] | None = None
    target_superheat: Annotated[TemperatureDifference, asked("Target superheat of the maker's chart", least="0 degF", most="60 degF")] | None = None
    target_subcooling: Annotated[TemperatureDifference, asked("Target subcooling of the nameplate", least="0 degF", most="40 degF")] | None = None
    running_time: Annotated[Duration, asked("How long it had run steadily when this was read", least="0 min", most="48 h")] | None = None
    uncertainty: RefrigerantSideUncertainty | None = None


class CommissioningDesign(Question, frozen=True, kw_only=True):
    """What it should be."""

    external_static_pressure: Annotated[CommissioningStatic, msgspec.Meta(description="Design external static pressure by side")] | None = None
    airflow: Annotated[Airflow, asked("Design airflow", least="10 cfm", most="100000 cfm")] | None = None
    airflow_tolerance: Annotated[float, asked("Share by which airflow may differ from design", least=0.01, most=0.5)] = 0.15
    nominal_capacity: Annotated[Power, asked("Nominal cooling capacity, for airflow per ton", least="3 MBH", most="600 MBH")] | None = None
    ducts: Ducts = "new"
    water_flow: Annotated[WaterFlow, asked("Design water flow", least="0.2 gpm", most="300 gpm")] | None = None
    water_flow_tolerance: Annotated[float, asked("Share by which water flow may differ from design", least=0.01, most=0.5)] = 0.10
    least_water_flow: Annotated[WaterFlow, asked("The least flow the unit's maker allows", least="0.1 gpm", most="300 gpm")] | None = None
    least_leaving_water: (
        Annotated[
            Temperature,
            asked("Lowest leaving water in heating; 38 degF for water, 10 degF above freezing with antifreeze", least="-40 degF", most="100 degF"),
        ]
        | None
    ) = None
    capacity: Annotated[Power, asked("Capacity of the unit's table at the conditions measured", least="500 Btu/h", most="600 MBH")] | None = None
    heat_tolerance: Annotated[float, asked("Share by which air-side and water-side heat may differ", least=0.01, most=0.5)] = 0.15
    condensate_flow: (
        Annotated[WaterFlow, asked("Condensate at design; what the air gave up where left out", least="0.01 pint/h", most="1 gpm")] | None
    ) = None


class CommissioningCheckQuestion(Question, frozen=True, kw_only=True):
    """Do the measured figures of a finished job meet their design, given how closely they were measured?"""

    mode: Mode = "cooling"
    role: Annotated[Role, msgspec.Meta(description="Who measures: the installer's tolerances are narrower than the verifier's")] = "installer"
    altitude: Annotated[Length, asked("Altitude above sea level; sea level where left out", least="-1500 ft", most="15000 ft")] | None = None
    air_side: CommissioningAirSide | None = None
    water_side: CommissioningWaterSide | None = None
    refrigerant_side: CommissioningRefrigerantSide | None = None
    tightness: CommissioningTightness | None = None
    condensate: CommissioningCondensate | None = None
    design: CommissioningDesign = CommissioningDesign()
