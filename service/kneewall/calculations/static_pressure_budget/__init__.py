"""How much pressure is left for the ducts, and what friction rate does that allow?"""

from kneewall.calculations.static_pressure_budget.calculate import budget
from kneewall.calculations.static_pressure_budget.drawing import draw
from kneewall.calculations.static_pressure_budget.examples import EXAMPLES
from kneewall.calculations.static_pressure_budget.messages import StaticPressureBudgetQuestion, StaticPressureBudgetResult
from kneewall.calculations.static_pressure_budget.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="static-pressure-budget",
    title="Static pressure budget",
    says="How much of the blower's pressure is left for the ducts, and what friction rate does that allow?",
    question=StaticPressureBudgetQuestion,
    result=StaticPressureBudgetResult,
    function=budget,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "effective_length/supply": {"friction_rate": "falls"},
        "blower_static_pressure": {"friction_rate": "rises", "available_static_pressure": "rises"},
    },
)
