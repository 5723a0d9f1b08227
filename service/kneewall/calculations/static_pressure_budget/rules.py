"""What the static-pressure budget rests on, and its cautions."""

from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Rule, Source

AVAILABLE = Rule(
    id="static-pressure-budget.available",
    says="What the blower has at the design airflow, less what the components take there, is left for the ducts.",
    kind="formula",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
FRICTION_RATE = Rule(
    id="static-pressure-budget.friction-rate",
    says="The friction rate per 100 ft is 100 times the available static pressure over the total effective length; each side gets its share by length.",
    kind="formula",
    source=Source(title="Manual D, friction rate worksheet; the same in worked exercises of the trade", publisher="ACCA"),
    standing="from-memory",
)
USUAL = Rule(
    id="static-pressure-budget.usual-friction-rate",
    says="In houses a friction rate between 0.06 and 0.18 in. w.g. per 100 ft is usual.",
    kind="limit",
    source=Source(title="Manual D, friction rate chart", publisher="ACCA"),
    standing="from-memory",
)
RATED_LIMIT = Rule(
    id="static-pressure-budget.rated-limit",
    says="Total external static pressure must not be above what the unit is rated for.",
    kind="limit",
    source=Source(title="The unit's own rating, as the question states it"),
    standing="common-practice",
)
FILTER_SHARE = Rule(
    id="static-pressure-budget.filter-share",
    says="Filter and filter grille together should take at most a quarter of the rated external static pressure.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)

COMPLETE = Rule(
    id="static-pressure-budget.complete",
    says="A budget counts filter, coil, supply outlet and return grille, unless the blower's rating already does.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)

MEASURE = Caution(
    id="static-pressure-budget.measure",
    hazard="air-quality",
    says="Measure external static pressure at the running unit with a clean and with a loaded filter; the budget holds only for the filter that is really there.",
)
STARVED_COIL = Caution(
    id="static-pressure-budget.starved-coil",
    hazard="freezing",
    says="Too little air freezes a cooling coil and trips a heat pump on high pressure in heating: a budget that does not close is not a detail.",
)
