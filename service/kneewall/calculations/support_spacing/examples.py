"""Support-spacing questions worth starting from."""

from kneewall.kernel.calculation import Example

EXAMPLES = (
    Example(
        "condensate-in-a-hot-attic",
        "A 3/4 in PVC condensate drain at 1/8 in/ft under a hot roof: the code's 4 ft would hold water",
        {
            "runs": [
                {
                    "id": "condensate", "kind": "pipe", "material": "pvc-schedule-40", "nominal_size": "3/4 in", "length": "23 ft",
                    "temperature": "135 degF", "slope": "1/8 in/ft",
                }
            ]
        },
    ),
    Example(
        "loop-pipes-by-the-mechanical-code",
        "Copper and polyethylene of a water loop, with a valve on one hanger",
        {
            "code": "IMC-2018",
            "runs": [
                {"id": "loop-supply", "kind": "pipe", "material": "copper-type-l", "nominal_size": "1 in", "length": "31 ft", "valves": "6 lb"},
                {"id": "loop-branch", "kind": "pipe", "material": "pe-dr-11", "nominal_size": "1 in", "length": "14 ft"},
                {"id": "riser", "kind": "pipe", "material": "copper-type-l", "nominal_size": "1 in", "length": "18 ft", "orientation": "vertical"},
            ],
        },
    ),
    Example(
        "ducts-of-an-attic-unit",
        "A metal trunk, a flexible branch and a duct-board plenum run",
        {
            "runs": [
                {
                    "id": "trunk", "kind": "duct", "material": "galvanized-steel", "length": "22 ft",
                    "duct": {"shape": "rectangular", "width": "18 in", "height": "10 in"},
                },
                {"id": "bedroom", "kind": "duct", "material": "flexible", "length": "15 ft", "duct": {"shape": "round", "diameter": "7 in"}},
                {
                    "id": "return", "kind": "duct", "material": "fibrous-glass-board", "length": "9 ft", "spacing": "5 ft",
                    "duct": {"shape": "rectangular", "width": "20 in", "height": "14 in"},
                },
            ]
        },
    ),
    Example(
        "refrigerant-lines",
        "An insulated vapor line and its liquid line across an attic",
        {
            "runs": [
                {
                    "id": "vapor", "kind": "refrigerant-tube", "material": "copper-annealed", "nominal_size": "3/4 in", "length": "38 ft",
                    "contents": "empty", "insulation_thickness": "3/4 in",
                },
                {"id": "liquid", "kind": "refrigerant-tube", "material": "copper-annealed", "nominal_size": "3/8 in", "length": "38 ft"},
            ],
            "code": "UPC-2021",
        },
    ),
)  # fmt: skip
