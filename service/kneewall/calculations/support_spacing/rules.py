"""What the spacing of supports rests on beside the codes' tables, and the cautions."""

from pathlib import Path

from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Rule, Source
from kneewall.kernel.table import load_table

_TABLES = Path(__file__).parent / "tables"
PIPE_IRC_2018 = load_table(_TABLES / "pipe_irc_2018.toml")
PIPE_IMC_2018 = load_table(_TABLES / "pipe_imc_2018.toml")
PIPE_UPC_2021 = load_table(_TABLES / "pipe_upc_2021.toml")
PIPE_MSS_SP_58 = load_table(_TABLES / "pipe_mss_sp_58.toml")
ROD_TABLE = load_table(_TABLES / "rods.toml")
RODS = ROD_TABLE.rule
DUCT_WEIGHT_TABLE = load_table(_TABLES / "duct_weights.toml")
DUCT_WEIGHTS = DUCT_WEIGHT_TABLE.rule

FLEXIBLE_DUCT = Rule(
    id="support-spacing.flexible-duct",
    says="Flexible duct: supports at most 4 ft apart, sag at most 1/2 in per foot between them, straps at least 1-1/2 in wide, a support before and after "
    "each bend; a connection counts as a support. The maker of a listed duct may ask for more. The sheet-metal trade's standard allows 10 ft and 1 in straps.",
    kind="limit",
    source=Source(
        title="Flexible Duct Performance and Installation Standards, 4.6, as quoted by a building-science center",
        edition="5th, 2010",
        publisher="Air Duct Council",
    ),
    standing="published",
)
METAL_DUCT = Rule(
    id="support-spacing.metal-duct",
    says="Metal duct: 1/2 in strap of 18 gage or 12 gage wire at most 10 ft apart.",
    kind="limit",
    source=Source(title="Standard Work Specifications, 3.1601.3", publisher="U.S. Department of Energy"),
    standing="published",
)
DUCT_BOARD = Rule(
    id="support-spacing.duct-board",
    says="Duct board: straps at least 1-1/2 in wide at most 4 ft apart.",
    kind="limit",
    source=Source(title="Standard Work Specifications, 3.1601.3", publisher="U.S. Department of Energy"),
    standing="published",
)
IRC_METAL_DUCT = Rule(
    id="support-spacing.irc-2018-metal-duct",
    says="Metal duct: 1/2 in strap of 18 gage or 12 gage wire at most 10 ft apart; other ducts as their makers say.",
    kind="limit",
    source=Source(title="International Residential Code", edition="2018", clause="M1601.4.4", publisher="International Code Council"),
    standing="from-memory",
)
IMC_METAL_DUCT = Rule(
    id="support-spacing.imc-2018-metal-duct",
    says="Metal duct: approved hangers at most 12 ft apart; other ducts as their makers say.",
    kind="limit",
    source=Source(title="International Mechanical Code", edition="2018", clause="603.10", publisher="International Code Council"),
    standing="from-memory",
)
VERTICAL_DUCT = Rule(
    id="support-spacing.vertical-duct",
    says="Vertical duct: metal and board at every floor and at most 12 ft, flexible at most 6 ft apart.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="from-memory",
)
REFRIGERANT_TUBE = Rule(
    id="support-spacing.refrigerant-tube",
    says="Refrigerant tube: 5 ft to 3/4 in outside diameter, 6 ft to 1 in; supports outside the insulation on a shield, and within 2 ft of a corner on "
    "both sides. Nothing was read for larger tube: 6 ft is kept, less than its strength would allow.",
    kind="limit",
    source=Source(title="A maker's installation manual; no code rule was read"),
    standing="common-practice",
)
VERTICAL_RUN = Rule(
    id="support-spacing.vertical-run",
    says="A riser for which the code has no row, such as refrigerant tube, is held at every floor and at most every 10 ft.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
POLYETHYLENE_SAG = Rule(
    id="support-spacing.polyethylene-sag",
    says="Polyethylene pipe inside a building: no code table read has a row for it. Spaced so that it sags at most 1/2 in when full, at its long-term modulus, "
    "and never more than 4 ft; cradles at least half the diameter wide.",
    kind="practice",
    source=Source(title="Beam method of the Plastics Pipe Institute's handbook, chapter 8; the 1/2 in is common practice"),
    standing="common-practice",
)
NO_RULE = Rule(
    id="support-spacing.no-code-rule",
    says="Where the chosen code has no row for the material and size, none is borrowed from another: practice or the maker's interval is used and named.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
MAKERS_INTERVAL = Rule(
    id="support-spacing.most-careful-interval",
    says="Neither code nor practice has a row: 32 in for plastic and 5 ft for metal are kept until the maker's interval is known, the shortest intervals in use.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
STILL_FALLS = Rule(
    id="support-spacing.still-falls",
    says="A drain must fall between its supports also when it is full and hot; where the code's distance is too long for that, the shorter one governs.",
    kind="formula",
    source=Source(title="Beam theory: slope at the support of a simple beam against the slope of the drain"),
    standing="computed",
)
LOAD = Rule(
    id="support-spacing.load",
    says="Load of a support = weight per length with contents and insulation, times the spacing, and the heaviest valve. Foam insulation is taken at 4 lb/ft3.",
    kind="formula",
    source=Source(title="Sum of weights"),
    standing="computed",
)
EXPANSION = Rule(
    id="support-spacing.room-to-expand",
    says="PVC and ABS drains get room to expand every 30 ft.",
    kind="limit",
    source=Source(title="Uniform Plumbing Code, Table 313.3, read as Minnesota Rules 4714.0313 of 2021 prints it", clause="313.3", publisher="IAPMO"),
    standing="published",
)

ATTACHMENT = Caution(
    id="support-spacing.attachment",
    hazard="structural",
    says="A support is as good as what it is screwed into: fasten to framing, not to sheathing or gypsum, keep lag screws out of the lower edge of a truss chord, and let "
    "the upper attachment carry four times the load before it fails.",
)
NO_WEIGHT_ON_DUCT = Caution(
    id="support-spacing.each-carries-itself",
    hazard="structural",
    says="Plenums, splitter boxes and valves hang by themselves: never from flexible duct, from the unit's collar or from another pipe.",
)
BELLY = Caution(
    id="support-spacing.belly",
    hazard="water-damage",
    says="Water left in a belly grows slime and freezes. Supports within 2 ft of each elbow and at every heavy valve; hot attics want plastic drains hung closer than the code's distance.",
)
CHAFING = Caution(
    id="support-spacing.chafing",
    hazard="refrigerant",
    says="Copper that rubs on a hanger or on framing wears through and leaks: shields outside the insulation, isolating clamps on bare tube, no steel strap on copper.",
)
CRUSHED = Caution(
    id="support-spacing.crushed",
    hazard="air-quality",
    says="A strap that pinches flexible duct or its insulation starves the outlet and sweats: wide straps, full inside diameter, no sharp bend at the support.",
)
FOOTING = Caution(
    id="support-spacing.footing",
    hazard="fall",
    says="Hanging runs in an attic means standing on joists: lay planks or panels first; a ceiling does not carry a person.",
)
