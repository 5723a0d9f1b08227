"""A whole duct system: which sizes, or what it really delivers?"""

from kneewall.calculations.duct_system.calculate import answer_duct_system
from kneewall.calculations.duct_system.drawing import draw
from kneewall.calculations.duct_system.examples import EXAMPLES
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult
from kneewall.calculations.duct_system.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="duct-system",
    title="Duct system",
    says="Which sizes does a whole duct system need, or how much air does every outlet of the system that is there really get?",
    question=DuctSystemQuestion,
    result=DuctSystemResult,
    function=answer_duct_system,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
)
