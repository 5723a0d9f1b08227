"""Which duct size carries this air, and what does the air do in it?"""

from kneewall.calculations.duct_sizing.calculate import size_duct
from kneewall.calculations.duct_sizing.drawing import draw
from kneewall.calculations.duct_sizing.examples import EXAMPLES
from kneewall.calculations.duct_sizing.messages import DuctSizingQuestion, DuctSizingResult
from kneewall.calculations.duct_sizing.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="duct-sizing",
    title="Duct sizing",
    says="Which size of duct carries this air, and what does the air do in it?",
    question=DuctSizingQuestion,
    result=DuctSizingResult,
    function=size_duct,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={"airflow": {"exact_diameter": "rises"}, "friction_rate": {"exact_diameter": "falls"}},
)
