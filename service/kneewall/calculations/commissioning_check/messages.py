"""What a commissioning check asks: what was measured, part by part, how closely, and what it should have been."""

from typing import Annotated, Literal

import msgspec

from kneewall.calculations.commissioning_check.accuracy import (
    AirSideUncertainty,
    CondensateUncertainty,
    RefrigerantSideUncertainty,
    TightnessUncertainty,
    WaterSideUncertainty,
)
from kneewall.calculations.commissioning_check.design import CommissioningDesign, CommissioningStatic
from kneewall.kernel.quantity import (
    Airflow,
    AirPressure,
    Dimension,
    Duration,
    ElectricPower,
    GaugePressure,
    Length,
    Power,
    PressureDrop,
    Temperature,
    TemperatureDifference,
    Vacuum,
    Volume,
    WaterFlow,
)
from kneewall.kernel.question import Question, asked
from kneewall.physics.fan import Blower
from kneewall.physics.refrigerant import RefrigerantName
from kneewall.physics.water import Fluid

Mode = Literal["cooling", "heating"]
Role = Literal["installer", "verifier"]
Metering = Literal["expansion-valve", "fixed-orifice"]
TestGas = Literal["dry-nitrogen", "air", "oxygen", "other"]
FanPosition = Literal["draw-through", "blow-through"]


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
    rated_limit: Annotated[AirPressure, asked("Highest external static pressure of the unit's rating", least="0.05 inH2O", most="5 inH2O")] | None = (
        None
    )
    blower: Annotated[Blower, msgspec.Meta(description="The blower's table at the speed that is set")] | None = None
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


class CommissioningReading(Question, frozen=True, kw_only=True):
    """Pressure and gas temperature at one moment of a hold test."""

    pressure: Annotated[GaugePressure, asked("Test pressure by gauge", least="0 psig", most="2000 psig")]
    temperature: Annotated[Temperature, asked("Temperature of the lines that hold the gas", least="-40 degF", most="180 degF")]


class CommissioningPressureTest(Question, frozen=True, kw_only=True):
    """A standing pressure test."""

    gas: TestGas = "dry-nitrogen"
    first: CommissioningReading
    last: CommissioningReading
    duration: Annotated[Duration, asked("Time between the two readings", least="0 min", most="240 h")]
    required_pressure: (
        Annotated[GaugePressure, asked("Least test pressure: the design pressure of that side", least="1 psig", most="2000 psig")] | None
    ) = None
    highest_pressure: Annotated[GaugePressure, asked("Pressure that the weakest part allows", least="1 psig", most="3000 psig")] | None = None
    required_duration: (
        Annotated[Duration, asked("Least holding time; 60 min with a flammable or unnamed refrigerant, else 15 min", least="1 min", most="240 h")]
        | None
    ) = None
    allowed_drop: (
        Annotated[PressureDrop, asked("Drop that is allowed after correction; none where it is left out", least="0 psi", most="100 psi")] | None
    ) = None


class CommissioningEvacuation(Question, frozen=True, kw_only=True):
    """An evacuation and its standing vacuum test with the pump shut off."""

    reached: Annotated[Vacuum, asked("Vacuum reached before the pump was shut off", least="1 micron", most="800000 micron")]
    risen_to: Annotated[Vacuum, asked("Vacuum at the end of the wait", least="1 micron", most="800000 micron")] | None = None
    duration: Annotated[Duration, asked("How long it stood", least="0 min", most="240 h")] | None = None
    required_vacuum: Annotated[Vacuum, asked("Vacuum to be reached; 500 micron where left out", least="10 micron", most="5000 micron")] | None = None
    allowed_rise_to: (
        Annotated[Vacuum, asked("Highest vacuum at the end of the wait; 1500 micron where left out", least="10 micron", most="20000 micron")] | None
    ) = None
    required_duration: Annotated[Duration, asked("Least waiting time; 10 min where left out", least="1 min", most="48 h")] | None = None


class CommissioningTightness(Question, frozen=True, kw_only=True):
    """Proof that the refrigerant lines are tight and dry."""

    refrigerant: Annotated[RefrigerantName | None, msgspec.Meta(description="What will be charged; as on the refrigerant side where left out")] = None
    pressure_test: CommissioningPressureTest | None = None
    evacuation: CommissioningEvacuation | None = None
    uncertainty: TightnessUncertainty | None = None


class CommissioningPour(Question, frozen=True, kw_only=True):
    """Water poured into the pan with the blower running, trap primed before."""

    poured: Annotated[Volume, asked("Water poured", least="0.05 gal", most="50 gal")]
    collected: Annotated[Volume, asked("Water caught at the end of the drain", least="0 gal", most="60 gal")] | None = None
    duration: Annotated[Duration, asked("Time until the pan stood empty", least="1 s", most="24 h")]


class CommissioningCondensate(Question, frozen=True, kw_only=True):
    """Drain and trap, measured and tried with the blower running."""

    fan_position: FanPosition = "draw-through"
    pan_static_pressure: (
        Annotated[
            AirPressure, asked("Static pressure in the pan against the room, with or without its minus sign", least="-10 inH2O", most="10 inH2O")
        ]
        | None
    ) = None
    outlet_drop: Annotated[Dimension, asked("Drop from the pan outlet to the trap's outlet, invert to invert", least="0 in", most="36 in")] | None = (
        None
    )
    seal_depth: (
        Annotated[Dimension, asked("Depth of the seal: trap outlet's invert down to the crown of the dip", least="0 in", most="36 in")] | None
    ) = None
    pour_test: CommissioningPour | None = None
    seal_held: Annotated[bool | None, msgspec.Meta(description="Whether the trap held its water with the blower running: no air drawn or blown")] = (
        None
    )
    overflow_switch_stopped_unit: Annotated[bool | None, msgspec.Meta(description="Whether lifting the overflow switch stopped the unit")] = None
    uncertainty: CondensateUncertainty | None = None


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
