"""From figures to places in a drawing: true to scale for lengths, along an axis for everything else."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Self

from kneewall.kernel.quantity import Quantity, UnitSystem, number_shown
from kneewall.kernel.svg import GRID, INK, QUIET, SMALL, THIN, Drawing


@dataclass(frozen=True, slots=True)
class Scale:
    """Lengths drawn true to scale: one factor for both directions, heights upward. `x(0), y(0)` is the origin's place in the drawing."""

    left: float
    ground: float
    factor: float

    @classmethod
    def fit(cls, span: tuple[float, float], rise: tuple[float, float], box: tuple[float, float, float, float]) -> Self:
        """The largest scale at which lengths from `span[0]` to `span[1]` across and `rise[0]` to `rise[1]` up fit into
        `box` (left, top, width, height), in the middle of it. Lengths in m.
        """
        left, top, width, height = box
        across, up = max(span[1] - span[0], 1e-9), max(rise[1] - rise[0], 1e-9)
        factor = min(width / across, height / up)
        return cls(left + (width - across * factor) / 2.0 - span[0] * factor, top + (height + up * factor) / 2.0 + rise[0] * factor, factor)

    def x(self, length: float) -> float:
        """The place of a length across."""
        return self.left + length * self.factor

    def y(self, height: float) -> float:
        """The place of a height."""
        return self.ground - height * self.factor

    def length(self, length: float) -> float:
        """How long a length is in the drawing."""
        return length * self.factor


@dataclass(slots=True)
class Axis:
    """Figures of one unit along a line of the drawing, evenly or by powers of ten. `low` and `high` are plain numbers in the unit shown."""

    low: float
    high: float
    start: float
    end: float
    powers: bool = False

    def __call__(self, figure: float) -> float:
        """The place of a figure; outside the axis the nearer end."""
        figure = self.low if figure < self.low else self.high if figure > self.high else figure
        share = log10(figure / self.low) / log10(self.high / self.low) if self.powers else (figure - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)

    def ticks(self, about: int = 5) -> list[float]:
        """Round figures (1, 2 or 5 times a power of ten) within the axis."""
        if self.powers:
            first, last = floor(log10(self.low)), ceil(log10(self.high))
            found = [step * 10.0**power for power in range(first, last + 1) for step in (1.0, 2.0, 5.0)]
            return [figure for figure in found if self.low * 0.999 <= figure <= self.high * 1.001]
        rough = (self.high - self.low) / about
        power = 10.0 ** floor(log10(rough))
        step = next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= rough * 0.999)
        return [index * step for index in range(ceil(self.low / step - 1e-9), floor(self.high / step + 1e-9) + 1)]


def shown_in(quantity: type[Quantity], system: UnitSystem) -> tuple[str, str]:
    """The unit in which a kind of quantity is drawn: its label for `Quantity.to` and as it stands in a sentence."""
    unit = quantity.table.ip if system == "ip" else quantity.table.si
    return unit.label, unit.shown


def draw_axes(drawing: Drawing, across: Axis, up: Axis, names: tuple[str, str], ticks: tuple[Sequence[float], Sequence[float]] | None = None) -> None:
    """The grid of a chart with its figures, the upward axis named above its top and the other below its end."""
    horizontal, vertical = ticks or (across.ticks(), up.ticks())
    for figure in horizontal:
        drawing.line(across(figure), up.start, across(figure), up.end, GRID)
        drawing.text(across(figure), up.start + 14, number_shown(figure), size=SMALL, at="middle", colour=QUIET)
    for figure in vertical:
        drawing.line(across.start, up(figure), across.end, up(figure), GRID)
        drawing.text(across.start - 5, up(figure) + 3.5, number_shown(figure), size=SMALL, at="end", colour=QUIET)
    drawing.polyline([(across.start, up.end), (across.start, up.start), (across.end, up.start)], THIN)
    drawing.text(across.start - 28, up.end - 9, names[1], size=SMALL, colour=INK)
    drawing.text(across.end, up.start + 29, names[0], size=SMALL, at="end", colour=INK)


def draw_grid_across(drawing: Drawing, across: Axis, top: float, bottom: float, name: str) -> None:
    """Upright lines with their figures below them and the axis named below those: for bars and profiles whose rows have words of their own."""
    for figure in across.ticks():
        drawing.line(across(figure), top, across(figure), bottom, GRID)
        drawing.text(across(figure), bottom + 13, number_shown(figure), size=SMALL, at="middle", colour=QUIET)
    drawing.text(across.end, bottom + 27, name, size=SMALL, at="end", colour=INK)
