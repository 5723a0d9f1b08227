"""Hazards of condensate that figures do not remove."""

from kneewall.kernel.rule import Caution

MAKER_FIRST = Caution(
    id="condensate-drain.maker-first",
    hazard="water-damage",
    says="The unit's own installation manual overrides the trap given here, and the local code the rest. Measure the pan's pressure at dirty filter, wet coil "
    "and top speed; the external static pressure of the system is not it.",
)
ONE_TRAP = Caution(
    id="condensate-drain.one-trap",
    hazard="water-damage",
    says="One trap for each unit, and none further on: a second trap, or a sag in the line, locks air between them and the pan backs up. Any vent stands after "
    "the trap and stays open; a cleanout before the trap of a draw-through unit stays capped.",
)
CLEANABLE = Caution(
    id="condensate-drain.cleanable",
    hazard="biological",
    says="Slime, algae and mold grow in pan, trap and line: make the line clearable without cutting it, put no shut-off valve in it, and flush it every season. "
    "Wear gloves and keep the water off food and drinking surfaces.",
)
DRIES_OUT = Caution(
    id="condensate-drain.dries-out",
    hazard="air-quality",
    says="The seal evaporates in the heating season, and an empty trap draws attic or drain air into the house. Prime it before cooling starts, and never "
    "connect the line to a plumbing vent or straight to a sewer.",
)
FREEZES = Caution(
    id="condensate-drain.freezes",
    hazard="freezing",
    says="Below 32 °F trap, drain, pan drain and loop water freeze and burst: slope, insulate (1 in. with vapor retarder), heat-trace, and give the loop a drain-down.",
)
HOT_PLASTIC = Caution(
    id="condensate-drain.hot-plastic",
    hazard="water-damage",
    says="Plastic pipe sags between hangers in a hot attic and then holds water: hang 3/4 in. PVC every 3 ft or fall 1/4 in. per foot. The code's 4 ft is a ceiling.",
)
SWEATS = Caution(
    id="condensate-drain.sweats",
    hazard="water-damage",
    says="The first feet of the line carry water of about 55 °F and sweat in a humid attic: insulate them, vapor retarder outside.",
)
POWER_OFF = Caution(
    id="condensate-drain.power-off",
    hazard="electrical",
    says="Switch off and lock out the unit before reaching into pan, pump or float switch: water and line voltage stand side by side there.",
)
LOOP_WATER = Caution(
    id="condensate-drain.loop-water",
    hazard="water-damage",
    says="A pan cannot protect against a loop leak. Put hose joints over the pan, a leak sensor low in the pan that closes a normally closed loop valve and stops "
    "compressor and pump, and a hand valve within reach.",
)
PAN_LOAD = Caution(
    id="condensate-drain.pan-load",
    hazard="structural",
    says="A pan full of water hangs on the same rods and framing as the unit: count its weight. Keep the unit and its insulation above the pan's rim.",
)
