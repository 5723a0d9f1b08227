"""What each code edition says about condensate: slope, size, protection, auxiliary pan and pump. Where a code is silent, so are we."""

from pathlib import Path
from typing import NamedTuple

from kneewall.calculations.condensate_drain.messages import Code
from kneewall.kernel.quantity import Dimension, Power, Slope
from kneewall.kernel.rule import Rule, RuleKind, Source, Standing
from kneewall.kernel.table import load_table

PIPE_TABLE = load_table(Path(__file__).parent / "tables" / "pipe_by_capacity.toml")
PIPE_BY_CAPACITY = PIPE_TABLE.rule
LEAST_SIZE = Dimension.of(0.75, "in")
LEAST_SLOPE = Slope.of(0.125, "in/ft")
PRINTED_PERCENT = Slope.of(1.0, "%")
_CAPACITIES = [(Power.of(float(row["capacity"]), "ton"), Dimension.of(float(row["nominal_size"]), "in")) for row in PIPE_TABLE.rows]


class PanFigures(NamedTuple):
    """A code's figures for the auxiliary pan; `larger` is added to length and width, m."""

    larger: Dimension
    depth: Dimension
    thickness: dict[str, Dimension]


class CodeText(NamedTuple):
    """One edition."""

    name: Code
    slope: Rule
    size: Rule
    single_by_table: bool
    manifold_by_table: bool
    protection: Rule
    pan: PanFigures | None
    pan_rule: Rule
    pump: Rule
    pump_place: tuple[str, ...]


PAN_FIGURES = PanFigures(
    Dimension.of(3, "in"), Dimension.of(1.5, "in"), {"galvanized-steel": Dimension.of(0.0236, "in"), "plastic": Dimension.of(0.0625, "in")}
)

_ICC = "International Code Council"
_SLOPE = "The line falls toward its end by at least 1/8 in per foot; the text adds (1 %), which is 4 % less."
_SIZE_ICC = "The line is 3/4 in nominal at least and nowhere smaller than before, from the pan to the end. "
_PAN = "The pan is at least 1-1/2 in deep and 3 in larger than the unit or coil in length and width; galvanized sheet 0.0236 in, plastic 0.0625 in thick. "
_BOTH_READINGS = "The 3 in are a total, by the words; many authorities want them on every side."
_WAYS = (
    "Where overflow would damage the building, one more of: a pan with its own drain to a conspicuous point; a higher second outlet with its own drain; "
    "a pan without drain but with a level switch; a level switch in the first drain or pan."
)
_PUMP = "A pump in an attic or crawl space stops the unit when the pump fails."
_NO_PAN = "This code has no figures for the pan's size, depth or sheet."


def _rule(
    name: str, says: str, title: str, clause: str, publisher: str, standing: Standing, kind: RuleKind = "limit", edition: str | None = None
) -> Rule:
    return Rule(
        id=f"condensate-drain.{name}",
        says=says,
        kind=kind,
        source=Source(title=title, edition=edition, clause=clause, publisher=publisher),
        standing=standing,
    )


_IRC, _IMC = "International Residential Code", "International Mechanical Code"
_UPC, _UMC = "Uniform Plumbing Code", "Uniform Mechanical Code"

IRC_SLOPE = _rule("irc-2018-slope", _SLOPE, _IRC, "M1411.3, read in the 2006 text", _ICC, "published", edition="2018")
IRC_SIZE = _rule(
    "irc-2018-size", _SIZE_ICC + "Units that share a line: by an approved method, no table.", _IRC, "M1411.3.2, read in a quotation", _ICC, "published",
    edition="2018",
)  # fmt: skip
IRC_WAYS = _rule("irc-2018-protection", _WAYS, _IRC, "M1411.3.1; the fourth way from memory", _ICC, "published", edition="2018")
IRC_PAN = _rule("irc-2018-pan", _PAN + _BOTH_READINGS, _IRC, "M1411.3.1", _ICC, "published", edition="2018")
IRC_PUMP = _rule("irc-2018-pump", _PUMP, _IRC, "M1411.4", _ICC, "published", edition="2018")

