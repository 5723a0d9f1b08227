"""What service access rests on."""

from pathlib import Path
from typing import NamedTuple

from kneewall.kernel.quantity import Dimension, Length
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source, Standing
from kneewall.kernel.table import load_table

_TABLES = Path(__file__).parent / "tables"
ACCESS_TABLE = load_table(_TABLES / "attic_access.toml")
PANEL_TABLE = load_table(_TABLES / "floor_panels.toml")
PANELS = tuple((Dimension.of(float(row["thickness"]), "in"), Dimension.of(float(row["spacing"]), "in")) for row in PANEL_TABLE.rows)


class Access(NamedTuple):
    """What one code edition asks for."""

    opening_length: Dimension
    opening_width: Dimension
    passage_height: Dimension
    passage_width: Dimension
    passage_length: Length
    tall_height: Length
    tall_length: Length
    floor_width: Dimension
    space: Dimension
    all_sides: bool
    excuses_space: bool
    rule: Rule


def _residential(edition: str, clause: str, standing: Standing, title: str) -> Rule:
    return Rule(
        id=f"service-access.irc-{edition}",
        says="Opening 20 x 30 in clear and large enough for the largest appliance; passage 22 in wide, 30 high, up to 20 ft, solid floor 24 in; level space "
        "30 x 30 in along all sides where access is required. Copies of the exceptions disagree. Where the appliance is serviced and removed through the "
        "opening, some drop the passage and the level space, others the passage only; a passage 6 ft high and 22 in wide may be up to 50 ft long, by others of any "
        "length. What only one reading allows is referred to the building department.",
        kind="limit",
        source=Source(title=title, edition=edition, clause=clause, publisher="International Code Council"),
        standing=standing,
    )


def _mechanical(edition: str, standing: Standing, title: str) -> Rule:
    return Rule(
        id=f"service-access.imc-{edition}",
        says="Opening 20 x 30 in clear and large enough for the largest appliance; passage 22 in wide, 30 high, up to 20 ft, solid floor 24 in; level space "
        "30 x 30 in at the front or service side. Neither passage nor level space is needed where the appliance is serviced and removed through the "
        "opening; a passage 6 ft high and 22 in wide may be up to 50 ft long.",
        kind="limit",
        source=Source(title=title, edition=edition, clause="306.3", publisher="International Code Council"),
        standing=standing,
    )


_COPIES = "quoted with a 50 ft limit on inspectors' sites (2006 and 2009), without one in a Texas copy"
IRC_2009 = _residential("2009", "M1305.1.3", "common-practice", "International Residential Code, " + _COPIES)
IRC_2012 = _residential("2012", "M1305.1.3", "common-practice", "International Residential Code, taken to read as in 2009; " + _COPIES)
IRC_2018 = _residential(
    "2018", "M1305.1.2", "from-memory", "International Residential Code; the text of 2009 is taken to stand under its later number"
)
IMC_2009 = _mechanical("2009", "published", "International Mechanical Code, as quoted in full on a code forum")
IMC_2018 = _mechanical("2018", "from-memory", "International Mechanical Code; the text of 2009 is taken to stand")
_RULES = {"IRC-2009": IRC_2009, "IRC-2012": IRC_2012, "IRC-2018": IRC_2018, "IMC-2009": IMC_2009, "IMC-2018": IMC_2018}


def _access(row: dict[str, float | str | bool]) -> Access:
    def inches(name: str) -> Dimension:
        return Dimension.of(float(row[name]), "in")

    def feet(name: str) -> Length:
        return Length.of(float(row[name]), "ft")

    return Access(
        inches("opening_length"), inches("opening_width"), inches("passage_height"), inches("passage_width"), feet("passage_length"), feet("tall_height"),
        feet("tall_length"), inches("floor_width"), inches("space"), row["space_at"] == "all-sides",
        bool(row["excuses_space"]), _RULES[str(row["code"])],
    )  # fmt: skip


ACCESS: dict[str, Access] = {str(row["code"]): _access(row) for row in ACCESS_TABLE.rows}

REMOVAL = Rule(
    id="service-access.removal",
    says="The opening and the passage are large enough to get the largest appliance out. Here: one of its three faces goes through with its sides parallel to "
    "the opening's, or, with a warning, turned in it; along the passage it lies straight.",
    kind="limit",
    source=Source(title="International Residential Code M1305.1.3 and International Mechanical Code 306.3; how it is judged is ours"),
    standing="computed",
)
TURNED = Rule(
    id="service-access.turned-through",
    says="A rectangle p x q that is longer than the opening a x b still goes through askew where b is at least "
    "(2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2))/(p^2 + q^2).",
    kind="formula",
    source=Source(title="Condition for a rectangle to fit into a rectangle, a problem of plane geometry published in 1957"),
    standing="from-memory",
)
TIPPED = Rule(
    id="service-access.tipped",
    says="A piece that stands taller in a ceiling hatch than the attic is high beside it has to be tipped on its way; only a trial shows whether it turns.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LIGHT = Rule(
    id="service-access.light",
    says="A light stands at the equipment, and it is switched at the usual point of entry.",
    kind="limit",
    source=Source(title="National Electrical Code; the residential code has a like clause", edition="2017", clause="210.70(A)(3)", publisher="NFPA"),
    standing="from-memory",
)
RECEPTACLE = Rule(
    id="service-access.receptacle",
    says="A 125 V receptacle of 15 or 20 A stands within 25 ft of the equipment, on the same level, not on the load side of the equipment's disconnect.",
    kind="limit",
    source=Source(title="National Electrical Code, as quoted on an electricians' forum", edition="2017", clause="210.63", publisher="NFPA"),
    standing="published",
)
DISCONNECT = Rule(
    id="service-access.disconnect",
    says="The disconnect can be seen from the equipment and is not more than 50 ft away, readily accessible, not on an access panel and not over the nameplate.",
    kind="limit",
    source=Source(title="National Electrical Code", edition="2017", clause="440.14, Article 100 (in sight)", publisher="NFPA"),
    standing="from-memory",
)
PANEL_MARK = Rule(
    id="service-access.panel-mark",
    says="The second number of a panel's span rating (24/16, 32/16, 48/24) is the greatest spacing of supports under a floor.",
    kind="limit",
    source=Source(title="Span ratings of wood structural panels, as sheathing guides explain them"),
    standing="published",
)
NARROW_PANEL = Rule(
    id="service-access.narrow-panel",
    says="The panel table holds for pieces at least 24 in wide.",
    kind="limit",
    source=Source(title="International Residential Code, as quoted on an inspectors' forum", edition="2012", clause="Table R503.2.1.1(1), note c"),
    standing="published",
)
