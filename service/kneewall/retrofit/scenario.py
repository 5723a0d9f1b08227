"""A house of our own: two stories, a split water-source heat pump whose air handler is to hang in the attic and whose compressor stands in the crawl space,
on one open loop with the unit that serves the ground floor. Elevations are above the ground floor.
"""

from typing import Any

from kneewall.retrofit.partial import merged

ROOMS = (
    ("east-room", "north-box", "130 cfm", "8 in", "16 ft"),
    ("east-bath", "north-box", "60 cfm", "6 in", "11 ft"),
    ("hall", "north-box", "90 cfm", "7 in", "7 ft"),
    ("north-room", "north-box", "145 cfm", "9 in", "21 ft"),
    ("main-room-1", "south-box", "150 cfm", "9 in", "14 ft"),
    ("main-room-2", "south-box", "150 cfm", "9 in", "20 ft"),
    ("main-bath", "south-box", "85 cfm", "7 in", "12 ft"),
    ("landing", "south-box", "100 cfm", "7 in", "9 ft"),
    ("study", "south-box", "120 cfm", "8 in", "17 ft"),
    ("stair", "supply-plenum", "120 cfm", "7 in", "8 ft"),
)
R8 = {"nominal_r": "8 R"}
TAKEOFF = {"fitting": "takeoff", "angle": 45}


