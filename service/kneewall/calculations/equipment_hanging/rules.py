"""What equipment hanging rests on: loads, rods, channel, isolators, framing and earthquake."""

from pathlib import Path

from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source
from kneewall.kernel.table import load_table

_TABLES = Path(__file__).parent / "tables"
ROD_TABLE_2002 = load_table(_TABLES / "rod_loads_2002.toml")
ROD_TABLE_BEFORE_2002 = load_table(_TABLES / "rod_loads_before_2002.toml")
CHANNEL_TABLE = load_table(_TABLES / "channels.toml")
UNBRACED_TABLE = load_table(_TABLES / "unbraced_factor.toml")

PAN_FULL = Rule(
    id="equipment-hanging.pan-full",
    says="The pan is counted full of water to its rim, 62.4 lb/ft3: it is full on the day its drain is blocked, and that is the day it must not fall.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ROD_SHARES = Rule(
    id="equipment-hanging.rod-shares",
    says="With the weight off center by u and v of the half distances between rods, a stiff frame on four equally springy rods gives each "
    "W/4 (1 +- u +- v), on three rods where the fourth would have to push; two separate trapezes give W/4 (1 +- u)(1 +- v). "
    "Each rod is judged by the larger of the two, so the four do not add up to W.",
    kind="formula",
    source=Source(title="Statics of a rigid body on four supports, as in any text of mechanics"),
    standing="computed",
)
SLACK_ROD = Rule(
    id="equipment-hanging.slack-rod",
    says="Four rods are never equally tight. Under a stiff frame with one rod slack the other three are statically determinate: the worst of them "
    "carries W/2 (1 + the smaller of u and v), half of everything where the weight stands on a center line.",
    kind="formula",
    source=Source(title="Statics of a rigid body on three supports, as in any text of mechanics"),
    standing="computed",
)
CHANNEL_STRESS = Rule(
    id="equipment-hanging.channel-stress",
    says="The channel may be stressed to 25 000 psi in bending, less where it is pierced or not braced sideways; its modulus of elasticity is 29.5 million psi. "
    "Both are what reproduces the makers' beam tables.",
    kind="limit",
    source=Source(title="Beam tables of channel makers' manuals, 12 gauge 1-5/8 x 1-5/8 in; the stress is stated in them"),
    standing="common-practice",
)
CHANNEL_PIERCING = Rule(
    id="equipment-hanging.channel-piercing",
    says="Channel with round holes carries 0.95, with long slots 0.90 of what solid channel carries; long slots are taken where nothing is said.",
    kind="practice",
    source=Source(title="Inferred from the beam table of one channel maker's manual, 16 gauge"),
    standing="common-practice",
)
CHANNEL_POINT_LOADS = Rule(
    id="equipment-hanging.channel-point-loads",
    says="The channel carries two point loads at an inset a from its supports, each as large as the largest rod load: moment P a, deflection "
    "P a (3 L^2 - 4 a^2)/(24 E I). A beam table for uniform load does not apply; where no inset is given both loads stand at midspan.",
    kind="formula",
    source=Source(title="Elementary theory of elastic beams, as in any text of strength of materials"),
    standing="computed",
)
CHANNEL_DEFLECTION = Rule(
    id="equipment-hanging.channel-deflection",
    says="A channel that sags more than 1/240 of its span under a unit looks wrong and tilts the drain pan.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LISTED_WEIGHTS = Rule(
    id="equipment-hanging.listed-weights",
    says="Count the plenum's share, the pan's metal, piping with its water, the rods and the channel with the unit.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ROD_CLEARANCE = Rule(
    id="equipment-hanging.rod-clearance",
    says="Rods of a trapeze pass beside the unit, so they stand further apart than the unit is wide.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ISOLATION = Rule(
    id="equipment-hanging.isolation",
    says="On isolators that sink by d the unit swings at sqrt(g/d)/(2 pi). At r times that frequency the share of the force that passes is "
    "sqrt((1 + (2 z r)^2)/((1 - r^2)^2 + (2 z r)^2)): more than all of it below r = 1.414, less above.",
    kind="formula",
    source=Source(title="Lecture notes on vibration isolation", publisher="City University of Hong Kong"),
    standing="published",
)
ISOLATION_WORTH = Rule(
    id="equipment-hanging.isolation-worth",
    says="Isolators are picked to keep back at least 80 % of the force at the slowest speed, about 2.45 times the natural frequency without damping.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
FRAMING_REFERRED = Rule(
    id="equipment-hanging.framing",
    says="Span tables for rafters and joists leave out point loads. The load is spread over at least three members and a structural engineer or the "
    "building department decides whether they carry it.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
TRUSS_REFERRED = Rule(
    id="equipment-hanging.truss",
    says="A truss is not cut, notched, drilled or altered, and no load such as heating or cooling equipment is added to it, without a registered "
    "design professional's approval.",
    kind="limit",
    source=Source(
        title="International Residential Code, alterations to trusses, as quoted on an inspectors' forum (2012 text of R502.11.3; R802.10.4 for roofs)",
        edition="2012",
        clause="R502.11.3, R802.10.4",
        publisher="International Code Council",
    ),
    standing="published",
)
MEMBER_SHARE = Rule(
    id="equipment-hanging.member-share",
    says="A member gets whole rods: one rod brings its largest load, one other being slack; two along one side bring W/2 (1 + the larger of u and v), "
    "whichever rod is slack; more bring everything. Blocking or channel that spreads a rod over several members is not counted.",
    kind="formula",
    source=Source(title="Statics of a rigid body on four supports, as in any text of mechanics"),
    standing="computed",
)
SPREAD = Rule(
    id="equipment-hanging.spread",
    says="Spread a hung unit over at least three members.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ATTIC_LIVE_LOAD = Rule(
    id="equipment-hanging.attic-live-load",
    says="Attic framing is designed for 10 psf, or 20 psf where limited storage fits (a box 24 in wide and 42 in high). A hung unit usually weighs more than that on its "
    "footprint and brings it on a few points.",
    kind="limit",
    source=Source(
        title="International Residential Code, live loads, as adopted in Washington (WAC 51-51-0301)",
        clause="Table R301.5, notes b and g",
        publisher="International Code Council",
    ),
    standing="published",
)
ADDED_BENDING = Rule(
    id="equipment-hanging.added-bending",
    says="A member's share at midspan adds P L/4 to its bending moment, and that over its section modulus to its stress; roof, ceiling and snow come on top.",
    kind="formula",
    source=Source(title="Elementary theory of elastic beams, as in any text of strength of materials"),
    standing="computed",
)
SEISMIC = Rule(
    id="equipment-hanging.seismic",
    says="Mechanical components are exempt from earthquake design in categories A and B, and in C where the importance factor is 1.0. In D, E and F "
    "only with flexible connections and either up to 400 lb mounted up to 4 ft above a floor, or up to 20 lb: a hung unit is not exempt.",
    kind="limit",
    source=Source(
        title="Minimum Design Loads for Buildings and Other Structures",
        edition="ASCE 7-05",
        clause="13.1.4",
        publisher="American Society of Civil Engineers",
    ),
    standing="published",
)
