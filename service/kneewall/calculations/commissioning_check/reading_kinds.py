"""Of what kind each reading is, and its uncertainty, for the working; shares have none."""

from kneewall.kernel.quantity import (
    Airflow,
    AirPressure,
    Dimension,
    ElectricPower,
    GaugePressure,
    Power,
    PressureDrop,
    Quantity,
    Temperature,
    TemperatureDifference,
    Vacuum,
    Volume,
    WaterFlow,
)

_STATIC = (AirPressure, AirPressure)
_HEAT = (Temperature, TemperatureDifference)
_GAUGE = (GaugePressure, PressureDrop)
_DROP = (PressureDrop, PressureDrop)

KIND_OF_READING: dict[str, tuple[type[Quantity], type[Quantity]]] = {
    "return static pressure": _STATIC,
    "supply static pressure": _STATIC,
    "filter drop, clean": _STATIC,
    "pan static pressure": _STATIC,
    "airflow by meter": (Airflow, Airflow),
    "sensible heat, known otherwise": (Power, Power),
    "electric power": (ElectricPower, ElectricPower),
    **{f"{where} {bulb}": _HEAT for where in ("entering", "leaving") for bulb in ("dry bulb", "wet bulb", "water")},
    "suction line": _HEAT,
    "liquid line": _HEAT,
    "first temperature": _HEAT,
    "last temperature": _HEAT,
    "water flow by meter": (WaterFlow, WaterFlow),
    "port difference, flowing": _DROP,
    "port difference, standing": _DROP,
    "height and gauge error, not measured": _DROP,
    "suction pressure": _GAUGE,
    "liquid pressure": _GAUGE,
    "first pressure": _GAUGE,
    "last pressure": _GAUGE,
    "gauge, both times": _DROP,
    "thermometer, both times": (TemperatureDifference, TemperatureDifference),
    "vacuum reached": (Vacuum, Vacuum),
    "vacuum at the end": (Vacuum, Vacuum),
    "trap outlet drop": (Dimension, Dimension),
    "trap seal": (Dimension, Dimension),
    "water poured": (Volume, Volume),
    "water caught": (Volume, Volume),
}
