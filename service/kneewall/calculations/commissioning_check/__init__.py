"""Do the measured figures of a finished job meet their design, given how closely they were measured?"""

from kneewall.calculations.commissioning_check.answered import CommissioningCheckResult
from kneewall.calculations.commissioning_check.calculate import check_commissioning
from kneewall.calculations.commissioning_check.drawing import draw
from kneewall.calculations.commissioning_check.examples import EXAMPLES
from kneewall.calculations.commissioning_check.messages import CommissioningCheckQuestion
from kneewall.calculations.commissioning_check.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="commissioning-check",
    title="Commissioning check",
    says="Do the measured figures of a finished job meet their design, given how closely they were measured?",
    question=CommissioningCheckQuestion,
    result=CommissioningCheckResult,
    function=check_commissioning,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "air_side/static_pressure/supply": {"airflow/measured": "falls", "external_static_pressure/total/measured": "rises"},
        "water_side/pressure_drop": {"water_flow/measured": "rises"},
        "refrigerant_side/suction_pressure": {"superheat/measured": "falls"},
        "refrigerant_side/liquid_pressure": {"subcooling/measured": "rises"},
        "tightness/pressure_test/first/pressure": {"tightness/pressure_test/drop/measured": "rises"},
        "condensate/pour_test/duration": {"condensate/drained/measured": "falls"},
    },
)
