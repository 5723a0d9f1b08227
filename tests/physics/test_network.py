"""Networks: against an independent solution, a hand calculation, and two thousand random layouts."""

import random
from math import pi

import fluids
import numpy
import pytest
from scipy.optimize import brentq, fsolve

from kneewall.physics.loops import Link, lay_out
from kneewall.physics.network import link_flows, link_losses, pressures, solve, solve_symmetric
from kneewall.physics.resistance import Coil, Friction, Regulator, Resistance, in_series, loss_and_slope
from tests.outside import Outside

DENSITY, VISCOSITY, ROUGHNESS = 999.1, 1.121e-3, 1.5e-6
GPM, PSI = 6.30901964e-05, 6894.757293168361


def pipe(diameter: float, length: float, k: float = 0.0, viscosity: float = VISCOSITY, roughness: float = ROUGHNESS) -> Resistance:
    area = pi / 4 * diameter**2
    per_velocity_pressure = DENSITY / 2 / area**2
    friction = Friction(DENSITY * diameter / (area * viscosity), roughness / diameter, length / diameter * per_velocity_pressure)
    return Resistance((friction,), k * per_velocity_pressure)


def coil(flow: float, loss: float, exponent: float = 1.85) -> Resistance:
    return Resistance((), 0.0, (Coil(loss / flow**exponent, exponent, flow),))


def steady(pressure: float):  # type: ignore[no-untyped-def]
    return lambda _flow: (pressure, 0.0)


def independent_loss(flow: float, diameter: float, length: float, k: float) -> float:
    """fluids' Darcy friction factor by Clamond's method, in dp = (f L/D + K) rho V^2/2."""
    velocity = flow / (pi / 4 * diameter**2)
    reynolds = fluids.Reynolds(V=velocity, D=diameter, rho=DENSITY, mu=VISCOSITY)
    factor = fluids.friction_factor(reynolds, eD=ROUGHNESS / diameter)
    return (factor * length / diameter + k) * DENSITY * velocity**2 / 2


@pytest.mark.parametrize("flow", [3e-6, 1.5e-5, 1e-4, 6e-4, 4e-3])
def test_straight_pipe_agrees_with_an_independent_library(flow: float) -> None:
    """Laminar below Reynolds number 2000 and turbulent from 4000; `fluids.one_phase_dP`."""
    diameter = 0.0205
    reference = fluids.one_phase_dP(flow * DENSITY, DENSITY, VISCOSITY, diameter, roughness=ROUGHNESS, L=12.0)
    Outside(reference, "fluids.one_phase_dP", "computed", 1e-6, "both solve Colebrook to the last digits").check(
        loss_and_slope(pipe(diameter, 12.0), flow)[0]
    )


@pytest.mark.parametrize(
    "resistance",
    [
        pipe(0.0266, 9.0, 4.0),
        coil(4e-4, 3 * PSI),
        coil(4e-4, 3 * PSI, 2.2),
        Resistance((), 1e10, (), (Regulator(4e-4, 2 * PSI, 1e10),)),
        in_series([pipe(0.0266, 9.0), pipe(0.0266, 2.0), pipe(0.02, 3.0, 2.0), coil(4e-4, 3 * PSI)]),
    ],
)
def test_the_slope_is_the_slope(resistance: Resistance) -> None:
    """Against the difference of two losses, on both sides of nothing; losses are odd in the flow."""
    for flow in (1e-6, 3e-5, 6.2e-5, 2e-4, 3.9e-4, 4.1e-4, 1e-3):
        step = 1e-5 * flow
        difference = (loss_and_slope(resistance, flow + step)[0] - loss_and_slope(resistance, flow - step)[0]) / (2 * step)
        assert loss_and_slope(resistance, flow)[1] == pytest.approx(difference, rel=2e-4)
        assert loss_and_slope(resistance, -flow)[0] == -loss_and_slope(resistance, flow)[0]


def test_pipes_in_series_lose_what_they_lose_apart() -> None:
    parts = [pipe(0.0266, 9.0, 1.0), pipe(0.0266, 2.0, 3.0), pipe(0.02, 3.0, 2.0), coil(4e-4, 3 * PSI)]
    together = in_series(parts)
    assert len(together.frictions) == 2
    for flow in (1e-5, 3e-4):
        assert loss_and_slope(together, flow)[0] == pytest.approx(sum(loss_and_slope(part, flow)[0] for part in parts), rel=1e-12)


