"""What a commissioning check asks about tests: the pressure test, the evacuation, the trap and the drain."""

from typing import Annotated, Literal

import msgspec

from kneewall.calculations.commissioning_check.accuracy import CondensateUncertainty, TightnessUncertainty
from kneewall.kernel.quantity import AirPressure, Dimension, Duration, GaugePressure, PressureDrop, Temperature, Vacuum, Volume
from kneewall.kernel.question import Question, asked
from kneewall.physics.refrigerant import RefrigerantName

TestGas = Literal["dry-nitrogen", "air", "oxygen", "other"]
Instruments = Literal["same", "different"]
FanPosition = Literal["draw-through", "blow-through"]


class CommissioningReading(Question, frozen=True, kw_only=True):
    """Pressure and gas temperature at one moment of a hold test."""

    pressure: Annotated[GaugePressure, asked("Test pressure by gauge", least="0 psig", most="2000 psig")]
    temperature: Annotated[Temperature, asked("Temperature of the lines that hold the gas", least="-40 degF", most="180 degF")]


class CommissioningPressureTest(Question, frozen=True, kw_only=True):
    """A standing pressure test."""

    gas: TestGas = "dry-nitrogen"
    first: CommissioningReading
    last: CommissioningReading
    instruments: Annotated[
        Instruments, msgspec.Meta(description="Whether gauge and thermometer were the same both times: what one reads wrong, it reads wrong twice")
    ] = "same"
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
        Annotated[
            Vacuum,
            asked(
                "Highest vacuum at the end of the wait; where left out 1500 micron with a flammable refrigerant, else 500",
                least="10 micron",
                most="20000 micron",
            ),
        ]
        | None
    ) = None
    required_duration: (
        Annotated[Duration, asked("Least waiting time; where left out 10 min with a flammable refrigerant, else 20", least="1 min", most="48 h")]
        | None
    ) = None


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
