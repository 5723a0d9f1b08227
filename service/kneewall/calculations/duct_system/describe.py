"""From sizes and flows to the answer's sections, paths, leakage and materials."""

from dataclasses import dataclass

from kneewall.calculations.duct_system import messages as m
from kneewall.calculations.duct_system.heat import SectionHeat
from kneewall.calculations.duct_system.losses import Run
from kneewall.calculations.duct_system.rules import LEAKAGE_TABLE
from kneewall.kernel.quantity import Airflow, AirPressure, FrictionRate, Length, Number, Velocity
from kneewall.physics.ducts import DuctSize, duct_perimeter
from kneewall.physics.friction import regime

IN_WG = AirPressure.of(1.0, "inH2O")
CFM_PER_100_FT2 = Airflow.of(1.0, "cfm") / (100.0 * 0.3048**2)
NOTHING = SectionHeat()
NOTHING_LEFT, SETTLED = 1e-9, 1e-6
"""Shares of a loss below which a difference is only what subtraction, or the search for the flows, leaves behind."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A section as it works: what it loses, what its fittings lose, and the loss from the unit to its far end. Pa throughout."""

    run: Run
    flow: float
    velocity: float
    friction_rate: float
    fitting_loss: float
    drop: float
    reached: float


def stretches(runs: list[Run], flows: list[float]) -> dict[str, Stretch]:
    """Every section at its flow, from the unit outward."""
    found: dict[str, Stretch] = {}
    for run, flow in zip(runs, flows, strict=True):
        before = None if run.node.parent is None else found[run.node.parent.section.id]
        drop = run.drop(flow, 0.0 if before is None else before.velocity)[0]
        rate = run.gradient(flow)[0] * run.stretch_factor
        fittings = drop - rate * run.node.section.length
        fittings = fittings if abs(fittings) > NOTHING_LEFT * drop else 0.0
        reached = drop + (0.0 if before is None else before.reached)
        found[run.node.section.id] = Stretch(run, flow, flow / run.area, rate, fittings, drop, reached)
    return found


def section_answers(question: m.DuctSystemQuestion, found: dict[str, Stretch], heat: dict[str, SectionHeat]) -> list[m.SectionAnswer]:
    """The sections in the order of the question."""
    leaks = leakage_by_section(question, found)
    return [_section_answer(section, found[section.id], heat.get(section.id, NOTHING), leaks[section.id]) for section in question.sections]


def _section_answer(section: m.DuctSection, stretch: Stretch, heat: SectionHeat, leak: float) -> m.SectionAnswer:
    assert stretch.run.size is not None
    return m.SectionAnswer(
        id=section.id,
        side=section.side,
        airflow=Airflow(stretch.flow),
        size=stretch.run.size,
        velocity=Velocity(stretch.velocity),
        friction_rate=FrictionRate(stretch.friction_rate),
        regime=regime(stretch.run.reynolds_per_flow * stretch.flow),
        fitting_loss=AirPressure(stretch.fitting_loss),
        pressure_drop=AirPressure(stretch.drop),
        leakage=Airflow(leak),
        heat_gain=heat.gain,
        leaving_temperature=heat.leaving,
        surface_temperature=heat.surface,
        least_r=heat.least_r,
    )


def outlet_loss(stretch: Stretch) -> float:
    """What the outlet at the end of a section loses at its flow, Pa."""
    return stretch.run.outlet_resistance * stretch.flow * stretch.flow


def paths(found: dict[str, Stretch]) -> list[m.Path]:
    """The way to every outlet, with what it is worth in straight duct and what a damper must take there."""
    ends = {name: stretch for name, stretch in found.items() if stretch.run.node.section.outlet is not None}
    worst = {"supply": 0.0, "return": 0.0}
    for stretch in ends.values():
        side = stretch.run.node.section.side
        worst[side] = max(worst[side], stretch.reached + outlet_loss(stretch))
    return [_path(name, stretch, found, worst[stretch.run.node.section.side]) for name, stretch in ends.items()]


def _path(name: str, end: Stretch, found: dict[str, Stretch], worst: float) -> m.Path:
    way: list[Stretch] = []
    node = end.run.node
    while True:
        way.append(found[node.section.id])
        if node.parent is None:
            break
        node = node.parent
    drop = end.reached + outlet_loss(end)
    return m.Path(
        outlet=name,
        side=end.run.node.section.side,
        sections=[stretch.run.node.section.id for stretch in reversed(way)],
        length=Length(sum(stretch.run.node.section.length for stretch in way)),
        effective_length=Length(sum(stretch.drop / stretch.friction_rate for stretch in way)),
        pressure_drop=AirPressure(drop),
        surplus_pressure=AirPressure(worst - drop if worst - drop > SETTLED * worst else 0.0),
    )


def critical(every: list[m.Path], side: str, found: dict[str, Stretch]) -> m.Path | None:
    """The path of a side that loses most; of those that agree to a millionth, as all do once air has settled, the one whose outlet is served worst, then by name."""
    of_side = [path for path in every if path.side == side]
    most = max((path.pressure_drop for path in of_side), default=0.0)
    worst = [path for path in of_side if path.pressure_drop >= most * (1.0 - SETTLED)]
    return min(worst, key=lambda path: (round(_served(found[path.outlet]), 6), path.outlet), default=None)


