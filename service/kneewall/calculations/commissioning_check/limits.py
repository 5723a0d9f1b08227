"""What the measured figures are held to, and where each limit comes from."""

from kneewall.kernel.quantity import AirflowPerCapacity, AirPressure, Dimension, Duration, Length, Temperature, TemperatureDifference, Vacuum
from kneewall.kernel.rule import COMMON_PRACTICE, Rule, Source

_QUALITY = Source(title="HVAC Quality Installation Specification, ANSI/ACCA 5 QI", edition="2015", publisher="ACCA")
_CALIFORNIA = "Reference Residential Appendix RA3.2, refrigerant charge verification; written for air-cooled units, used here as the yardstick"
_CHARGE = Source(title=_CALIFORNIA, edition="2008 and 2013, read in copies", publisher="California Energy Commission")
_FLAMMABLE = Source(title="UL 60335-2-40, field joints of flammable refrigerants, as equipment manuals give its words")

RATED_STATIC = Rule(
    id="commissioning-check.rated-static",
    says="Total external static pressure must not be above what the unit is rated for, with the filter clean and with it dirty.",
    kind="limit",
    source=Source(title="The unit's own rating, as the question states it"),
    standing="common-practice",
)
DESIGN_STATIC = Rule(
    id="commissioning-check.design-static",
    says="Total external static pressure may be above design by a quarter or by 0.10 in. w.c., whichever is more. Each side is held to its own design "
    "figure, to show where the excess sits.",
    kind="limit",
    source=_QUALITY,
    standing="from-memory",
)
STATIC_SHARE, STATIC_EXTRA = 0.25, AirPressure.of(0.10, "inH2O")
FILTER_CHANGE = Rule(
    id="commissioning-check.filter-change",
    says="A filter is measured clean, below the drop at which the question says it will be changed.",
    kind="limit",
    source=Source(title="The change point that the question states"),
    standing="common-practice",
)
DESIGN_AIRFLOW = Rule(
    id="commissioning-check.design-airflow",
    says="Airflow stays within 15 % of design, unless the question states another share.",
    kind="limit",
    source=_QUALITY,
    standing="from-memory",
)
TABLE_AT_ALTITUDE = Rule(
    id="commissioning-check.table-at-altitude",
    says="A blower table is made for sea-level air and is restated for the altitude by the fan laws, which hold at one speed. Above 2000 ft, where air is 7 % "
    "lighter, a motor that sets its own speed may depart from that by more than the table's own uncertainty.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
TABLE_UP_TO = Length.of(2000, "ft")
AIRFLOW_PER_TON = Rule(
    id="commissioning-check.airflow-per-ton",
    says="In cooling at least 350 cfm per ton with new ducts, 300 with altered ones, also with the filter due for change; more than 450 is not usual.",
    kind="limit",
    source=Source(title="Building Energy Efficiency Standards, Title 24 Part 6, residential airflow", publisher="California Energy Commission"),
    standing="common-practice",
)
LEAST_PER_TON = {"new": AirflowPerCapacity.of(350, "cfm/ton"), "altered": AirflowPerCapacity.of(300, "cfm/ton")}
MOST_PER_TON = AirflowPerCapacity.of(450, "cfm/ton")
SPLIT = Rule(
    id="commissioning-check.temperature-split",
    says="In cooling the temperature split stays within 3 °F of its target for the installer, 4 °F for the verifier. Below target: low capacity; above: low airflow.",
    kind="limit",
    source=Source(title=_CALIFORNIA, clause="RA3.2.2.7", publisher="California Energy Commission"),
    standing="published",
)
SPLIT_WITHIN = {"installer": TemperatureDifference.of(3, "delta_degF"), "verifier": TemperatureDifference.of(4, "delta_degF")}
DESIGN_WATER_FLOW = Rule(
    id="commissioning-check.design-water-flow",
    says="Water flow stays within 10 % of design, unless the question states another share, and not below the least the unit allows.",
    kind="limit",
    source=Source(title="Model-code test of ground-source loops: flow and pressure drop within 10 % of design"),
    standing="from-memory",
)
LEAVING_WATER = Rule(
    id="commissioning-check.leaving-water",
    says="In heating leaving water stays at or above 38 °F, or 10 °F above freezing with antifreeze, unless the question states another limit; at 35 °F "
    "plain water is at the brink of freezing in the coil.",
    kind="limit",
    source=Source(title="Makers' manuals of water-source heat pumps; the 10 °F margin from ground-source guides of electric utilities"),
    standing="common-practice",
)
LEAST_LEAVING, ABOVE_FREEZING = Temperature.of(38, "degF"), TemperatureDifference.of(10, "delta_degF")
HEAT_AGREES = Rule(
    id="commissioning-check.heat-agrees",
    says="Air-side and water-side heat agree within 10 to 15 %; 15 % unless the question states another share.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
CAPACITY = Rule(
    id="commissioning-check.capacity",
    says="Capacity reaches 90 % of the unit's table at the conditions measured.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
CAPACITY_SHARE = 0.90
STEADY = Rule(
    id="commissioning-check.steady",
    says="Charge is read after 15 minutes of steady running.",
    kind="limit",
    source=_CHARGE,
    standing="published",
)
STEADY_AFTER = Duration.of(15, "min")
FLOWS_FIRST = Rule(
    id="commissioning-check.flows-first",
    says="Charge is judged only together with a verified airflow; for a water-source unit the same goes for the water flow.",
    kind="practice",
    source=Source(title=_CALIFORNIA, edition="2013", clause="RA3.2.1.1(b)", publisher="California Energy Commission"),
    standing="published",
)
SUPERHEAT_ORIFICE = Rule(
    id="commissioning-check.superheat-orifice",
    says="With a fixed orifice superheat stays within 5 °F of target for the installer, 6 °F for the verifier.",
    kind="limit",
    source=_CHARGE,
    standing="published",
)
ORIFICE_WITHIN = {"installer": TemperatureDifference.of(5, "delta_degF"), "verifier": TemperatureDifference.of(6, "delta_degF")}
SUPERHEAT_VALVE = Rule(
    id="commissioning-check.superheat-valve",
    says="With an expansion valve superheat lies between 4 and 25 °F for the installer, 3 and 26 °F for the verifier.",
    kind="limit",
    source=_CHARGE,
    standing="published",
)
VALVE_BETWEEN = {
    "installer": (TemperatureDifference.of(4, "delta_degF"), TemperatureDifference.of(25, "delta_degF")),
    "verifier": (TemperatureDifference.of(3, "delta_degF"), TemperatureDifference.of(26, "delta_degF")),
}
SUBCOOLING = Rule(
    id="commissioning-check.subcooling",
    says="With an expansion valve subcooling stays within 3 °F of target for the installer, 4 °F for the verifier (the verifier's figure from memory).",
    kind="limit",
    source=_CHARGE,
    standing="published",
)
SUBCOOLING_WITHIN = {"installer": TemperatureDifference.of(3, "delta_degF"), "verifier": TemperatureDifference.of(4, "delta_degF")}
ONE_PHASE = Rule(
    id="commissioning-check.one-phase",
    says="The suction line carries vapor only and the liquid line liquid only: neither superheat nor subcooling may be below nought.",
    kind="limit",
    source=Source(title="Definition of superheat and subcooling"),
    standing="computed",
)
TEST_GAS = Rule(
    id="commissioning-check.test-gas",
    says="Pressure is tested with dry nitrogen through a regulator; never with oxygen, and not with air.",
    kind="practice",
    source=Source(title="Safety Code for Mechanical Refrigeration, ANSI/ASHRAE 15", edition="1994, interim action"),
    standing="published",
)
HOLD = Rule(
    id="commissioning-check.hold",
    says="The lines hold at least the design pressure of their side: one hour without any drop with flammable refrigerants; 15 minutes is the habit with others.",
    kind="limit",
    source=_FLAMMABLE,
    standing="common-practice",
)
HOLD_FLAMMABLE, HOLD_OTHER = Duration.of(60, "min"), Duration.of(15, "min")
NO_DROP = Rule(
    id="commissioning-check.no-drop",
    says="A corrected drop beyond its own uncertainty is a leak; a smaller one that the gauge shows is to be watched. Where no drop is seen the test counts only if a drop of 1 % of the absolute pressure would "
    "have been seen; otherwise hold longer or read closer.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
DROP_TO_BE_SEEN = 0.01
VACUUM_FLAMMABLE = Rule(
    id="commissioning-check.vacuum-flammable",
    says="With a flammable refrigerant the lines are drawn down to 500 micron and, shut off, rise to no more than 1500 micron in 10 minutes, unless the "
    "question states other limits.",
    kind="limit",
    source=_FLAMMABLE,
    standing="common-practice",
)
VACUUM = Rule(
    id="commissioning-check.vacuum",
    says="With other refrigerants, or one that is not named, the lines are drawn down to 500 micron and, shut off, are still there after 20 minutes, unless the "
    "question states other limits.",
    kind="limit",
    source=Source(title="Two makers' installation manuals: 500 micron held for 20 minutes"),
    standing="common-practice",
)
DRAWN_TO = Vacuum.of(500, "micron")
RISEN_TO_FLAMMABLE, STANDS_FLAMMABLE = Vacuum.of(1500, "micron"), Duration.of(10, "min")
RISEN_TO, STANDS = DRAWN_TO, Duration.of(20, "min")
TRAP_INCH_MORE = Rule(
    id="commissioning-check.trap-inch-more",
    says="Draw-through: outlet drop at least the suction in inches plus 1 in, seal half of that. Blow-through: seal at least the pressure in inches plus 1/2 in.",
    kind="limit",
    source=Source(title="Condensate traps for cooling coils, engineering article read in a copy; blow-through from memory"),
    standing="published",
)
INCH, HALF_INCH = Dimension.of(1.0, "in"), Dimension.of(0.5, "in")
POUR = Rule(
    id="commissioning-check.pour-test",
    says="With the blower running the drain carries at least the design condensate, loses none of the water poured, the trap keeps its seal, and the overflow "
    "switch stops the unit.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
