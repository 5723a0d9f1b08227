"""A figure with its uncertainty as it stands in a sentence: both to the digits that the uncertainty leaves meaningful."""

from math import floor, log10

from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Quantity, UnitSystem


class Banded(Phrase):
    """`1,183 ± 60 cfm`: the uncertainty to two figures, the value to the same place."""

    __slots__ = ("value", "width")

    def __init__(self, value: Quantity, width: Quantity) -> None:
        super().__init__("{} ± {}", value, width)
        self.value, self.width = value, width

    def shown(self, system: UnitSystem) -> str:
        """The figure and its uncertainty in the units of `system`, the unit said once where both share it."""
        number, name = _in_unit(self.value, system)
        width, other = _in_unit(self.width, system)
        if width <= 0.0:
            return self.value.shown(system)
        places = min(max(0, 1 - floor(log10(width))), 9)
        unit = "" if name == other else f" {name}"
        return f"{number:,.{places}f}{unit} ± {width:,.{places}f} {other}"


def _in_unit(quantity: Quantity, system: UnitSystem) -> tuple[float, str]:
    unit = quantity.table.ip if system == "ip" else quantity.table.si
    return (quantity - unit.offset) / unit.scale, unit.shown
