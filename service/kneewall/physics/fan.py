"""The blower: its table, its rating, and what thin air leaves of them."""

from itertools import pairwise
from typing import Annotated

import msgspec

from kneewall.kernel.quantity import Airflow, AirPressure
from kneewall.kernel.question import Question, asked
from kneewall.kernel.refusal import Fault, Refusal, fault, refuse
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source
from kneewall.physics.air import STANDARD, Air
from kneewall.physics.monotone import MonotoneCubic

BLOWER_TABLE = Rule(
    id="fan.blower-table",
    says="The blower's own table is read as airflow by static pressure, by a curve that never overshoots its points; only the limb on which air falls as "
    "pressure rises is used, and nothing is read beyond the table's ends.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
BLOWER_DENSITY = Rule(
    id="fan.blower-density",
    says="A blower's table is printed for standard air. At the same airflow and speed its pressure goes with the density of the air that it moves.",
    kind="formula",
    source=Source(title="Fan laws: Q ~ N, dp ~ N^2 rho; course notebook CE414 in an open repository, homework 5-6"),
    standing="published",
)
RATED_DENSITY = Rule(
    id="fan.rated-density",
    says="A rated external static pressure is stated for standard air. In lighter air the same airflow makes less pressure, so the rating goes down with "
    "density; in denser air it is left as it is stated.",
    kind="formula",
    source=Source(title="Fan laws, as in fan.blower-density: a rating is one point of the blower's table; never raising it is on the safe side"),
    standing="computed",
)
RATED_AS_IT_IS = 0.005
"""Share of density below which nobody needs to be told that a rating was restated."""
BLOWER_WOBBLE = Rule(
    id="fan.blower-wobble",
    says="A variable-speed motor holds its airflow, and a table of it may rise by up to 1 % as pressure rises. Entries between which it does are replaced by "
    "their mean, so that the curve never rises; a table that rises more is refused.",
    kind="practice",
    source=Source(title="Least-squares fit that never rises (isotonic regression); 1 % is our own bound, below what a table is good for"),
    standing="computed",
)
WOBBLE = 0.01


class BlowerPoint(Question, frozen=True, kw_only=True):
    """One entry of a blower table."""

    airflow: Annotated[Airflow, asked("Air delivered", least="1 cfm", most="100000 cfm")]
    static_pressure: Annotated[AirPressure, asked("External static pressure at which it is delivered", least="0 inH2O", most="10 inH2O")]


class Blower(Question, frozen=True, kw_only=True):
    """The blower's table at one speed setting, as its maker prints it, for standard air."""

    points: Annotated[list[BlowerPoint], msgspec.Meta(description="The table's entries in any order", min_length=2, max_length=60)]


def rated_limit_in(rated: AirPressure, air: Air) -> AirPressure:
    """What a rated external static pressure comes to in this air: p = p0 min(1, rho/rho0). Source: fan.rated-density."""
    return AirPressure(rated * min(1.0, air.density / STANDARD.density))


def rated_in_words(air: Air) -> str:
    """How a sentence names the limit of `rated_limit_in`."""
    return "rated {}" if air.density >= STANDARD.density * (1.0 - RATED_AS_IT_IS) else "{} that its rating comes to in this air"


class BlowerCurve:
    """A blower's airflow by static pressure, on its falling limb."""

    __slots__ = ("curve", "highest", "lowest", "pointer", "rules")

    def __init__(self, blower: Blower, pointer: str, air: Air = STANDARD) -> None:
        """The curve through the table, its pressures those of this air. Source: fan.blower-density. Raises: Refusal where the table does not fall."""
        self.pointer = pointer
        points = falling_limb(blower, pointer)
        printed = [point.airflow for point in points]
        airflows = never_rising(printed)
        self.rules: tuple[Rule, ...] = (BLOWER_TABLE,) if airflows is printed else (BLOWER_TABLE, BLOWER_WOBBLE)
        share = air.density / STANDARD.density
        pressures = [AirPressure(point.static_pressure * share) for point in points]
        self.lowest, self.highest = pressures[0], pressures[-1]
        self.curve = MonotoneCubic(pressures, airflows)

    def airflow_and_slope(self, static_pressure: float) -> tuple[float, float]:
        """Airflow, m3/s, and its slope by static pressure. Source: fan.blower-table."""
        return self.curve.at(static_pressure)

    def needed_static_pressure(self, airflow: Airflow) -> float:
        """As `static_pressure`. Raises: Refusal with what is missing where the table does not reach `airflow`."""
        has = self.static_pressure(airflow)
        if has is not None:
            return has
        most, least = Airflow(self.curve.y[0]), Airflow(self.curve.y[-1])
        if airflow > most:
            sentence = "the blower's table does not reach the design airflow of {}: at its lowest pressure, {}, it moves {}, {} too little; add lower entries, or take a higher speed or a stronger blower"
            raise refuse(self.pointer, sentence, airflow, self.lowest, most, Airflow(airflow - most))
        sentence = "the blower's table does not reach down to the design airflow of {}: at its highest pressure, {}, it still moves {}; add higher entries or take a lower speed"
        raise refuse(self.pointer, sentence, airflow, self.highest, least)

    def static_pressure(self, airflow: float) -> float | None:
        """The static pressure, Pa, at which the blower delivers `airflow`; None where the table does not reach it.

        The highest one where the table shows the same air over a range. Newton's method, halving the bracket wherever its step would leave it.
        """
        x, y = self.curve.x, self.curve.y
        if not y[-1] <= airflow <= y[0]:
            return None
        before = max(index for index, delivered in enumerate(y) if delivered >= airflow)
        if before == len(y) - 1:
            return x[-1]
        low, high, close = x[before], x[before + 1], 1e-9 * max(1.0, float(self.highest))
        pressure = low + (high - low) * (y[before] - airflow) / (y[before] - y[before + 1])
        while high - low > close:
            delivered, slope = self.curve.at(pressure)
            if delivered >= airflow:
                low = pressure
            else:
                high = pressure
            step = (airflow - delivered) / slope if slope else high - low
            if abs(step) <= close:
                break
            pressure = pressure + step if low < pressure + step < high else 0.5 * (low + high)
        return pressure


def falling_limb(blower: Blower, pointer: str) -> list[BlowerPoint]:
    """The table's points by rising static pressure, airflow rising by no more than `WOBBLE`; of a humped table the limb to the right of the peak.

    Source: fan.blower-table, fan.blower-wobble. Raises: Refusal.
    """
    given = sorted(enumerate(blower.points), key=lambda pair: (pair[1].static_pressure, -pair[1].airflow))
    peak = given[-1][1]
    limb = [(index, point) for index, point in given if point.airflow >= peak.airflow * (1.0 - WOBBLE)]
    faults: list[Fault] = []
    least = limb[0][1]
    for (_, before), (index, point) in pairwise(limb):
        rises = point.airflow > least.airflow * (1.0 + WOBBLE + 1e-9)
        least = min(least, point, key=lambda one: one.airflow)
        if rises or point.static_pressure == before.static_pressure:
            faults.append(
                fault(
                    f"{pointer}/points/{index}",
                    "{} at {} cannot follow {} at {}: as static pressure rises the air must not grow by more than 1 percent, and each pressure may stand once",
                    point.airflow,
                    point.static_pressure,
                    before.airflow,
                    before.static_pressure,
                )
            )
    if len(limb) < 2:
        faults.append(
            fault(f"{pointer}/points", "the table has no falling limb: it needs two entries or more on which air falls as static pressure rises")
        )
    if faults:
        raise Refusal(faults)
    return [point for _, point in limb]


def never_rising(values: list[Airflow]) -> list[Airflow]:
    """The values nearest to these by least squares that never rise: neighbours that do are pooled to their mean. Source: fan.blower-wobble."""
    if all(before >= after for before, after in pairwise(values)):
        return values
    pools: list[tuple[float, int]] = []
    for value in values:
        total, count = float(value), 1
        while pools and total * pools[-1][1] > pools[-1][0] * count:
            before = pools.pop()
            total, count = total + before[0], count + before[1]
        pools.append((total, count))
    return [Airflow(total / count) for total, count in pools for _ in range(count)]
