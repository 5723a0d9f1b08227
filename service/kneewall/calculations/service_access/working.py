"""The working of a service-access answer, line by line."""

from kneewall.calculations.service_access import rules
from kneewall.calculations.service_access.fit import Box, Way, clearance, ways
from kneewall.calculations.service_access.floor import panel_spacing
from kneewall.calculations.service_access.messages import ServiceAccessQuestion, ServiceAccessResult
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension


def working(question: ServiceAccessQuestion, answer: Answer[ServiceAccessResult]) -> list[WorkingLine]:
    """The lines by which an inspector can follow the answer by hand."""
    piece, opening, passage = question.largest_component, question.opening, question.passage
    box = Box(piece.length, piece.width, piece.height)
    short, long = sorted((opening.length, opening.width))
    lines = [_face(way, long, short, "opening") for way in ways(box)]
    if passage is not None:
        low, high = sorted((passage.width, passage.height))
        lines += [_face(way, high, low, "passage") for way in ways(box)]
        limit = answer.result.passage_length_limit
        lines.append(
            WorkingLine(
                step="passage length allowed", formula="20 ft, or the edition's exception where it is 6 ft high and 22 in wide",
                substituted=Phrase("{}: {} high, {} wide", question.code, passage.height, passage.width),
                value="none needed" if limit is None else limit, rule=rules.ACCESS[question.code].rule.id,
            )
        )  # fmt: skip
    if question.floor_panel is not None:
        allowed = panel_spacing(question.floor_panel)
        marked = question.floor_panel.rated_floor_spacing is not None
        lines.append(
            WorkingLine(
                step="floor panel", formula="greatest spacing of supports by mark or thickness", value="none" if allowed is None else allowed,
                substituted=Phrase("{} thick", question.floor_panel.thickness), rule=(rules.PANEL_MARK if marked else rules.PANEL_TABLE.rule).id,
            )
        )  # fmt: skip
    return lines


def _face(way: Way, long: float, short: float, through: str) -> WorkingLine:
    return WorkingLine(
        step=f"face through the {through}", formula="the smaller of (long side - long side) and (short side - short side)",
        substituted=Phrase("{} x {} through {} x {}, {} leading", *map(Dimension, (way.long, way.short, long, short, way.leading))),
        value=Dimension(clearance(way, long, short)), rule=rules.REMOVAL.id,
    )  # fmt: skip
