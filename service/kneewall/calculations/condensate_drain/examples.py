"""Condensate-drain questions worth starting from."""

from kneewall.kernel.calculation import Example

EXAMPLES = (
    Example(
        "attic-unit-to-a-standpipe",
        "An attic air handler whose condensate falls to a laundry standpipe on the floor below",
        {
            "fan_position": "draw-through",
            "pan_static_pressure": "0.55 in. w.c.",
            "cooling_capacity": "2.5 ton",
            "pipe": {"material": "pvc-schedule-40", "nominal_size": "3/4 in"},
            "run": {"length": "23 ft", "slope": "1/8 in/ft", "hanger_spacing": "3 ft"},
            "elevations": {"pan_outlet": "9 ft", "receiver_rim": "42 in", "air_gap": "2 in", "clear_below": "103-1/2 in"},
            "surroundings": {"place": "attic", "lowest_temperature": "38 degF", "highest_temperature": "135 degF"},
        },
    ),
    Example(
        "run-too-long-for-gravity",
        "A horizontal unit low over the joists: the run ends under the receiver's rim and needs a pump",
        {
            "fan_position": "draw-through",
            "pan_static_pressure": "0.8 inH2O",
            "cooling_capacity": "36000 Btu/h",
            "sensible_heat_ratio": 0.75,
            "pipe": {"material": "pvc-schedule-40", "nominal_size": "3/4 in"},
            "run": {"length": "46 ft", "slope": "1/8 in/ft", "drop_at_fittings": "1 in"},
            "elevations": {"pan_outlet": "7 in", "receiver_rim": "1 in", "outlet_above_base": "1-1/4 in"},
            "pump": {"sump_depth": "5 in", "rated_lift": "15 ft", "stops_unit": True},
            "code": "IMC-2018",
        },
    ),
    Example(
        "water-from-the-air-states",
        "The water made from measured air states, with pan, switch and a water loop in the unit",
        {
            "fan_position": "draw-through",
            "pan_static_pressure": "0.45 inH2O",
            "blower_capability": "0.8 inH2O",
            "cooling_capacity": "35 MBH",
            "airflow": "1150 cfm",
            "entering_air": {"dry_bulb": "78 degF", "wet_bulb": "65 degF"},
            "leaving_air": {"dry_bulb": "56 degF", "wet_bulb": "54.5 degF"},
            "pipe": {"material": "copper-type-m", "nominal_size": "3/4 in", "pan_outlet_size": "3/4 in"},
            "run": {"length": "18 ft", "slope": "1/4 in/ft"},
            "auxiliary_pan": {
                "unit": {"length": "50 in", "width": "22 in"},
                "pan": {"length": "62 in", "width": "28 in", "depth": "2 in", "material": "galvanized-steel", "thickness": "0.0276 in"},
                "protection": "pan-and-switch",
                "trap_reach": "9 in",
                "loop_flow": "8 gpm",
                "leak_shutoff": True,
                "leak_valve": "both-sides",
                "leak_valve_rests": "closed",
                "switch": {"below_rim": "1/2 in", "stops_unit": True},
            },
            "unit_pitch": "1/4 in",
        },
    ),
    Example(
        "check-a-trap-that-is-there",
        "A blow-through unit with an old, shallow trap and its vent in the wrong place",
        {
            "fan_position": "blow-through",
            "pan_static_pressure": "0.7 inH2O",
            "cooling_capacity": "2 ton",
            "pipe": {"nominal_size": "3/4 in"},
            "run": {"length": "12 ft", "slope": "1 %"},
            "trap": {"outlet_drop": "1/2 in", "seal_depth": "1 in"},
            "vent": "before-trap",
            "code": "UPC-2021",
        },
    ),
)