def test_two_alike_branches_by_hand() -> None:
    """Hand calculation. Two alike branches of valves only, Kv such that each loses 1 psi at 3 gpm, behind a common valve that loses 1 psi at 6 gpm.

    q per branch: (2 q/6)^2 + (q/3)^2 = 8 psi -> q^2 (1/9 + 1/9) = 8 -> q = sqrt(36) = 6 gpm, total 12 gpm; the common valve takes 4 psi, each branch 4.
    Short pipe of 1 um length keeps the slope; its loss is below a millionth.
    """

    def valve(gpm: float) -> Resistance:
        return Resistance(pipe(0.05, 1e-6).frictions, PSI / (gpm * GPM) ** 2)

    links = [
        Link("common", "supply", "a", valve(6)),
        Link("one", "a", "discharge", valve(3)),
        Link("two", "a", "discharge", valve(3)),
    ]
    layout = lay_out(links)
    flows = link_flows(layout, solve(layout, steady(8 * PSI)))
    for got, expected in zip(flows, (12.0, 6.0, 6.0), strict=True):
        Outside(expected, "hand calculation above", "computed", 1e-6, "the pipe between is not quite nothing").check(got / GPM)
    found = pressures(layout, link_losses(layout, flows))
    Outside(-4.0, "hand calculation above", "computed", 1e-6, "as above").check(found["a"] / PSI)
    Outside(-8.0, "hand calculation above", "computed", 1e-6, "as above").check(found["discharge"] / PSI)


def ladder(reverse: bool) -> list[Link]:
    """Two unlike branches between two headers, by direct or reverse return."""
    ends = ("c0", "c1")
    links = [Link("main", "supply", "a0", pipe(0.0266, 30.0, 6.0)), Link("header", "a0", "a1", pipe(0.0266, 3.0, 1.0))]
    for number in (0, 1):
        branch = pipe(0.0205, 4.0, 5.0)
        valves = Resistance((), 2 * PSI / (30 * GPM) ** 2)
        links.append(Link(f"branch {number}", f"a{number}", ends[number], in_series([branch, valves, coil((6 + number) * GPM, 3 * PSI)])))
    links.append(Link("return", *(("c0", "c1") if reverse else ("c1", "c0")), pipe(0.0266, 3.0, 1.0)))
    outlet = in_series([pipe(0.0266, 15.0, 6.0), Resistance((), PSI / (7.5 * GPM) ** 2)])
    links.append(Link("outlet", ends[1] if reverse else ends[0], "discharge", outlet))
    return links


@pytest.mark.parametrize("reverse", [False, True])
def test_two_unlike_branches_agree_with_an_independent_solution(reverse: bool) -> None:
    """scipy's fsolve on the two branch flows, with fluids' friction factor in every pipe; the steps are those of Kirchhoff's laws written out."""

    def branch_loss(number: int, q: float) -> float:
        return independent_loss(q, 0.0205, 4.0, 5.0) + 2 * PSI * (q / (30 * GPM)) ** 2 + 3 * PSI * (q / ((6 + number) * GPM)) ** 1.85

    def unbalanced(guess: numpy.ndarray) -> list[float]:
        q0, q1 = (float(value) * GPM for value in guess)
        total = q0 + q1
        ends = independent_loss(total, 0.0266, 30.0, 6.0) + independent_loss(total, 0.0266, 15.0, 6.0) + PSI * (total / (7.5 * GPM)) ** 2
        header, back = independent_loss(q1, 0.0266, 3.0, 1.0), independent_loss(q0 if reverse else q1, 0.0266, 3.0, 1.0)
        by_first = branch_loss(0, q0) + (back if reverse else 0.0)
        by_second = header + branch_loss(1, q1) + (0.0 if reverse else back)
        return [(ends + by_first - 30 * PSI) / PSI, (by_first - by_second) / PSI]

    expected = fsolve(unbalanced, [9.0, 9.0], xtol=1e-13)
    layout = lay_out(ladder(reverse))
    flows = link_flows(layout, solve(layout, steady(30 * PSI)))
    for got, value in zip(flows[2:4], expected, strict=True):
        Outside(float(value), "scipy.optimize.fsolve with fluids.friction_factor", "computed", 1e-6, "both to the last digits").check(got / GPM)


