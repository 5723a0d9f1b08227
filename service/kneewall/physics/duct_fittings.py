"""Loss coefficients of duct fittings, from open formulas and a few published rows. Each is referred to the velocity in the section that lists it."""

from collections.abc import Callable
from math import cos, radians
from pathlib import Path
from typing import Annotated, Literal

import msgspec

from kneewall.kernel.quantity import Length
from kneewall.kernel.question import Question, asked
from kneewall.kernel.refusal import Fault, fault
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source
from kneewall.kernel.table import Table, load_table
from kneewall.kernel.words import in_words

_TABLES = Path(__file__).parent / "tables"
ELBOW_SMOOTH = load_table(_TABLES / "elbow_smooth.toml")
ELBOW_SEGMENTED = load_table(_TABLES / "elbow_segmented.toml")
ELBOW_MITRED = load_table(_TABLES / "elbow_mitred.toml")
ELBOW_ANGLE = load_table(_TABLES / "elbow_angle.toml")
CONTRACTION = load_table(_TABLES / "contraction_abrupt.toml")

EXPANSION = Rule(
    id="duct-fittings.expansion-abrupt",
    says="An abrupt expansion loses (1 - smaller area/larger area)^2 velocity pressures of the smaller section.",
    kind="formula",
    source=Source(
        title="Handbook of Hydraulic Resistance, as the documentation of the Modelica Standard Library quotes it (sudden expansion)",
        edition="1994",
        clause="diagram 4-1",
    ),
    standing="published",
)
TAKEOFF = Rule(
    id="duct-fittings.takeoff",
    says="Air that leaves a duct moving at Vc into a branch at Vb loses rho/2 (Vc^2 + Vb^2 - 2 Vc Vb cos a), a the angle of the branch; "
    "taken for joining return air too, where it is an upper estimate.",
    kind="formula",
    source=Source(title="Handbook of Hydraulic Resistance, diverging wyes"),
    standing="from-memory",
)
ENTRANCE = Rule(
    id="duct-fittings.entrance",
    says="Air entering a duct from a box or plenum where it hardly moves loses 0.5 velocity pressures at a sharp edge, 0.05 at a bellmouth.",
    kind="formula",
    source=Source(title="Entrance loss, as in any text of fluid mechanics"),
    standing="from-memory",
)
DAMPER_OPEN = Rule(
    id="duct-fittings.damper-open",
    says="A butterfly damper that stands open loses 0.2 velocity pressures.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
EQUIVALENT_LENGTH = Rule(
    id="duct-fittings.equivalent-length",
    says="A fitting's equivalent length is its loss over the duct's friction rate; it grows with velocity and is worked out here, not looked up. "
    "A length given in the question is taken as straight taut duct of the section's size.",
    kind="formula",
    source=Source(title="Definition: EL = C Pv / friction rate"),
    standing="computed",
)

FittingName = Literal[
    "elbow-smooth",
    "elbow-segmented",
    "elbow-mitred",
    "elbow-flexible",
    "takeoff",
    "entrance-sharp",
    "entrance-bellmouth",
    "expansion-abrupt",
    "contraction-abrupt",
    "damper-open",
]


class DuctFitting(Question, frozen=True, kw_only=True):
    """A fitting by name, or by its loss_coefficient, or by its equivalent_length: exactly one of the three."""

    fitting: Annotated[FittingName, msgspec.Meta(description="What it is; list an expansion or contraction in its smaller section")] | None = None
    count: Annotated[float, asked("How many of them", least=1, most=50)] = 1.0
    radius_ratio: Annotated[float, asked("Elbows: center-line radius over diameter; 1 where it is left out", least=0.5, most=2.5)] | None = None
    angle: Annotated[float, asked("Elbows and take-offs: degrees; 90 where it is left out", least=20, most=180)] | None = None
    area_ratio: Annotated[float, asked("Expansions and contractions: larger over smaller area", least=1.0, most=10.0)] | None = None
    loss_coefficient: Annotated[float, asked("Velocity pressures lost, from the fitting's maker or a handbook", least=0.0, most=50.0)] | None = None
    equivalent_length: Annotated[Length, asked("Length of straight duct that loses as much", least="0 ft", most="500 ft")] | None = None


_BELONGING: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("elbow-smooth", "elbow-segmented", "elbow-flexible"), ("radius_ratio", "angle")),
    **dict.fromkeys(("elbow-mitred", "takeoff"), ("angle",)),
    **dict.fromkeys(("expansion-abrupt", "contraction-abrupt"), ("area_ratio",)),
}
"""Which fields say something of which fitting."""


class FittingLoss(msgspec.Struct, frozen=True):
    """What a fitting loses: velocity pressures of its own section, straight length, or a take-off at an angle given by its cosine."""

    rules: tuple[Rule, ...]
    coefficient: float = 0.0
    length: float = 0.0
    takeoff_cosine: float | None = None


