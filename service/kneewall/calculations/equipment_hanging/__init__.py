"""Do the rods, the channel and the anchors hold the unit, and what does the framing get?"""

from kneewall.calculations.equipment_hanging.answers import EquipmentHangingResult
from kneewall.calculations.equipment_hanging.calculate import hang_equipment
from kneewall.calculations.equipment_hanging.drawing import draw
from kneewall.calculations.equipment_hanging.examples import EXAMPLES
from kneewall.calculations.equipment_hanging.messages import EquipmentHangingQuestion
from kneewall.calculations.equipment_hanging.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="equipment-hanging",
    title="Equipment hanging",
    says="Do the rods, the channel and the anchors hold the unit, and what does the framing get?",
    question=EquipmentHangingQuestion,
    result=EquipmentHangingResult,
    function=hang_equipment,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "equipment/weight": {
            "load/total": "rises",
            "slack_rod/load": "rises",
            "rods/0/load": "rises",
            "trapeze/bending_moment": "rises",
            "trapeze/deflection": "rises",
            "anchor/use": "rises",
            "framing/load_per_member": "rises",
        },
        "pan/depth": {"load/total": "rises"},
        "anchor/thread_length": {"anchor/allowable": "rises", "anchor/use": "falls"},
        "trapeze/span": {"trapeze/deflection": "rises", "trapeze/use": "rises"},
        "isolator/static_deflection": {"natural_frequency": "falls"},
    },
)
