"""Duct-system questions worth starting from: the upper floor of a two-story house, fed from an air handler hung in its attic."""

from typing import Any

from kneewall.kernel.calculation import Example

BLOWER = {
    "points": [
        {"airflow": "1310 cfm", "static_pressure": "0.2 inH2O"},
        {"airflow": "1255 cfm", "static_pressure": "0.3 inH2O"},
        {"airflow": "1190 cfm", "static_pressure": "0.4 inH2O"},
        {"airflow": "1115 cfm", "static_pressure": "0.5 inH2O"},
        {"airflow": "1025 cfm", "static_pressure": "0.6 inH2O"},
        {"airflow": "910 cfm", "static_pressure": "0.7 inH2O"},
    ]
}
FILTER = {"name": "filter and its grille", "kind": "filter", "pressure_drop": "0.11 inH2O", "airflow": "1150 cfm", "side": "return"}
ATTIC = {"temperature": "118 degF", "dew_point": "68 degF", "jacket": "foil"}

ROOMS = (
    ("east-bedroom", "north-box", "130 cfm", "16 ft", 0.96),
    ("east-bath", "north-box", "60 cfm", "11 ft", 0.96),
    ("hall", "north-box", "90 cfm", "7 ft", 0.97),
    ("north-bedroom", "north-box", "145 cfm", "21 ft", 0.95),
    ("main-bedroom-1", "south-box", "150 cfm", "14 ft", 0.96),
    ("main-bedroom-2", "south-box", "150 cfm", "20 ft", 0.96),
    ("main-bath", "south-box", "85 cfm", "12 ft", 0.96),
    ("landing", "south-box", "100 cfm", "9 ft", 0.96),
    ("study", "south-box", "120 cfm", "17 ft", 0.95),
    ("stair", "supply-plenum", "120 cfm", "8 ft", 0.97),
)
BENDS = [{"fitting": "elbow-flexible", "count": 2, "radius_ratio": 1.0}]
FLEXIBLE_SIZES = {
    "60 cfm": "6 in",
    "85 cfm": "7 in",
    "90 cfm": "7 in",
    "100 cfm": "7 in",
    "120 cfm": "8 in",
    "130 cfm": "8 in",
    "145 cfm": "8 in",
    "150 cfm": "8 in",
}


def _room(name: str, toward: str, airflow: str, length: str, stretch: float, size: str | None) -> dict[str, Any]:
    section: dict[str, Any] = {
        "id": name,
        "side": "supply",
        "toward_unit": toward,
        "duct": {"material": "flexible", "shape": "round", "stretch": stretch},
        "length": length,
        "fittings": BENDS if toward != "supply-plenum" else [*BENDS, {"fitting": "takeoff", "angle": 90}],
        "outlet": {"airflow": airflow, "pressure_drop": "0.025 inH2O"},
        "insulation": {"nominal_r": "8 R"},
        "leakage_class": "C",
    }
    return section if size is None else {**section, "size": {"shape": "round", "diameter": size}}


def _metal(
    name: str, side: str, toward: str, length: str, fittings: list[dict[str, Any]], sized: tuple[str, str] | None, **more: Any
) -> dict[str, Any]:
    section: dict[str, Any] = {
        "id": name,
        "side": side,
        "toward_unit": toward,
        "duct": {"material": "galvanized-steel", "shape": "rectangular", "fixed_side": "12 in"},
        "length": length,
        "fittings": fittings,
        "insulation": {"nominal_r": "8 R"},
        "leakage_class": "C",
        **more,
    }
    return section if sized is None else {**section, "size": {"shape": "rectangular", "width": sized[0], "height": sized[1]}}


def house(*, sized: bool) -> list[dict[str, Any]]:
    """The upper floor's sections, with or without sizes."""

    def size(width: str, height: str) -> tuple[str, str] | None:
        return (width, height) if sized else None

    takeoff = [{"fitting": "takeoff", "angle": 45}]
    return [
        _metal("supply-plenum", "supply", "unit", "3 ft", [], ("20 in", "12 in"), kind="plenum"),
        _metal("north-trunk", "supply", "supply-plenum", "10 ft", takeoff, size("10 in", "12 in")),
        _metal("north-box", "supply", "north-trunk", "3 ft", [], size("24 in", "14 in"), kind="splitter-box"),
        _metal("south-trunk", "supply", "supply-plenum", "12 ft", takeoff, size("12 in", "12 in")),
        _metal("south-box", "supply", "south-trunk", "3 ft", [], size("28 in", "16 in"), kind="splitter-box"),
        *[_room(name, toward, airflow, length, stretch, FLEXIBLE_SIZES[airflow] if sized else None) for name, toward, airflow, length, stretch in ROOMS],
        _metal("return-plenum", "return", "unit", "2.5 ft", [], ("24 in", "12 in"), kind="plenum"),
        _metal(
            "hall-return", "return", "return-plenum", "9 ft", [{"fitting": "elbow-mitred", "angle": 45}, *takeoff], size("16 in", "12 in"),
            outlet={"airflow": "650 cfm", "pressure_drop": "0.03 inH2O"},
        ),
        _metal(
            "bedroom-return", "return", "return-plenum", "14 ft", [{"fitting": "elbow-smooth", "radius_ratio": 1.0}, *takeoff], size("14 in", "12 in"),
            outlet={"airflow": "500 cfm", "pressure_drop": "0.03 inH2O"},
        ),
    ]  # fmt: skip


_SHARED = {"blower": BLOWER, "components": [FILTER], "surroundings": ATTIC, "supply_air": {"temperature": "55 degF"}, "rated_limit": "0.7 inH2O"}

EXAMPLES = (
    Example(
        "size-the-upper-floor",
        "Sizes for a whole upper floor from the blower's own table, with ten flexible runs from a plenum and two splitter boxes",
        {"task": "size", "sections": house(sized=False), "velocity_limit": {"supply": "800 fpm", "return": "650 fpm"}, **_SHARED},
    ),
    Example(
        "analyse-the-upper-floor",
        "What every room really gets when the boxes feed their runs without dampers",
        {"task": "analyse", "sections": house(sized=True), **_SHARED},
    ),
    Example(
        "three-runs-by-friction-rate",
        "A small system by a friction rate that is already decided",
        {
            "task": "size",
            "friction_rate": "0.08 inH2O/100ft",
            "sections": [
                {"id": "trunk", "side": "supply", "toward_unit": "unit", "length": "15 ft"},
                {
                    "id": "den",
                    "side": "supply",
                    "toward_unit": "trunk",
                    "length": "9 ft",
                    "fittings": [{"fitting": "takeoff", "angle": 45}],
                    "outlet": {"airflow": "110 cfm", "pressure_drop": "0.03 inH2O"},
                },
                {
                    "id": "kitchen",
                    "side": "supply",
                    "toward_unit": "trunk",
                    "length": "18 ft",
                    "fittings": [{"fitting": "elbow-segmented", "count": 2}],
                    "outlet": {"airflow": "160 cfm", "pressure_drop": "0.03 inH2O"},
                },
                {
                    "id": "return",
                    "side": "return",
                    "toward_unit": "unit",
                    "length": "12 ft",
                    "fittings": [{"equivalent_length": "25 ft"}],
                    "outlet": {"airflow": "270 cfm", "pressure_drop": "0.03 inH2O"},
                },
            ],
        },
    ),
)
