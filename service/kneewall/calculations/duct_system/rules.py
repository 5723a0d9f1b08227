"""What the duct system rests on beside the physics of ducts, and its cautions."""

from pathlib import Path

from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Rule, Source
from kneewall.kernel.table import load_table

LEAKAGE_TABLE = load_table(Path(__file__).parent / "tables" / "leakage_class.toml")
LEAKAGE = LEAKAGE_TABLE.rule

SPLITTER_BOX = Rule(
    id="duct-system.splitter-box",
    says="A splitter box costs each duct that leaves it 1.5 velocity pressures of that duct; it is two to three times as wide as its entrance and no "
    "longer than twice its width, its outlets are on the sides, the first at least two entrance diameters in.",
    kind="practice",
    source=Source(
        title="Manual D, group 11, and HVAC Systems and Equipment 2012, as quoted in a Building America presentation on junction boxes; one "
        "coefficient fitted to the quoted lengths",
        publisher="ACCA; ASHRAE; National Renewable Energy Laboratory",
    ),
    standing="published",
)
NETWORK = Rule(
    id="duct-system.network",
    says="Air divides so that every path from the unit to the room loses the same pressure, and the blower delivers what it delivers against that pressure; "
    "losses are total-pressure losses, and the velocity pressures at the unit's two collars are taken as equal.",
    kind="formula",
    source=Source(title="Continuity and energy in a branched network, solved by Newton's method"),
    standing="computed",
)
FRICTION_RATE = Rule(
    id="duct-system.friction-rate",
    says="The friction rate is what blower and components leave for ducts, fittings and outlets, spread over the length that the worst supply and the worst return path are worth.",
    kind="formula",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
USUAL_FRICTION_RATE = Rule(
    id="duct-system.usual-friction-rate",
    says="In houses a friction rate between 0.06 and 0.18 in. w.g. per 100 ft is usual: below it ducts grow large, above it they are heard. A rate found from the blower is never set above it.",
    kind="limit",
    source=Source(title="Manual D, friction rate chart", publisher="ACCA"),
    standing="from-memory",
)
BLOWER_LIMIT = Rule(
    id="duct-system.blower-limit",
    says="What the system takes at the design airflow must not be more than the blower has there.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
RATED_LIMIT = Rule(
    id="duct-system.rated-limit",
    says="The external static pressure must not be above what the unit is rated for.",
    kind="limit",
    source=Source(title="The unit's own rating, as the question states it"),
    standing="common-practice",
)
OUTLET_AIRFLOW = Rule(
    id="duct-system.outlet-airflow",
    says="An outlet should give its design airflow within 10 %.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ASKED_LIMIT = Rule(
    id="duct-system.asked-limit",
    says="The friction rate and velocity limits that the question asks for hold for sizes that it gives, too.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
BRANCHES = Rule(
    id="duct-system.branches",
    says="A duct loses pressure where it leaves a plenum or a trunk: each needs its take-off, entrance or loss coefficient, but for one that goes straight on.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
BALANCED_SIDES = Rule(
    id="duct-system.balanced-sides",
    says="What the supply outlets give and what the return grilles take should agree within 5 %; a shortfall is drawn through cracks and joints.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
TRUNK_VELOCITY = Rule(
    id="duct-system.usual-velocity",
    says="A section that ends at an outlet counts as a branch, one that carries a whole side or feeds others as a trunk; air is heard above the velocity "
    "usual at that place.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
FLOW_REGIME = Rule(
    id="duct-system.flow-regime",
    says="Between Reynolds numbers 2000 and 4000 the flow may flip between laminar and turbulent, and no friction figure is better than a guess.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
LEAKAGE_SHARE = Rule(
    id="duct-system.leakage-share",
    says="More than 5 % of the air lost through joints is worth sealing.",
    kind="limit",
    source=Source(title="California Energy Code as told in a trade page: 5 % for new ducts"),
    standing="common-practice",
)
EFFECTIVE_RESISTANCE = Rule(
    id="duct-system.effective-resistance",
    says="Round insulated duct resists less than its label says: supply 2.2438 + 0.5619 R, return 2.0388 + 0.7053 R, bare 1.7 ft2.h.degF/Btu.",
    kind="formula",
    source=Source(
        title="Study of 2006 on effective duct insulation, as quoted in a source file of an open building-energy programme",
        publisher="National Renewable Energy Laboratory",
    ),
    standing="published",
)
HEAT_GAIN = Rule(
    id="duct-system.heat-gain",
    says="Air in a duct nears the temperature around it by exp(-U A/(m c)), U the inverse of the effective resistance, A the duct's inner surface.",
    kind="formula",
    source=Source(title="Course notebook on air distribution: temperature change of air in a duct"),
    standing="published",
)
HEAT_SHARE = Rule(
    id="duct-system.heat-share",
    says="Ducts that give or take more than 10 % of the sensible heat which their air carries are worth mending; above 25 % rooms at their ends are not served. "
    "The heat carried is counted against a room at 75 degF in cooling and 70 degF in heating.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ATTIC_INSULATION = Rule(
    id="duct-system.attic-insulation",
    says="Supply and return ducts in attics carry at least R-8 from 3 in of diameter up, R-6 below; other places outside the house's envelope ask for less, and "
    "states and editions differ. The local energy code decides.",
    kind="limit",
    source=Source(
        title="International Energy Conservation Code, as quoted on a state's energy-code site", edition="2015", clause="R403.3.1", publisher="ICC"
    ),
    standing="published",
)
SWEATING = Rule(
    id="duct-system.sweating",
    says="A duct sweats where its surface is colder than the dew point around it: T_surface = T_around - (T_around - T_inside) R_s/(R + R_s), R_s 1.32 under "
    "foil and 0.68 under a dull jacket (ft2.h.degF/Btu).",
    kind="formula",
    source=Source(title="Condensation Control on Air Conditioning Ducts (0.68 for a dull jacket from memory)"),
    standing="published",
)

MEASURE_IT = Caution(
    id="duct-system.measure-it",
    hazard="air-quality",
    says="Measure static pressure on both sides of the unit and the air at the outlets when the work is done; real joints, bends and slack differ from a drawing.",
)
RETURN_AIR = Caution(
    id="duct-system.return-air",
    hazard="air-quality",
    says="A return that leaks in an attic, a garage or a crawl space draws in what is there. Depressurized rooms can draw flue gas from fuel-burning appliances: have combustion safety tested.",
)
SWEATING_DUCTS = Caution(
    id="duct-system.sweating-ducts",
    hazard="water-damage",
    says="Condensate on ducts drips on ceilings and feeds mold. Foil runs colder than a dull jacket and needs about twice the insulation; keep the vapor retarder whole and the insulation uncompressed.",
)
STRUCTURE = Caution(
    id="duct-system.do-not-cut-framing",
    hazard="structural",
    says="Do not cut or notch rafters, joists or trusses to pass a duct without a licensed engineer's word.",
)
"""Said for every system: ducts that do not fit tempt people to cut."""