def fitting_faults(fitting: DuctFitting, pointer: str) -> list[Fault]:
    """What in a fitting contradicts itself or lies outside the tables."""
    found = [fault(f"{pointer}/{name}", "does not belong to {}", _named(fitting)) for name in _strangers(fitting)]
    ways = (fitting.fitting, fitting.loss_coefficient, fitting.equivalent_length)
    if sum(way is not None for way in ways) != 1:
        return [fault(pointer, "give exactly one of fitting, loss coefficient or equivalent length")]
    name = fitting.fitting or ""
    if name in ("expansion-abrupt", "contraction-abrupt") and fitting.area_ratio is None:
        found.append(fault(f"{pointer}/area_ratio", "is missing: larger over smaller area"))
    low, high = {"elbow-mitred": (20, 90), "takeoff": (20, 90)}.get(name, (30, 180))
    if name.startswith(("elbow", "takeoff")) and fitting.angle is not None and not low <= fitting.angle <= high:
        found.append(fault(f"{pointer}/angle", "{} is known from {} to {} degrees", _named(fitting), low, high))
    highest = {"elbow-segmented": 2.0, "elbow-flexible": 2.0}.get(name, 2.5)
    if "radius_ratio" in _BELONGING.get(name, ()) and fitting.radius_ratio is not None and fitting.radius_ratio > highest:
        found.append(fault(f"{pointer}/radius_ratio", "{} is known up to a radius ratio of {}", _named(fitting), highest))
    return found


def _strangers(fitting: DuctFitting) -> list[str]:
    """The fields given that say nothing of this fitting."""
    own = _BELONGING.get(fitting.fitting or "", ())
    return [name for name in ("radius_ratio", "angle", "area_ratio") if name not in own and getattr(fitting, name) is not None]


def _named(fitting: DuctFitting) -> str:
    """The fitting in a sentence: `a smooth elbow`, `a takeoff`."""
    if fitting.fitting is None:
        return "a loss coefficient" if fitting.loss_coefficient is not None else "an equivalent length"
    name = in_words(fitting.fitting)
    return f"{'an' if name[0] in 'aeio' else 'a'} {name}"


def fitting_loss(fitting: DuctFitting) -> FittingLoss:
    """What all of `count` such fittings lose. Source: the rule it names. Valid: a fitting without `fitting_faults`."""
    count = fitting.count
    if fitting.loss_coefficient is not None:
        return FittingLoss((), coefficient=count * fitting.loss_coefficient)
    if fitting.equivalent_length is not None:
        return FittingLoss((EQUIVALENT_LENGTH,), length=count * fitting.equivalent_length)
    assert fitting.fitting is not None
    if fitting.fitting == "takeoff":
        return FittingLoss((TAKEOFF,), coefficient=count, takeoff_cosine=cos(radians(90.0 if fitting.angle is None else fitting.angle)))
    coefficient, rules = _COEFFICIENTS[fitting.fitting](fitting)
    return FittingLoss(rules, coefficient=count * coefficient)


Coefficient = Callable[[DuctFitting], tuple[float, tuple[Rule, ...]]]


def _curved(table: Table) -> Coefficient:
    """Elbows of a radius: by the table of radius over diameter, times the share of the angle."""
    by_radius, by_angle, rules = table.along("radius_ratio", "loss_coefficient"), ELBOW_ANGLE.along("angle", "factor"), (table.rule, ELBOW_ANGLE.rule)

    def coefficient(fitting: DuctFitting) -> tuple[float, tuple[Rule, ...]]:
        whole = by_radius(1.0 if fitting.radius_ratio is None else fitting.radius_ratio)
        share = 1.0 if fitting.angle is None else by_angle(fitting.angle)
        assert whole is not None and share is not None
        return whole * share, rules

    return coefficient


def _along(table: Table, given: str, figure: Callable[[DuctFitting], float | None], usual: float) -> Coefficient:
    """By one figure of the fitting, the usual one where it is not said."""
    by_figure, rules = table.along(given, "loss_coefficient"), (table.rule,)

    def coefficient(fitting: DuctFitting) -> tuple[float, tuple[Rule, ...]]:
        said = figure(fitting)
        found = by_figure(usual if said is None else said)
        assert found is not None
        return found, rules

    return coefficient


_COEFFICIENTS: dict[str, Coefficient] = {
    "elbow-smooth": _curved(ELBOW_SMOOTH),
    "elbow-segmented": _curved(ELBOW_SEGMENTED),
    "elbow-flexible": _curved(ELBOW_SEGMENTED),
    "elbow-mitred": _along(ELBOW_MITRED, "angle", lambda fitting: fitting.angle, 90.0),
    "entrance-sharp": lambda _: (0.5, (ENTRANCE,)),
    "entrance-bellmouth": lambda _: (0.05, (ENTRANCE,)),
    "damper-open": lambda _: (0.2, (DAMPER_OPEN,)),
    "expansion-abrupt": lambda fitting: ((1.0 - 1.0 / (fitting.area_ratio or 1.0)) ** 2, (EXPANSION,)),
    "contraction-abrupt": _along(CONTRACTION, "area_ratio", lambda fitting: fitting.area_ratio, 1.0),
}