IMC_SLOPE = _rule("imc-2018-slope", _SLOPE, _IMC, "307.2.1", _ICC, "published", edition="2018")
IMC_SIZE = _rule(
    "imc-2018-size", _SIZE_ICC + "Units that share a line: by Table 307.2.2; a single unit needs no table.", _IMC, "307.2.2", _ICC, "published",
    edition="2018",
)  # fmt: skip
IMC_WAYS = _rule("imc-2018-protection", _WAYS, _IMC, "307.2.3", _ICC, "from-memory", edition="2018")
IMC_PAN = _rule("imc-2018-pan", _PAN + _BOTH_READINGS, _IMC, "307.2.3, as the residential code has it", _ICC, "from-memory", edition="2018")
IMC_PUMP = _rule("imc-2018-pump", _PUMP, _IMC, "307.3", _ICC, "published", edition="2018")

_SIZE_UPC = "The line has the size of the table by cooling capacity, for one unit as for several, and is no smaller than the outlet."
_PUMP_UPC = "A pump needs the authority's approval: its discharge rises to a gravity drain, it has a sump of its own, and the unit does not run when it fails."
_WAYS_UPC = _WAYS + " Second drains and pan drains are 3/4 in at least and end where they are readily seen. " + _NO_PAN

UPC_SLOPE = _rule("upc-2021-slope", _SLOPE, _UPC, "814.1, read in a web copy whose edition is not shown", "IAPMO", "published", edition="2021")
UPC_SIZE = _rule("upc-2021-size", _SIZE_UPC, _UPC, "814.1 and 814.3", "IAPMO", "published", edition="2021")
UPC_WAYS = _rule("upc-2021-protection", _WAYS_UPC, _UPC, "814.2", "IAPMO", "published", edition="2021")
UPC_PUMP = _rule("upc-2021-pump", _PUMP_UPC, _UPC, "814.1.1", "IAPMO", "published", edition="2021")
UMC_SLOPE = _rule("umc-2024-slope", _SLOPE, _UMC, "310.1", "IAPMO", "published", edition="2024")
UMC_SIZE = _rule("umc-2024-size", _SIZE_UPC, _UMC, "310.3; table read in the 2003 edition", "IAPMO", "published", edition="2024")
UMC_WAYS = _rule("umc-2024-protection", _WAYS_UPC, _UMC, "310.2", "IAPMO", "published", edition="2024")
UMC_PUMP = _rule("umc-2024-pump", _PUMP_UPC, _UMC, "310.1.1, as the plumbing code has it", "IAPMO", "from-memory", edition="2024")

_UNINHABITED = ("attic", "crawl-space")
_EVERYWHERE = ("attic", "crawl-space", "occupied-space")
CODES: dict[Code, CodeText] = {
    "IRC-2018": CodeText("IRC-2018", IRC_SLOPE, IRC_SIZE, False, False, IRC_WAYS, PAN_FIGURES, IRC_PAN, IRC_PUMP, _UNINHABITED),
    "IMC-2018": CodeText("IMC-2018", IMC_SLOPE, IMC_SIZE, False, True, IMC_WAYS, PAN_FIGURES, IMC_PAN, IMC_PUMP, _UNINHABITED),
    "UPC-2021": CodeText("UPC-2021", UPC_SLOPE, UPC_SIZE, True, True, UPC_WAYS, None, UPC_WAYS, UPC_PUMP, _EVERYWHERE),
    "UMC-2024": CodeText("UMC-2024", UMC_SLOPE, UMC_SIZE, True, True, UMC_WAYS, None, UMC_WAYS, UMC_PUMP, _EVERYWHERE),
}


def size_by_capacity(capacity: float) -> Dimension | None:
    """Least nominal size of the line by the cooling capacity, W, that it drains; None above the table. Source: condensate-drain.pipe-by-capacity."""
    return next((size for most, size in _CAPACITIES if capacity <= most * (1.0 + 1e-9)), None)


def least_size(code: CodeText, capacity: float, manifold: bool) -> Dimension | None:
    """Least nominal size of the line, by the table where the code applies it; None above the table."""
    return size_by_capacity(capacity) if code.single_by_table or (manifold and code.manifold_by_table) else LEAST_SIZE
