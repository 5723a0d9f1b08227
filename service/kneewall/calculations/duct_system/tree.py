"""The duct system as two trees that meet at the unit: their order, and what a tree must not be."""

from dataclasses import dataclass, field

from kneewall.calculations.duct_system.messages import DuctSection, DuctSystemQuestion
from kneewall.kernel.refusal import Fault, fault, refuse_any
from kneewall.physics.duct_fittings import FittingLoss, fitting_faults, fitting_loss
from kneewall.physics.duct_sizes import duct_faults, size_faults
from kneewall.physics.ducts import DEFAULT_STRETCH, Duct

UNIT = "unit"
RECTANGULAR_STEEL = Duct(shape="rectangular")
ROUND_STEEL = Duct()


@dataclass(slots=True)
class Node:
    """A section in its tree. `index` is its place in the question; `parent` the section toward the unit, None at the unit."""

    section: DuctSection
    index: int
    duct: Duct
    stretch: float | None
    losses: list[FittingLoss]
    parent: "Node | None" = None
    children: list["Node"] = field(default_factory=list)
    velocity_limit: float | None = None
    design_airflow: float = 0.0
    near: tuple[float, float] | None = None
    """A diameter by friction and the friction rate it was found for: where the next search starts."""

    @property
    def pointer(self) -> str:
        """Where the section stands in the question."""
        return f"/sections/{self.index}"


def build_tree(question: DuctSystemQuestion) -> list[Node]:
    """Every section, each after the one toward the unit, with its design airflow. Raises: Refusal naming everything that is wrong."""
    faults = _section_faults(question)
    refuse_any(faults)
    limits = question.velocity_limit
    nodes = {section.id: _node(section, index) for index, section in enumerate(question.sections)}
    for node in nodes.values():
        if limits is not None:
            node.velocity_limit = limits.supply if node.section.side == "supply" else limits.return_
        if node.section.toward_unit != UNIT:
            node.parent = nodes[node.section.toward_unit]
            node.parent.children.append(node)
    ordered = [node for node in nodes.values() if node.parent is None]
    for node in ordered:  # grows while it is walked: every node after its parent
        ordered.extend(node.children)
    loops = [
        fault(f"{node.pointer}/toward_unit", "never reaches the unit: its sections lead round in a ring")
        for node in nodes.values()
        if node not in ordered
    ]
    refuse_any(loops or [one for node in ordered for one in _node_faults(node, question.task)])
    for node in reversed(ordered):
        node.design_airflow += node.section.outlet.airflow if node.section.outlet is not None else 0.0
        if node.parent is not None:
            node.parent.design_airflow += node.design_airflow
    return ordered


def default_duct(section: DuctSection) -> Duct:
    """What a section is made of: as stated, or as it stands given, or as its kind usually is."""
    if section.duct is not None:
        return section.duct
    if section.size is not None:
        return Duct(shape=section.size.shape)
    return ROUND_STEEL if section.kind == "duct" else RECTANGULAR_STEEL


def _node(section: DuctSection, index: int) -> Node:
    duct = default_duct(section)
    stretch = (DEFAULT_STRETCH if duct.stretch is None else duct.stretch) if duct.material == "flexible" else None
    return Node(section, index, duct, stretch, [fitting_loss(fitting) for fitting in section.fittings])


def _section_faults(question: DuctSystemQuestion) -> list[Fault]:
    known: dict[str, DuctSection] = {}
    found: list[Fault] = []
    for index, section in enumerate(question.sections):
        if section.id == UNIT or section.id in known:
            found.append(fault(f"/sections/{index}/id", "{} is already taken; every section needs a name of its own", section.id))
        known[section.id] = section
        for place, fitting in enumerate(section.fittings):
            found += fitting_faults(fitting, f"/sections/{index}/fittings/{place}")
    for index, section in enumerate(question.sections):
        toward = known.get(section.toward_unit)
        if toward is None and section.toward_unit != UNIT:
            found.append(fault(f"/sections/{index}/toward_unit", "there is no section {}", repr(section.toward_unit)))
        elif toward is not None and toward.side != section.side:
            found.append(
                fault(f"/sections/{index}/toward_unit", "{} is on the {} side, this section on the {} side", toward.id, toward.side, section.side)
            )
    return found


def _node_faults(node: Node, task: str) -> list[Fault]:
    section = node.section
    found = duct_faults(node.duct, f"{node.pointer}/duct")
    if section.size is not None:
        found += size_faults(section.size, node.duct, f"{node.pointer}/size")
    elif task == "analyse":
        found.append(fault(f"{node.pointer}/size", "is missing: to analyze a system every section needs its size"))
    if node.children and section.outlet is not None:
        found.append(fault(f"{node.pointer}/outlet", "other sections go on from here; give this outlet a short section of its own"))
    if not node.children and section.outlet is None:
        found.append(fault(f"{node.pointer}/outlet", "is missing: no section goes on from here, so air must leave or enter through an outlet"))
    return found
