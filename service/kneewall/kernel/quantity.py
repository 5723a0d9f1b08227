"""Quantities: numbers whose type says what they measure. SI inside; read and written in the closed list of `units.toml`."""

import math
import re
from typing import ClassVar, Literal, Self

from kneewall.kernel.unit import SIGNIFICANT_DIGITS, Unit, UnitTable, unit_tables

UnitSystem = Literal["ip", "si"]

LARGEST_NUMBER = 1e18
ALMOST_ONE = 0.99995
"""Feet or metres below which a length is said in inches or millimetres; what is one but for the last digits is said as one."""
_AFTER_THE_POINT = r"\.[0-9]{1,20}"
"""Twenty decimals take every float as it is written."""
_THOUSANDS = rf"[1-9][0-9]{{0,2}}(?:,[0-9]{{3}}){{1,5}}(?:{_AFTER_THE_POINT})?"
DECIMAL = rf"(?:(?:[0-9]{{1,9}}(?:{_AFTER_THE_POINT})?|{_AFTER_THE_POINT})(?:[eE][+-]?0?[0-9])?|{_THOUSANDS})"
FRACTION = r"(?:[0-9]{1,6}[ -])?[0-9]{1,6}/[1-9][0-9]{0,5}"
_decimal = re.compile(f"[+-]?{DECIMAL}")
_mixed = re.compile("([+-]?)(?:([0-9]{1,6})[ -])?([0-9]{1,6})/([1-9][0-9]{0,5}) (.+)")


class Quantity(float):
    """A number in SI whose class says what it measures. Arithmetic gives plain floats: name the kind of a result to keep it."""

    __slots__ = ()
    table: ClassVar[UnitTable]
    accepted: ClassVar[dict[str, Unit]]

    def __init_subclass__(cls) -> None:
        cls.table = unit_tables()[cls.__name__]
        cls.accepted = cls.table.accepted

    @classmethod
    def of(cls, value: float, unit: str) -> Self:
        """The quantity of `value` in `unit`."""
        conversion = cls.accepted[unit]
        return cls(value * conversion.scale + conversion.offset)

    @classmethod
    def read(cls, given: object) -> Self:
        """The quantity of `"1-1/8 in"` or `{"value": 1.125, "unit": "in"}`. Raises: ValueError, in words for the person who asked."""
        if isinstance(given, Quantity) and given.table.units == cls.table.units:
            return cls(given)
        if isinstance(given, str):
            number, _, label = given.partition(" ")
            unit = cls.accepted.get(label)
            if unit is not None and _decimal.fullmatch(number):
                return cls._within(float(number.replace(",", "")), unit)
            if given.endswith('"') and "in" in cls.accepted and given[-2:-1].isdigit():
                return cls.read(f"{given[:-1]} in")
            return cls._read_fraction(given)
        if isinstance(given, dict) and given.keys() == {"value", "unit"}:
            value, label = given["value"], given["unit"]
            if not isinstance(value, int | float) or isinstance(value, bool):
                raise ValueError(f"the value must be a number, not {brief(value)}")
            if not isinstance(label, str) or label not in cls.accepted:
                raise ValueError(cls._unknown_unit(label))
            return cls._within(value, cls.accepted[label])
        raise ValueError(f'{brief(given)} is not a quantity; write {cls.table.says} as a number, a space and a unit, such as "{cls._example()}"')

    @classmethod
    def _read_fraction(cls, given: str) -> Self:
        mixed = _mixed.fullmatch(given)
        if mixed is None:
            number, _, label = given.partition(" ")
            if _decimal.fullmatch(number) and label:
                raise ValueError(cls._unknown_unit(label))
            raise ValueError(f'{brief(given)} is not a number, a space and a unit, such as "{cls._example()}" or "1-1/8 {cls.table.ip.label}"')
        sign, whole, upper, lower, label = mixed.groups()
        if label not in cls.accepted:
            raise ValueError(cls._unknown_unit(label))
        value = int(whole or 0) + int(upper) / int(lower)
        return cls._within(-value if sign == "-" else value, cls.accepted[label])

    @classmethod
    def _within(cls, value: float, unit: Unit) -> Self:
        if not -LARGEST_NUMBER <= value <= LARGEST_NUMBER:
            raise ValueError("the number is too large")
        return cls(value * unit.scale + unit.offset)

    @classmethod
    def _unknown_unit(cls, label: object) -> str:
        return f"{brief(label)} is not a unit of {cls.table.says}; use one of {', '.join(cls.table.units)}"

    @classmethod
    def _example(cls) -> str:
        return f"10 {cls.table.ip.label}"

    def to(self, unit: str) -> float:
        """The number in `unit`."""
        conversion = self.accepted[unit]
        return (self - conversion.offset) / conversion.scale

    def plain(self, system: UnitSystem) -> dict[str, float | str]:
        """The quantity as it leaves: `{"value", "unit"}`. Raises: ArithmeticError where the number is not finite."""
        unit = self.table.ip if system == "ip" else self.table.si
        value = (float(self) - unit.offset) / unit.scale
        if not math.isfinite(value):
            raise ArithmeticError(f"{self.table.says} came out as {value}")
        return {"value": _rounded(value), "unit": unit.label}

    def shown(self, system: UnitSystem) -> str:
        """The quantity as it stands in a sentence."""
        unit = self.table.ip if system == "ip" else self.table.si
        return f"{number_shown((self - unit.offset) / unit.scale)} {unit.shown}"


