"""The formulas that a commissioning check rests on; `limits.py` holds what it holds the figures to."""

from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source

PROPAGATION = Rule(
    id="commissioning-check.propagation",
    says="The uncertainty of a figure is the root of the sum of squares of sensitivity times uncertainty over the readings it rests on, to first order; "
    "readings count as independent, and a reading or an instrument's error that comes in twice is counted with its sign.",
    kind="formula",
    source=Source(
        title="Guide to the Expression of Uncertainty in Measurement, JCGM 100; the law read as quoted in statistics texts",
        edition="2008",
        clause="5.1.2",
        publisher="Joint Committee for Guides in Metrology",
    ),
    standing="published",
)
BAND = Rule(
    id="commissioning-check.band",
    says="A figure meets a limit when its whole band lies on the right side, fails when the whole band lies on the wrong side, and is to be watched when "
    "the limit lies inside the band.",
    kind="practice",
    source=Source(title="The role of measurement uncertainty in conformity assessment, JCGM 106: guarded acceptance and rejection", edition="2012"),
    standing="from-memory",
)
EXTERNAL_STATIC = Rule(
    id="commissioning-check.external-static",
    says="Total external static pressure is the return side's suction plus the supply side's pressure; a filter that loads up adds what its drop grows by, "
    "at the same airflow, which is on the safe side.",
    kind="formula",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
AIR_HEAT = Rule(
    id="commissioning-check.air-heat",
    says="Heat in the air is dry-air mass flow times the difference of enthalpy, or of temperature times specific heat; the volume flow is taken at the "
    "density of the entering air. Heat carried away by the condensate, under 1 %, is left out.",
    kind="formula",
    source=Source(title="Energy balance of moist air; 1.08 x cfm x dT and 4.5 x cfm x dh at standard air"),
    standing="computed",
)
WATER_HEAT = Rule(
    id="commissioning-check.water-heat",
    says="Heat in the water is density times specific heat times flow times temperature change: density where it enters, specific heat at its mean temperature.",
    kind="formula",
    source=Source(title="Energy balance of water; 500 x gpm x dT within 1 % for plain water"),
    standing="computed",
)
BALANCE = Rule(
    id="commissioning-check.balance",
    says="In cooling the water carries the heat from the air plus all electric power, in heating the heat to the air less all electric power; losses of the "
    "cabinet are left out.",
    kind="formula",
    source=Source(title="Energy balance of the unit"),
    standing="computed",
)
COIL = Rule(
    id="commissioning-check.coil",
    says="Flow by the coil's pressure drop: q = q0 (dp/dp0)^(1/n), n as given or 1.85; for other liquids than water at 60 degF dp0 goes with density to the "
    "power n-1 and viscosity to the power 2-n. The difference read with the water standing is subtracted first.",
    kind="formula",
    source=Source(title="Power law of turbulent flow, f going with Re^(n-2)"),
    standing="computed",
)
GAS_LAW = Rule(
    id="commissioning-check.gas-law",
    says="A gas shut in keeps p/T: the pressure to expect is p1 T2/T1, absolute pressures and absolute temperatures.",
    kind="formula",
    source=Source(title="Gas law at constant volume"),
    standing="computed",
)
AGREEMENT = Rule(
    id="commissioning-check.agreement",
    says="Two ways to the same figure agree when they differ by no more than their common uncertainty.",
    kind="practice",
    source=Source(title="Guide to the Expression of Uncertainty in Measurement, JCGM 100; our reading of it", edition="2008"),
    standing="computed",
)
TRAP_BALANCE = Rule(
    id="commissioning-check.trap-balance",
    says="Draw-through: the trap's outlet must lie below the pan by more than the suction, and the seal must exceed half of it. Blow-through: the seal must "
    "exceed the pressure. One inch of water column is one inch of height.",
    kind="formula",
    source=Source(title="Balance of two water columns in a trap of equal bore, worked out by hand"),
    standing="computed",
)
