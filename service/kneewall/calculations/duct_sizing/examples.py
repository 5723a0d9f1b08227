"""Duct-sizing questions worth starting from."""

from kneewall.kernel.calculation import Example

EXAMPLES = (
    Example(
        "branch-to-a-bedroom",
        "A round metal branch by friction rate",
        {"airflow": "110 cfm", "friction_rate": "0.08 inH2O/100ft", "place": "supply-branch"},
    ),
    Example(
        "flexible-run-with-slack",
        "A flexible run that was pulled straight but not cut to length",
        {
            "airflow": "110 cfm",
            "friction_rate": "0.08 inH2O/100ft",
            "duct": {"material": "flexible", "shape": "round", "stretch": 0.93},
            "place": "supply-branch",
        },
    ),
    Example(
        "trunk-under-the-rafters",
        "A rectangular trunk that must stay 10 in high",
        {
            "airflow": "1150 cfm",
            "friction_rate": "0.07 inH2O/100ft",
            "velocity_limit": "850 fpm",
            "duct": {"material": "galvanized-steel", "shape": "rectangular", "fixed_side": "10 in"},
            "place": "supply-trunk",
        },
    ),
    Example(
        "check-an-old-return",
        "Whether a return that is there carries a larger unit's air at altitude",
        {
            "airflow": "1150 cfm",
            "friction_rate": "0.06 inH2O/100ft",
            "duct": {"material": "spiral-steel", "shape": "round"},
            "size": {"shape": "round", "diameter": "16 in"},
            "place": "return-trunk",
            "air": {"temperature": "75 degF", "altitude": "4200 ft", "relative_humidity": 0.4},
        },
    ),
)
