"""What the whole job rests on beside its parts, and its cautions."""

from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Rule, Source

WORST_PART = Rule(
    id="retrofit-check.worst-part",
    says="The job is as good as its worst part: it fails where any part or any clash fails, and is referred where any part is referred.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
PAN_PRESSURE = Rule(
    id="retrofit-check.pan-pressure",
    says="The pan of a draw-through unit feels at worst what lies before the fan: return ducts and components, filters at twice their clean drop, and the "
    "wet coil as a component or as the unit's coil pressure drop; a blow-through unit what lies after the fan; never the whole external static pressure.",
    kind="formula",
    source=Source(title="Condensate traps for cooling coils (engineering article, read in a copy)"),
    standing="published",
)
HANGING_HEIGHT = Rule(
    id="retrofit-check.hanging-height",
    says="The unit hangs as high as trap, drain, air gap, pan and channel need, and as low as the rafters need.",
    kind="limit",
    source=Source(title="Follows from the drain's own fall and the elevations of the question"),
    standing="computed",
)
CLEAR_SPACE = Rule(
    id="retrofit-check.clear-space",
    says="Sheet metal is counted with 2 in of wrap on every side between attic floor and rafters.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
BLOWER_AND_DUCTS = Rule(
    id="retrofit-check.blower-and-ducts",
    says="Ducts and blower agree where the unit moves its design air within 10 %; to another flow the ducts' pressure is carried by the power 1.9.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
STRONGER_SUPPLY = Rule(
    id="retrofit-check.stronger-supply",
    says="More pressure at the supply is advised only after the loop was worked out with it: a tank's switch raised at both ends, a pump's whole curve, a fixed pressure "
    "itself; pressure at rest, pipes, and units and tank whose plates are stated must bear it.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
WATER_AND_SUPPLY = Rule(
    id="retrofit-check.water-and-supply",
    says="Every unit needs its required flow; to another flow the loop's pressure is carried by the power 1.9, a valve's by the square.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ONE_LINE_TWO_MODES = Rule(
    id="retrofit-check.one-line-two-modes",
    says="A heat pump's vapor line must serve cold vapor in cooling and hot gas in heating with one size.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
PAN_AND_LOOP_LEAK = Rule(
    id="retrofit-check.pan-and-loop-leak",
    says="An auxiliary pan and its drain are made for condensate and cannot hold a leak of the loop; where loop water runs to the unit a sensor must shut a valve on its supply side.",
    kind="limit",
    source=Source(title="Follows from the pan's volume and the loop's flow"),
    standing="computed",
)
STATED_TWICE = Rule(
    id="retrofit-check.stated-twice",
    says="What a part states counts there. Where the shared facts or another part give it too and the two differ (sizes and heights by more than 1/8 in, the height "
    "between the units by more than 2 ft, temperatures by 1 °F, other figures by 5 %), both are named.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LOOP_HEIGHTS = Rule(
    id="retrofit-check.loop-heights",
    says="Where the loop's pipes do not tell it, the hung unit's water coil stands above the loop's supply by its elevation less that of the supply: the unit's underside where "
    "loop water runs to it, else the other end of its refrigerant lines; the outlet of an open loop likewise. Where they tell it, both are held against each other within 1 ft.",
    kind="formula",
    source=Source(title="Difference of heights"),
    standing="computed",
)
ACCESS_SPACE = Rule(
    id="retrofit-check.access-space",
    says="30 in of level space stay free beside what hangs wider than the unit: pan and rods.",
    kind="limit",
    source=Source(title="International Residential Code", edition="2018", clause="M1305.1", publisher="International Code Council"),
    standing="published",
)
SHEET_WEIGHT = Rule(
    id="retrofit-check.sheet-weight",
    says="Sheet metal is counted as 24 gauge galvanized at 1.156 lb/ft2, 15 % over the plain surface for seams and offcuts; the rods carry half of a plenum that hangs on the unit's collar.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
STOCK_LENGTHS = Rule(
    id="retrofit-check.stock-lengths",
    says="Quantities are net, without waste. Pipe, rod, channel and spiral duct come in 10 ft lengths, round metal duct in 5 ft, flexible duct in 25 ft, refrigerant tube in coils of 50 ft, "
    "insulation in 6 ft, strap in 100 ft, sheet and panels in 4 by 8 ft, wrap in rolls of 200 ft2. Orders are whole ones: pieces are cut longest first from what is left of the last; "
    "one that is longer is joined. Waste, couplings, solder, glue, screws and sealant are the buyer's to add.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LEVEL_AND_PLUMB = Rule(
    id="retrofit-check.level-and-plumb",
    says="A line whose ends differ in height is taken to run level and plumb: as much of it stands upright as its ends differ, and that much is held as a riser. "
    "A level or upright piece shorter than 2 ft is held by the supports on either side of its corners. The hangers of a drain's slope are those of a level run.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
PROVE_BEFORE_COVERING = Rule(
    id="retrofit-check.prove-before-covering",
    says="Each stage is proved before the next one covers it.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
CONFLICT_RULES = {
    "ducts and blower": BLOWER_AND_DUCTS,
    "water and supply": WATER_AND_SUPPLY,
    "hanging height and drain": HANGING_HEIGHT,
    "headroom": HANGING_HEIGHT,
    "room below": HANGING_HEIGHT,
    "sheet metal and clear space": CLEAR_SPACE,
    "one line, two modes": ONE_LINE_TWO_MODES,
    "pan and loop leak": PAN_AND_LOOP_LEAK,
    "access and what hangs there": ACCESS_SPACE,
    "stated twice": STATED_TWICE,
    "heights of the loop": LOOP_HEIGHTS,
}

WORK_IN_ATTICS = Caution(
    id="retrofit-check.work-in-attics",
    hazard="fall",
    says="Attics are hot, dark and open between joists: walkway and light come first, two people lift, and nobody works there alone on a hot day.",
)
PERMITS = Caution(
    id="retrofit-check.permits",
    hazard="structural",
    says="Permits, inspections and licenses are local. Framing, wiring, refrigerant and potable water each want the person licensed for it.",
)
POWER_OFF = Caution(
    id="retrofit-check.power-off",
    hazard="electrical",
    says="Lock out the power of the old unit before the first screw is turned, and of the new one until the last wire is covered.",
)
