"""Fittings, valves and tees against an independent library and solved problems."""

from math import pi, sqrt

import fluids
import pytest

from kneewall.physics.fittings import (
    coefficient_of_fittings,
    converging_branch,
    converging_run,
    diverging_branch,
    diverging_run,
    loss_of_valve,
)
from kneewall.physics.friction import friction_factor, turbulent_factor
from tests.outside import Outside

INCH = 0.0254
TECHNICAL_PAPER = "Technical Paper 410, Crane, solved problem {}, answer as reproduced in the documentation of fluids"


def k_of(fitting: str, inches: float, bore: float) -> float:
    return coefficient_of_fittings({fitting: 1.0}, inches * INCH, bore * INCH)  # type: ignore[dict-item]


@pytest.mark.parametrize(
    ("bore", "low", "high"), [(0.622, 0.026, 0.027), (0.824, 0.024, 0.025), (1.049, 0.022, 0.023), (1.38, 0.021, 0.022), (2.067, 0.019, 0.0195)]
)
def test_fully_turbulent_factor_of_steel_by_size(bore: float, low: float, high: float) -> None:
    """Technical Paper 410, table of friction factors for clean commercial steel pipe (from memory); its last digit is rounded."""
    assert low - 5e-4 <= turbulent_factor(45e-6 / (bore * INCH)) <= high + 5e-4


def test_elbow_and_tee_agree_with_an_independent_library() -> None:
    bore = 1.049 * INCH
    factor = turbulent_factor(45e-6 / bore)
    Outside(30 * factor, "30 fT", "from-memory", 1e-12, "same formula").check(k_of("elbow-90", 1, 1.049))
    reference = fluids.fittings.entrance_sharp()
    Outside(reference, "fluids.entrance_sharp", "computed", 0.15, "0.57 by the newer measurements, 0.5 by the tables").check(
        k_of("entrance", 1, 1.049)
    )
    Outside(fluids.fittings.exit_normal(), "fluids.exit_normal", "computed", 1e-12, "exact").check(k_of("exit", 1, 1.049))


def test_residential_code_elbow_is_a_third_higher() -> None:
    """2018 IRC, Table A.2.2: L/d 30 for a 90 degree elbow; 1 in steel 2.62 ft (published)."""
    bore = 1.049
    length = k_of("elbow-90", 1, bore) / turbulent_factor(45e-6 / (bore * INCH)) * bore / 12.0
    Outside(2.62, "2018 IRC, Table A.2.2, 1 in steel", "published", 0.005, "three digits").check(length)


@pytest.mark.parametrize(("size", "bore", "feet"), [(0.75, 0.785, 1.0), (1.0, 1.025, 1.0), (1.25, 1.265, 2.0)])
def test_wrought_elbow_is_its_equivalent_length(size: float, bore: float, feet: float) -> None:
    """Illinois Administrative Code 77-890 App. A Table Q (published)."""
    got = k_of("elbow-90-solder", size, bore) / turbulent_factor(45e-6 / (bore * INCH)) * bore / 12.0
    Outside(feet, "Illinois Administrative Code 77-890 Table Q", "published", 1e-9, "exact").check(got)


@pytest.mark.parametrize("cv", [0.5, 3.5, 7.5, 48.0])
def test_a_valve_loses_what_the_standard_says(cv: float) -> None:
    """fluids' IEC 60534 sizing turned round: the Kv it wants for this flow and loss."""
    flow, density = cv * 3.1e-5, 1021.3
    loss = loss_of_valve(cv, density) * flow * flow
    kv = fluids.control_valve.size_control_valve_l(rho=density, Psat=2e3, Pc=22.06e6, mu=1e-3, P1=5e6, P2=5e6 - loss, Q=flow)
    Outside(fluids.fittings.Kv_to_Cv(kv), "fluids.control_valve, IEC 60534-2-1", "computed", 1e-6, "the reference density has seven digits").check(cv)


