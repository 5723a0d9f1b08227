"""The hazards of measuring and testing that no figure removes."""

from kneewall.kernel.rule import Caution

LIVE = Caution(
    id="commissioning-check.live-parts",
    hazard="electrical",
    says="Power is measured on live parts: that is for a qualified person with rated instruments and protection. Panels go back on before the blower runs.",
)
ATTIC = Caution(
    id="commissioning-check.attic",
    hazard="fall",
    says="Readings in an attic are taken from a floored passage with light, not from between the joists.",
)
AIRFLOW_FIRST = Caution(
    id="commissioning-check.airflow-first",
    hazard="refrigerant",
    says="Set airflow and water flow right before touching the charge: with too little of either, pressures lie and charge is added or taken for nothing.",
)
REFRIGERANT = Caution(
    id="commissioning-check.refrigerant",
    hazard="refrigerant",
    says="Only a certified technician opens the circuit or changes the charge. Refrigerant burns skin by frost, displaces air in a closed attic, and is recovered, not vented.",
)
FLAMMABLE = Caution(
    id="commissioning-check.flammable",
    hazard="refrigerant",
    says="This refrigerant can burn: no flame, no spark, leak detector on, air moving, and tools made for it. Its maker's charge and room limits rule.",
)
NITROGEN = Caution(
    id="commissioning-check.nitrogen",
    hazard="pressure",
    says="Nitrogen comes at over 2000 psig: regulator and relief between bottle and lines, nobody in front of joints while it rises, and no more than the weakest "
    "part allows. Oxygen with oil explodes. In a closed space nitrogen takes the air you breathe.",
    rule="commissioning-check.test-gas",
)
CODE = Caution(
    id="commissioning-check.code",
    hazard="pressure",
    says="Test pressures, times and witnesses are set by the local code and the maker's manual; where they ask for more than this answer, they rule.",
)
WATER_PRESSURE = Caution(
    id="commissioning-check.water-ports",
    hazard="water-damage",
    says="A probe pulled from a pressure port, or a hose that slips, floods the ceiling below: keep the port's cap and the shut-off valve at hand.",
)
COIL_FREEZES = Caution(
    id="commissioning-check.coil-freezes",
    hazard="freezing",
    says="Low water flow in heating, or low airflow in cooling, freezes a coil; frozen water splits it and joins the water with the refrigerant.",
)
CEILING = Caution(
    id="commissioning-check.ceiling",
    hazard="water-damage",
    says="The pour test is made with somebody watching the ceiling, pans and switch. A trap dries out in winter: prime it again before each cooling season.",
)
