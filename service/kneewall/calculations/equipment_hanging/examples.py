"""Equipment-hanging questions worth starting from."""

from kneewall.kernel.calculation import Example

EXAMPLES = (
    Example(
        "air-handler-under-the-ridge",
        "A horizontal air handler on two channels in the attic, its coil end heavier, with a full pan",
        {
            "equipment": {"weight": "205 lb", "length": "52 in", "width": "22 in", "centre_offset": {"along": "4 in", "across": "1 in"}},
            "attached": [
                {"name": "supply plenum", "weight": "36 lb", "share": 0.5, "centre_offset": {"along": "27 in"}},
                {"name": "pan metal", "weight": "14 lb"},
                {"name": "rods and channel", "weight": "17 lb"},
            ],
            "pan": {"length": "56 in", "width": "27 in", "depth": "1-1/2 in"},
            "rods": {"diameter": "3/8 in", "along": "44 in", "across": "30 in"},
            "trapeze": {"section": "12ga-1-5/8x1-5/8", "span": "30 in", "rod_inset": "4 in"},
            "anchor": {
                "kind": "lag-screw",
                "diameter": "3/8 in",
                "thread_length": "2 in",
                "into": "side-grain",
                "edge_distance": "3/4 in",
                "end_distance": "9 in",
            },
            "wood": {"group": "spruce-pine-fir"},
            "framing": {"kind": "rafter", "members": 4, "size": "2x8", "span": "13 ft"},
            "blower_speeds": ["620 rpm", "850 rpm", "1075 rpm"],
            "isolator": {"static_deflection": "1 in", "damping_ratio": 0.03},
            "seismic_design_category": "B",
        },
    ),
    Example(
        "heat-pump-under-trusses",
        "A water-source heat pump that somebody wants to hang from roof trusses with listed rod hangers on rubber",
        {
            "equipment": {"weight": "310 lb", "length": "46 in", "width": "24 in"},
            "pan": {"length": "50 in", "width": "28 in", "depth": "2 in"},
            "rods": {"diameter": "3/8 in", "along": "40 in", "across": "29 in"},
            "anchor": {"kind": "listed-rod-hanger", "diameter": "1/4 in", "thread_length": "2 in", "rated_load": "400 lb", "into": "side-grain"},
            "wood": {"group": "southern-pine", "temperature": "110 degF"},
            "framing": {"kind": "truss", "members": 3},
            "blower_speeds": ["600 rpm", "1050 rpm"],
            "isolator": {"static_deflection": "0.1 in"},
            "seismic_design_category": "D1",
        },
    ),
    Example(
        "old-rods-in-a-hot-attic",
        "A unit that hangs from the joists by 1/4 in rods and short lag screws, in wood that stays hot",
        {
            "equipment": {"weight": "240 lb", "length": "50 in", "width": "21 in", "centre_offset": {"along": "-9 in", "across": "5 in"}},
            "attached": [{"name": "return plenum", "weight": "28 lb"}],
            "rods": {"diameter": "1/4 in", "along": "48 in", "across": "26 in", "edition": "before-MSS-SP-58-2002"},
            "trapeze": {"section": "12ga-1-5/8x1-3/8", "span": "26 in", "piercing": "round-holes"},
            "anchor": {"kind": "lag-screw", "diameter": "1/4 in", "thread_length": "7/8 in", "into": "side-grain"},
            "wood": {"group": "unknown", "temperature": "118 degF"},
            "framing": {"kind": "joist", "members": 2},
        },
    ),
    Example(
        "fan-coil-from-the-joists",
        "A small fan coil on four listed rod hangers, without channel or isolators",
        {
            "equipment": {"weight": "95 lb", "length": "36 in", "width": "20 in"},
            "attached": [{"name": "pan metal, water in the coil and rods", "weight": "16 lb"}],
            "pan": {"length": "39 in", "width": "23 in", "depth": "1-1/2 in"},
            "rods": {"diameter": "3/8 in", "along": "34 in", "across": "24 in"},
            "anchor": {"kind": "listed-rod-hanger", "rated_load": "300 lb", "into": "side-grain"},
            "wood": {"group": "hem-fir"},
            "framing": {"kind": "joist", "members": 3},
        },
    ),
)
