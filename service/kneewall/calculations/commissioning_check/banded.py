"""A figure with its uncertainty as it stands in a sentence: both to the digits that the uncertainty leaves meaningful."""

from math import floor, log10

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Quantity, UnitSystem


class Banded(Phrase):
    """`1,183 ± 60 cfm`: the uncertainty to two figures, the value to the same place. Beside it what the whole band is held to, where it is."""

    __slots__ = ("least", "most")

    def __init__(self, value: Quantity, width: Quantity, *, least: float | None = None, most: float | None = None) -> None:
        self.sentence = "{} ± {}"
        self.figures = (value, width)
        self.least, self.most = least, most

    def shown(self, system: UnitSystem) -> str:
        """The figure and its uncertainty in the units of `system`, the unit said once where both share it."""
        value, width = self.figures
        assert isinstance(value, Quantity) and isinstance(width, Quantity)
        if width <= 0.0:
            return value.shown(system)
        one, other = (value.table.ip, width.table.ip) if system == "ip" else (value.table.si, width.table.si)
        wide = width / other.scale
        places = min(max(0, 1 - floor(log10(wide))), 9)
        unit = "" if one.shown == other.shown else f" {one.shown}"
        return f"{(value - one.offset) / one.scale:,.{places}f}{unit} ± {wide:,.{places}f} {other.shown}"
