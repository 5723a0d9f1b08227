"""Water and antifreeze against CoolProp used directly, and against charts of the trade."""

import pytest
from CoolProp.CoolProp import PT_INPUTS, AbstractState, PropsSI, iT_freeze

from kneewall.kernel.quantity import Temperature
from kneewall.kernel.refusal import Refusal
from kneewall.physics.water import Fluid, fluid_properties, liquid_at, plain_water, properties_of
from tests.outside import Outside

NAMES = {"propylene-glycol": "MPG", "ethylene-glycol": "MEG", "methanol": "MMA", "ethanol": "MEA"}


@pytest.mark.parametrize("celsius", [0.0, 3.3, 15.5555, 25.0, 48.7, 60.0, 99.9])
def test_water_agrees_with_the_reference_formulation(celsius: float) -> None:
    kelvin = celsius + 273.15
    found = plain_water().at(kelvin)
    for name, got, within in (("D", found.density, 5e-6), ("V", found.viscosity, 1.5e-4), ("C", found.specific_heat, 2e-5)):
        Outside(PropsSI(name, "T", kelvin, "P", 3e5, "Water"), "CoolProp HEOS water at 3 bar", "computed", within, "straight lines over 1 K").check(
            got
        )
    sound = PropsSI("A", "T", kelvin, "P", 3e5, "Water")
    Outside(sound, "CoolProp HEOS water at 3 bar", "computed", 2e-5, "straight lines over 1 K").check(plain_water().speed_of_sound(kelvin))


@pytest.mark.parametrize("kind", NAMES)
@pytest.mark.parametrize("fraction", [0.05, 0.1037, 0.2, 0.3333, 0.5])
def test_antifreeze_agrees_with_the_published_fits(kind: str, fraction: float) -> None:
    """Over the whole range from just above the freezing point; CoolProp's incompressible fluids."""
    state = AbstractState("INCOMP", NAMES[kind])
    state.set_mass_fractions([fraction])
    mixture = properties_of(kind, fraction)  # type: ignore[arg-type]
    assert mixture.freezing == pytest.approx(state.keyed_output(iT_freeze), abs=0.01)
    for share in (0.001, 0.13, 0.5, 0.87, 0.999):
        kelvin = mixture.freezing + 0.01 + share * (mixture.highest - mixture.freezing - 0.02)
        state.update(PT_INPUTS, 3e5, kelvin)
        found = mixture.at(kelvin)
        for reference, got, within in (
            (state.rhomass(), found.density, 2e-5),
            (state.viscosity(), found.viscosity, 1e-3),
            (state.cpmass(), found.specific_heat, 1.5e-4),
        ):
            Outside(reference, "CoolProp INCOMP", "computed", within, "straight lines between 1 % and about 1.5 K").check(got)


@pytest.mark.parametrize(("fahrenheit", "k"), [(35, 503.9), (50, 501.5), (77, 498.6), (100, 496.3)])
def test_heat_carried_is_not_five_hundred(fahrenheit: float, k: float) -> None:
    """Hand calculation: k = rho cp 8.0208, e.g. 62.30 lb/ft3 x 0.9989 Btu/(lb F) x 8.0208 ft3/h per gpm = 499 at 77 F."""
    found = plain_water().at(Temperature.of(fahrenheit, "degF"))
    got = found.density / 16.018463 * found.specific_heat / 4186.8 * 8.020833
    Outside(k, "rho cp 8.0208 with CoolProp's density and heat capacity", "computed", 2e-4, "four digits").check(got)


@pytest.mark.parametrize(
    ("kind", "mass_fraction", "fahrenheit"), [("propylene-glycol", 0.185, 20), ("propylene-glycol", 0.247, 15), ("methanol", 0.107, 20)]
)
def test_freezing_points_agree_with_charts_by_volume(kind: str, mass_fraction: float, fahrenheit: float) -> None:
    """Makers' charts (common practice): 18 and 24 % propylene glycol and 13 % methanol by volume freeze at 20, 15 and 20 F; by mass 18.5, 24.7, 10.7 %."""
    got = Temperature(properties_of(kind, mass_fraction).freezing).to("degF")  # type: ignore[arg-type]
    assert got == pytest.approx(fahrenheit, abs=1.6)


def test_below_freezing_is_refused_with_the_freezing_point() -> None:
    with pytest.raises(Refusal) as refused:
        liquid_at(plain_water(), Temperature.of(31.9, "degF"), "/entering_water")
    assert refused.value.faults[0].pointer == "/entering_water"
    assert "32 °F" in refused.value.faults[0].detail.shown("ip")
    assert liquid_at(plain_water(), Temperature.of(32.0, "degF"), "/entering_water").density == pytest.approx(999.94, rel=1e-5)


def test_a_mass_fraction_must_go_with_its_fluid() -> None:
    for fluid in (Fluid(kind="water", mass_fraction=0.2), Fluid(kind="methanol")):
        with pytest.raises(Refusal) as refused:
            fluid_properties(fluid)
        assert refused.value.faults[0].pointer == "/fluid/mass_fraction"
