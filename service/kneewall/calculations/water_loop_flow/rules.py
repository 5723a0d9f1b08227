"""What a water loop rests on beside the physics of pipes, networks and hammer."""

from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source

HEAT_BALANCE = Rule(
    id="water-loop-flow.heat-balance",
    says="In cooling the water takes the net capacity and all the electric power; in heating it gives the net capacity less the power. The flow carries "
    "density times heat capacity per degree, taken at the water's temperature and not as 500 Btu/h per gpm and degree.",
    kind="formula",
    source=Source(title="Energy balance of the unit as a whole"),
    standing="computed",
)
REQUIRED_FLOW = Rule(
    id="water-loop-flow.required-flow",
    says="A unit needs the largest of: the flow that keeps leaving water above its limit in heating, the flow that keeps the rise in cooling within "
    "its limit, and the least flow its maker allows.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LEAVING_LIMIT = Rule(
    id="water-loop-flow.leaving-limit",
    says="The refrigerant evaporates about 10 °F below the leaving water, so the strict limit is 10 °F above the freezing point (42 °F for water); makers of "
    "coaxial coils allow water down to 35 to 38 °F. Taken where nothing is said: 38 °F for water, 10 °F above freezing with antifreeze.",
    kind="limit",
    source=Source(
        title="Design guide for closed-loop systems of an electric cooperative, after IGSHPA (strict limit); makers' manuals (35 to 38 °F)"
    ),
    standing="published",
)
RISE = Rule(
    id="water-loop-flow.rise",
    says="Where nothing is said the water may be warmed by 15 °F in an open loop and by 10 °F in a closed one.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
COIL = Rule(
    id="water-loop-flow.coil",
    says="A coil's drop goes by the given power of the flow (1.85 where nothing is said; makers' tables give 1.8 to 2.2) and, for other liquids than "
    "water at 60 °F, with density to the power n-1 and viscosity to the power 2-n.",
    kind="formula",
    source=Source(title="Power law of turbulent flow, f going with Re^(n-2)"),
    standing="computed",
)
STRAINER = Rule(
    id="water-loop-flow.strainer",
    says="A clean strainer loses as a valve of its Cv, times 1.2, 1.4, 1.6 or 1.7 with a screen of 40, 60, 80 or 100 mesh; allow 2 to 4 psi for loading.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
FLOW_REGULATOR = Rule(
    id="water-loop-flow.flow-regulator",
    says="A flow regulator is an orifice up to 2 psi and holds its flow above that (here to 2 % over 100 psi; made ones to 5 or 10 %): it has no K.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
PUMP_CURVE = Rule(
    id="water-loop-flow.pump-curve",
    says="Between the points of its curve a pump's head falls straight with the square of the flow.",
    kind="formula",
    source=Source(title="Parabolic pump curve H = H0 - a q^2, as in texts of pipe-network analysis"),
    standing="from-memory",
)
TANK_DRAWDOWN = Rule(
    id="water-loop-flow.drawdown",
    says="A pressure tank gives V P1 (1/P2 - 1/P3) between cut-out P3 and cut-in P2 with precharge P1, all absolute.",
    kind="formula",
    source=Source(title="Boyle's law for the air in the tank"),
    standing="computed",
)
CYCLING = Rule(
    id="water-loop-flow.cycling",
    says="A well pump should run a minute or more at each start (two from 1 hp up), so the tank should give at least a minute of its flow. "
    "It starts oftenest when half its flow is drawn.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
VELOCITY = Rule(
    id="water-loop-flow.velocity",
    says="Cold water in copper stays below 8 ft/s, in plastic pipe with valves that shut quickly below 5 ft/s, elsewhere below 8.",
    kind="limit",
    source=Source(title="Copper Tube Handbook (8 ft/s, as quoted) and 2018 IRC figure AP103.3(3), note (5 to 8 ft/s); plastic from memory"),
    standing="published",
)
NOISE = Rule(
    id="water-loop-flow.noise",
    says="Above 4 ft/s pipes up to 2 in are heard in quiet rooms.",
    kind="practice",
    source=Source(title="ASHRAE practice for pipe sizing", publisher="ASHRAE"),
    standing="from-memory",
)
PURGE = Rule(
    id="water-loop-flow.purge",
    says="At 2 ft/s or more in every section water carries the air along; keep it up for 15 minutes after the last bubbles, with the coils shut off. "
    "It is no rule for dirt.",
    kind="limit",
    source=Source(title="UFGS-15741N, after IGSHPA 21020", publisher="U.S. Department of Defense"),
    standing="published",
)
ABOVE_ATMOSPHERE = Rule(
    id="water-loop-flow.above-atmosphere",
    says="The highest coil keeps more than the pressure of the atmosphere, better 5 psi, with the valve open and shut; so the valve stands on the "
    "leaving side and keeps the coil full and its minerals dissolved.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LIFTING_DROP = Rule(
    id="water-loop-flow.lifting-drop",
    says="A pilot-operated valve needs a drop across it to lift its body: 0.5 to 5 psi by size and make. A valve that is too large chatters or stays shut.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
SERVICE_PRESSURE = Rule(
    id="water-loop-flow.service-pressure",
    says="Where the pressure at rest is above 80 psi a pressure-reducing valve is wanted.",
    kind="limit",
    source=Source(title="International Residential Code", edition="2024", clause="P2903.3.1, read in a summary", publisher="ICC"),
    standing="published",
)
PIPE_RATING = Rule(
    id="water-loop-flow.pipe-rating",
    says="Every pipe is rated, at the warmest water of the loop, for the highest pressure at rest at its lower end: that of the supply while no water runs, a tank "
    "being at cut-out and a pump against a shut valve, whichever valve is shut or outlet blocked.",
    kind="limit",
    source=Source(title="Hydrostatics; the rating is that of the pipe, joints and hoses may hold less"),
    standing="common-practice",
)
PEAK_PRESSURE = Rule(
    id="water-loop-flow.peak-pressure",
    says="The pressure at rest and the surge together stay below what every pipe that the wave reaches is rated for.",
    kind="limit",
    source=Source(title="As for any pressure pipe; the rating is that of the pipe, joints and hoses may hold less"),
    standing="common-practice",
)
EQUIPMENT_RATING = Rule(
    id="water-loop-flow.equipment-rating",
    says="Units and tank stay within the pressure on their plates: at rest with the supply at its highest, and a coil with the surge of the pipes at its ends besides.",
    kind="limit",
    source=Source(title="The plates of unit and tank, as the question states them"),
    standing="common-practice",
)
CHECK_AT_SUPPLY = Rule(
    id="water-loop-flow.check-valve-at-supply",
    says="A pump has a check or foot valve that keeps the loop full when it stops; without one the water falls back to its resting level, and the pressure at a coil "
    "goes to that of the column below it, -rho g (lift + height). Between check valve and a shut valve the pressure of the pump against a shut valve stays, and water "
    "that warms there needs room.",
    kind="practice",
    source=Source(title="Hydrostatics; common practice of well pumps"),
    standing="common-practice",
)
HEIGHTS = Rule(
    id="water-loop-flow.heights",
    says="Heights follow from the rises of the pipes and from the elevations of units and outlet. A pipe of which no rise is stated is level, or takes up what the others leave; "
    "none climbs more than it is long.",
    kind="formula",
    source=Source(title="Sum of heights"),
    standing="computed",
)
ARRESTER = Rule(
    id="water-loop-flow.arrester",
    says="A quick-closing valve has a water-hammer arrester (ASSE 1010) right before it, which with a valve on the leaving side is the side of the coils; "
    "air chambers fill with water and do not count.",
    kind="limit",
    source=Source(title="International Residential Code", edition="2021", clause="P2903.5, read in a summary", publisher="ICC"),
    standing="published",
)
VACUUM_AFTER = Rule(
    id="water-loop-flow.vacuum-after-valve",
    says="After a valve that shuts, water in a falling discharge runs on and pulls a vacuum, and behind one that shuts at once the pressure falls by "
    "density times wave speed times velocity: below the vacuum the column tears off. A slow valve or a vacuum breaker prevents that.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="from-memory",
)
TOO_MUCH = Rule(
    id="water-loop-flow.too-much-water",
    says="More than half as much again as the flow at which a coil's drop is known is worth a look: fast water wears the coil, and the power law is drawn on. Water "
    "that is let go is paid for.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
BALANCE = Rule(
    id="water-loop-flow.balance",
    says="Units that share a loop should have the same share of what they need, within a tenth; a balancing valve takes up what is too much. Reverse return makes "
    "pipe lengths alike, not coils.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
DEAD_HEAD = Rule(
    id="water-loop-flow.dead-head",
    says="A pump or circulator does not run against a shut valve: an interlock with the valve's end switch stops it, or a pressure switch with a tank, or a "
    "bypass lets enough through.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
COMMON_VALVE = Rule(
    id="water-loop-flow.common-valve",
    says="One valve for several units opens on any call, and then water flows through all of them; a unit's flow does not rise when the other rests.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ISOLATION = Rule(
    id="water-loop-flow.isolation",
    says="Each unit can be shut off on both sides by ball valves with hose connections toward the coil, for flushing and for acid cleaning.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
NO_ANTIFREEZE = Rule(
    id="water-loop-flow.no-antifreeze-in-open-loop",
    says="Antifreeze is never put into water that is let go.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LICENCES = Rule(
    id="water-loop-flow.licences",
    says="Wells, discharge of their water, cross connections with drinking water and plumbing are for the authority and licensed trades to decide.",
    kind="practice",
    source=Source(title="EPA/816-R-99-014s vol. 19 (return wells are Class V injection wells); state and local codes", publisher="EPA"),
    standing="published",
)
ONE_STATE = Rule(
    id="water-loop-flow.one-temperature",
    says="Friction is worked out for the water as it enters; colder water behind the coils loses a few percent more.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="computed",
)
REVERSED = Rule(
    id="water-loop-flow.direction",
    says="Water runs through a coil, a strainer, a flow regulator and a solenoid valve in the direction for which they are made, which is the order of `from` and `to`; "
    "a check valve lets none run the other way.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
