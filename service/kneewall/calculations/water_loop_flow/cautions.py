"""The hazards of a water loop that no figure removes."""

from kneewall.kernel.rule import Caution

PRESSURE = Caution(
    id="water-loop-flow.pressure",
    hazard="pressure",
    says="Let the pressure off and shut both sides before opening a union or hose. Test the pipes with water, not air, and read the ratings of hoses, "
    "valves and joints: they may hold less than the pipe.",
)
FREEZING = Caution(
    id="water-loop-flow.freezing",
    hazard="freezing",
    says="A coil that freezes splits and lets water into the refrigerant. Set the unit's freeze switch for the fluid that is really in the loop, prove the flow "
    "before the compressor runs, and keep pipes in an attic or crawl space from freezing when the units rest.",
)
WATER_DAMAGE = Caution(
    id="water-loop-flow.water-damage",
    hazard="water-damage",
    says="Cold pipes sweat in an attic or crawl space: insulate them with a vapor seal. A leak at a coil in the attic runs through the house: put a pan "
    "with a drain or a shut-off switch under it.",
)
WATER_QUALITY = Caution(
    id="water-loop-flow.water-quality",
    hazard="water-damage",
    says="Have the water analyzed before choosing the coil: hardness and pH scale it, iron, sulfide, chloride and sand destroy it. Fit a strainer and "
    "leave room to flush with acid.",
)
DISCHARGE = Caution(
    id="water-loop-flow.discharge",
    hazard="environment",
    says="Drawing well water and letting it go to a pond, a ditch or a return well may need permits; many places bar the sanitary sewer. Ask before piping.",
    rule="water-loop-flow.licences",
)
CROSS_CONNECTION = Caution(
    id="water-loop-flow.cross-connection",
    hazard="biological",
    says="Loop water never goes back into drinking water: backflow preventer or check valve upstream as the code asks, an air gap at the drain, and none "
    "of the cleaning acid toward the house.",
    rule="water-loop-flow.licences",
)
EXPANSION = Caution(
    id="water-loop-flow.expansion",
    hazard="pressure",
    says="A closed loop that is filled and shut has nowhere to grow: an expansion tank holds its pressure as it warms and cools, and a relief valve set "
    "below the weakest part opens where that fails, its outlet led to where nobody is scalded or soaked.",
)
ANTIFREEZE = Caution(
    id="water-loop-flow.antifreeze",
    hazard="environment",
    says="The fraction here is by mass; charts and labels often speak of volume, and products come diluted. Measure the mixture with a refractometer made for "
    "that fluid, use only what the state allows, and protect the fill with a backflow preventer. Methanol and ethanol are flammable and methanol is poisonous.",
)
RELAYS = Caution(
    id="water-loop-flow.relays",
    hazard="electrical",
    says="Two units that call one valve do so through isolated relay contacts: never join two 24 V transformers. Check the valve's VA against the transformer "
    "that feeds it, and let the valve's end switch start the compressor. Lock out power first.",
)
CLOSING = Caution(
    id="water-loop-flow.closing",
    hazard="pressure",
    says="Most valves stop most of the flow in the last part of their travel: the time that counts may be a third of the time on the label.",
)
BALANCE_FIRST = Caution(
    id="water-loop-flow.measure",
    hazard="freezing",
    says="Measure the flow at the pressure ports of each coil when the loop runs, with the reading at rest taken off: pipe, coil and scale differ from tables.",
)
