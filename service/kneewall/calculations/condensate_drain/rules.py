"""What the trap, the water and the line rest on; `codes.py` holds what each code says."""

from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source

_MANUALS = Source(title="Installation manuals of equipment makers, which differ; no standard behind them")

TRAP_BALANCE = Rule(
    id="condensate-drain.trap-balance",
    says="The least that can work. Draw-through: the outlet must lie below the pan by more than the suction, and the seal must exceed half of it. "
    "Blow-through: the seal must exceed the pressure. One inch of water column is one inch of height.",
    kind="formula",
    source=Source(title="Balance of two water columns in a trap of equal bore, worked out by hand"),
    standing="computed",
)
TRAP_INCH_MORE = Rule(
    id="condensate-drain.trap-inch-more",
    says="Draw-through: outlet drop H = suction in inches + 1 in, seal J = H/2.",
    kind="formula",
    source=Source(title="Condensate traps for cooling coils, engineering article read in a copy; equipment makers' manuals agree"),
    standing="published",
)
TRAP_TOTAL_DEPTH = Rule(
    id="condensate-drain.trap-total-depth",
    says="Draw-through: total depth H + J of 2.5 times the suction, and never under 3 in.",
    kind="formula",
    source=_MANUALS,
    standing="common-practice",
)
TRAP_BY_BLOWER = Rule(
    id="condensate-drain.trap-by-blower",
    says="Depth equal to the static pressure that the blower can deliver, and never under 1-1/2 in. Read here as the depth of the seal, the larger reading.",
    kind="formula",
    source=_MANUALS,
    standing="common-practice",
)
TRAP_BLOW_THROUGH = Rule(
    id="condensate-drain.trap-blow-through",
    says="Blow-through: seal J = pressure in inches + 1 in, on the fan's full static pressure; outlet 1/2 in below the pan outlet.",
    kind="formula",
    source=COMMON_PRACTICE,
    standing="from-memory",
)
TRAP_BLOW_THROUGH_LEAST = Rule(
    id="condensate-drain.trap-blow-through-least",
    says="Blow-through: seal J = pressure in inches + 1/2 in, the lower of the two margins in use; outlet 1/2 in below the pan outlet.",
    kind="formula",
    source=COMMON_PRACTICE,
    standing="from-memory",
)
VENT = Rule(
    id="condensate-drain.vent-after-trap",
    says="A vent stands after the trap, open above the pan's rim. Before the trap it lets air into a pan under suction and the trap no longer seals.",
    kind="practice",
    source=_MANUALS,
    standing="common-practice",
)
WATER_FROM_AIR = Rule(
    id="condensate-drain.water-from-air",
    says="Water made = mass of dry air times the fall of its humidity ratio across the coil; the air flow is taken at the entering state.",
    kind="formula",
    source=Source(title="Mass balance of moist air on a cooling coil; ASHRAE Handbook - Fundamentals, chapter 1, Psychrometrics", publisher="ASHRAE"),
    standing="from-memory",
)
ENHANCEMENT = Rule(
    id="condensate-drain.enhancement",
    says="Air under pressure takes up a little more vapor than a vacuum: 1.00062 + 3.14e-8 p + 5.6e-7 t^2 times as much, Pa and degC.",
    kind="formula",
    source=Source(title="CIPM equation for the density of moist air, enhancement factor", edition="1981"),
    standing="from-memory",
)
WATER_FROM_CAPACITY = Rule(
    id="condensate-drain.water-from-capacity",
    says="Without air states: capacity times (1 - sensible heat ratio) over 1061 Btu/lb; without a ratio 3 pints/h per ton, which goes with a ratio of 0.72.",
    kind="formula",
    source=Source(title="Heat of condensation of water; 3 pints/h per ton is a rule of trade courses"),
    standing="common-practice",
)
CAPACITY_AGREES = Rule(
    id="condensate-drain.capacity-agrees",
    says="The cooling that goes with the air states should lie within 15 % of the stated capacity, and the sensible share between 0.5 and 1.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
MANNING = Rule(
    id="condensate-drain.manning",
    says="Flow of a sloped pipe by Manning, n = 0.009 for plastic and 0.012 for metal. So small a flow is below Manning's range: a figure of "
    "size only. Flow never decides the size of a condensate drain; slime, sag and air lock do.",
    kind="formula",
    source=Source(title="Manning's equation; coefficients as usual for smooth plastic and for metal pipe"),
    standing="from-memory",
)
FALL = Rule(
    id="condensate-drain.fall",
    says="The run ends at: pan outlet - outlet drop of the trap - slope times length - drops at fittings. It must end above the receiver's rim by the air gap.",
    kind="formula",
    source=Source(title="Sum of heights"),
    standing="computed",
)
AIR_GAP = Rule(
    id="condensate-drain.air-gap",
    says="Air gap to the receiver's rim: as given, else two pipe bores and at least 1 in. That is the Uniform Plumbing Code's figure; with another code "
    "it stands as practice, for no air gap of that code was read.",
    kind="limit",
    source=Source(title="Uniform Plumbing Code, air gaps of indirect waste", publisher="IAPMO"),
    standing="from-memory",
)
CLEARANCE = Rule(
    id="condensate-drain.clear-height",
    says="Below the pan outlet there must be room for outlet drop, seal and the pipe's outside diameter.",
    kind="formula",
    source=Source(title="Sum of heights"),
    standing="computed",
)
PITCH = Rule(
    id="condensate-drain.unit-pitch",
    says="Hang the unit about 1/4 in lower toward its drain, along and across.",
    kind="practice",
    source=_MANUALS,
    standing="common-practice",
)
TRAP_OVER_PAN = Rule(
    id="condensate-drain.trap-over-pan",
    says="The trap and its fittings are the likeliest place of a leak, so the auxiliary pan reaches under them too. The codes do not ask for it.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
PAN_AND_SWITCH = Rule(
    id="condensate-drain.pan-and-switch",
    says="Over a finished ceiling: a pan and a float switch, both.",
    kind="practice",
    source=Source(title="Standard Work Specifications, 5.3003.10", publisher="U.S. Department of Energy"),
    standing="published",
)
PAN_RIM = Rule(
    id="condensate-drain.pan-rim",
    says="A unit that water can harm stands above the flood rim of the auxiliary pan. The rim is the pan's floor and its depth; the floor is taken where the "
    "pan's drain leaves unless it is given.",
    kind="limit",
    source=Source(
        title="International Residential Code, appliances in auxiliary pans",
        edition="2018",
        clause="M1411.3.4",
        publisher="International Code Council",
    ),
    standing="published",
)
LOOP_LEAK = Rule(
    id="condensate-drain.loop-leak",
    says="Time to fill = volume of the pan over the flow, its drain not counted. Auxiliary pans are made for condensate; no code counts one as protection "
    "against loop water. Where no loop flow is given, 3 gpm per ton is taken.",
    kind="formula",
    source=Source(title="Volume over flow; 3 gpm per ton is a common loop flow"),
    standing="computed",
)
LEAK_VALVE = Rule(
    id="condensate-drain.leak-valve",
    says="A leak of the loop is stopped by a valve between supply and break that is closed without power; from the return water comes back where another unit or a "
    "pressure stands behind it. Manual valves within reach besides.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LEVEL_SWITCH = Rule(
    id="condensate-drain.level-switch",
    says="A level switch trips above the outlet of the first drain, or it would stop the unit at every drop, and below the rim over which the water runs, and it stops the unit.",
    kind="limit",
    source=Source(
        title="International Residential Code, auxiliary and secondary drains, fourth way; recalled, not read",
        edition="2018",
        clause="M1411.3.1",
        publisher="International Code Council",
    ),
    standing="from-memory",
)
FREEZING = Rule(
    id="condensate-drain.freezing",
    says="Trap and drain freeze at 32 degF: heat-trace and insulate them, or drain them in winter.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
PUMP_LIFT = Rule(
    id="condensate-drain.pump-lift",
    says="Static lift = highest point of the discharge - pump's lowest water. Where no highest point is given, the discharge rises to where the rest of the "
    "run falls at its slope to the receiver.",
    kind="formula",
    source=Source(title="Sum of heights"),
    standing="computed",
)
HALF_FULL = Rule(
    id="condensate-drain.half-full",
    says="A gravity line that breathes runs no more than half full.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
