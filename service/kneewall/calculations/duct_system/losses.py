"""What a section loses at a flow, with the slope that Newton's method needs."""

from dataclasses import dataclass

from kneewall.calculations.duct_system.tree import Node
from kneewall.kernel.quantity import Dimension
from kneewall.kernel.refusal import refuse
from kneewall.physics import ducts
from kneewall.physics.air import STANDARD, Air
from kneewall.physics.constants import QUARTER_PI
from kneewall.physics.ducts import DuctSize
from kneewall.physics.friction import friction_factor_and_slope

BOX_COEFFICIENT = 1.5


@dataclass(slots=True)
class Run:
    """A section with its size: the constants of its loss. SI throughout; `resistance` is Pa per (m3/s)^2."""

    node: Node
    size: DuctSize | None
    diameter: float
    area: float
    roughness: float
    straight: float
    stretch_factor: float
    resistance: float
    takeoffs: tuple[tuple[float, float], ...]
    outlet_resistance: float
    half_density: float
    reynolds_per_flow: float
    friction_per_square: float

    def gradient(self, flow: float) -> tuple[float, float]:
        """Loss per length of taut straight duct, Pa/m, and its slope by flow."""
        reynolds = self.reynolds_per_flow * flow
        factor, slope = friction_factor_and_slope(reynolds, self.roughness / self.diameter)
        square = self.friction_per_square * flow
        return factor * square * flow, square * (2.0 * factor + slope * reynolds)

    def drop(self, flow: float, toward_unit_velocity: float) -> tuple[float, float]:
        """Loss of the section without its outlet, Pa, and its slope by flow, while the air of the section toward the unit moves at a given velocity.

        dp = gradient L + C rho/2 V^2 + take-offs rho/2 (Vc^2 + V^2 - 2 Vc V cos a). Source: friction.darcy-weisbach, duct-fittings.takeoff.
        """
        loss, slope = self.gradient(flow)
        loss, slope = loss * self.straight, slope * self.straight
        loss += self.resistance * flow * flow
        slope += 2.0 * self.resistance * flow
        velocity = flow / self.area
        for count, cosine in self.takeoffs:
            loss += count * self.half_density * (toward_unit_velocity**2 + velocity**2 - 2.0 * toward_unit_velocity * velocity * cosine)
            slope += count * self.half_density * 2.0 * (velocity - toward_unit_velocity * cosine) / self.area
        return loss, slope


def run_of(node: Node, size: DuctSize, air: Air) -> Run:
    """A section of a given size. Raises: Refusal where flexible duct lies outside the tested sizes."""
    diameter = ducts.equivalent_diameter(size)
    if node.stretch is not None and not ducts.TESTED_FLEXIBLE[0] - 1e-9 <= diameter <= ducts.TESTED_FLEXIBLE[1] + 1e-9:
        sentence = "the loss of flexible duct is known from {} to {} only, not at {}; split the air or use rigid duct"
        raise refuse(f"{node.pointer}/size", sentence, *ducts.TESTED_FLEXIBLE, Dimension(diameter))
    return open_run(node, size, diameter, ducts.duct_area(size), air)


def open_run(node: Node, size: DuctSize | None, diameter: float, area: float, air: Air) -> Run:
    """A section of any equivalent diameter and area, m and m2, whether or not a size of that kind is made."""
    half_density = air.density / 2.0
    circle = QUARTER_PI * diameter * diameter
    coefficient = sum(loss.coefficient for loss in node.losses if loss.takeoff_cosine is None) + box_coefficient(node)
    stretch_factor = 1.0 if node.stretch is None else ducts.stretch_factor(diameter, node.stretch)
    outlet = node.section.outlet
    return Run(
        node=node,
        size=size,
        diameter=diameter,
        area=area,
        roughness=ducts.roughness_of(node.duct.material),
        straight=node.section.length * stretch_factor + sum(loss.length for loss in node.losses),
        stretch_factor=stretch_factor,
        resistance=coefficient * half_density / (area * area),
        takeoffs=tuple((loss.coefficient, loss.takeoff_cosine) for loss in node.losses if loss.takeoff_cosine is not None),
        outlet_resistance=0.0 if outlet is None else outlet.pressure_drop * air.density / (STANDARD.density * outlet.airflow * outlet.airflow),
        half_density=half_density,
        reynolds_per_flow=air.density * diameter / (circle * air.viscosity),
        friction_per_square=half_density / (diameter * circle * circle),
    )


def box_coefficient(node: Node) -> float:
    """Velocity pressures lost between a splitter box and this section: 1.5 at a box, unless the section lists its own take-off or entrance.

    Source: duct-system.splitter-box.
    """
    if node.parent is None or node.parent.section.kind != "splitter-box":
        return 0.0
    named = (fitting.fitting or "" for fitting in node.section.fittings)
    return 0.0 if any(name.startswith(("takeoff", "entrance")) for name in named) else BOX_COEFFICIENT