def test_reverse_return_does_not_balance_unequal_coils() -> None:
    """With friction by another formula of all regimes the same ladder gives, by direct return 8.979 and 9.598, by reverse 8.807 and 9.782 gpm (computed)."""
    for reverse, expected in ((False, (8.979, 9.598)), (True, (8.807, 9.782))):
        layout = lay_out(ladder(reverse))
        flows = link_flows(layout, solve(layout, steady(30 * PSI)))
        for got, value in zip(flows[2:4], expected, strict=True):
            Outside(value, "the same ladder with Churchill's friction factor", "computed", 0.004, "Churchill is up to 2 % above Colebrook").check(
                got / GPM
            )


def test_copper_table_of_an_irrigation_reference() -> None:
    """psi per 100 ft of type L copper (published; a table of Hazen-Williams with C 140, so 15 % in all)."""
    for bore, gpm, table in (
        (0.545, 2, 3.44),
        (0.545, 4, 12.41),
        (0.785, 2, 0.57),
        (0.785, 5, 3.09),
        (1.265, 4, 0.20),
        (0.995, 10, 3.68),
        (1.245, 24, 5.99),
    ):
        got = loss_and_slope(pipe(bore * 0.0254, 30.48), gpm * GPM)[0] / PSI
        Outside(table, "irrigation reference, copper tube", "published", 0.15, "it is Hazen-Williams with C 140").check(got)


def test_plastic_tables() -> None:
    """PEX psi per 100 ft of a maker and of a county document; schedule 40 PVC ft per 100 ft of a pump handbook and of the Illinois code (25 %: other bores)."""
    for bore, gpm, table, unit in (
        (0.671, 10, 21.1, PSI), (0.863, 10, 6.2, PSI), (0.863, 15, 13.2, PSI), (0.681, 6, 7.30, PSI), (0.875, 15, 11.4, PSI),
        (1.033, 5, 1.92, PSI / 2.307), (1.033, 10, 6.88, PSI / 2.307), (1.364, 20, 6.39, PSI / 2.307), (1.033, 10, 5.50, PSI / 2.307), (2.049, 40, 2.62, PSI / 2.307),
    ):  # fmt: skip
        got = loss_and_slope(pipe(bore * 0.0254, 30.48), gpm * GPM)[0] / unit
        Outside(table, "PEX and PVC tables as named above", "published", 0.25, "tables differ by as much among themselves").check(got)


@pytest.mark.parametrize(("inches", "psi", "gpm"), [(0.75, 20, 12), (0.75, 60, 22), (1.0, 20, 26), (1.0, 60, 47)])
def test_garden_hose(inches: float, psi: float, gpm: float) -> None:
    """100 ft of hose with a free outlet: Iowa State University Extension, hose care, 1996 (published)."""
    hose = pipe(inches * 0.0254, 30.48, 1.0, roughness=10e-6)
    layout = lay_out([Link("hose", "supply", "discharge", hose)])
    got = solve(layout, steady(psi * PSI))[0] / GPM
    Outside(gpm, "Iowa State University Extension, hose care", "published", 0.035, "two digits").check(got)


def test_a_pump_meets_its_loop_where_an_independent_search_finds_it() -> None:
    def head(q: float) -> float:
        return 150e3 - 4e11 * q * q

    expected = brentq(lambda q: head(q) - independent_loss(q, 0.0266, 60.0, 12.0), 1e-6, 6e-4, xtol=1e-15)
    layout = lay_out([Link("loop", "supply", "discharge", pipe(0.0266, 60.0, 12.0))])
    got = solve(layout, lambda q: (head(q), -8e11 * q))[0]
    Outside(expected, "scipy.optimize.brentq with fluids.friction_factor", "computed", 1e-6, "both to the last digits").check(got)


def test_a_flow_regulator_holds_its_flow_and_has_no_k() -> None:
    regulator = Resistance(pipe(0.05, 0.01).frictions, 0.0, (), (Regulator(5 * GPM, 2 * PSI, PSI / (0.0002 * 5 * GPM)),))
    layout = lay_out([Link("held", "supply", "discharge", regulator)])
    assert solve(layout, steady(0.5 * PSI))[0] / GPM == pytest.approx(2.5, rel=1e-3)
    assert solve(layout, steady(20 * PSI))[0] / GPM == pytest.approx(5.0, rel=0.005)
    assert solve(layout, steady(80 * PSI))[0] / GPM == pytest.approx(5.0, rel=0.02)


