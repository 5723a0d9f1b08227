"""What a pipe, its fittings and valves, a coil or a flow regulator loses at a flow, and by how much more at a little more flow."""

from collections.abc import Sequence

import msgspec

from kneewall.physics.friction import LAMINAR_BELOW, TURBULENT_FROM, colebrook, friction_factor_and_slope

USUAL_REYNOLDS = 2e4


class Friction(msgspec.Struct, frozen=True):
    """Straight pipe of one bore: Re = `reynolds` * q, relative roughness, and loss = f * `loss` * q^2 (SI: s/m3, -, Pa s2/m6)."""

    reynolds: float
    roughness: float
    loss: float


class Coil(msgspec.Struct, frozen=True):
    """A heat exchanger: loss = `loss` * q^`exponent`, straightened below a ten-thousandth of `flow`, its rated flow, so that its slope never vanishes."""

    loss: float
    exponent: float
    flow: float


class Regulator(msgspec.Struct, frozen=True):
    """A flow regulator: an orifice (loss = `least` (q/flow)^2) up to its set flow, then as good as closed to more: loss rises by `steepness` (Pa s/m3)."""

    flow: float
    least: float
    steepness: float


class Resistance(msgspec.Struct, frozen=True):
    """Everything in series in one link. `square`: losses with the square of the flow (fittings, valves), Pa s2/m6."""

    frictions: tuple[Friction, ...] = ()
    square: float = 0.0
    coils: tuple[Coil, ...] = ()
    regulators: tuple[Regulator, ...] = ()

    @property
    def usual_flow(self) -> float:
        """A flow of the order that such a link carries, m3/s, to start from."""
        usual = [USUAL_REYNOLDS / friction.reynolds for friction in self.frictions]
        usual += [coil.flow for coil in self.coils] + [regulator.flow for regulator in self.regulators]
        return min(usual, default=1e-3)


def loss_and_slope(resistance: Resistance, flow: float) -> tuple[float, float]:
    """Pressure lost in a link, Pa, with the sign of the flow, and its slope by flow, Pa s/m3. Rises strictly with the flow.

    Source: friction.darcy-weisbach, friction.colebrook for straight pipe. Valid: any flow; the slope vanishes at no flow only where nothing but
    fittings, valves and regulators stand in the link.
    """
    q = abs(flow)
    square = resistance.square * q
    loss, slope = square * q, 2.0 * square
    for friction in resistance.frictions:
        reynolds = friction.reynolds * q
        if reynolds >= TURBULENT_FROM:
            x, share = colebrook(reynolds, friction.roughness)
            through = friction.loss * q / (x * x)
            loss += through * q
            slope += 2.0 * through / (1.0 + share)
        else:
            lost, bend = _slowly(friction, q, reynolds)
            loss += lost
            slope += bend
    for coil in resistance.coils:
        smooth = q * q + 1e-8 * coil.flow * coil.flow
        power = coil.loss * smooth ** (0.5 * coil.exponent - 0.5)
        loss += power * q
        slope += power * (1.0 + (coil.exponent - 1.0) * q * q / smooth)
    for regulator in resistance.regulators:
        if q > regulator.flow:
            loss += regulator.least + regulator.steepness * (q - regulator.flow)
            slope += regulator.steepness
        else:
            curve = regulator.least * q / (regulator.flow * regulator.flow)
            loss += curve * q
            slope += 2.0 * curve
    return (loss, slope) if flow >= 0.0 else (-loss, slope)


def _slowly(friction: Friction, q: float, reynolds: float) -> tuple[float, float]:
    """Straight pipe below turbulent flow."""
    if reynolds <= LAMINAR_BELOW:
        bend = 64.0 * friction.loss / friction.reynolds
        return bend * q, bend
    factor, bend = friction_factor_and_slope(reynolds, friction.roughness)
    through = friction.loss * q
    return factor * through * q, through * (2.0 * factor + reynolds * bend)


def in_series(resistances: Sequence[Resistance]) -> Resistance:
    """Links that carry the same flow, as one: pipes of the same bore and roughness are laid end to end."""
    if len(resistances) == 1:
        return resistances[0]
    lengths: dict[tuple[float, float], float] = {}
    square = 0.0
    coils: tuple[Coil, ...] = ()
    regulators: tuple[Regulator, ...] = ()
    for one in resistances:
        square += one.square
        coils += one.coils
        regulators += one.regulators
        for friction in one.frictions:
            bore = friction.reynolds, friction.roughness
            lengths[bore] = lengths.get(bore, 0.0) + friction.loss
    frictions = [Friction(reynolds, roughness, loss) for (reynolds, roughness), loss in lengths.items()]
    return Resistance(tuple(frictions), square, coils, regulators)
