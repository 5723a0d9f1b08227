"""The hazards of working in an attic that the figures do not remove."""

from kneewall.kernel.rule import Caution, Source

STEP_ON_FLOOR = Caution(
    id="service-access.step-on-floor",
    hazard="fall",
    says="Step on the solid floor only: a ceiling between joists carries nobody. Guard the open hatch while somebody is above, and tie the ladder off.",
)
LADDER = Caution(
    id="service-access.ladder",
    hazard="fall",
    says="Some places ask for a permanent stair or a pull-down ladder rated for 300 lb, and some let existing houses off with an opening for the largest piece: ask the "
    "building department.",
    source=Source(title="Local amendments of the mechanical code, a Texas city's ordinance"),
)
HOUSE_HATCH = Caution(
    id="service-access.house-hatch",
    hazard="fall",
    says="Where this opening is also the house's own attic access, another clause asks for a rough opening of 22 x 30 in and 30 in of headroom above it.",
    source=Source(title="International Residential Code, attic access", clause="R807.1", publisher="International Code Council"),
)
HEAVY_PIECES = Caution(
    id="service-access.heavy-pieces",
    hazard="fall",
    says="A piece that fits still has to be carried down. Two people and a hoist or a slide, nobody below it on the ladder.",
)
ATTIC_LOAD = Caution(
    id="service-access.attic-load",
    hazard="structural",
    says="Attic framing is made for 10 or 20 psf. A walkway of 3/4 in panel takes 2.3 psf of that, a technician is 200 to 300 lb on one spot: do not stack material, "
    "and ask an engineer before a floor goes on trusses.",
)
LOCK_OUT = Caution(
    id="service-access.lock-out",
    hazard="electrical",
    says="Switch off and lock out before a panel comes off, and keep cords and lamps with ground-fault protection. From the 2023 edition on, the electrical code asks for "
    "working space in front of the equipment, 30 in wide and 36 deep.",
    source=Source(title="National Electrical Code 440.14 and 110.26(A), as discussed in the trade", edition="2023", publisher="NFPA"),
)
WITHDRAWAL_LENGTH = Caution(
    id="service-access.withdrawal-length",
    hazard="electrical",
    says="Filter, blower and coil need the clear length that the maker's manual gives, which may be more than 30 in; without it panels are left off and live parts open.",
)
PAN_UNDER_FOOT = Caution(
    id="service-access.pan-under-foot",
    hazard="water-damage",
    says="Nobody steps into or over the auxiliary pan: keep the way to its float switch and trap free, so that they are looked at before they overflow.",
)
