"""What a whole job states: shared facts once, then one part per calculation, then what was delivered."""

from typing import TYPE_CHECKING, Annotated, Literal, TypeAlias

import msgspec

from kneewall.calculations.commissioning_check.messages import CommissioningCheckQuestion
from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.duct_system.messages import DuctSystemQuestion
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.service_access.messages import ServiceAccessQuestion
from kneewall.calculations.static_pressure_budget.messages import StaticPressureBudgetQuestion
from kneewall.calculations.support_spacing.messages import SupportSpacingQuestion
from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.kernel.quantity import Airflow, AirPressure, Dimension, ElectricPower, Length, Power, Temperature, Weight
from kneewall.kernel.question import Question, asked
from kneewall.physics.air import AirState
from kneewall.physics.refrigerant import RefrigerantName
from kneewall.retrofit.partial import partial_of

JobCode = Literal["IRC-2018", "IMC-2018", "UPC-2021", "UMC-2024"]
Condition = Literal["good", "damaged"]

if TYPE_CHECKING:
    PartDuctSystem: TypeAlias = Question
    PartStaticPressureBudget: TypeAlias = Question
    PartWaterLoopFlow: TypeAlias = Question
    PartEquipmentHanging: TypeAlias = Question
    PartCondensateDrain: TypeAlias = Question
    PartRefrigerantLineSizing: TypeAlias = Question
    PartSupportSpacing: TypeAlias = Question
    PartServiceAccess: TypeAlias = Question
    PartCommissioningCheck: TypeAlias = Question
else:
    PartDuctSystem = partial_of(DuctSystemQuestion)
    PartStaticPressureBudget = partial_of(StaticPressureBudgetQuestion)
    PartWaterLoopFlow = partial_of(WaterLoopQuestion)
    PartEquipmentHanging = partial_of(EquipmentHangingQuestion)
    PartCondensateDrain = partial_of(CondensateDrainQuestion)
    PartRefrigerantLineSizing = partial_of(RefrigerantLineSizingQuestion)
    PartSupportSpacing = partial_of(SupportSpacingQuestion)
    PartServiceAccess = partial_of(ServiceAccessQuestion)
    PartCommissioningCheck = partial_of(CommissioningCheckQuestion)


class Job(Question, frozen=True, kw_only=True):
    """What the job is called."""

    name: Annotated[str, msgspec.Meta(description="The job's name on the sheet", min_length=1, max_length=120)]


class JobCapacity(Question, frozen=True, kw_only=True):
    """What the unit delivers and draws."""

    cooling: Annotated[Power, asked("Net cooling capacity", least="2000 Btu/h", most="240000 Btu/h")] | None = None
    cooling_power: Annotated[ElectricPower, asked("All electric power in cooling", least="100 W", most="40000 W")] | None = None
    heating: Annotated[Power, asked("Net heating capacity", least="2000 Btu/h", most="240000 Btu/h")] | None = None
    heating_power: Annotated[ElectricPower, asked("All electric power in heating", least="100 W", most="40000 W")] | None = None


class JobUnit(Question, frozen=True, kw_only=True):
    """The unit that is hung."""

    weight: Annotated[Weight, asked("Operating weight", least="1 lb", most="5000 lb")] | None = None
    length: Annotated[Dimension, asked("Length", least="6 in", most="240 in")] | None = None
    width: Annotated[Dimension, asked("Width", least="6 in", most="240 in")] | None = None
    height: Annotated[Dimension, asked("Height", least="6 in", most="120 in")] | None = None
    loop_unit: (
        Annotated[str, msgspec.Meta(description="Its id among the units of the water loop; the first where left out", max_length=40)] | None
    ) = None
    loop_water: (
        Annotated[
            bool,
            msgspec.Meta(
                description="Whether the loop's water runs to the hung unit; where left out, yes unless refrigerant lines lead to another unit"
            ),
        ]
        | None
    ) = None
    coil_pressure_drop: (
        Annotated[
            AirPressure,
            asked(
                "Drop of its own wet coil at top speed, where the blower's table already counts it; the pan feels it", least="0 inH2O", most="3 inH2O"
            ),
        ]
        | None
    ) = None


class JobSurroundings(Question, frozen=True, kw_only=True):
    """The attic in which unit, ducts and lines stand."""

    temperature: Annotated[Temperature, asked("Air there on a design day", least="-20 degF", most="160 degF")] | None = None
    dew_point: Annotated[Temperature, asked("Its dew point", least="-40 degF", most="95 degF")] | None = None
    lowest_temperature: Annotated[Temperature, asked("Lowest air temperature there", least="-60 degF", most="130 degF")] | None = None


