"""Which tubes carry this refrigerant between these two units, and what goes with them?"""

from kneewall.calculations.refrigerant_line_sizing.calculate import size_refrigerant_lines
from kneewall.calculations.refrigerant_line_sizing.drawing import draw
from kneewall.calculations.refrigerant_line_sizing.examples import EXAMPLES
from kneewall.calculations.refrigerant_line_sizing.messages import RefrigerantLineSizingQuestion
from kneewall.calculations.refrigerant_line_sizing.results import RefrigerantLineSizingResult
from kneewall.calculations.refrigerant_line_sizing.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="refrigerant-line-sizing",
    title="Refrigerant line sizing",
    says="Which tubes carry this refrigerant, does the oil come back, does liquid reach the valve, and how much charge goes in?",
    question=RefrigerantLineSizingQuestion,
    result=RefrigerantLineSizingResult,
    function=size_refrigerant_lines,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "cooling/capacity": {"vapor_line/candidates/0/velocity": "rises", "liquid_line/candidates/0/pressure_drop": "rises"},
        "cooling/minimum_capacity": {"vapor_line/candidates/0/oil_return/margin": "rises"},
        "vapor_line/length": {"vapor_line/candidates/0/saturation_drop": "rises"},
        "liquid_line/length": {"liquid_line/candidates/0/pressure_drop": "rises", "liquid_line/candidates/0/subcooling_left": "falls"},
        "room/floor_area": {"leak_safety/limit_mass": "rises"},
        "total_charge": {"leak_safety/minimum_floor_area": "rises"},
        "insulation/thickness": {"insulation/surface_temperature": "rises"},
    },
)
