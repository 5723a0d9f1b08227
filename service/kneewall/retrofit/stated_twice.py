"""What a part states itself although the shared facts or another part give it too, where the two differ: the part's own figure counts, and that is said."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from kneewall.kernel.phrase import Figure, Phrase
from kneewall.kernel.quantity import Length, Quantity, Temperature, TemperatureDifference
from kneewall.kernel.words import place_in_words
from kneewall.retrofit.partial import Given
from kneewall.retrofit.results import Conflict

NOT_HELD = frozenset(("commissioning_check", "service_access"))
"""Parts that state something else: what was measured, and the largest piece, which need not be the whole unit."""
MAY_DIFFER = frozenset(("code", "surroundings", "loop_flow", "leak_valve", "leak_valve_rests"))
"""A part may be under another code, stand in other air, and reckon with a wider break."""
SHARE, HEIGHT, DEGREE = 0.05, Length.of(0.125, "in"), TemperatureDifference.of(1, "degF")
COIL_IN_UNIT = Length.of(2, "ft")
"""A coil stands somewhere between the unit's underside and its top."""


class Twice(NamedTuple):
    """A figure that is stated in a part and known from elsewhere."""

    part: str
    pointer: str
    stated: Figure
    known: Figure


def stated_twice(part: str, given: Given, taken: Given, pointer: str = "") -> Iterator[Twice]:
    """Every figure or name that a part gives otherwise than it would be filled in. Source: retrofit-check.stated-twice."""
    for name, stated in given.items():
        known, place = taken.get(name), f"{pointer}/{name}"
        if part in NOT_HELD or name in MAY_DIFFER or known is None:
            continue
        if isinstance(stated, dict) and isinstance(known, dict):
            yield from stated_twice(part, stated, known, place)
        elif _differ(name, stated, known):
            yield Twice(part, place, stated, known)


def _differ(name: str, stated: Any, known: Any) -> bool:
    if isinstance(stated, str) and isinstance(known, str):
        return stated != known
    if not isinstance(stated, Quantity) or not isinstance(known, Quantity):
        return False
    apart = abs(stated - known)
    if isinstance(stated, Length):
        return apart > (COIL_IN_UNIT if name == "indoor_above_outdoor" else HEIGHT) * (1.0 + 1e-9)
    if isinstance(stated, Temperature):
        return apart > DEGREE
    return apart > SHARE * max(abs(stated), abs(known))


def twice_as_conflict(twice: Twice) -> Conflict:
    """It as a clash to be watched: nobody here knows which of the two is right."""
    part = twice.part.replace("_", "-")
    says = Phrase(
        "In {} {} is stated as {}; by the shared facts or another part it is {}. What the part states counts there.",
        part, place_in_words(twice.pointer), twice.stated, twice.known,
    )  # fmt: skip
    settle = Phrase("Correct one of the two, or leave it out in the part.")
    return Conflict(conflict="stated twice", between=[part, "shared facts"], verdict="watch", says=says, settle=settle)
