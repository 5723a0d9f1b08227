"""Whole jobs worth starting from: a plan drawn by eye, the same plan mended, and a delivery held against it."""

from kneewall.kernel.calculation import Example
from kneewall.retrofit.scenario import FIRST, MENDED, PROVED

EXAMPLES = (
    Example("plan-drawn-by-eye", "A larger air handler hung in the attic of a two-story house, as it was first drawn by eye", FIRST),
    Example("plan-mended", "The same job mended: nothing fails any more", MENDED),
    Example("plan-mended-and-measured", "The mended job with what was read on the gauges at start-up", PROVED),
    Example(
        "ducts-only-and-what-came",
        "Only the ducts of the mended job, with what the supply house delivered",
        {
            "job": {"name": "Ducts of the upper floor"},
            "duct_system": MENDED["duct_system"],
            "delivered": [
                {"item": "flexible duct", "size": "8 in", "quantity": 50},
                {"item": "flexible duct", "size": "9 in", "quantity": 25},
                {"item": "galvanized sheet", "size": "24 gauge", "quantity": 300, "condition": "damaged"},
            ],
        },
    ),
)
