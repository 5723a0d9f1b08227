"""Section properties of cold-formed slotted channel, from its outline with rounded corners, inturned flanges and lips."""

from collections.abc import Iterator
from math import pi
from typing import NamedTuple

from kneewall.calculations.equipment_hanging.rules import CHANNEL_TABLE
from kneewall.kernel.quantity import Density, Dimension
from kneewall.physics.beams import Section

STEEL_DENSITY = Density.of(490, "lb/ft3")


class Outline(NamedTuple):
    """A slotted channel, in m: the back below, the slot above."""

    width: float
    depth: float
    thickness: float
    inside_radius: float
    turned_in: float
    """width of each inturned flange"""
    lip: float
    """depth of the lip, from the top down"""


class Part(NamedTuple):
    """A piece of the outline: its area and how far its centroid stands up from the back."""

    area: float
    up: float
    own: float
    """second moment about its own horizontal axis"""


def channel_section(outline: Outline) -> Section:
    """Area, second moment and modulus about the axis parallel to the back. Source: equipment-hanging.channel-geometry."""
    parts = list(_parts(outline))
    area = sum(part.area for part in parts)
    centroid = sum(part.area * part.up for part in parts) / area
    second_moment = sum(part.own + part.area * (part.up - centroid) ** 2 for part in parts)
    return Section(area, second_moment, second_moment / max(centroid, outline.depth - centroid))


def _parts(outline: Outline) -> Iterator[Part]:
    """The straight pieces and the rounded corners: back, then for each side flange, inturned flange and lip with the corners between them."""
    t, radius, top = outline.thickness, outline.inside_radius, outline.depth
    outer = radius + t
    reach = _corner_reach(radius, outer)
    yield _rectangle(outline.width - 2.0 * outer, t, t / 2.0)
    for _ in ("left", "right"):
        yield _rectangle(t, top - 2.0 * outer, top / 2.0)
        yield _rectangle(outline.turned_in - 2.0 * outer, t, top - t / 2.0)
        yield _rectangle(t, outline.lip - outer, top - (outline.lip + outer) / 2.0)
        yield _corner(radius, outer, outer - reach)
        yield _corner(radius, outer, top - outer + reach)
        yield _corner(radius, outer, top - outer + reach)


def _rectangle(width: float, height: float, up: float) -> Part:
    return Part(width * height, up, width * height**3 / 12.0)


def _corner_reach(inner: float, outer: float) -> float:
    """How far the centroid of a quarter ring stands from its center along either axis: 4 (R^3 - r^3)/(3 pi (R^2 - r^2))."""
    return 4.0 * (outer**3 - inner**3) / (3.0 * pi * (outer**2 - inner**2))


def _corner(inner: float, outer: float, up: float) -> Part:
    area = pi / 4.0 * (outer**2 - inner**2)
    return Part(area, up, pi / 16.0 * (outer**4 - inner**4) - area * _corner_reach(inner, outer) ** 2)


def _outline(row: dict[str, float | str | bool]) -> Outline:
    return Outline(*(float(Dimension.of(float(row[name]), "in")) for name in ("width", "depth", "thickness", "inside_radius", "return", "lip")))


OUTLINES: dict[str, Outline] = {str(row["section"]): _outline(row) for row in CHANNEL_TABLE.rows}
SECTIONS: dict[str, Section] = {name: channel_section(outline) for name, outline in OUTLINES.items()}
