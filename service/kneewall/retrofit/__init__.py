"""A whole job: the only place that combines calculations."""

from kneewall.kernel.calculation import Calculation
from kneewall.retrofit.calculate import check_job
from kneewall.retrofit.drawing import draw
from kneewall.retrofit.examples import EXAMPLES
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.results import RetrofitCheckResult
from kneewall.retrofit.working import working

CALCULATION = Calculation(
    name="retrofit-check",
    title="The whole job",
    says="What fails in this job, what clashes, what does it take, and in what order is it proved?",
    question=RetrofitCheckQuestion,
    result=RetrofitCheckResult,
    function=check_job,
    working=working,
    drawing=draw,
    examples=EXAMPLES,
)
