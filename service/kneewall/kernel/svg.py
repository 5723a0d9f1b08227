"""The drawing kit: a few kinds of line, text that stays inside its place, dimensions with arrows, and marks that are read without colour.

A drawing is `WIDTH` units wide, always: on a phone one unit is about one pixel, so text of `SMALL` can still be read, and in print the sheet is
wide enough for a legible line. What does not fit grows downward. y points down; `scale.py` maps lengths and figures to places.

    drawing = Drawing("Trap elevation", "A trap 3 in deep below a pan outlet.", height=240)
    drawing.rectangle(40, 60, 120, 30, OUTLINE, fill=TINT)
    drawing.dimension(40, 110, 160, 110, "10 ft")
    drawing.cut(125)
    drawing.mark(40, 140, "watch", "fall is less than 1/4 in/ft")
    return drawing.svg()

Everything is a presentation attribute and nothing has an id that another drawing could share, so drawings may stand inside any page under a strict
content security policy. A drawing is one file; `in_pieces` cuts it for a page where `cut` allows it. Every text is escaped here and nowhere else. A coordinate that is not finite raises ArithmeticError.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import chain
from math import hypot, isfinite
from typing import Literal

from kneewall.kernel.answer import Verdict
from kneewall.kernel.lettering import BOLDER, SURE_TO_FIT, escaped, shortened, wrapped

WIDTH = 360.0
SMALL, BODY, LARGE = 10.5, 12.0, 15.0

INK, QUIET, PAPER, TINT = "#1d2b2a", "#56655f", "#ffffff", "#eef3ee"
SUPPLY_COLOUR, RETURN_COLOUR, LIMIT_COLOUR = "#0d5c63", "#94470f", "#7a1f4b"
VERDICT_COLOURS: dict[Verdict, str] = {"meets": "#1f6238", "watch": "#7d5300", "fails": "#9c1c1c", "refer": "#4b3a80"}

Point = tuple[float, float]
At = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Pen:
    """How a line is drawn. Two pens of one drawing differ in weight or dashes, never in colour alone."""

    colour: str
    width: float
    dashes: str = ""

    @cached_property
    def attributes(self) -> str:
        """The pen as presentation attributes."""
        dashes = f' stroke-dasharray="{self.dashes}"' if self.dashes else ""
        return f'stroke="{self.colour}" stroke-width="{self.width}"{dashes}'


OUTLINE = Pen(INK, 1.6)
THIN = Pen(INK, 0.8)
GRID = Pen("#c9d3cc", 0.7)
HATCH = Pen("#84938b", 0.7)
HIDDEN = Pen(INK, 1.0, "5 3")
CENTRE = Pen(QUIET, 0.8, "9 3 2 3")
SUPPLY = Pen(SUPPLY_COLOUR, 2.6)
RETURN = Pen(RETURN_COLOUR, 2.6, "8 3")
LIMIT = Pen(LIMIT_COLOUR, 1.6, "2 3")
NO_LINE = Pen("none", 0)
VERDICT_PENS: dict[Verdict, Pen] = {verdict: Pen(colour, 1.8) for verdict, colour in VERDICT_COLOURS.items()}


class Drawing:
    """An SVG in the making. `title` names it, `says` tells in words what it shows, for those who do not see it."""

    __slots__ = ("_parts", "height", "says", "title")

    def __init__(self, title: str, says: str, height: float) -> None:
        self.title = title
        self.says = says
        self.height = height
        self._parts: list[str] = []

    def line(self, x1: float, y1: float, x2: float, y2: float, pen: Pen = OUTLINE) -> None:
        """A straight line."""
        _finite(x1 + y1 + x2 + y2)
        self._parts.append(f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" {pen.attributes}/>')

    def polyline(self, points: Iterable[Point], pen: Pen = OUTLINE) -> None:
        """An open line through points, with round joints."""
        self._parts.append(f'<polyline points="{_path(points)}" fill="none" stroke-linejoin="round" {pen.attributes}/>')

    def polygon(self, points: Iterable[Point], pen: Pen = OUTLINE, fill: str = "none") -> None:
        """A closed outline."""
        self._parts.append(f'<polygon points="{_path(points)}" fill="{fill}" stroke-linejoin="round" {pen.attributes}/>')

    def rectangle(self, x: float, y: float, width: float, height: float, pen: Pen = OUTLINE, fill: str = "none", corner: float = 0.0) -> None:
        """A rectangle from its upper left corner; `corner` rounds it (half the height makes a flat oval)."""
        _finite(x + y + width + height + corner)
        rounded = f' rx="{corner:.1f}"' if corner else ""
        width, height = width if width > 0.0 else 0.0, height if height > 0.0 else 0.0
        self._parts.append(f'<rect x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}"{rounded} fill="{fill}" {pen.attributes}/>')

    def circle(self, x: float, y: float, radius: float, pen: Pen = OUTLINE, fill: str = "none") -> None:
        """A circle round its center."""
        _finite(x + y + radius)
        self._parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{radius if radius > 0.0 else 0.0:.1f}" fill="{fill}" {pen.attributes}/>')

    def text(
        self, x: float, y: float, words: str, *, size: float = BODY, at: At = "start", colour: str = INK, bold: bool = False, within: float = WIDTH
    ) -> None:
        """One line of words on the baseline `y`, cut with an ellipsis where it would be longer than `within`. A halo keeps it legible over lines."""
        _finite(x + y)
        if len(words) * size > within * SURE_TO_FIT:
            words = shortened(words, within, size * BOLDER if bold else size)
        self._parts.append(f'<text x="{x:.1f}" y="{y:.1f}" {_letters(size, at, colour, bold)}>{escaped(words)}</text>')

    def note(self, x: float, y: float, words: str, width: float, *, size: float = SMALL, colour: str = INK) -> float:
        """Words broken into lines of at most `width`, the first on the baseline `y`. Returns the baseline after the last."""
        for line in wrapped(words, width, size):
            self.text(x, y, line, size=size, colour=colour)
            y += size * 1.3
        return y

    def arrow(self, x1: float, y1: float, x2: float, y2: float, pen: Pen = OUTLINE) -> None:
        """A line with a head at its second end."""
        self.line(x1, y1, x2, y2, pen)
        self._parts.append(f'<path d="{_head(x1, y1, x2, y2, pen)}" fill="{pen.colour}"/>')

    def dimension(self, x1: float, y1: float, x2: float, y2: float, label: str, *, beside: At = "middle", size: float = SMALL) -> None:
        """A dimension line with a head at both ends, a tick across each, and its label upon it or, where it is upright, beside it."""
        self.line(x1, y1, x2, y2, THIN)
        length = hypot(x2 - x1, y2 - y1) or 1.0
        right, down = 4.0 * (y2 - y1) / length, -4.0 * (x2 - x1) / length
        tick = f"l{2.0 * right:.1f} {2.0 * down:.1f}"
        ticks = f"M{x1 - right:.1f} {y1 - down:.1f}{tick}M{x2 - right:.1f} {y2 - down:.1f}{tick}"
        self._parts.append(f'<path d="{ticks}" {THIN.attributes}/>')
        if length > 14.0:
            heads = _head(x1, y1, x2, y2, THIN) + _head(x2, y2, x1, y1, THIN)
            self._parts.append(f'<path d="{heads}" fill="{THIN.colour}"/>')
        upright = abs(x2 - x1) < abs(y2 - y1)
        shift = {"start": 7.0, "middle": 0.0, "end": -7.0}[beside]
        self.text((x1 + x2) / 2.0 + shift, (y1 + y2) / 2.0 + (size * 0.35 if upright else -5.0), label, size=size, at=beside)

    def hatch(self, x: float, y: float, width: float, height: float, *, step: float = 8.0, pen: Pen = HATCH) -> None:
        """Lines at 45 degrees across a rectangle: solid matter, or a part of a chart that is not allowed."""
        _finite(x + y + width + height)
        if width > 0.0 and height > 0.0:
            self._parts.append(f'<path d="{_hatching(x, y, width, height, step)}" {pen.attributes}/>')

    def mark(self, x: float, y: float, verdict: Verdict, words: str = "", *, size: float = SMALL, within: float = WIDTH) -> None:
        """A verdict as a shape of its own (tick, triangle, cross, question mark), its word and what it is about."""
        colour, pen = VERDICT_COLOURS[verdict], VERDICT_PENS[verdict]
        middle = y - size * 0.36
        if verdict == "refer":
            self.circle(x + 5, middle, 5.5, Pen(colour, 1.2))
            self.text(x + 5, y - 0.4, "?", size=9.0, at="middle", colour=colour, bold=True)
        else:
            self._parts.append(f'<path d="M{x:.1f} {middle:.1f}{_SHAPES[verdict]}" stroke-linejoin="round" {pen.attributes}/>')
        self.text(x + 16, y, f"{verdict}: {words}" if words else verdict, size=size, colour=colour, bold=True, within=within - 16)

    def legend(self, x: float, y: float, entries: Sequence[tuple[Pen, str]], *, within: float = WIDTH) -> float:
        """What each pen stands for, one to a line. Returns the baseline after the last."""
        for pen, words in entries:
            self.line(x, y - 3.5, x + 26, y - 3.5, pen)
            self.text(x + 32, y, words, size=SMALL, within=within - 32)
            y += 15.0
        return y

    def cut(self, y: float) -> None:
        """Say that a page may end at the height `y`: what was drawn before stands above it, all that follows below."""
        _finite(y)
        self._parts.append(f"<!--cut {y:.1f}-->")

    def svg(self) -> str:
        """The finished drawing."""
        _finite(self.height)
        title, says = escaped(self.title), escaped(self.says)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {self.height:.1f}" role="img" aria-label="{title}. {says}" '
            f'font-family="system-ui, -apple-system, Helvetica, Arial, sans-serif" fill="none"><title>{title}</title><desc>{says}</desc>'
            f'<rect width="{WIDTH:g}" height="{self.height:.1f}" fill="{PAPER}"/>{"".join(self._parts)}</svg>'
        )


def in_pieces(svg: str) -> list[str]:
    """A finished drawing cut where a page may end, as drawings that stand below each other; the first speaks for all to those who do not see them."""
    body, *rest = _CUT.split(svg.removesuffix("</svg>"))
    head, tops = body[: body.index("><title>")], [0.0, *map(float, rest[::2])]
    bottom = float(head.partition(' viewBox="0 0 ')[2].split('"')[0].split()[1])
    hidden = f'{head[: head.index(" role=")]} aria-hidden="true"{head[head.index(" font-family=") :]}>'
    starts = [body, *(hidden + piece for piece in rest[1::2])]
    ends = [*tops[1:], bottom]
    return [
        start.replace(f'viewBox="0 0 {WIDTH:g} {bottom:.1f}"', f'viewBox="0 {top:g} {WIDTH:g} {end - top:.1f}"', 1) + "</svg>"
        for start, top, end in zip(starts, tops, ends, strict=True)
    ]


_CUT = re.compile("<!--cut ([0-9.]+)-->")
_SHAPES: dict[Verdict, str] = {"meets": "l3.5 4l6.5 -9", "watch": "m5 -5l5.5 9.5h-11z", "fails": "m0 -4.5l9 9m0 -9l-9 9"}
"""Tick, triangle and cross, from the left end of the mark at half the height of its letters."""


@cache
def _letters(size: float, at: At, colour: str, bold: bool) -> str:
    """How words are written, as presentation attributes with a halo."""
    weight = ' font-weight="600"' if bold else ""
    halo = 'stroke="#ffffff" stroke-width="3" stroke-linejoin="round" paint-order="stroke"'
    return f'font-size="{size}" text-anchor="{at}" fill="{colour}"{weight} {halo}'


def _head(x1: float, y1: float, x2: float, y2: float, pen: Pen) -> str:
    """The head at the second end of a line, as a part of a path."""
    size = (4.5 + pen.width) / (hypot(x2 - x1, y2 - y1) or 1.0)
    back, side = (size * (x1 - x2), size * (y1 - y2)), (-0.38 * size * (y1 - y2), 0.38 * size * (x1 - x2))
    return f"M{x2:.1f} {y2:.1f}l{back[0] + side[0]:.1f} {back[1] + side[1]:.1f}l{-2.0 * side[0]:.1f} {-2.0 * side[1]:.1f}z"


def _hatching(x: float, y: float, width: float, height: float, step: float) -> str:
    """Lines at 45 degrees across a rectangle as a path: those that meet a corner's two sides one by one, those between, all alike, as one step repeated."""
    side, wide = (height, True) if width >= height else (width, False)
    count = min(400, int((width + height) / step) + 1)
    first, last = int(side / step) + 1, min(count, int((width if wide else height) / step))
    marks: list[str] = []
    if last >= first:
        across = f"{side:.1f}"
        begin = f"M{x + first * step - height:.1f} {y + height:.1f}" if wide else f"M{x:.1f} {y + first * step:.1f}"
        back = f"m{step - float(across):.1f} {across}" if wide else f"m-{across} {step + float(across):.1f}"
        stroke = f"l{across} -{across}"
        marks.append(begin + stroke + (back + stroke) * (last - first))
    for index in (*range(1, first), *range(max(first, last + 1), count + 1)):
        reach = index * step
        left = reach - height if reach > height else 0.0
        right = reach if reach < width else width
        if right > left:
            marks.append(f"M{x + left:.1f} {y + reach - left:.1f}L{x + right:.1f} {y + reach - right:.1f}")
    return "".join(marks)


def _finite(total: float) -> None:
    """Raises: ArithmeticError where any of the places in the total is not finite."""
    if not isfinite(total):
        raise ArithmeticError("a drawing came to a place that is not finite")


_PLACE = "%.1f,%.1f "


def _path(points: Iterable[Point]) -> str:
    places = tuple(chain.from_iterable(points))
    found = _PLACE * (len(places) // 2) % places
    if "n" in found:  # nan and inf both have one
        raise ArithmeticError("a drawing came to a place that is not finite")
    return found
