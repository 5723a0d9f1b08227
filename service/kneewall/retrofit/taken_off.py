"""A line of the take-off before it is added up, and sizes as the trade writes them."""

from typing import NamedTuple

from kneewall.kernel.quantity import Dimension


class Line(NamedTuple):
    """Something that the job takes: `pieces` of it, each of this quantity in feet, square feet, pounds, ounces or by number."""

    item: str
    size: str
    quantity: float
    unit: str
    part: str
    pieces: int = 1
    from_sheet: bool = False


def inches(size: Dimension) -> str:
    """A size as the trade writes it: `1-1/8 in`, to the nearest thirty-second; decimals where it is none."""
    value = size.to("in")
    parts = round(value * 32)
    if abs(parts / 32 - value) > 1e-3:
        return f"{value:.3g} in"
    whole, rest = divmod(parts, 32)
    if not rest:
        return f"{whole} in"
    below = 32
    while rest % 2 == 0:
        rest, below = rest // 2, below // 2
    return f"{whole}-{rest}/{below} in" if whole else f"{rest}/{below} in"
