"""Commissioning checks worth starting from."""

from typing import Any

from kneewall.kernel.calculation import Example

BLOWER = {
    "points": [
        {"airflow": "1320 cfm", "static_pressure": "0.2 inH2O"},
        {"airflow": "1255 cfm", "static_pressure": "0.3 inH2O"},
        {"airflow": "1190 cfm", "static_pressure": "0.4 inH2O"},
        {"airflow": "1115 cfm", "static_pressure": "0.5 inH2O"},
        {"airflow": "1020 cfm", "static_pressure": "0.6 inH2O"},
        {"airflow": "890 cfm", "static_pressure": "0.7 inH2O"},
    ]
}
DESIGN: dict[str, Any] = {
    "external_static_pressure": {"return": "0.22 inH2O", "supply": "0.24 inH2O"},
    "airflow": "1150 cfm",
    "nominal_capacity": "3 ton",
    "water_flow": "7 gpm",
    "least_water_flow": "5 gpm",
    "capacity": "34500 Btu/h",
    "condensate_flow": "9 pint/h",
}

MEETS_ALL: dict[str, Any] = {
    "mode": "cooling",
    "altitude": "650 ft",
    "air_side": {
        "static_pressure": {"return": "-0.19 inH2O", "supply": "0.22 inH2O"},
        "rated_limit": "0.7 inH2O",
        "blower": BLOWER,
        "split": {
            "entering": {"dry_bulb": "76 degF", "wet_bulb": "64.6 degF"},
            "leaving": {"dry_bulb": "56.5 degF", "wet_bulb": "54.4 degF"},
            "target": "19.5 degF",
        },
        "filter": {"pressure_drop": "0.09 inH2O", "dirty_pressure_drop": "0.15 inH2O"},
        "uncertainty": {"dry_bulb": "0.3 degF", "wet_bulb": "0.3 degF", "static_pressure": "0.01 inH2O", "blower_table": 0.05},
    },
    "water_side": {
        "entering": "61 degF",
        "leaving": "73.2 degF",
        "coil": {"flow": "8 gpm", "pressure_drop": "5.5 psi", "exponent": 2.0},
        "pressure_drop": "5.6 psi",
        "no_flow_pressure_drop": "1.3 psi",
        "power": "2350 W",
        "uncertainty": {"temperature": "0.3 degF", "pressure_drop": "0.1 psi", "coil_table": 0.03},
    },
    "refrigerant_side": {
        "refrigerant": "R-454B",
        "suction_pressure": "118 psig",
        "suction_temperature": "56 degF",
        "liquid_pressure": "253 psig",
        "liquid_temperature": "77.5 degF",
        "target_subcooling": "10 degF",
        "running_time": "20 min",
        "uncertainty": {"suction_pressure": "1 psi", "liquid_pressure": "2 psi", "temperature": "0.9 degF"},
    },
    "tightness": {
        "pressure_test": {
            "first": {"pressure": "450 psig", "temperature": "72 degF"},
            "last": {"pressure": "454.8 psig", "temperature": "77.5 degF"},
            "duration": "75 min",
            "required_pressure": "446 psig",
            "highest_pressure": "550 psig",
        },
        "evacuation": {"reached": "320 micron", "risen_to": "610 micron", "duration": "15 min"},
    },
    "condensate": {
        "pan_static_pressure": "-0.35 inH2O",
        "outlet_drop": "1.75 in",
        "seal_depth": "1 in",
        "pour_test": {"poured": "1 gal", "collected": "0.98 gal", "duration": "8 min"},
        "seal_held": True,
        "overflow_switch_stopped_unit": True,
    },
    "design": DESIGN,
}

LOW_AIRFLOW: dict[str, Any] = {
    "mode": "cooling",
    "altitude": "650 ft",
    "air_side": {
        "static_pressure": {"return": "-0.44 inH2O", "supply": "0.25 inH2O"},
        "rated_limit": "0.7 inH2O",
        "blower": BLOWER,
        "split": {
            "entering": {"dry_bulb": "76 degF", "wet_bulb": "63.5 degF"},
            "leaving": {"dry_bulb": "50.5 degF", "wet_bulb": "49.8 degF"},
            "target": "19.5 degF",
        },
        "filter": {"pressure_drop": "0.19 inH2O", "dirty_pressure_drop": "0.3 inH2O"},
        "uncertainty": {"static_pressure": "0.01 inH2O", "blower_table": 0.05, "dry_bulb": "0.5 degF", "wet_bulb": "0.5 degF"},
    },
    "water_side": {"entering": "61 degF", "leaving": "72 degF", "flow": "7.1 gpm", "power": "2200 W"},
    "refrigerant_side": {
        "refrigerant": "R-454B",
        "suction_pressure": "101 psig",
        "suction_temperature": "45 degF",
        "liquid_pressure": "231 psig",
        "liquid_temperature": "79.5 degF",
        "target_subcooling": "10 degF",
        "running_time": "18 min",
        "uncertainty": {"suction_pressure": "1 psi", "liquid_pressure": "2 psi", "temperature": "0.9 degF"},
    },
    "design": DESIGN,
}

TESTS_ONLY: dict[str, Any] = {
    "altitude": "650 ft",
    "tightness": {
        "refrigerant": "R-454B",
        "pressure_test": {
            "first": {"pressure": "450 psig", "temperature": "84 degF"},
            "last": {"pressure": "434.6 psig", "temperature": "66 degF"},
            "duration": "24 h",
            "required_pressure": "446 psig",
            "highest_pressure": "550 psig",
        },
        "evacuation": {"reached": "470 micron", "risen_to": "1150 micron", "duration": "10 min"},
    },
}

HEATING: dict[str, Any] = {
    "mode": "heating",
    "role": "verifier",
    "air_side": {
        "static_pressure": {"return": "0.2 inH2O", "supply": "0.21 inH2O"},
        "blower": BLOWER,
        "split": {"entering": {"dry_bulb": "69 degF"}, "leaving": {"dry_bulb": "97.5 degF"}},
        "uncertainty": {"dry_bulb": "0.5 degF"},
    },
    "water_side": {
        "entering": "52 degF",
        "leaving": "44.2 degF",
        "coil": {"flow": "8 gpm", "pressure_drop": "5.5 psi", "exponent": 2.0},
        "pressure_drop": "4.6 psi",
        "power": "2500 W",
        "uncertainty": {"temperature": "0.3 degF"},
    },
    "design": {"airflow": "1150 cfm", "water_flow": "7 gpm", "least_water_flow": "5 gpm"},
}

EXAMPLES = (
    Example("meets-all", "A heat pump commissioned in cooling, everything measured with good probes, everything in order", MEETS_ALL),
    Example("low-airflow-low-subcooling", "A choked return starves the coil, and charge is missing besides", LOW_AIRFLOW),
    Example("tests-of-tightness", "A pressure test over a cooling night, and an evacuation", TESTS_ONLY),
    Example("heating-usual-instruments", "Heating, checked with ordinary instruments and no reading of the gauge with the water standing", HEATING),
)
