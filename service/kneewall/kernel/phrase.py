"""Sentences with quantities in them, put into words only when an answer leaves, in the units the reader chose."""

from typing import TYPE_CHECKING, TypeAlias

from kneewall.kernel.quantity import Quantity, UnitSystem, number_shown

if TYPE_CHECKING:
    Figure: TypeAlias = Quantity | float | str | bool | None
else:

    class Figure:
        """Any figure of an answer: a quantity, a number, a word or a yes/no."""


class Phrase:
    """A sentence and the figures that stand in its braces: `Phrase("{} is above {}", velocity, limit)`."""

    __slots__ = ("figures", "sentence")

    def __init__(self, sentence: str, *figures: "Figure | Phrase") -> None:
        self.sentence = sentence
        self.figures = figures

    def shown(self, system: UnitSystem) -> str:
        """The sentence in the units of `system`."""
        if not self.figures:
            return self.sentence
        shown = [figure.shown(system) if isinstance(figure, Quantity) else figure_shown(figure, system) for figure in self.figures]
        return self.sentence.format(*shown).replace("..", ".")  # a unit such as "in. w.c." brings its own full stop to the end of a sentence

    def __repr__(self) -> str:
        return self.shown("ip")

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Phrase) and (self.sentence, self.figures) == (other.sentence, other.figures)

    def __hash__(self) -> int:
        return hash((self.sentence, self.figures))


def figure_shown(figure: "Figure | Phrase", system: UnitSystem) -> str:
    """One figure as it stands in a sentence."""
    if isinstance(figure, Quantity):
        return figure.shown(system)
    if isinstance(figure, Phrase):
        return figure.shown(system)
    if isinstance(figure, bool):
        return "yes" if figure else "no"
    if isinstance(figure, float | int):
        return number_shown(figure)
    return "none" if figure is None else figure
