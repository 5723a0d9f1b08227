"""Choosing the nominal size that carries the air: the next size up, in the shape that was asked for."""

from bisect import bisect_left
from collections.abc import Iterator
from math import ceil, floor, pi, sqrt

from kneewall.kernel.quantity import Dimension
from kneewall.kernel.refusal import Fault, fault, refuse
from kneewall.kernel.rule import COMMON_PRACTICE, Rule
from kneewall.physics.ducts import (
    NOMINAL_ROUND,
    ROUND_FLEXIBLE,
    ROUND_METAL,
    Duct,
    DuctSize,
    duct_perimeter,
    oval_area,
    oval_equivalent,
    rectangular_equivalent,
)

INCH = 0.0254
MOST_ASPECT = 4.0
LARGEST_SIDE = 120
EQUAL = 1e-9
_METAL, _FLEXIBLE = ((made, [DuctSize(shape="round", diameter=diameter) for diameter in made]) for made in (ROUND_METAL, ROUND_FLEXIBLE))

WHOLE_INCHES = Rule(
    id="ducts.nominal-sides",
    says="Sides of rectangular duct and axes of flat oval duct are taken in whole inches where one side is fixed, else in even inches; sizes are rounded up.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ASPECT_RATIO = Rule(
    id="ducts.aspect-ratio",
    says="The long side should be at most four times the short one: flatter ducts take more sheet, more friction and more noise.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)


def sizes_for(duct: Duct, diameter: float, area: float = 0.0) -> list[DuctSize]:
    """Nominal sizes that carry what a round duct of `diameter` carries and have at least `area`, the recommended one first.

    Round: the next size up. Rectangular and oval with a fixed side: the next whole inch of the other. Without: one size for every even height up to
    the first that carries it at its narrowest, aspect ratio at most 4, least sheet first. Source: ducts.nominal-round, ducts.nominal-sides. Raises: Refusal where no made size is large enough.
    """
    if duct.shape == "round":
        return [next_round(duct, max(diameter, sqrt(4.0 * area / pi)) if area else diameter)]
    if duct.fixed_side:
        beside = _beside(duct, duct.fixed_side / INCH, (diameter, area), 1)
        found = [] if beside is None else [beside]
    else:
        found = sorted((size for size in _by_height(duct, (diameter, area)) if aspect_ratio(size) <= MOST_ASPECT + EQUAL), key=duct_perimeter)
    if not found:
        raise refuse(
            "/duct",
            "no {} duct up to {} a side carries this; it would take a round duct of {}",
            duct.shape,
            Dimension(LARGEST_SIDE * INCH),
            Dimension(diameter),
        )
    return found


def _by_height(duct: Duct, wanted: tuple[float, float]) -> Iterator[DuctSize]:
    """One size for every even height; a higher one than the first that suffices at its narrowest would only be larger all round."""
    for height in range(4, LARGEST_SIDE, 2):
        size = _beside(duct, float(height), wanted, 2)
        if size is not None:
            yield size
            long = size.width or size.major
            if long is not None and long <= (height + (0.0 if duct.shape == "rectangular" else 2.0)) * INCH * (1.0 + EQUAL):
                return


def governed_by_velocity(size: DuctSize, diameter: float, area: float) -> bool:
    """Whether, beside the short side of `size`, `area` needs a longer side than a round diameter of equal loss does.

    The long side at which the area is just met is worked out, and the loss there compared. An oval's is never shorter than its minor axis.
    """
    if size.width is not None and size.height is not None:
        return rectangular_equivalent(area / size.height, size.height) > diameter * (1.0 + EQUAL)
    if size.minor is not None:
        long = max(size.minor, area / size.minor + (1.0 - pi / 4.0) * size.minor)
        return oval_equivalent(long, size.minor) > diameter * (1.0 + EQUAL)
    return sqrt(4.0 / pi * area) > diameter * (1.0 + EQUAL)


def size_rules(duct: Duct) -> Rule:
    """The rule by which nominal sizes of this shape are stepped."""
    return NOMINAL_ROUND if duct.shape == "round" else WHOLE_INCHES


def next_round(duct: Duct, diameter: float) -> DuctSize:
    """The next nominal round size up. Raises: Refusal beyond the largest made."""
    made, sizes = _FLEXIBLE if duct.material == "flexible" else _METAL
    at = bisect_left(made, diameter * (1.0 - EQUAL))
    if at == len(made):
        raise refuse(
            "/duct",
            "the largest {} round duct made is {} and this takes {}; split the air over several ducts",
            duct.material,
            made[-1],
            Dimension(diameter),
        )
    return sizes[at]


def _beside(duct: Duct, height: float, wanted: tuple[float, float], step: int) -> DuctSize | None:
    rectangular = duct.shape == "rectangular"
    diameter, area = wanted

    def fits(steps: int) -> bool:
        long, short = steps * step * INCH, height * INCH
        equivalent = rectangular_equivalent(long, short) if rectangular else oval_equivalent(long, short)
        open_area = long * short if rectangular else oval_area(long, short)
        return equivalent >= diameter * (1.0 - EQUAL) and open_area >= area * (1.0 - EQUAL)

    square = 1 if duct.fixed_side else ceil(height / step - EQUAL)
    low = square if rectangular else floor(height / step + EQUAL) + 1  # an oval as long as it is high would be a circle
    high = LARGEST_SIDE // step
    if not fits(high):
        return None
    while low < high:
        middle = (low + high) // 2
        if fits(middle):
            high = middle
        else:
            low = middle + 1
    return _size(duct, Dimension(low * step * INCH), Dimension(height * INCH))


def _size(duct: Duct, long: Dimension, short: Dimension) -> DuctSize:
    if duct.shape == "rectangular":
        return DuctSize(shape="rectangular", width=long, height=short)
    return DuctSize(shape="flat-oval", major=long, minor=short)


def aspect_ratio(size: DuctSize) -> float:
    """Long side over short side; 1 for round."""
    sides = (size.width or size.major, size.height or size.minor)
    if sides[0] is None or sides[1] is None:
        return 1.0
    return max(sides) / min(sides)  # type: ignore[type-var,operator]


def duct_faults(duct: Duct, pointer: str) -> list[Fault]:
    """What in a duct's description contradicts itself."""
    found = []
    if duct.material == "flexible" and duct.shape != "round":
        found.append(fault(f"{pointer}/shape", "flexible duct is round"))
    if duct.material != "flexible" and duct.stretch is not None:
        found.append(fault(f"{pointer}/stretch", "only flexible duct is stretched; leave this out for {}", duct.material))
    if duct.material == "fibrous-glass-board" and duct.shape != "rectangular":
        found.append(fault(f"{pointer}/shape", "duct board is folded to a rectangle"))
    if duct.material == "spiral-steel" and duct.shape == "rectangular":
        found.append(fault(f"{pointer}/shape", "spiral duct is round or flat oval"))
    if duct.shape == "round" and duct.fixed_side is not None:
        found.append(fault(f"{pointer}/fixed_side", "a round duct has no side to fix"))
    return found


def size_faults(size: DuctSize, duct: Duct, pointer: str) -> list[Fault]:
    """What in a given size contradicts its own shape or the duct's."""
    wanted = {"round": {"diameter"}, "rectangular": {"width", "height"}, "flat-oval": {"major", "minor"}}[size.shape]
    every = ("diameter", "width", "height", "major", "minor")
    found = [fault(f"{pointer}/{name}", "is missing for a {} duct", size.shape) for name in every if name in wanted and getattr(size, name) is None]
    found += [
        fault(f"{pointer}/{name}", "does not belong to a {} duct", size.shape)
        for name in every
        if name not in wanted and getattr(size, name) is not None
    ]
    if size.shape != duct.shape:
        found.append(fault(f"{pointer}/shape", "is {} but the duct is {}", size.shape, duct.shape))
    if size.major is not None and size.minor is not None and size.major <= size.minor * (1.0 + EQUAL):
        found.append(fault(f"{pointer}/major", "the major axis must be longer than the minor axis; a duct with equal axes is round"))
    return found
