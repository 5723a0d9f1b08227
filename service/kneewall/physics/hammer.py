"""Water hammer: how fast a pressure wave runs in a pipe, how high it is, and how slowly a valve must close to stay below it."""

from collections.abc import Iterable
from math import sqrt

from kneewall.kernel.rule import Rule, Source

WAVE_SPEED = Rule(
    id="hammer.wave-speed",
    says="A pressure wave runs at the speed of sound in the water, slowed by the give of the pipe's wall: a = c / sqrt(1 + (K/E)(D/e)). "
    "Antifreeze is taken as water, which may be a tenth low.",
    kind="formula",
    source=Source(title="Korteweg's equation, pipe with expansion joints throughout (restraint factor 1), as in texts of hydraulic transients"),
    standing="from-memory",
)
JOUKOWSKY = Rule(
    id="hammer.joukowsky",
    says="A flow that is stopped before the wave has come back raises the pressure by density times wave speed times the velocity that was stopped.",
    kind="formula",
    source=Source(title="Joukowsky's equation, as in texts of hydraulic transients"),
    standing="from-memory",
)
CRITICAL_TIME = Rule(
    id="hammer.critical-time",
    says="The wave is back after twice the length over the wave speed, added up over the pipes on its way. Closing faster than that is as bad as closing at once.",
    kind="formula",
    source=Source(title="Wave travel in pipes in series, as in texts of hydraulic transients"),
    standing="from-memory",
)
SLOW_CLOSING = Rule(
    id="hammer.slow-closing",
    says="A valve that closes evenly over a longer time t raises the pressure by 2 rho (L1 V1 + L2 V2 + ...)/t. Irrigation practice uses 2.6 times as much.",
    kind="formula",
    source=Source(title="Michaud's equation, as in texts of hydraulic transients"),
    standing="from-memory",
)

JUNCTION = Rule(
    id="hammer.junction",
    says="Where pipes meet, a wave stands at 2 (A1/a1) / (A1/a1 + A2/a2 + ...) of its height and goes on so into every other pipe: higher where it enters a "
    "stiffer or narrower pipe, lower at a tee, twice as high at a closed end. Waves that come by several ways count as if they came together; those that "
    "are thrown back are left out.",
    kind="formula",
    source=Source(title="Transmission of waves at a junction, as in texts of hydraulic transients"),
    standing="from-memory",
)


def wave_speed(sound: float, bulk_modulus: float, elastic_modulus: float, bore: float, thickness: float) -> float:
    """Speed of a pressure wave, m/s: a = c / sqrt(1 + (K/E)(D/e)); c m/s, K and E Pa, D and e m. Source: hammer.wave-speed."""
    return sound / sqrt(1.0 + bulk_modulus / elastic_modulus * bore / thickness)


def stopped_at_once(density: float, speed: float, velocity: float) -> float:
    """Rise of pressure, Pa, when a flow is stopped at once: rho a V. Source: hammer.joukowsky."""
    return density * speed * velocity


def critical_time(segments: Iterable[tuple[float, float]]) -> float:
    """Time, s, within which closing is as bad as at once, from (length m, wave speed m/s) of the pipes: sum of 2 L/a. Source: hammer.critical-time."""
    return sum([2.0 * length / speed for length, speed in segments])


def stopped_slowly(density: float, segments: Iterable[tuple[float, float]], time: float) -> float:
    """Rise of pressure, Pa, on even closing over `time`, s, from (length m, velocity m/s) of the pipes: 2 rho sum(L V)/t.

    Source: hammer.slow-closing. Valid: closing slower than the critical time.
    """
    return 2.0 * density * sum([length * velocity for length, velocity in segments]) / time


def at_junction(arriving: float, meeting: float) -> float:
    """Height of the wave where pipes meet: 2 (Y1 h1 + Y2 h2 + ...)/sum(Y), Y = A/a (m s), from the sum of Y h of the waves of height h that arrive and
    the sum of Y of every pipe that meets there.

    Source: hammer.junction.
    """
    return 2.0 * arriving / meeting
