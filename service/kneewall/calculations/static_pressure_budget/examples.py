"""Static-pressure budgets worth starting from."""

from kneewall.kernel.calculation import Example

FILTER = {"name": "filter and its grille", "kind": "filter", "pressure_drop": "0.11 inH2O", "airflow": "1150 cfm", "side": "return"}
OUTLETS = [
    {"name": "supply outlet", "pressure_drop": "0.03 inH2O", "airflow": "1150 cfm", "side": "supply"},
    {"name": "return grille", "pressure_drop": "0.03 inH2O", "airflow": "1150 cfm", "side": "return"},
]

EXAMPLES = (
    Example(
        "attic-air-handler",
        "An air handler in the attic, its blower by the maker's table",
        {
            "airflow": "1150 cfm",
            "blower": {
                "points": [
                    {"airflow": "1255 cfm", "static_pressure": "0.3 inH2O"},
                    {"airflow": "1190 cfm", "static_pressure": "0.4 inH2O"},
                    {"airflow": "1115 cfm", "static_pressure": "0.5 inH2O"},
                ]
            },
            "components": [FILTER, *OUTLETS],
            "effective_length": {"supply": "190 ft", "return": "110 ft"},
            "rated_limit": "0.7 inH2O",
        },
    ),
    Example(
        "known-static-pressure",
        "A blower whose static pressure at the design airflow is known",
        {
            "airflow": "800 cfm",
            "blower_static_pressure": "0.4 inH2O",
            "components": [{**one, "airflow": "800 cfm"} for one in OUTLETS],
            "effective_length": {"supply": "160 ft", "return": "85 ft"},
        },
    ),
    Example(
        "thick-filter-thin-budget",
        "A dense filter that leaves the ducts almost nothing",
        {
            "airflow": "1150 cfm",
            "blower_static_pressure": "0.45 inH2O",
            "components": [{**FILTER, "pressure_drop": "0.27 inH2O"}, *OUTLETS],
            "effective_length": {"supply": "190 ft", "return": "110 ft"},
            "rated_limit": "0.5 inH2O",
        },
    ),
)
