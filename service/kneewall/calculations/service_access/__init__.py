"""Can somebody reach the equipment, work on it safely and get it out again?"""

from kneewall.calculations.service_access.calculate import reach_equipment
from kneewall.calculations.service_access.drawing import draw
from kneewall.calculations.service_access.examples import EXAMPLES
from kneewall.calculations.service_access.messages import ServiceAccessQuestion, ServiceAccessResult
from kneewall.calculations.service_access.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="service-access",
    title="Service access",
    says="Can somebody reach the equipment, work on it safely and get it out again?",
    question=ServiceAccessQuestion,
    result=ServiceAccessResult,
    function=reach_equipment,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "opening/length": {"removal/opening_clearance": "rises"},
        "opening/width": {"removal/opening_clearance": "rises"},
        "largest_component/height": {"removal/opening_clearance": "falls"},
        "passage/height": {"removal/passage_clearance": "rises"},
    },
)
