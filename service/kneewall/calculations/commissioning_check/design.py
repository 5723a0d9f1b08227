"""What a commissioning check is held against: the design figures."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.quantity import Airflow, AirPressure, Power, Temperature, WaterFlow
from kneewall.kernel.question import Question, asked

Ducts = Literal["new", "altered"]


class CommissioningStatic(Question, frozen=True, kw_only=True):
    """External static pressure at the unit, each side against the room, with panels on and filter in."""

    return_: Annotated[AirPressure, asked("Suction on the return side, with or without its minus sign", least="-10 inH2O", most="10 inH2O")] = (
        msgspec.field(name="return")
    )
    supply: Annotated[AirPressure, asked("Pressure on the supply side", least="0 inH2O", most="10 inH2O")]


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