@pytest.mark.parametrize(("gpm", "cv", "psi", "within"), [(16, 8, 4.0, 0.002), (30, 22.5, 1.7, 0.05)])
def test_clean_strainer(gpm: float, cv: float, psi: float, within: float) -> None:
    """A strainer maker's worked figures (common practice); the second is printed without its last digit, 1.78."""
    flow = gpm * 6.30901964e-05
    got = loss_of_valve(cv, 999.1) * flow * flow / 6894.757293168361
    Outside(psi, "a strainer maker's worked figures", "common-practice", within, "rounded or cut off").check(got)


def _coefficient(cv: float, bore: float) -> float:
    """K = 2 A^2/rho times the loss per flow squared."""
    return 2.0 * (pi / 4.0 * bore * bore) ** 2 / 999.0 * loss_of_valve(cv, 999.0)


def test_valve_coefficient_agrees_with_an_independent_library() -> None:
    reference = fluids.fittings.Cv_to_K(13.0, 1.025 * INCH)
    Outside(reference, "fluids.Cv_to_K", "computed", 1e-3, "it rounds 1.599e9 to 1.6e9").check(_coefficient(13.0, 1.025 * INCH))
    Outside(890.3 * 1.025**4 / 13.0**2, "K = 890.3 d^4/Cv^2, hand calculation", "computed", 1e-3, "four digits").check(
        _coefficient(13.0, 1.025 * INCH)
    )


def test_solved_problem_of_a_gate_valve() -> None:
    """Kv 500 in 154 mm: K 3.6, L/D 240 with f 0.015."""
    got = _coefficient(500.0 * 1.156099, 0.154)
    Outside(3.6, TECHNICAL_PAPER.format("7.2"), "published", 0.01, "two digits").check(got)
    Outside(240, TECHNICAL_PAPER.format("7.2"), "published", 0.01, "f has two digits").check(got / 0.015)


def test_solved_problem_of_water_running_down_a_pipe() -> None:
    """60 m of 80 mm steel pipe, six elbows, a ball valve, entrance and exit, 7 m of head: 781 L/min with a given f of 0.017; here f is the running one."""
    diameter, head = 0.0779, 7.0
    fitting = 6 * k_of("elbow-90", 3, diameter / INCH) + k_of("ball-valve", 3, diameter / INCH) + 0.5 + 1.0
    area, flow = pi / 4 * diameter**2, 0.012
    for _ in range(60):
        factor = friction_factor(999.0 * flow / area * diameter / 1.1e-3, 45e-6 / diameter)
        flow = area * sqrt(2 * 9.80665 * head / (factor * 60.0 / diameter + fitting))
    Outside(781, TECHNICAL_PAPER.format("7.6"), "published", 0.035, "it takes the fully turbulent factor for the running one").check(flow * 60000)


@pytest.mark.parametrize("branch", [0.4, 0.58, 0.7, 0.9, 1.0])
@pytest.mark.parametrize("share", [0.05, 0.39, 0.41, 0.5, 0.75, 0.98])
def test_tees_agree_with_an_independent_library(branch: float, share: float) -> None:
    given = {"D_run": 1.0, "D_branch": branch, "Q_run": 1.0 - share, "Q_branch": share, "angle": 90}
    for reference, got in (
        (fluids.fittings.K_branch_converging_Crane(**given), converging_branch(share, branch)),
        (fluids.fittings.K_run_converging_Crane(**given), converging_run(share)),
        (fluids.fittings.K_branch_diverging_Crane(**given), diverging_branch(share, branch)),
        (fluids.fittings.K_run_diverging_Crane(**given), diverging_run(share, branch)),
    ):
        assert got == pytest.approx(reference, rel=1e-9, abs=1e-12)


def test_solved_problem_of_a_converging_tee() -> None:
    """A branch may have a negative coefficient: K run 0.325, branch -0.042, with 0.3 of the flow from an equal branch (y such that 1.55 y - y^2 = 0.325)."""
    share = (1.55 - sqrt(1.55**2 - 4 * 0.325)) / 2
    Outside(0.325, TECHNICAL_PAPER.format("7.35"), "published", 0.01, "three digits").check(converging_run(share))
    assert converging_branch(share, 1.0) == pytest.approx(-0.042, abs=0.004)
