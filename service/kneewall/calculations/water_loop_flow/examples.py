"""Water-loop questions worth starting from."""

from typing import Any

from kneewall.kernel.calculation import Example

UPSTAIRS: dict[str, Any] = {
    "id": "upstairs",
    "from": "tee in",
    "to": "tee out",
    "cooling": {"capacity": "34 MBH", "power": "2150 W"},
    "heating": {"capacity": "38 MBH", "power": "2900 W"},
    "coil": {"flow": "8 gpm", "pressure_drop": "5.5 psi", "exponent": 2.08},
    "minimum_flow": "4 gpm",
}
DOWNSTAIRS: dict[str, Any] = {
    "id": "downstairs",
    "from": "down in",
    "to": "down out",
    "cooling": {"capacity": "23 MBH", "power": "1450 W"},
    "heating": {"capacity": "26 MBH", "power": "1900 W"},
    "coil": {"flow": "6 gpm", "pressure_drop": "3 psi"},
    "minimum_flow": "3 gpm",
}


def _branch(name: str, start: str, end: str, **more: Any) -> dict[str, Any]:
    return {
        "id": name, "from": start, "to": end, "material": "copper-type-l", "nominal_size": "3/4 in", "length": "12 ft",
        "fittings": {"elbow-90-solder": 4}, "valves": [{"kind": "isolation", "cv": 30}], **more,
    }  # fmt: skip


def _held_to(flow: str) -> list[dict[str, Any]]:
    return [{"kind": "isolation", "cv": 30}, {"kind": "flow-regulator", "flow": flow}]


WELL_PIPES: list[dict[str, Any]] = [
    {
        "id": "main", "from": "supply", "to": "split", "material": "pe-dr-11", "nominal_size": "1-1/4 in", "length": "60 ft", "rise": "3 ft",
        "fittings": {"elbow-90-insert": 2, "entrance": 1}, "valves": [{"kind": "strainer", "cv": 22, "mesh": "20"}],
    },
    _branch("riser", "split", "tee in", length="26 ft", rise="18 ft", fittings={"tee-branch-solder": 1, "elbow-90-solder": 4}),
    _branch("return", "tee out", "join", length="26 ft", rise="-18 ft", fittings={"tee-branch-solder": 1, "elbow-90-solder": 4}, valves=_held_to("7 gpm")),
    _branch("down feed", "split", "down in"),
    _branch("down return", "down out", "join", valves=_held_to("5 gpm")),
    {
        "id": "leaving", "from": "join", "to": "discharge", "material": "pvc-schedule-40", "nominal_size": "1-1/4 in", "length": "45 ft",
        "rise": "-2 ft", "fittings": {"elbow-90": 4, "exit": 1},
    },
]  # fmt: skip

OPEN_LOOP: dict[str, Any] = {
    "entering_water": "52 °F",
    "loop": "open",
    "units": [UPSTAIRS, DOWNSTAIRS],
    "pipes": WELL_PIPES,
    "control_valve": {"on": "leaving", "cv": 7.5, "body": "pilot-operated", "minimum_pressure_drop": "1 psi", "arrester": True},
    "supply": {"kind": "pressure-tank", "cut_in": "40 psig", "cut_out": "60 psig", "tank_volume": "86 gal", "pump_flow": "18 gpm"},
}

CLOSED_LOOP: dict[str, Any] = {
    "fluid": {"kind": "propylene-glycol", "mass_fraction": 0.2},
    "entering_water": "38 °F",
    "loop": "closed",
    "units": [
        {**UPSTAIRS, "heating": {"capacity": "31 MBH", "power": "2700 W"}, "leaving_limit": "30 °F"},
        {**DOWNSTAIRS, "heating": {"capacity": "21 MBH", "power": "1750 W"}, "leaving_limit": "30 °F"},
    ],
    "pipes": [
        {
            "id": "to ground", "from": "ground", "to": "discharge", "material": "pe-dr-11", "nominal_size": "1-1/2 in", "length": "650 ft",
            "fittings": {"elbow-90": 4},
        },
        {
            "id": "main", "from": "supply", "to": "split", "material": "copper-type-l", "nominal_size": "1-1/2 in", "length": "20 ft",
            "fittings": {"elbow-90-solder": 4}, "valves": [{"kind": "strainer", "cv": 40}],
        },
        _branch("riser", "split", "tee in", nominal_size="1 in", length="26 ft", rise="18 ft"),
        _branch("return", "tee out", "join", nominal_size="1 in", length="26 ft", rise="-18 ft"),
        _branch("down feed", "split", "down in", nominal_size="1 in", valves=[{"kind": "isolation", "cv": 45}, {"kind": "balancing", "cv": 8}]),
        _branch("down return", "down out", "join", nominal_size="1 in"),
        {"id": "leaving", "from": "join", "to": "ground", "material": "copper-type-l", "nominal_size": "1-1/2 in", "length": "15 ft",
         "fittings": {"elbow-90-solder": 3}},
    ],
    "supply": {
        "kind": "circulator",
        "fill_pressure": "20 psig",
        "points": [{"flow": "0 gpm", "head": "62 ft"}, {"flow": "15 gpm", "head": "52 ft"}, {"flow": "30 gpm", "head": "22 ft"}],
    },
}  # fmt: skip

UNDERSIZED: dict[str, Any] = {
    "entering_water": "47 °F",
    "loop": "open",
    "units": [{**UPSTAIRS, "own_valve": True}, {**DOWNSTAIRS, "own_valve": True}],
    "pipes": [
        {**WELL_PIPES[0], "material": "pex", "nominal_size": "3/4 in"},
        *[{**pipe, "valves": [{"kind": "isolation", "cv": 30}]} for pipe in WELL_PIPES[1:5]],
        {**WELL_PIPES[5], "material": "pex", "nominal_size": "3/4 in", "fittings": {"elbow-90-insert": 4, "exit": 1}},
    ],
    "supply": {"kind": "fixed-pressure", "pressure": "28 psig"},
}

ONE_UNIT: dict[str, Any] = {
    "entering_water": "55 °F",
    "loop": "open",
    "units": [
        {
            "id": "closet", "from": "in", "to": "discharge", "coil": {"flow": "5 gpm", "pressure_drop": "2.2 psi"},
            "heating": {"capacity": "17 MBH", "power": "1300 W"},
        }
    ],
    "pipes": [
        {
            "id": "feed", "from": "supply", "to": "in", "material": "cpvc-cts", "nominal_size": "3/4 in", "length": "55 ft",
            "fittings": {"elbow-90": 6}, "valves": [{"kind": "balancing", "cv": 3.2}],
        }
    ],
    "supply": {"kind": "fixed-pressure", "pressure": "22 psig"},
    "discharge": {"elevation": "8 ft"},
}  # fmt: skip

EXAMPLES = (
    Example("well-with-pressure-tank", "Two units on a well with a pressure tank, behind one valve on the leaving side", OPEN_LOOP),
    Example("closed-loop-with-glycol", "Two units on a closed ground loop with a circulator and propylene glycol", CLOSED_LOOP),
    Example("undersized-supply", "Two units with valves of their own behind too little pressure and too small a pipe", UNDERSIZED),
    Example("one-unit-on-a-steady-pressure", "One unit at the end of a pipe, its water let go higher up", ONE_UNIT),
)