class JobElevations(Question, frozen=True, kw_only=True):
    """Elevations above any one datum, such as the floor below; negative below it."""

    unit_base: Annotated[Length, asked("Underside of the unit as it will hang", least="-500 ft", most="500 ft")] | None = None
    rafter_underside: Annotated[Length, asked("Lowest framing above the unit", least="-500 ft", most="500 ft")] | None = None
    attic_floor: Annotated[Length, asked("Top of joists, insulation or pan floor below the unit", least="-500 ft", most="500 ft")] | None = None
    receiver_rim: Annotated[Length, asked("Flood rim of the drain that receives the condensate", least="-500 ft", most="500 ft")] | None = None
    outdoor_unit: Annotated[Length, asked("Where the refrigerant lines end at the other unit", least="-500 ft", most="500 ft")] | None = None
    loop_supply: Annotated[Length, asked("Where the water loop begins, such as its pressure tank", least="-500 ft", most="500 ft")] | None = None
    loop_discharge: Annotated[Length, asked("Where the water of an open loop is let go", least="-500 ft", most="500 ft")] | None = None


class Delivered(Question, frozen=True, kw_only=True):
    """A line of what came: named and sized as in the take-off."""

    item: Annotated[str, msgspec.Meta(description="The item, as in the materials of the answer", min_length=1, max_length=80)]
    size: Annotated[str, msgspec.Meta(description="Its size, as in the materials of the answer", max_length=80)] = ""
    quantity: Annotated[float, asked("How much came, in the unit of the materials", least=0, most=100000)]
    condition: Annotated[Condition, msgspec.Meta(description="Whether it can be used")] = "good"


class RetrofitCheckQuestion(Question, frozen=True, kw_only=True):
    """A whole job: what fails, what clashes, what it takes, and in what order it is proved."""

    job: Annotated[Job, msgspec.Meta(description="The job")]
    capacity: Annotated[JobCapacity, msgspec.Meta(description="Shared: capacity and power")] = JobCapacity()
    airflow: Annotated[Airflow, asked("Shared: design airflow of the unit", least="10 cfm", most="20000 cfm")] | None = None
    refrigerant: Annotated[RefrigerantName, msgspec.Meta(description="Shared: refrigerant")] | None = None
    code: Annotated[JobCode, msgspec.Meta(description="Shared: code edition, for the parts that hold it")] | None = None
    unit: Annotated[JobUnit, msgspec.Meta(description="Shared: the unit that is hung")] = JobUnit()
    surroundings: Annotated[JobSurroundings, msgspec.Meta(description="Shared: the attic's air")] = JobSurroundings()
    elevations: Annotated[JobElevations, msgspec.Meta(description="Shared: elevations")] = JobElevations()
    air: Annotated[AirState, msgspec.Meta(description="Shared: the air in the ducts; standard air where it is left out")] | None = None
    duct_system: Annotated[PartDuctSystem, msgspec.Meta(description="Part: the ducts")] | None = None
    static_pressure_budget: Annotated[PartStaticPressureBudget, msgspec.Meta(description="Part: the static-pressure budget")] | None = None
    water_loop_flow: Annotated[PartWaterLoopFlow, msgspec.Meta(description="Part: the water loop")] | None = None
    equipment_hanging: Annotated[PartEquipmentHanging, msgspec.Meta(description="Part: what holds the unit up")] | None = None
    condensate_drain: Annotated[PartCondensateDrain, msgspec.Meta(description="Part: the condensate drain")] | None = None
    refrigerant_line_sizing: Annotated[PartRefrigerantLineSizing, msgspec.Meta(description="Part: the refrigerant lines")] | None = None
    support_spacing: Annotated[PartSupportSpacing, msgspec.Meta(description="Part: supports beside those of the other parts' runs")] | None = None
    service_access: Annotated[PartServiceAccess, msgspec.Meta(description="Part: the way to the unit")] | None = None
    commissioning_check: Annotated[PartCommissioningCheck, msgspec.Meta(description="Part: measured figures, when the work is done")] | None = None
    delivered: Annotated[list[Delivered], msgspec.Meta(description="What came, to be held against the take-off", max_length=400)] | None = None
