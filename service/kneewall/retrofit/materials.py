"""The take-off: what the job takes, part by part, and how it is ordered."""

from collections.abc import Sequence
from math import ceil

from kneewall.retrofit.results import Material
from kneewall.retrofit.take_off_air import duct_lines
from kneewall.retrofit.take_off_hung import access_lines, hanging_lines, support_lines
from kneewall.retrofit.take_off_piping import drain_lines, loop_lines, refrigerant_lines
from kneewall.retrofit.work import Work

STOCK = {"flexible duct": 25.0, "spiral-steel duct": 10.0, "refrigerant tube": 50.0, "tube insulation": 6.0, "pipe insulation": 6.0, "strap": 100.0}
"""Feet per length, box, coil or roll as sold, by how the item's name begins. Source: retrofit-check.stock-lengths."""
METAL_DUCT, LENGTH = 5.0, 10.0
AREAS = {"galvanized sheet": (32.0, "sheet", "4 x 8 ft"), "floor panel": (32.0, "sheet", "4 x 8 ft"), "duct wrap": (200.0, "roll", "4 x 50 ft")}
"""Square feet of a sheet or roll, and how it is called."""
FROM_SHEET = "made of the galvanized sheet"
"""How a piece is ordered whose sheet stands in a line of its own: not a second time."""
TOLERANCE = 1e-9


def materials(work: Work) -> list[Material]:
    """Every line of the take-off, net of waste; lines of the same item and size in one part are added up."""
    lines: dict[tuple[str, str, str, str], list[float]] = {}
    made = set()
    for finder in (duct_lines, support_lines, hanging_lines, drain_lines, refrigerant_lines, loop_lines, access_lines):
        for line in finder(work):
            key = (line.item, line.size, line.unit, line.part)
            lines.setdefault(key, []).extend([line.quantity] * line.pieces)
            if line.from_sheet:
                made.add(key)
    place: dict[str, int] = {}
    for item, *_ in lines:
        place.setdefault(item, len(place))
    return [
        Material(
            item=key[0], size=key[1], quantity=round(sum(pieces), 3), unit=key[2], part=key[3],
            order=FROM_SHEET if key in made else ordered(key[0], pieces, key[2]),
        )
        for key, pieces in sorted(lines.items(), key=lambda line: place[line[0][0]])
        if sum(pieces) > 0.0
    ]  # fmt: skip


def ordered(item: str, pieces: Sequence[float], unit: str) -> str | None:
    """Whole lengths, coils, rolls or sheets. Source: retrofit-check.stock-lengths."""
    if unit == "ft2" and item in AREAS:
        each, kind, size = AREAS[item]
        return _counted(ceil(sum(pieces) / each - TOLERANCE), kind, size)
    if unit != "ft":
        return None
    stock = next((length for start, length in STOCK.items() if item.startswith(start)), METAL_DUCT if item.endswith("duct") else LENGTH)
    cut = stock_lengths(pieces, stock) if item not in ("strap",) else ceil(sum(pieces) / stock - TOLERANCE)
    return f"{cut} of {stock:g} ft"


def _counted(count: int, kind: str, size: str) -> str:
    return f"{count} {kind}{'' if count == 1 else 's'} of {size}"


def stock_lengths(pieces: Sequence[float], stock: float) -> int:
    """How many stock lengths the pieces are cut from: the longest first, each from the first remnant that is long enough; a piece longer than a stock
    length is joined of whole ones and a rest. Source: retrofit-check.stock-lengths.
    """
    whole, rests = 0, []
    for piece in pieces:
        full = int(piece / stock + TOLERANCE)
        whole += full
        rests.append(piece - full * stock)
    left: list[float] = []
    for rest in sorted(rests, reverse=True):
        if rest <= TOLERANCE * stock:
            break
        place = next((index for index, remnant in enumerate(left) if remnant >= rest - TOLERANCE), None)
        if place is None:
            left.append(stock - rest)
        else:
            left[place] -= rest
    return whole + len(left)
