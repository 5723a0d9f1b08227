"""How far apart do the supports of pipe, tube and duct stand, and what does each carry?"""

from kneewall.calculations.support_spacing.calculate import space_supports
from kneewall.calculations.support_spacing.drawing import draw
from kneewall.calculations.support_spacing.examples import EXAMPLES
from kneewall.calculations.support_spacing.messages import SupportSpacingQuestion, SupportSpacingResult
from kneewall.calculations.support_spacing.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="support-spacing",
    title="Support spacing",
    says="How far apart do the supports of pipe, tube and duct stand, how many are they, and what does each carry?",
    question=SupportSpacingQuestion,
    result=SupportSpacingResult,
    function=space_supports,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "runs/0/length": {"runs/0/supports": "rises"},
        "runs/0/slope": {"runs/0/maximum_spacing": "rises"},
        "runs/0/temperature": {"runs/0/maximum_spacing": "falls"},
    },
)
