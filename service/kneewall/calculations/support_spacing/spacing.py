"""How far apart the supports of a run may stand: the code's word, practice where the code is silent, and sag."""

from typing import NamedTuple

from kneewall.calculations.support_spacing import rules
from kneewall.calculations.support_spacing.carried import Carried
from kneewall.calculations.support_spacing.code_tables import metal_duct, pipe_row
from kneewall.calculations.support_spacing.messages import Code, SupportedRun
from kneewall.kernel.quantity import Dimension, Length
from kneewall.kernel.rule import Rule
from kneewall.physics.pipe_span import PLASTICS, span_that_drains

FLEXIBLE_SPACING = Length.of(4, "ft")
FLEXIBLE_STRAP = Dimension.of(1.5, "in")
FLEXIBLE_SAG = 0.5 / 12.0
METAL_SPACING = Length.of(10, "ft")
METAL_STRAP = Dimension.of(0.5, "in")
VERTICAL_FLEXIBLE, VERTICAL_METAL, VERTICAL_RUN = Length.of(6, "ft"), Length.of(12, "ft"), Length.of(10, "ft")
SMALL_TUBE, SMALL_TUBE_SPACING, TUBE_SPACING = Dimension.of(0.75, "in"), Length.of(5, "ft"), Length.of(6, "ft")
KNOWN_TUBE = Dimension.of(1, "in")
POLYETHYLENE_MOST, POLYETHYLENE_SAG = Length.of(4, "ft"), Dimension.of(0.5, "in")
CAREFUL_PLASTIC, CAREFUL_METAL = Length.of(32, "in"), Length.of(5, "ft")
STORY = Length.of(10, "ft")
SLACK = 1e-5


class Spacing(NamedTuple):
    """What each rule allows, the code's own first where it has one; `code` is None where it is silent."""

    allowed: list[tuple[Rule, Length]]
    code: Length | None
    guides: bool
    drains_to: Length | None

    @property
    def governing(self) -> tuple[Rule, Length]:
        """The least; the first of equals."""
        return min(self.allowed, key=lambda one: one[1])


def spacing_of(run: SupportedRun, load: Carried, code: Code) -> Spacing:
    """The distances that code, practice and sag allow for this run."""
    if run.kind == "duct":
        return _duct(run, code)
    if run.kind == "refrigerant-tube":
        return _tube(run, load)
    return _vertical_pipe(run, load, code) if run.orientation == "vertical" else _horizontal_pipe(run, load, code)


def _duct(run: SupportedRun, code: Code) -> Spacing:
    flexible, board = run.material == "flexible", run.material == "fibrous-glass-board"
    stated = None if flexible or board or run.orientation == "vertical" else metal_duct(code)
    allowed = [] if stated is None else [stated]
    if run.orientation == "vertical":
        story = STORY if run.story_height is None else run.story_height
        allowed.append((rules.VERTICAL_DUCT, VERTICAL_FLEXIBLE if flexible else Length(min(story, VERTICAL_METAL))))
    elif flexible:
        allowed.append((rules.FLEXIBLE_DUCT, FLEXIBLE_SPACING))
    else:
        allowed.append((rules.DUCT_BOARD, FLEXIBLE_SPACING) if board else (rules.METAL_DUCT, METAL_SPACING))
    return Spacing(allowed, None if stated is None else stated[1], False, None)


def _tube(run: SupportedRun, load: Carried) -> Spacing:
    if run.orientation == "vertical":
        return Spacing([_riser(run)], None, False, None)
    base = (rules.REFRIGERANT_TUBE, SMALL_TUBE_SPACING if load.size <= SMALL_TUBE + SLACK else TUBE_SPACING)
    drains = drains_to(run, load)
    return Spacing([base] if drains is None else [base, (rules.STILL_FALLS, drains)], None, False, drains)


def _riser(run: SupportedRun) -> tuple[Rule, Length]:
    story = STORY if run.story_height is None else run.story_height
    return rules.VERTICAL_RUN, Length(min(story, VERTICAL_RUN))


def _vertical_pipe(run: SupportedRun, load: Carried, code: Code) -> Spacing:
    found = pipe_row(code, load.substance, load.size)
    if found is None or (found[1].vertical is None and found[1].floors is None):
        return Spacing([_riser(run)], None, False, None)
    rule, row = found
    story = STORY if run.story_height is None else run.story_height
    by_floor = row.floors * story if row.floors is not None else float("inf")
    limit = Length(by_floor if row.vertical is None else min(by_floor, row.vertical))
    return Spacing([(rule, limit)], limit, row.guides, None)


def _horizontal_pipe(run: SupportedRun, load: Carried, code: Code) -> Spacing:
    found = pipe_row(code, load.substance, load.size)
    if found is not None:
        allowed: list[tuple[Rule, Length]] = [(found[0], found[1].horizontal)]
    elif load.substance == "pe" and load.modulus is not None:
        allowed = [(rules.POLYETHYLENE_SAG, span_for_sag(load, load.modulus))]
    else:
        allowed = [(rules.MAKERS_INTERVAL, CAREFUL_PLASTIC if load.substance in PLASTICS else CAREFUL_METAL)]
    drains = drains_to(run, load)
    if drains is not None:
        allowed.append((rules.STILL_FALLS, drains))
    return Spacing(allowed, None if found is None else found[1].horizontal, False, drains)


def span_for_sag(load: Carried, modulus: float) -> Length:
    """The span at which polyethylene sags 1/2 in, at most 4 ft: L = (384 E I d/(5 w))^(1/4). Source: support-spacing.polyethylene-sag."""
    assert load.second_moment is not None
    return Length(min(POLYETHYLENE_MOST, (384.0 * modulus * load.second_moment * POLYETHYLENE_SAG / (5.0 * load.weight)) ** 0.25))


def drains_to(run: SupportedRun, load: Carried) -> Length | None:
    """Where a drain would begin to hold water in mid-span; None for what is no drain or whose stiffness is unknown. Source: support-spacing.still-falls."""
    if run.slope is None or load.modulus is None or load.second_moment is None or load.weight <= 0.0:
        return None
    return Length(span_that_drains(load.weight, run.slope, load.modulus, load.second_moment))
