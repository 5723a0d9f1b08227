"""Does the condensate leave by gravity, and does the house stay dry where it does not?"""

from kneewall.calculations.condensate_drain.calculate import drain_condensate
from kneewall.calculations.condensate_drain.drawing import draw
from kneewall.calculations.condensate_drain.examples import EXAMPLES
from kneewall.calculations.condensate_drain.messages import CondensateDrainQuestion
from kneewall.calculations.condensate_drain.results import CondensateDrainResult
from kneewall.calculations.condensate_drain.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="condensate-drain",
    title="Condensate drain",
    says="Which trap holds the pan's pressure, does the line fall to its receiver, and does the house stay dry where it blocks?",
    question=CondensateDrainQuestion,
    result=CondensateDrainResult,
    function=drain_condensate,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "pan_static_pressure": {"trap/outlet_drop": "rises", "trap/overall_height": "rises", "elevations/margin": "falls"},
        "run/length": {"fall": "rises", "elevations/margin": "falls", "elevations/lowest_pan_outlet": "rises"},
        "airflow": {"condensate/mass_flow": "rises"},
    },
)
