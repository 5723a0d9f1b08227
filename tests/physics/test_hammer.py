"""Water hammer against a pipe-industry table and makers' wave speeds."""

import pytest

from kneewall.kernel.quantity import Dimension, Stress, WaterVelocity
from kneewall.physics.hammer import at_junction, critical_time, stopped_at_once, stopped_slowly, wave_speed
from kneewall.physics.pipes import pipe_size
from tests.outside import Outside

INDUSTRY = "pipe-industry surge table, psi per ft/s (read in a garbled copy)"
FOOT, PSI = 0.3048, 6894.757293168361
BULK = 300000.0 * PSI


def plastic_surge(modulus: float, ratio: float) -> float:
    """psi per ft/s by a = 4660/sqrt(1 + K (DR - 2)/E), psi = a V/(2.31 g): the table's own constants (4660 ft/s, K 300,000 psi)."""
    speed = wave_speed(4660.0 * FOOT, BULK, modulus * PSI, ratio - 2.0, 1.0)
    return speed / FOOT / (2.31 * 32.174)


@pytest.mark.parametrize(("ratio", "surge"), [(41, 11.4), (32.5, 12.8), (25, 14.7), (21, 16.0)])
def test_surge_in_pvc(ratio: float, surge: float) -> None:
    Outside(surge, INDUSTRY, "published", 0.005, "three digits").check(plastic_surge(400000.0, ratio))


@pytest.mark.parametrize(("ratio", "surge"), [(21, 8.8), (17, 9.9), (13.5, 11.3), (9, 14.3), (7.3, 16.3)])
def test_surge_in_polyethylene(ratio: float, surge: float) -> None:
    Outside(surge, INDUSTRY, "published", 0.006, "two or three digits").check(plastic_surge(115000.0, ratio))


@pytest.mark.parametrize(("ratio", "speed"), [(9, 250.0), (11, 225.0)])
def test_wave_speed_in_pex(ratio: float, speed: float) -> None:
    got = wave_speed(1438.0, BULK, 67425.0 * PSI, ratio - 2.0, 1.0)
    Outside(speed, "a maker's wave speeds for PEX", "common-practice", 0.03, "two digits").check(got)


@pytest.mark.parametrize(
    ("material", "inches", "speed"), [("copper-type-l", 0.75, 4128), ("copper-type-l", 1, 4045), ("pvc-schedule-80", 1, 2180), ("cpvc-cts", 1, 1735)]
)
def test_wave_speed_in_pipe_by_hand(material: str, inches: float, speed: float) -> None:
    """a = 4721/sqrt(1 + 300000/E D/e) ft/s by hand, e.g. copper 3/4 L: 1 + 0.01765 x 0.785/0.045 = 1.3078, 4721/1.1436 = 4128."""
    size = pipe_size(material, Dimension.of(inches, "in"))  # type: ignore[arg-type]
    assert size is not None
    got = wave_speed(WaterVelocity.of(4721, "ft/s"), Stress.of(300000, "psi"), size.wall.elastic_modulus, size.inside_diameter, size.thickness)
    Outside(speed, "hand calculation with the pipe's bore, wall and modulus", "computed", 0.003, "four digits and rounded walls").check(got / FOOT)


def test_the_times_of_pipes_in_series_add_up() -> None:
    """By hand: 50 ft of copper at 4128 ft/s and 40 ft of PVC at 1833 ft/s: 24.2 + 43.6 = 67.9 ms."""
    got = critical_time([(50 * FOOT, 4128 * FOOT), (40 * FOOT, 1833 * FOOT)])
    Outside(0.0679, "2 x 50/4128 + 2 x 40/1833", "computed", 0.001, "three digits").check(got)


def test_slow_closing_is_what_the_text_says() -> None:
    """Michaud in trade units: 0.0269 L V/t psi; 50 ft, 5 ft/s, 10 s: 0.67 psi. At the critical time of one pipe it equals closing at once."""
    got = stopped_slowly(998.0, [(50 * FOOT, 5 * FOOT)], 10.0) / PSI
    Outside(0.0269 * 50 * 5 / 10, "0.0269 L V/t, hand calculation", "computed", 0.005, "three digits").check(got)
    time = critical_time([(30.0, 1200.0)])
    assert stopped_slowly(998.0, [(30.0, 1.5)], time) == pytest.approx(stopped_at_once(998.0, 1200.0, 1.5), rel=1e-12)


def test_a_wave_goes_on_into_pipes_that_meet() -> None:
    """By hand: into an equal pipe 1; at an equal tee 2/3; into a closed end 2; two waves of 2/3 that meet at an equal tee 8/9, which is what one branch
    of twice the section would pass on: 2 x 2/(2 + 1) of 2 x 1/(1 + 2)."""
    assert at_junction(1.0, 2.0) == 1.0
    assert at_junction(1.0, 3.0) == pytest.approx(2.0 / 3.0)
    assert at_junction(1.0, 1.0) == 2.0
    assert at_junction(2.0 / 3.0 + 2.0 / 3.0, 3.0) == pytest.approx(8.0 / 9.0)
