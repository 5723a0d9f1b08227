"""The checks made on how the system is laid out: branches, splitter boxes, slack, joints, little air, components far from their rating."""

from kneewall.calculations.duct_system import rules
from kneewall.calculations.duct_system.check_heat import named
from kneewall.calculations.duct_system.choose import BOX_LENGTHS, BOX_WIDTHS, largest_collar, sides
from kneewall.calculations.duct_system.messages import DuctSystemQuestion, DuctSystemResult
from kneewall.calculations.duct_system.tree import Node
from kneewall.kernel.answer import Findings, Verdict
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Dimension
from kneewall.physics import ducts
from kneewall.physics.components import check_component_range
from kneewall.physics.ducts import DuctSize

LEAKAGE_MOST = 0.05
FIRST_OUTLET = 2.0


def check_layout(findings: Findings, question: DuctSystemQuestion, result: DuctSystemResult, nodes: list[Node]) -> None:
    """Every check of the layout."""
    sizes = {section.id: section.size for section in result.sections}
    _check_boxes(findings, nodes, sizes)
    _check_branches(findings, nodes)
    check_component_range(findings, question.components, result.operating_point.airflow)
    _check_regime(findings, result)
    _check_flexible(findings, question)
    _check_leakage(findings, result)


def _check_boxes(findings: Findings, nodes: list[Node], sizes: dict[str, DuctSize]) -> None:
    boxes = [node for node in nodes if node.section.kind == "splitter-box"]
    sound = True
    for box in boxes:
        broken = _broken_proportions(box, sizes)
        if broken:
            sound = False
            says = Phrase(
                "In {} " + "; ".join(sentence for sentence, *_ in broken) + ".", box.section.id, *(one for _, *figures in broken for one in figures)
            )
            findings.check(f"proportions of {box.section.id}", "watch", rules.SPLITTER_BOX, says)
    if boxes and sound:
        says = Phrase("Every splitter box has the proportions for which its loss is known.")
        findings.check("proportions of boxes", "meets", rules.SPLITTER_BOX, says)


def _broken_proportions(box: Node, sizes: dict[str, DuctSize]) -> list[tuple[str, Dimension, Dimension]]:
    """What breaks the rule, in words with their figures. Source: duct-system.splitter-box."""
    (width, height), length = sides(sizes[box.section.id]), box.section.length
    collar = largest_collar(box, sizes)
    found: list[tuple[str, Dimension, Dimension]] = []
    if length > BOX_LENGTHS * width * (1 + 1e-9):
        found.append(("its length of {} is more than twice its width of {}", Dimension(length), Dimension(width)))
    if collar > height * (1 + 1e-9):
        found.append(("a side {} high does not take a collar of {}", Dimension(height), Dimension(collar)))
    if box.parent is not None:
        entrance = sizes[box.parent.section.id]
        wide, across = sides(entrance)[0], ducts.equivalent_diameter(entrance)
        if not BOX_WIDTHS[0] * wide * (1 - 1e-9) <= width <= BOX_WIDTHS[1] * wide * (1 + 1e-9):
            found.append(("a width of {} is not two to three times that of its entrance, {}", Dimension(width), Dimension(wide)))
        if length < (FIRST_OUTLET * across + collar) * (1 - 1e-9):
            found.append(
                (
                    "a length of {} leaves no room for the first outlet two entrance diameters in, {}",
                    Dimension(length),
                    Dimension(FIRST_OUTLET * across + collar),
                )
            )
    return found


def _check_branches(findings: Findings, nodes: list[Node]) -> None:
    """A duct that leaves a plenum, or one of several that leave a duct, loses something where it begins; of several one may go straight on."""
    free = [node.section.id for node in nodes if node.parent is not None and node.parent.section.kind == "plenum" and not _begins_with_a_loss(node)]
    for node in nodes:
        if node.section.kind == "duct" and len(node.children) > 1:
            without = [child.section.id for child in node.children if not _begins_with_a_loss(child)]
            free += without[1:]
    if free:
        sentence = (
            "{} begin without a take-off or an entrance and so lose nothing there: give each the fitting by which it leaves, or its loss coefficient."
        )
        findings.check("branches", "watch", rules.BRANCHES, Phrase(sentence, named(free)))


def _begins_with_a_loss(node: Node) -> bool:
    fittings = node.section.fittings
    return any(one.fitting is None or one.fitting.startswith(("takeoff", "entrance", "contraction", "expansion")) for one in fittings)


def _check_regime(findings: Findings, result: DuctSystemResult) -> None:
    unsure = [section.id for section in result.sections if section.regime == "transitional"]
    if unsure:
        says = Phrase("So little air moves in {} that the flow may be laminar or turbulent; its friction is uncertain.", ", ".join(unsure[:6]))
        findings.check("flow regime", "watch", rules.FLOW_REGIME, says)


def _check_flexible(findings: Findings, question: DuctSystemQuestion) -> None:
    if any(section.duct is not None and section.duct.material == "flexible" for section in question.sections):
        says = Phrase(
            "Laboratories disagree by a factor of two on flexible duct that is not pulled straight; every pressure and flow here shares that doubt."
        )
        findings.check("flexible duct", "watch", ducts.FLEXIBLE_STRETCH, says)


def _check_leakage(findings: Findings, result: DuctSystemResult) -> None:
    share = result.leakage.share
    sentence = "About {} percent of the air is lost or drawn in through joints; the flows here do not count it."
    if share > LEAKAGE_MOST * (1 + 1e-9):
        sentence += " Seal the joints with mastic."
    verdict: Verdict = "watch" if share > LEAKAGE_MOST * (1 + 1e-9) else "meets"
    findings.check("leakage", verdict, rules.LEAKAGE_SHARE, Phrase(sentence, f"{100 * share:.2g}"), actual=share, limit=LEAKAGE_MOST)
    findings.apply(rules.LEAKAGE)