class Number(float):
    """A number without a unit, such as a share or a ratio. It leaves with as many digits as a quantity; arithmetic gives plain floats."""

    __slots__ = ()

    def plain(self) -> float:
        """The number as it leaves. Raises: ArithmeticError where it is not finite."""
        if not math.isfinite(self):
            raise ArithmeticError(f"a number came out as {self}")
        return _rounded(self)


def _rounded(value: float) -> float:
    rounded = float(f"{value:.{SIGNIFICANT_DIGITS}g}")
    return rounded + 0.0  # turns -0.0 into 0.0


def number_shown(value: float) -> str:
    """A number for people: four figures, thousands apart, no exponent where a person would not write one."""
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    if -1e-9 < value < 1e-9:
        return "0"  # what is left of two equal heights
    text = f"{value:.4g}"
    return f"{value:.6f}".rstrip("0").rstrip(".") if "e-05" in text else text


def _in_sixteenths(value: float) -> str:
    """A number as the trade writes inches: `1-1/8` where it stands on a sixteenth, decimals where it does not."""
    parts = round(value * 16.0) if -100.0 < value < 100.0 else 0
    if not parts % 16 or abs(value * 16.0 - parts) > 1e-6:
        return number_shown(value)
    whole, rest = divmod(abs(parts), 16)
    below = 16 // (rest & -rest)
    return f"{'-' if parts < 0 else ''}{f'{whole}-' if whole else ''}{rest * below // 16}/{below}"


def brief(given: object) -> str:
    """What somebody gave, as it stands in a sentence."""
    text = repr(given)
    return text if len(text) <= 60 else f"{text[:57]}..."


def kinds() -> list[type[Quantity]]:
    """Every kind of quantity, by name."""
    found: list[type[Quantity]] = []
    waiting = list(Quantity.__subclasses__())
    while waiting:
        kind = waiting.pop()
        found.append(kind)
        waiting.extend(kind.__subclasses__())
    return sorted(found, key=lambda kind: kind.__name__)


# fmt: off
class Length(Quantity):
    def shown(self, system: UnitSystem) -> str:
        """As the trade says it: feet and metres from one on; below, inches as a size is written, and millimetres."""
        meters, feet = float(self), self / 0.3048
        if system == "si":
            return f"{number_shown(meters * 1000.0)} mm" if 1e-9 < abs(meters) < ALMOST_ONE else f"{number_shown(meters)} m"
        return f"{_in_sixteenths(feet * 12.0)} in" if 1e-9 < abs(feet) < ALMOST_ONE else f"{number_shown(feet)} ft"
class Dimension(Length):
    def shown(self, system: UnitSystem) -> str:
        """As the trade writes a size: `1-1/8 in` where it stands on a sixteenth, decimals where it does not."""
        return f"{number_shown(self * 1000.0)} mm" if system == "si" else f"{_in_sixteenths(self / 0.0254)} in"
class Area(Quantity): ...
class Volume(Quantity): ...
class Airflow(Quantity): ...
class WaterFlow(Quantity): ...
class Velocity(Quantity): ...
class WaterVelocity(Velocity): ...
class AirPressure(Quantity): ...
class FrictionRate(Quantity): ...
class PressureDrop(Quantity): ...
class GaugePressure(Quantity): ...
class AbsolutePressure(Quantity): ...
class Vacuum(AbsolutePressure): ...
class Temperature(Quantity): ...
class TemperatureDifference(Quantity): ...
class Power(Quantity): ...
class ElectricPower(Power): ...
class Mass(Quantity): ...
class MassFlow(Quantity): ...
class MassPerLength(Quantity): ...
class Weight(Quantity): ...
class Load(Weight): ...
class LinearLoad(Quantity): ...
class WithdrawalStrength(LinearLoad): ...
class AreaLoad(Quantity): ...
class Stress(Quantity): ...
class Moment(Quantity): ...
class SectionModulus(Quantity): ...
class SecondMomentOfArea(Quantity): ...
class Density(Quantity): ...
class DynamicViscosity(Quantity): ...
class Slope(Quantity):
    def shown(self, system: UnitSystem) -> str:
        """As the trade says a fall: `1/8 in per ft` where it stands on a sixteenth."""
        return Quantity.shown(self, system) if system == "si" else f"{_in_sixteenths(self * 12.0)} {self.table.ip.shown}"
class ThermalResistance(Quantity): ...
class ThermalConductivity(Quantity): ...
class HeatTransferCoefficient(Quantity): ...
class Duration(Quantity):
    def shown(self, system: UnitSystem) -> str:
        """As people say it: hours from two on, minutes from one on, else seconds; the same in both systems."""
        unit, seconds = ("h", 3600.0) if self >= 7200.0 else ("min", 60.0) if self >= 60.0 else ("s", 1.0)
        return f"{number_shown(self / seconds)} {unit}"
class ShortDuration(Duration):
    def shown(self, system: UnitSystem) -> str:
        """In its own unit: a valve closes in a second or so."""
        return Quantity.shown(self, system)
class RotationalSpeed(Quantity): ...
class Frequency(Quantity): ...
class VolumetricHeatCapacity(Quantity): ...
class CyclingRate(Frequency): ...
class AirflowPerCapacity(Quantity): ...
# fmt: on
