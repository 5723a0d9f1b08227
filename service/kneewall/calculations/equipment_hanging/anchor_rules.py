"""What the anchors rest on."""

from pathlib import Path

from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source
from kneewall.kernel.table import load_table

_TABLES = Path(__file__).parent / "tables"
WOOD_TABLE = load_table(_TABLES / "wood_gravity.toml")
LAG_ROOT_TABLE = load_table(_TABLES / "lag_roots.toml")
DURATION_TABLE = load_table(_TABLES / "load_duration.toml")


def _nds(clause: str, edition: str = "2015") -> Source:
    return Source(title="National Design Specification for Wood Construction", edition=edition, clause=clause, publisher="American Wood Council")


LAG_WITHDRAWAL = Rule(
    id="equipment-hanging.lag-withdrawal",
    says="A lag screw across the grain holds 1800 G^1.5 D^0.75 lb per inch of thread, the tapered tip and the shank not counted; D in inches, 1/4 to "
    "1-1/4, G from 0.31 to 0.73.",
    kind="formula",
    source=_nds("12.2.1, Table 12.2A"),
    standing="published",
)
SCREW_WITHDRAWAL = Rule(
    id="equipment-hanging.screw-withdrawal",
    says="A wood screw across the grain holds 2850 G^2 D lb per inch of thread; D in inches, number 6 (0.138) to number 24 (0.372).",
    kind="formula",
    source=Source(
        title="National Design Specification for Wood Construction, wood screws in withdrawal, as quoted in an engineering formula handbook"
    ),
    standing="published",
)
END_GRAIN = Rule(
    id="equipment-hanging.end-grain",
    says="A lag screw in end grain holds 0.75 of its value in side grain. Wood screws are not loaded in withdrawal from end grain at all.",
    kind="limit",
    source=_nds("11.2.1.2, end grain factor", "2001"),
    standing="published",
)
WET_SERVICE = Rule(
    id="equipment-hanging.wet-service",
    says="In wood that is wet when the screw goes in or in service, lag and wood screws hold 0.7 of their value.",
    kind="limit",
    source=_nds("Table 11.3.3"),
    standing="from-memory",
)
TEMPERATURE = Rule(
    id="equipment-hanging.temperature",
    says="Wood that stays hot holds less: 0.8 above 100 degF and 0.7 above 125 up to 150 degF where it is dry, 0.7 and 0.5 where it is wet. "
    "Occasional heat does not count, so the factor is applied only where a lasting temperature is given.",
    kind="limit",
    source=_nds("2.3.3, Table 11.3.4"),
    standing="from-memory",
)
LAG_PENETRATION = Rule(
    id="equipment-hanging.lag-penetration",
    says="The thread of a lag screw reaches at least four diameters into the wood, without the tip. The clause is written for side loads and is kept here as a floor.",
    kind="limit",
    source=_nds("12.1.4.6"),
    standing="published",
)
SCREW_PENETRATION = Rule(
    id="equipment-hanging.screw-penetration",
    says="The thread of a wood screw reaches at least six diameters into the wood.",
    kind="limit",
    source=_nds("12.1.5.6"),
    standing="from-memory",
)
LAG_DISTANCES = Rule(
    id="equipment-hanging.lag-distances",
    says="A lag screw that is only pulled stands at least 1.5 diameters from the edge, 4 from the end and 4 from the next one.",
    kind="limit",
    source=_nds("Table 12.5.1E"),
    standing="from-memory",
)
LEAD_HOLE = Rule(
    id="equipment-hanging.lead-hole",
    says="The hole for the thread is 40 to 70 % of the diameter in wood up to G 0.5, 60 to 75 % up to 0.6, 65 to 85 % above. Lag screws up to 3/8 in that are "
    "only pulled may go into wood up to G 0.5 without one.",
    kind="practice",
    source=_nds("12.1.4"),
    standing="from-memory",
)
SCREW_TENSION = Rule(
    id="equipment-hanging.screw-tension",
    says="The screw itself must hold at the root of its thread. The wood standard asks for the check and gives no stress; the stress of hanger rods is taken, "
    "50 000 psi over 3.5, times 0.75 (10 714 psi), and two thirds of the diameter for the root of a wood screw.",
    kind="limit",
    source=Source(
        title="Pipe Hangers and Supports - Materials, Design, and Manufacture, allowable stress of hanger rods; our choice for lag and wood screws",
        edition="MSS SP-58-2002",
    ),
    standing="computed",
)
LISTED_HANGER = Rule(
    id="equipment-hanging.listed-hanger",
    says="A self-drilling rod hanger is judged by the load it is listed for, in the wood and the direction of the listing; its threads are its maker's own. "
    "Where only the load at which it fails is known, a quarter of that is its limit.",
    kind="limit",
    source=Source(
        title="HVAC Duct Construction Standards, upper attachments (a quarter of the failure load), read in a copy; the rest is common practice",
        publisher="SMACNA",
    ),
    standing="published",
)
LISTED_CEILING = Rule(
    id="equipment-hanging.listed-ceiling",
    says="A listed load above what a lag screw of the same size would hold in this wood deserves a second look at the listing.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