def test_dead_ends_are_still_and_closed_links_are_not_there() -> None:
    links = [*ladder(False), Link("stub", "c1", "drain", pipe(0.02, 3.0))]
    layout = lay_out(links)
    assert link_flows(layout, solve(layout, steady(20 * PSI)))[-1] == 0.0
    closed = lay_out(links, closed=(3,))
    flows = link_flows(closed, solve(closed, steady(20 * PSI)))
    assert flows[3] == flows[1] == 0.0
    assert not lay_out(links, closed=(0,)).flows_through
    assert lay_out([*links, Link("far", "x", "y", pipe(0.02, 3.0))]).apart == (7,)


def test_symmetric_equations_agree_with_numpy() -> None:
    chance = random.Random(5)
    for count in (1, 2, 3, 7, 20):
        matrix = numpy.array([[chance.uniform(-1, 1) for _ in range(count)] for _ in range(count)])
        matrix = matrix @ matrix.T + 0.1 * numpy.eye(count)
        right = [chance.uniform(-1, 1) for _ in range(count)]
        got = solve_symmetric([list(matrix[row, : row + 1]) for row in range(count)], right)
        assert got == pytest.approx(list(numpy.linalg.solve(matrix, right)), rel=1e-7)


def random_link(chance: random.Random) -> Resistance:
    diameter, length = chance.choice([0.0109, 0.0138, 0.02, 0.0266, 0.035, 0.05]), 10 ** chance.uniform(-2, 3)
    viscosity, roughness = 10 ** chance.uniform(-3.5, -1.3), chance.choice([1.5e-6, 45e-6, 1.5e-4])
    one = pipe(diameter, length, chance.choice([0.0, chance.uniform(0, 100)]), viscosity, roughness)
    kind, flow = chance.random(), 10 ** chance.uniform(-5, -2.5)
    if kind < 0.3:
        return coil(flow, 10 ** chance.uniform(2, 5.6), chance.uniform(1.5, 2.3))
    if kind < 0.4:
        return Resistance(one.frictions, 10 ** chance.uniform(6, 15))
    if kind < 0.5:
        return Resistance(one.frictions, one.square, (), (Regulator(flow, 2 * PSI, PSI / (0.0002 * flow)),))
    return one


def random_layout(chance: random.Random) -> list[Link]:
    """A connected layout of 2 to 14 nodes with 1 to 12 links more than a tree."""
    nodes = ["supply", "discharge", *(f"n{number}" for number in range(chance.randint(0, 12)))]
    chance.shuffle(nodes)
    pairs = [(nodes[number], nodes[chance.randrange(number)]) for number in range(1, len(nodes))]
    pairs += [tuple(chance.sample(nodes, 2)) for _ in range(chance.randint(1, 12))]  # type: ignore[misc]
    return [Link(f"p{number}", *(pair if chance.random() < 0.5 else pair[::-1]), random_link(chance)) for number, pair in enumerate(pairs)]


def random_drive(chance: random.Random):  # type: ignore[no-untyped-def]
    pressure, most = 10 ** chance.uniform(1.8, 6.3), 10 ** chance.uniform(-5, -2.5)
    if chance.random() < 0.5:
        return pressure, steady(pressure)
    return pressure, lambda q: (pressure * (1 - (q / most) ** 2), -2 * pressure * q / most**2) if q > 0 else (pressure, 0.0)


def test_two_thousand_random_loops_without_a_failure() -> None:
    """Kirchhoff's laws themselves are the check: water is conserved at every node to 1e-9 m3/s, and every link loses the difference of its nodes."""
    chance = random.Random(20260)
    for number in range(2000):
        links = random_layout(chance)
        top, drive = random_drive(chance)
        layout = lay_out(links)
        loops = solve(layout, drive)
        flows = link_flows(layout, loops)
        losses = link_losses(layout, flows)
        found = pressures(layout, losses)
        kept = dict.fromkeys(found, 0.0)
        for link, flow in zip(links, flows, strict=True):
            kept[link.tail] -= flow
            kept[link.head] += flow
        kept["supply"] += loops[0]
        kept["discharge"] -= loops[0]
        assert max(map(abs, kept.values())) < 1e-9, number
        assert abs(found["discharge"] + drive(loops[0])[0]) < 1e-6 * top, number
        for link, loss in zip(links, losses, strict=True):
            assert abs(found[link.tail] - found[link.head] - loss) < 1e-6 * top, number
        assert loops[0] > 0.0
