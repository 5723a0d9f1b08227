"""Pressure ratings of pipe against printed tables."""

import pytest

from kneewall.kernel.quantity import Dimension, Temperature
from kneewall.physics.pipe_rating import rated_pressure
from kneewall.physics.pipes import pipe_size
from tests.outside import Outside

HANDBOOK = "Copper Tube Handbook, Table 3c, type M annealed"
SUPPLIER = "supplier's table of pressure rating by temperature, schedule 80"


def rating(material: str, inches: float, fahrenheit: float) -> float:
    size = pipe_size(material, Dimension.of(inches, "in"))  # type: ignore[arg-type]
    assert size is not None
    found = rated_pressure(size, Temperature.of(fahrenheit, "degF"))
    assert found is not None
    return found[0].to("psig")


@pytest.mark.parametrize(("inches", "psi"), [(0.5, 494), (0.75, 407), (1, 337), (1.25, 338), (1.5, 331), (2, 299)])
def test_annealed_copper(inches: float, psi: float) -> None:
    Outside(psi, HANDBOOK, "published", 0.04, "the least wall of each size has its own tolerance").check(rating("copper-type-m", inches, 100))


def test_annealed_copper_when_warm() -> None:
    Outside(286, HANDBOOK + " at 150 °F", "published", 0.06, "read at 140 °F, between its 100 and 150 °F").check(rating("copper-type-m", 1, 140))


@pytest.mark.parametrize(("inches", "warm", "psi"), [(1, 73, 630), (1, 100, 390), (1, 140, 139), (1.5, 73, 471), (2, 110, 202)])
def test_pvc_schedule_80(inches: float, warm: float, psi: float) -> None:
    Outside(psi, SUPPLIER, "published", 0.025, "average wall over 1.06 for the least").check(rating("pvc-schedule-80", inches, warm))


@pytest.mark.parametrize(("warm", "psi"), [(73, 400), (90, 360), (100, 325), (120, 260), (140, 200)])
def test_cpvc_of_copper_tube_size(warm: float, psi: float) -> None:
    Outside(psi, "supplier's derating for ASTM D2846 CPVC, SDR 11", "published", 0.015, "rounded to 5 psi").check(rating("cpvc-cts", 1, warm))


def test_what_is_not_known_has_no_rating() -> None:
    hose = pipe_size("rubber-hose", Dimension.of(0.75, "in"))
    pex = pipe_size("pex", Dimension.of(0.75, "in"))
    assert hose is not None and rated_pressure(hose, Temperature.of(60, "degF")) is None
    assert pex is not None and rated_pressure(pex, Temperature.of(140.1, "degF")) is None
    assert rated_pressure(pex, Temperature.of(140, "degF")) is not None


@pytest.mark.parametrize(
    ("material", "fahrenheit", "rules"), [("pex", 73, 1), ("pex", 100, 2), ("copper-type-l", 120, 1), ("steel-schedule-40", 60, 1)]
)
def test_a_rating_names_every_rule_it_rests_on(material: str, fahrenheit: float, rules: int) -> None:
    """Plastic above 73 °F is derated by the table of temperature factors besides (ASTM D2837's reference temperature)."""
    size = pipe_size(material, Dimension.of(1, "in"))  # type: ignore[arg-type]
    assert size is not None
    found = rated_pressure(size, Temperature.of(fahrenheit, "degF"))
    assert found is not None and len(found[1]) == rules
