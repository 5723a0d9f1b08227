"""The hazards of work on refrigerant lines."""

from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Hazard, Source


def _caution(name: str, hazard: Hazard, says: str, source: Source = COMMON_PRACTICE) -> Caution:
    return Caution(id=f"refrigerant-line-sizing.{name}", hazard=hazard, says=says, source=source)


RECOVERY = _caution(
    "recovery", "refrigerant",
    "Recover the refrigerant; never vent it. Opening, charging and recovery are for certified technicians with equipment approved for this refrigerant.",
    Source(title="Clean Air Act, section 608; 40 CFR part 82, subpart F", clause="82.154", publisher="U.S. Environmental Protection Agency"),
)  # fmt: skip
PRESSURE = _caution(
    "pressure", "pressure",
    "The lines stand several hundred psi. Wear eye protection and gloves, isolate and relieve before cutting or unbrazing, and use hoses and gauges rated for it.",
)  # fmt: skip
NITROGEN_TEST = _caution(
    "nitrogen-test", "pressure",
    "Test for pressure with dry nitrogen through a regulator and relief valve, never with oxygen, air or a flammable gas: oxygen and oil explode. Test at the "
    "pressure on the equipment's plate and stand clear while it rises.",
)  # fmt: skip
PURGED_BRAZING = _caution(
    "purged-brazing", "pressure",
    "Braze with a trickle of nitrogen through the tube, open at the far end; never on a line that holds refrigerant or pressure. Keep flame from wood and "
    "insulation, a fire watch at hand: an attic burns fast. Heated refrigerant gives off poison.",
)  # fmt: skip
EVACUATION = _caution(
    "evacuation", "refrigerant",
    "Evacuate to 500 micron or what the manual says, isolate and watch it hold before any refrigerant is let in: moisture and air break the compressor later.",
)  # fmt: skip
IGNITION = _caution(
    "ignition", "refrigerant",
    "This refrigerant burns. Keep flames, heaters and sparking tools away, ventilate, wear a leak detector made for it, purge with nitrogen before brazing, and use "
    "tools, hoses and recovery machines rated for flammable refrigerant. It gathers low down; attics, closets and pits hold it.",
)  # fmt: skip
MANUAL_FIRST = _caution(
    "manual-first", "refrigerant",
    "The equipment's manual limits line sizes, length, lift, traps and charge, and its listing depends on them: it goes before these figures, and so do the local "
    "code and the authority that inspects.",
)  # fmt: skip
TRAPS = _caution(
    "traps", "refrigerant",
    "Makers disagree on oil traps: some ask one at the foot of a riser and every 20 ft, some an inverted loop at the indoor coil, many none. Follow the manual.",
)  # fmt: skip
EVERY = (MANUAL_FIRST, RECOVERY, PRESSURE, NITROGEN_TEST, PURGED_BRAZING, EVACUATION, TRAPS)