def _served(end: Stretch) -> float:
    """Airflow of the outlet at the end of a section over its design airflow."""
    outlet = end.run.node.section.outlet
    assert outlet is not None
    return end.flow / outlet.airflow


def at_taps(found: dict[str, Stretch], losses: dict[str, float]) -> m.TapReading:
    """What a gauge reads in the first section of each side: total pressure less velocity pressure. `losses`: Pa from room to unit by side, components included.

    None for a side on which several sections begin at the unit: each has a velocity of its own.
    """
    readings: dict[str, AirPressure | None] = {}
    for side, sign in (("supply", -1.0), ("return", 1.0)):
        first = [stretch for stretch in found.values() if stretch.run.node.parent is None and stretch.run.node.section.side == side]
        readings[side] = AirPressure(losses[side] + sign * first[0].run.half_density * first[0].velocity ** 2) if len(first) == 1 else None
    return m.TapReading(supply=readings["supply"], return_=readings["return"])


def leakage_by_section(question: m.DuctSystemQuestion, found: dict[str, Stretch]) -> dict[str, float]:
    """Air through the joints of each section, m3/s: F = CL P^0.65 per surface, P the mean static pressure in it.

    Static pressure is what is left to lose to the room, less the velocity pressure. Source: duct-system.leakage.
    """
    worst = {"supply": 0.0, "return": 0.0}
    for stretch in found.values():
        side = stretch.run.node.section.side
        worst[side] = max(worst[side], stretch.reached + outlet_loss(stretch))
    return {section.id: _leak(section, found[section.id], worst[section.side]) for section in question.sections}


def _leak(section: m.DuctSection, stretch: Stretch, worst: float) -> float:
    assert stretch.run.size is not None
    mean_total = worst - stretch.reached + stretch.drop / 2.0
    velocity_pressure = stretch.run.half_density * stretch.velocity**2
    static = max(0.0, mean_total - velocity_pressure if section.side == "supply" else mean_total + velocity_pressure)
    row = LEAKAGE_TABLE.row(duct=_leakage_row(stretch))
    assert row is not None
    surface = duct_perimeter(stretch.run.size) * section.length
    return float(row[section.leakage_class]) * CFM_PER_100_FT2 * float((static / IN_WG) ** 0.65) * surface


def _leakage_row(stretch: Stretch) -> str:
    duct = stretch.run.node.duct
    if duct.material in ("flexible", "fibrous-glass-board"):
        return duct.material
    return "rectangular" if duct.shape == "rectangular" else "round"


def leakage(sections: list[m.SectionAnswer], airflow: float) -> m.Leakage:
    """Leakage by side and as a share of the unit's air."""
    by_side = {side: sum(section.leakage for section in sections if section.side == side) for side in ("supply", "return")}
    return m.Leakage(
        supply=Airflow(by_side["supply"]), return_=Airflow(by_side["return"]), share=Number((by_side["supply"] + by_side["return"]) / airflow)
    )


def materials(question: m.DuctSystemQuestion, found: dict[str, Stretch]) -> list[m.MaterialNeeded]:
    """What the system is made of: lengths by size, boxes and plenums by the piece, fittings, outlets."""
    counted: dict[tuple[str, str, str], float] = {}
    for section in question.sections:
        stretch = found[section.id]
        assert stretch.run.size is not None
        size = size_in_words(stretch.run.size)
        if section.kind == "duct":
            extended = 1.0 if stretch.run.node.stretch is None else stretch.run.node.stretch
            _count(counted, (f"{stretch.run.node.duct.material} duct", size, "ft"), Length(section.length / extended).to("ft"))
        else:
            _count(counted, (section.kind, f"{size}, {Length(section.length).to('ft'):.3g} ft long", "each"), 1.0)
        for fitting in section.fittings:
            if fitting.fitting is not None:
                _count(counted, (fitting.fitting, size, "each"), fitting.count)
        if section.outlet is not None:
            _count(counted, ("outlet" if section.side == "supply" else "return grille", size, "each"), 1.0)
    return [
        m.MaterialNeeded(item=item, size=size, quantity=round(quantity, 3), unit=unit) for (item, size, unit), quantity in sorted(counted.items())
    ]


def _count(counted: dict[tuple[str, str, str], float], key: tuple[str, str, str], quantity: float) -> None:
    counted[key] = counted.get(key, 0.0) + quantity


def size_in_words(size: DuctSize) -> str:
    """A size as it is ordered: `8 in`, `20 x 10 in`, `22 x 8 in oval`."""
    if size.diameter is not None:
        return f"{size.diameter.to('in'):.4g} in"
    if size.width is not None and size.height is not None:
        return f"{size.width.to('in'):.4g} x {size.height.to('in'):.4g} in"
    assert size.major is not None and size.minor is not None
    return f"{size.major.to('in'):.4g} x {size.minor.to('in'):.4g} in oval"