def _metal(name: str, side: str, toward: str, length: str, size: tuple[str, str], *fittings: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {
        "id": name, "side": side, "toward_unit": toward, "length": length, "duct": {"material": "galvanized-steel", "shape": "rectangular"},
        "size": {"shape": "rectangular", "width": size[0], "height": size[1]}, "insulation": R8, "leakage_class": "C", **({"fittings": list(fittings)} if fittings else {}), **more,
    }  # fmt: skip


def _room(name: str, toward: str, airflow: str, size: str, length: str) -> dict[str, Any]:
    bends: list[dict[str, Any]] = [{"fitting": "elbow-flexible", "count": 2}]
    return {
        "id": name, "side": "supply", "toward_unit": toward, "length": length, "duct": {"material": "flexible", "stretch": 0.97},
        "size": {"shape": "round", "diameter": size}, "insulation": R8, "leakage_class": "C",
        "fittings": [*bends, {"fitting": "takeoff"}] if toward == "supply-plenum" else bends,
        "outlet": {"airflow": airflow, "pressure_drop": "0.025 inH2O"},
    }  # fmt: skip


def sections(hall_return: tuple[str, str], room_return: tuple[str, str]) -> list[dict[str, Any]]:
    """The ducts, with the sizes of the two returns that the first plan and the mended one choose apart."""
    return [
        _metal("supply-plenum", "supply", "unit", "3 ft", ("22 in", "16 in"), kind="plenum"),
        _metal("north-trunk", "supply", "supply-plenum", "10 ft", ("12 in", "12 in"), TAKEOFF),
        _metal("north-box", "supply", "north-trunk", "3 ft", ("26 in", "14 in"), kind="splitter-box"),
        _metal("south-trunk", "supply", "supply-plenum", "12 ft", ("14 in", "12 in"), TAKEOFF),
        _metal("south-box", "supply", "south-trunk", "3 ft", ("28 in", "16 in"), kind="splitter-box"),
        *[_room(*room) for room in ROOMS],
        _metal("return-plenum", "return", "unit", "2.5 ft", ("24 in", "16 in"), kind="plenum"),
        _metal(
            "hall-return", "return", "return-plenum", "9 ft", hall_return, {"fitting": "elbow-mitred", "angle": 45}, TAKEOFF,
            outlet={"airflow": "650 cfm", "pressure_drop": "0.03 inH2O"},
        ),
        _metal(
            "room-return", "return", "return-plenum", "14 ft", room_return, {"fitting": "elbow-smooth", "radius_ratio": 1.0}, TAKEOFF,
            outlet={"airflow": "500 cfm", "pressure_drop": "0.03 inH2O"},
        ),
    ]  # fmt: skip


def _loop_pipe(name: str, start: str, end: str, size: str, length: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "from": start, "to": end, "material": "copper-type-l", "nominal_size": size, "length": length, **more}


def _held_to(flow: str) -> list[dict[str, Any]]:
    return [ISOLATION, {"kind": "flow-regulator", "flow": flow}]


ISOLATION = {"kind": "isolation", "cv": 30}
LOOP = {
    "entering_water": "52 degF",
    "loop": "open",
    "units": [
        {"id": "upstairs", "from": "up in", "to": "up out", "coil": {"flow": "8 gpm", "pressure_drop": "5.5 psi", "exponent": 2.08}, "minimum_flow": "4 gpm"},
        {
            "id": "downstairs", "from": "down in", "to": "down out", "cooling": {"capacity": "23 MBH", "power": "1450 W"},
            "heating": {"capacity": "26 MBH", "power": "1900 W"}, "coil": {"flow": "6 gpm", "pressure_drop": "3 psi"}, "minimum_flow": "3 gpm",
        },
    ],
    "pipes": [
        _loop_pipe("main", "supply", "split", "1-1/4 in", "40 ft", fittings={"elbow-90-solder": 3, "entrance": 1}, valves=[{"kind": "strainer", "cv": 22, "mesh": "20"}]),
        _loop_pipe("up feed", "split", "up in", "3/4 in", "9 ft", fittings={"elbow-90-solder": 3, "tee-branch-solder": 1}, valves=[ISOLATION]),
        _loop_pipe("up return", "up out", "join", "3/4 in", "9 ft", fittings={"elbow-90-solder": 3}, valves=_held_to("7 gpm")),
        _loop_pipe("down feed", "split", "down in", "3/4 in", "7 ft", fittings={"elbow-90-solder": 2}, valves=[ISOLATION]),
        _loop_pipe("down return", "down out", "join", "3/4 in", "7 ft", fittings={"elbow-90-solder": 2}, valves=_held_to("5 gpm")),
        _loop_pipe("leaving", "join", "discharge", "1-1/4 in", "35 ft", fittings={"elbow-90-solder": 4, "exit": 1}),
    ],
    "supply": {"kind": "pressure-tank", "cut_in": "40 psig", "cut_out": "60 psig", "tank_volume": "86 gal", "pump_flow": "20 gpm"},
}  # fmt: skip

MENDED: dict[str, Any] = {
    "job": {"name": "Attic air handler for the upper floor"},
    "capacity": {"cooling": "34 MBH", "cooling_power": "2150 W", "heating": "38 MBH", "heating_power": "2900 W"},
    "airflow": "1150 cfm",
    "refrigerant": "R-410A",
    "code": "IRC-2018",
    "unit": {"weight": "205 lb", "length": "50 in", "width": "22 in", "height": "21 in", "loop_unit": "upstairs", "coil_pressure_drop": "0.24 inH2O"},
    "surroundings": {"temperature": "118 degF", "dew_point": "68 degF", "lowest_temperature": "38 degF"},
    "elevations": {"unit_base": "18.75 ft", "rafter_underside": "21.5 ft", "attic_floor": "17.6 ft", "receiver_rim": "17.9 ft", "outdoor_unit": "-2 ft", "loop_supply": "-2 ft"},
    "duct_system": {
        "task": "analyse",
        "blower": {
            "points": [
                {"airflow": "1290 cfm", "static_pressure": "0.1 inH2O"},
                {"airflow": "1240 cfm", "static_pressure": "0.2 inH2O"},
                {"airflow": "1180 cfm", "static_pressure": "0.3 inH2O"},
                {"airflow": "1100 cfm", "static_pressure": "0.4 inH2O"},
                {"airflow": "990 cfm", "static_pressure": "0.5 inH2O"},
                {"airflow": "820 cfm", "static_pressure": "0.6 inH2O"},
            ]
        },
        "components": [{"name": "filter and its grille", "kind": "filter", "pressure_drop": "0.1 inH2O", "airflow": "1150 cfm", "side": "return"}],
        "sections": sections(("18 in", "12 in"), ("14 in", "12 in")),
        "supply_air": {"temperature": "55 degF"},
        "rated_limit": "0.5 inH2O",
    },
    "static_pressure_budget": {"rated_limit": "0.5 inH2O"},
    "water_loop_flow": {**LOOP, "control_valve": {"on": "leaving", "cv": 13, "body": "motorized", "closing_time": "8 s"}},
    "equipment_hanging": {
        "equipment": {"centre_offset": {"along": "3 in", "across": "1 in"}},
        "attached": [{"name": "rods, channel and pan metal", "weight": "31 lb"}],
        "rods": {"diameter": "3/8 in", "along": "44 in", "across": "28 in"},
        "trapeze": {"section": "12ga-1-5/8x1-5/8", "span": "28 in", "rod_inset": "3 in"},
        "anchor": {"kind": "lag-screw", "diameter": "3/8 in", "thread_length": "3 in", "into": "side-grain", "edge_distance": "3/4 in", "end_distance": "9 in"},
        "wood": {"group": "spruce-pine-fir"},
        "framing": {"kind": "rafter", "members": 4, "size": "2x8", "span": "13 ft"},
        "blower_speeds": ["700 rpm", "1050 rpm"],
        "isolator": {"static_deflection": "1 in", "damping_ratio": 0.03},
        "seismic_design_category": "B",
    },
    "condensate_drain": {
        "fan_position": "draw-through",
        "pipe": {"material": "pvc-schedule-40", "nominal_size": "3/4 in"},
        "run": {"length": "26 ft", "slope": "1/8 in/ft", "hanger_spacing": "3 ft"},
        "elevations": {"outlet_above_base": "1-1/4 in", "air_gap": "1-3/4 in"},
        "auxiliary_pan": {
            "pan": {"length": "60 in", "width": "27 in", "depth": "2 in", "thickness": "0.0276 in"},
            "protection": "pan-and-switch", "trap_reach": "6 in",
        },
    },
    "refrigerant_line_sizing": {
        "cooling": {"minimum_capacity": "24 MBH", "evaporating": "46 degF", "condensing": "100 degF", "superheat": "10 degF", "subcooling": "12 degF"},
        "heating": {"minimum_capacity": "27 MBH", "evaporating": "36 degF", "condensing": "108 degF", "superheat": "9 degF", "subcooling": "12 degF"},
        "vapor_line": {"length": "38 ft", "fittings": {"long-radius-ell": 6}},
        "liquid_line": {"length": "38 ft", "fittings": {"long-radius-ell": 6, "filter-drier": 1}},
        "factory_charge": {"mass": "6 lb", "line_length": "15 ft"},
        "insulation": {"thickness": "3/4 in"},
    },
    "service_access": {
        "opening": {"length": "54 in", "width": "25 in"},
        "passage": {"length": "14 ft", "width": "30 in", "height": "38 in", "floor_width": "24 in", "solid_floor": True},
        "service_space": {"length": "36 in", "width": "36 in", "sides": "all-sides"},
        "lighting": "switched-at-entry", "receptacle_distance": "6 ft", "disconnect_in_sight": True, "disconnect_distance": "4 ft",
        "floor_panel": {"thickness": "23/32 in", "support_spacing": "24 in", "edges": "tongue-and-groove", "width": "24 in"},
    },
}  # fmt: skip

_FIRST_CHANGES: dict[str, Any] = {
    "elevations": {"unit_base": "18 ft"},
    "duct_system": {
        "sections": sections(("9 in", "12 in"), ("8 in", "10 in")),
        "components": [{"name": "filter and its grille", "kind": "filter", "pressure_drop": "0.42 inH2O", "airflow": "1150 cfm", "side": "return"}],
    },
    "water_loop_flow": {"control_valve": {"on": "leaving", "cv": 1.2, "body": "pilot-operated", "minimum_pressure_drop": "1 psi"}},
    "service_access": {"service_space": {"length": "30 in", "width": "30 in"}},
}

FIRST: dict[str, Any] = merged(_FIRST_CHANGES, MENDED)
"""The plan as it was first drawn by eye."""

MEASURED: dict[str, Any] = {
    "mode": "cooling",
    "air_side": {"static_pressure": {"return": "-0.11 inH2O", "supply": "0.11 inH2O"}, "rated_limit": "0.5 inH2O", "blower": MENDED["duct_system"]["blower"]},
    "water_side": {
        "entering": "52 degF", "leaving": "64 degF", "coil": {"flow": "8 gpm", "pressure_drop": "5.5 psi", "exponent": 2.08},
        "pressure_drop": "5.5 psi", "no_flow_pressure_drop": "1.4 psi", "power": "2150 W",
    },
    "refrigerant_side": {
        "suction_pressure": "131 psig", "suction_temperature": "57 degF", "liquid_pressure": "315 psig", "liquid_temperature": "87 degF", "target_subcooling": "12 degF", "running_time": "20 min",
    },
    "condensate": {"outlet_drop": "1-3/4 in", "seal_depth": "2 in", "pour_test": {"poured": "2 gal", "collected": "2 gal", "duration": "14 min"}, "seal_held": True},
}  # fmt: skip
"""What was read on the gauges when the mended job was started."""

PROVED: dict[str, Any] = {**MENDED, "commissioning_check": MEASURED}
