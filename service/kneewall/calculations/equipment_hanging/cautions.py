"""The hazards of hanging equipment that the figures do not remove."""

from kneewall.calculations.equipment_hanging import anchor_rules, rules
from kneewall.kernel.rule import Caution, Source

OVERHEAD = Caution(
    id="equipment-hanging.overhead",
    hazard="structural",
    says="What hangs over a ceiling can kill. Nobody stands below while it is raised; raise it with a lift rated for it, tighten the four rods evenly, lock every "
    "nut with a second one, and look at every anchor again after a month.",
)
BEARING = Caution(
    id="equipment-hanging.bearing",
    hazard="structural",
    says="The lips of a channel spread under a bare nut: put a square washer that fits the channel and a nut on both sides of it at every rod.",
)
SPLITTING = Caution(
    id="equipment-hanging.splitting",
    hazard="structural",
    says="A screw pulled from the lower edge tends to split the member along the grain. Attach above mid-depth: blocking between members, a saddle over the "
    "top, or a bracket on the side is better than a screw from below.",
    source=Source(title="Note on attaching below the neutral axis", publisher="Structural Building Components Association"),
)
TRUSS = Caution(
    id="equipment-hanging.truss-chord",
    hazard="structural",
    says="Do not drive a screw into a truss chord or web, and do not hang anything from one, before the truss designer has given the place, the weight and the detail in writing.",
    rule=rules.TRUSS_REFERRED.id,
)
TWELVE_INCH_RODS = Caution(
    id="equipment-hanging.short-rods",
    hazard="structural",
    says="Short rods are not brace-free by themselves: the 12 in rule asks for a swivel at the top that takes no bending. Cable bracing leaves isolators free to move.",
    source=Source(title="Note on the 12 in hanger rule", publisher="Vibration Isolation and Seismic Control Manufacturers Association"),
)
HOT_ATTIC = Caution(
    id="equipment-hanging.hot-attic",
    hazard="structural",
    says="Wood that stays above 100 °F holds screws less well. An attic that is hot on summer afternoons only does not count; give the temperature of the wood where the heat stays.",
    rule=anchor_rules.TEMPERATURE.id,
)
FALL = Caution(
    id="equipment-hanging.fall",
    hazard="fall",
    says="Work from planks across the joists: the ceiling between them carries nobody. Never kneel or step on the unit, the pan or the channel; a technician weighs 200 to 300 lb "
    "that no figure here contains.",
)
CABLES = Caution(
    id="equipment-hanging.cables",
    hazard="electrical",
    says="Find the cables before you drill into framing, and switch off and lock out the circuit of the unit before you work on it.",
)
LOOP_LEAK = Caution(
    id="equipment-hanging.loop-leak",
    hazard="water-damage",
    says="The pan guards against condensate only. Where water of a loop runs through the unit, a broken hose fills the pan in about a minute: a leak sensor must close the "
    "loop valve and stop the unit.",
)
FREEZING = Caution(
    id="equipment-hanging.freezing",
    hazard="freezing",
    says="In an attic that falls below 32 °F the trap, the pan's drain and the water in the unit freeze: slope and insulate the lines, heat them, or drain them down.",
)
NO_PAN = Caution(
    id="equipment-hanging.no-pan",
    hazard="water-damage",
    says="No pan was counted. Over a finished ceiling the codes ask for an auxiliary pan or a float switch; give the pan here, for its water can weigh as much as a person.",
)
RIGID_CONNECTIONS = Caution(
    id="equipment-hanging.rigid-connections",
    hazard="structural",
    says="Isolators do nothing if a stiff duct, pipe or conduit bridges them: use flexible duct connectors, hose kits and a loop of flexible conduit.",
)
