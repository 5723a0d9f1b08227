"""Questions on refrigerant lines worth starting from: a two-story house, its air handler in the attic above the outdoor unit."""

from typing import Any

from kneewall.kernel.calculation import Example

ATTIC_RUN: dict[str, Any] = {
    "vapor_line": {"length": "46 ft", "fittings": {"long-radius-ell": 6}},
    "liquid_line": {"length": "46 ft", "fittings": {"long-radius-ell": 6, "filter-drier": 1}},
    "indoor_above_outdoor": "21 ft",
}

EXAMPLES = (
    Example(
        "heat-pump-under-the-roof",
        "A two-stage R-454B heat pump, both modes, the air handler in a hot attic",
        {
            "refrigerant": "R-454B",
            "cooling": {
                "capacity": "35000 Btu/h", "minimum_capacity": "25000 Btu/h", "evaporating": "46 degF",
                "condensing": "108 degF", "superheat": "10 degF", "subcooling": "11 degF",
            },
            "heating": {
                "capacity": "34000 Btu/h", "minimum_capacity": "25500 Btu/h", "evaporating": "34 degF",
                "condensing": "104 degF", "superheat": "9 degF", "subcooling": "12 degF",
            },
            **ATTIC_RUN,
            "factory_charge": {"mass": "6 lb", "line_length": "15 ft"},
            "room": {"floor_area": "140 ft2", "release_height": "7 ft", "ceiling_height": "8 ft"},
            "insulation": {"thickness": "3/4 in"},
            "surroundings": {"temperature": "118 degF", "dew_point": "74 degF"},
        },
    ),
    Example(
        "cooling-only",
        "A single-stage R-410A cooling unit, its coil in the basement below the outdoor unit",
        {
            "refrigerant": "R-410A",
            "cooling": {"capacity": "2.5 ton", "evaporating": "45 degF", "condensing": "110 degF", "superheat": "12 degF", "subcooling": "10 degF"},
            "vapor_line": {"length": "32 ft", "fittings": {"long-radius-ell": 4}},
            "liquid_line": {"length": "32 ft", "fittings": {"long-radius-ell": 4, "filter-drier": 1}},
            "indoor_above_outdoor": "-9 ft",
            "factory_charge": {"mass": "5.5 lb", "line_length": "25 ft"},
        },
    ),
    Example(
        "variable-speed-r32",
        "A variable-speed R-32 heat pump whose lowest speed must still bring the oil back",
        {
            "refrigerant": "R-32",
            "cooling": {
                "capacity": "24000 Btu/h", "minimum_capacity": "7500 Btu/h", "evaporating": "48 degF",
                "condensing": "105 degF", "superheat": "8 degF", "subcooling": "9 degF",
            },
            "heating": {
                "capacity": "26000 Btu/h", "minimum_capacity": "9000 Btu/h", "evaporating": "36 degF",
                "condensing": "102 degF", "superheat": "6 degF", "subcooling": "10 degF",
            },
            **ATTIC_RUN,
            "total_charge": "5.1 lb",
            "room": {"floor_area": "13 m2", "release_height": "1.8 m"},
        },
    ),
    Example(
        "check-the-old-lines",
        "Whether drawn lines that are in the wall already serve a new R-410A heat pump",
        {
            "refrigerant": "R-410A",
            "cooling": {"capacity": "3 ton", "evaporating": "45 degF", "condensing": "108 degF", "superheat": "10 degF", "subcooling": "10 degF"},
            "heating": {"capacity": "36000 Btu/h", "evaporating": "30 degF", "condensing": "105 degF", "superheat": "8 degF", "subcooling": "10 degF"},
            "vapor_line": {"length": "58 ft", "fittings": {"short-radius-ell": 7}, "size": "7/8 in"},
            "liquid_line": {"length": "58 ft", "fittings": {"short-radius-ell": 7, "filter-drier": 1}, "size": "3/8 in"},
            "indoor_above_outdoor": "19 ft",
            "temper": "drawn",
        },
    ),
)  # fmt: skip
