"""What flows through each unit of a water loop, and does everything hold?"""

from kneewall.calculations.water_loop_flow.answered import WaterLoopResult
from kneewall.calculations.water_loop_flow.calculate import loop_flow
from kneewall.calculations.water_loop_flow.drawing import draw
from kneewall.calculations.water_loop_flow.examples import EXAMPLES
from kneewall.calculations.water_loop_flow.messages import WaterLoopQuestion
from kneewall.calculations.water_loop_flow.working import working
from kneewall.kernel.calculation import Calculation

CALCULATION = Calculation(
    name="water-loop-flow",
    title="Water-loop flow",
    says="What flows through each unit of a water loop, is it enough, and what happens when the valve shuts?",
    question=WaterLoopQuestion,
    result=WaterLoopResult,
    function=loop_flow,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
    monotone={
        "supply/pressure": {"supply/flow": "rises", "units/0/flow": "rises"},
        "supply/cut_out": {"supply/flow_at_cut_out": "rises", "supply/drawdown": "rises"},
        "supply/tank_volume": {"supply/drawdown": "rises", "supply/run_time": "rises", "supply/cycles_per_hour": "falls"},
        "pipes/0/length": {"supply/flow": "falls"},
        "units/0/coil/pressure_drop": {"units/0/flow": "falls"},
        "units/0/heating/capacity": {"units/0/heat_absorbed": "rises", "required/0/flow": "rises"},
    },
)
