"""What the refrigerant is in each mode: everything that does not depend on the tube, worked out once."""

from math import log, sqrt
from typing import Literal

import msgspec

from kneewall.calculations.refrigerant_line_sizing import rules
from kneewall.calculations.refrigerant_line_sizing.messages import CoolingDuty, HeatingDuty, RefrigerantLineSizingQuestion
from kneewall.kernel.quantity import Power, Temperature, TemperatureDifference
from kneewall.kernel.refusal import Fault, Refusal, fault, refuse_any
from kneewall.physics.constants import STANDARD_GRAVITY
from kneewall.physics.refrigerant import OutsideProperties, Refrigerant, Vapor, glide, refrigerant_named
from kneewall.physics.refrigerant_tables import MOST_SUPERHEAT

Mode = Literal["cooling", "heating"]


class ModeState(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """One mode at full capacity. SI throughout; heights are counted along the flow, positive where it rises."""

    mode: Mode
    capacity: Power
    lowest: Power
    mass_flow: float
    dew: float
    vapor_pressure: float
    vapor: Vapor
    vapor_temperature: float
    density_slope: float
    """Fall of ln density per K of dew point, at the same superheat."""
    film_density: float
    oil_flux: float
    """0.7225 sqrt(rho g (rho_film - rho)), kg/(m2.5 s): the mass flux that carries oil up a riser is this times the root of its bore."""
    oil_capacity: float
    """The same as capacity, W/m2.5: the capacity at which its gas carries oil up a riser is this times the riser's bore area and the root of its bore."""
    vapor_rise: float
    vapor_lift: float
    """rho g H of the vapor, Pa, positive where it rises."""
    vapor_design_pressure: float
    """Absolute, as are the others."""
    condensing: float
    glide: float
    liquid_pressure: float
    liquid_temperature: float
    liquid_density: float
    liquid_viscosity: float
    liquid_specific_heat: float
    """Worked out only where surroundings are given, which alone ask for it."""
    liquid_rise: float
    liquid_lift: float
    """rho g H of the liquid, Pa, positive where it rises."""
    liquid_design_pressure: float


def states_of(question: RefrigerantLineSizingQuestion) -> list[ModeState]:
    """The mode or modes of a question. Raises: Refusal where a state lies outside the tables, naming the range."""
    refrigerant = refrigerant_named(question.refrigerant)
    _refuse_outside(question, refrigerant)
    high, low = _design_pressures(question, refrigerant)
    found = [cooling_state(question, question.cooling, refrigerant, high, low)]
    if question.heating is not None:
        try:
            found.append(heating_state(question, question.heating, refrigerant, high))
        except OutsideProperties:
            raise Refusal([_hot_gas_fault(refrigerant)]) from None
    return found


def cooling_state(
    question: RefrigerantLineSizingQuestion, duty: CoolingDuty, refrigerant: Refrigerant, high_side: float, low_side: float
) -> ModeState:
    """Cooling: suction gas to the outdoor unit, liquid to the indoor coil."""
    vapor, pressure = refrigerant.vapor(duty.evaporating, duty.superheat), refrigerant.bubble_pressure(duty.condensing)
    return _state(
        "cooling", question, duty, refrigerant,
        dew=float(duty.evaporating),
        condensing_pressure=pressure,
        condensing_dew=refrigerant.dew_temperature(pressure),
        vapor_pressure=vapor.pressure,
        vapor=vapor,
        vapor_temperature=duty.evaporating + duty.superheat,
        density_slope=log(vapor.density / refrigerant.vapor_density(duty.evaporating - 1.0, duty.superheat)),
        vapor_rise=-question.indoor_above_outdoor,
        vapor_design_pressure=low_side,
        liquid_design_pressure=high_side,
    )  # fmt: skip


def heating_state(question: RefrigerantLineSizingQuestion, duty: HeatingDuty, refrigerant: Refrigerant, high_side: float) -> ModeState:
    """Heating: hot gas to the indoor coil, liquid to the outdoor unit. Raises: OutsideProperties, Refusal."""
    pressure = refrigerant.bubble_pressure(duty.condensing)
    dew = refrigerant.dew_temperature(pressure)
    superheat = discharge_superheat(refrigerant, duty, dew)
    vapor = refrigerant.vapor(dew, superheat)
    return _state(
        "heating", question, duty, refrigerant,
        dew=dew,
        condensing_pressure=pressure,
        condensing_dew=dew,
        vapor_pressure=pressure,
        vapor=vapor,
        vapor_temperature=dew + superheat,
        density_slope=0.0,
        vapor_rise=float(question.indoor_above_outdoor),
        vapor_design_pressure=high_side,
        liquid_design_pressure=high_side,
    )  # fmt: skip


def discharge_superheat(refrigerant: Refrigerant, duty: HeatingDuty, dew: float) -> float:
    """Superheat of the hot gas above its dew point, K: by a compressor of 0.70 isentropic efficiency, or by the given temperature.

    Source: refrigerant-line-sizing.discharge-temperature. Raises: OutsideProperties above 100 K, Refusal below the dew point.
    """
    if duty.discharge_temperature is not None:
        if duty.discharge_temperature < dew:
            says = "hot gas of {} would be liquid in part: at this condensing pressure its dew point is {}"
            raise Refusal([fault("/heating/discharge_temperature", says, duty.discharge_temperature, Temperature(dew))])
        return duty.discharge_temperature - dew
    return refrigerant.compressed(duty.evaporating, duty.superheat, dew, rules.COMPRESSOR_EFFICIENCY)


def _state(
    mode: Mode, question: RefrigerantLineSizingQuestion, duty: CoolingDuty | HeatingDuty, refrigerant: Refrigerant,
    *, dew: float, condensing_pressure: float, condensing_dew: float, vapor_pressure: float, vapor: Vapor, vapor_temperature: float, density_slope: float,
    vapor_rise: float, vapor_design_pressure: float, liquid_design_pressure: float,
) -> ModeState:  # fmt: skip
    """Either mode. m = Q/(h_gas - h_liquid). Source: refrigerant-line-sizing.mass-flow, refrigerant-line-sizing.oil-return."""
    liquid_temperature = duty.condensing - duty.subcooling
    asked_film, gas_density = question.limits.film_density, vapor.density
    film = max(refrigerant.liquid_density(dew), rules.LEAST_FILM_DENSITY) if asked_film is None else asked_film
    liquid = refrigerant.liquid(liquid_temperature)
    mass_flow = duty.capacity / (vapor.enthalpy - liquid.enthalpy)
    oil_flux = 0.7225 * sqrt(gas_density * STANDARD_GRAVITY * (film - gas_density))
    return ModeState(
        mode=mode,
        capacity=duty.capacity,
        lowest=duty.capacity if duty.minimum_capacity is None else duty.minimum_capacity,
        mass_flow=mass_flow,
        dew=dew,
        vapor_pressure=vapor_pressure,
        vapor=vapor,
        vapor_temperature=vapor_temperature,
        density_slope=density_slope,
        film_density=film,
        oil_flux=oil_flux,
        oil_capacity=oil_flux * duty.capacity / mass_flow,
        vapor_rise=vapor_rise,
        vapor_lift=gas_density * STANDARD_GRAVITY * vapor_rise,
        vapor_design_pressure=vapor_design_pressure,
        condensing=float(duty.condensing),
        glide=glide(duty.condensing, condensing_dew),
        liquid_pressure=condensing_pressure,
        liquid_temperature=liquid_temperature,
        liquid_density=liquid.density,
        liquid_viscosity=liquid.viscosity,
        liquid_specific_heat=0.0 if question.surroundings is None else refrigerant.liquid_specific_heat(liquid_temperature),
        liquid_rise=-vapor_rise,
        liquid_lift=-liquid.density * STANDARD_GRAVITY * vapor_rise,
        liquid_design_pressure=liquid_design_pressure,
    )


def _design_pressures(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant) -> tuple[float, float]:
    """Bubble pressures, Pa absolute, that high and low side must stand. Source: refrigerant-line-sizing.design-pressure."""
    high = rules.HIGH_SIDE_TEMPERATURE if question.limits.design_temperature is None else question.limits.design_temperature
    hottest = rules.LOW_SIDE_TEMPERATURE if question.surroundings is None else max(rules.LOW_SIDE_TEMPERATURE, question.surroundings.temperature)
    return refrigerant.bubble_pressure(high), refrigerant.bubble_pressure(min(hottest, high))


def _refuse_outside(question: RefrigerantLineSizingQuestion, refrigerant: Refrigerant) -> None:
    """Raises: Refusal naming every temperature that the refrigerant's tables do not reach, and the range."""
    condensing = refrigerant.greatest_condensing
    asked = [
        ("/cooling/condensing", question.cooling.condensing, condensing),
        ("/heating/condensing", None if question.heating is None else question.heating.condensing, condensing),
        ("/limits/design_temperature", question.limits.design_temperature, refrigerant.greatest_temperature),
    ]
    says = "{} is beyond what is known here of {}: from {} to {}, the top being a safe way below its critical point"
    refuse_any(
        [
            fault(pointer, says, temperature, refrigerant.name, refrigerant.least_temperature, greatest)
            for pointer, temperature, greatest in asked
            if temperature is not None and temperature > greatest
        ]
    )


def _hot_gas_fault(refrigerant: Refrigerant) -> Fault:
    says = "the hot gas would lie outside the tables of {}, which reach from its dew point to {} above; raise the evaporating or lower the condensing temperature"
    return fault("/heating", says, refrigerant.name, TemperatureDifference(MOST_SUPERHEAT))
