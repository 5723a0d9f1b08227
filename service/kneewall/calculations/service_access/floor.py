"""The floor of the passage and the panel it is made of."""

from kneewall.calculations.service_access import rules
from kneewall.calculations.service_access.judged import Judged
from kneewall.calculations.service_access.messages import AccessFloorPanel, AccessPassage
from kneewall.calculations.service_access.rules import Access
from kneewall.kernel.answer import EQUAL_WITHIN
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension

LEAST_PIECE = Dimension.of(24, "in")


def check_floor(judged: Judged, passage: AccessPassage, access: Access) -> None:
    """Check that the floor is solid and wide enough."""
    holds = judged.least("floor width", passage.floor_width, access.floor_width) and passage.solid_floor
    judged.require("solid floor", True, passage.solid_floor, "meets" if passage.solid_floor else "fails")
    if not passage.solid_floor:
        judged.check("floor", "fails", access.rule, Phrase("The floor is not solid all the way: whoever steps beside it falls through the ceiling."))
        return
    says = "The solid floor is {} wide, at least {}." if holds else "The solid floor is {} wide; it takes {}: add panel."
    judged.check(
        "floor", "meets" if holds else "fails", access.rule, Phrase(says, passage.floor_width, access.floor_width),
        actual=passage.floor_width, limit=access.floor_width,
    )  # fmt: skip


def panel_spacing(panel: AccessFloorPanel) -> Dimension | None:
    """How far apart the supports may stand: by the panel's mark, else by its thickness; None where it is thinner than any floor panel.

    Source: service-access.panel-mark, service-access.floor-panels; between two thicknesses that of the thinner.
    """
    if panel.rated_floor_spacing is not None:
        return panel.rated_floor_spacing
    reached = panel.thickness * (1.0 + EQUAL_WITHIN)
    return next((spacing for thickness, spacing in reversed(rules.PANELS) if thickness <= reached), None)


def check_panel(judged: Judged, panel: AccessFloorPanel | None) -> None:
    """Check the panel over its supports, where one is given."""
    if panel is None:
        return
    allowed = panel_spacing(panel)
    rule = rules.PANEL_TABLE.rule if panel.rated_floor_spacing is None else rules.PANEL_MARK
    if allowed is None:
        says = Phrase("A panel {} thick is no floor by its thickness: give the floor spacing of its mark, or take thicker panel.", panel.thickness)
        judged.check("floor panel", "fails", rule, says, actual=panel.thickness, limit=rules.PANELS[0][0])
        judged.require("floor panel thickness", rules.PANELS[0][0], panel.thickness, "fails")
    else:
        judged.most("floor panel support spacing", panel.support_spacing, allowed)
        judged.at_most(
            "floor panel", panel.support_spacing, allowed, rule,
            meets="The panel's supports are {} apart, up to {} is allowed.",
            breaks="The panel's supports are {} apart, more than {}: take thicker panel or add blocking.",
        )  # fmt: skip
    _check_edges(judged, panel)


def _check_edges(judged: Judged, panel: AccessFloorPanel) -> None:
    if panel.edges == "unsupported":
        says = Phrase(
            "The long edges are held by nothing between supports and will spring under a foot: block them, or take tongue-and-groove panel."
        )
        judged.check("floor panel edges", "fails", rules.PANEL_TABLE.rule, says, actual=panel.edges)
    elif panel.edges is None and panel.rated_floor_spacing is None:
        says = Phrase("The table holds for tongue-and-groove or blocked edges: see that they are.")
        judged.check("floor panel edges", "watch", rules.PANEL_TABLE.rule, says)
    if panel.width is not None and panel.width < LEAST_PIECE * (1.0 - EQUAL_WITHIN):
        says = Phrase(
            "Pieces {} wide are narrower than {}, and no table holds for them: support them closer or take wider ones.", panel.width, LEAST_PIECE
        )
        judged.check("floor panel pieces", "watch", rules.NARROW_PANEL, says, actual=panel.width, limit=LEAST_PIECE)
