"""Service-access questions worth starting from."""

from kneewall.kernel.calculation import Example

EXAMPLES = (
    Example(
        "pull-down-stair-to-the-air-handler",
        "A floored passage from a pull-down stair to the air handler; the coil cabinet is the largest piece",
        {
            "opening": {"length": "54 in", "width": "22-1/2 in"},
            "largest_component": {"length": "30 in", "width": "24 in", "height": "21 in"},
            "passage": {"length": "14 ft", "width": "28 in", "height": "38 in", "floor_width": "24 in", "solid_floor": True},
            "service_space": {"length": "36 in", "width": "30 in", "sides": "all-sides"},
            "lighting": "switched-at-entry",
            "receptacle_distance": "6 ft",
            "disconnect_in_sight": True,
            "disconnect_distance": "4 ft",
            "floor_panel": {"thickness": "23/32 in", "support_spacing": "24 in", "edges": "tongue-and-groove", "width": "24 in"},
            "code": "IRC-2018",
        },
    ),
    Example(
        "hatch-too-small-for-the-unit",
        "An old hatch that is smaller than the code's and than the unit above it",
        {
            "opening": {"length": "30 in", "width": "18 in"},
            "largest_component": {"length": "48 in", "width": "22 in", "height": "20 in"},
            "passage": {"length": "23 ft", "width": "24 in", "height": "33 in", "floor_width": "16 in", "solid_floor": False},
            "service_space": {"length": "30 in", "width": "26 in", "sides": "service-side"},
            "lighting": "none",
            "disconnect_in_sight": False,
            "floor_panel": {"thickness": "7/16 in", "support_spacing": "24 in"},
        },
    ),
    Example(
        "unit-right-above-the-door",
        "A unit just inside a kneewall door, serviced by somebody who stands in the doorway, under the mechanical code",
        {
            "opening": {"length": "58 in", "width": "30 in"},
            "largest_component": {"length": "50 in", "width": "26 in", "height": "22 in"},
            "serviced_through_opening": True,
            "lighting": "switched-at-entry",
            "receptacle_distance": "9 ft",
            "disconnect_in_sight": True,
            "code": "IMC-2018",
        },
    ),
    Example(
        "long-attic-one-can-stand-in",
        "A 34 ft walk under a high ridge, which one code limits and the other does not",
        {
            "opening": {"length": "32 in", "width": "24 in"},
            "largest_component": {"length": "40 in", "width": "23 in", "height": "20 in"},
            "passage": {"length": "34 ft", "width": "30 in", "height": "76 in", "floor_width": "30 in", "solid_floor": True},
            "service_space": {"length": "42 in", "width": "34 in", "sides": "service-side"},
            "lighting": "switched-at-entry",
            "receptacle_distance": "20 ft",
            "disconnect_in_sight": True,
            "floor_panel": {"thickness": "1/2 in", "support_spacing": "16 in", "rated_floor_spacing": "16 in"},
            "code": "IMC-2009",
        },
    ),
)
