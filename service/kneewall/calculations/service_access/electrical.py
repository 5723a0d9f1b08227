"""Light, receptacle and disconnect at the equipment."""

from kneewall.calculations.service_access import rules
from kneewall.calculations.service_access.judged import Judged
from kneewall.calculations.service_access.messages import ServiceAccessQuestion
from kneewall.kernel.answer import EQUAL_WITHIN
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length

RECEPTACLE_WITHIN = Length.of(25, "ft")
IN_SIGHT_WITHIN = Length.of(50, "ft")

_LIGHT = {
    "switched-at-entry": Phrase("The light at the equipment is switched at the entry."),
    "switched-elsewhere": Phrase("The light is switched elsewhere: whoever enters walks in the dark. Put a switch at the entry."),
    "none": Phrase("There is no light at the equipment: put one there, switched at the entry."),
}
_IN_SIGHT = Phrase("The disconnect can be seen from the equipment.")
_OUT_OF_SIGHT = Phrase("The disconnect cannot be seen from the equipment: somebody may switch on while hands are inside. Put one in sight.")
_NO_RECEPTACLE = Phrase("There is no receptacle on the level of the equipment: tools and lamps would run from cords through the hatch.")


def check_electrical(judged: Judged, question: ServiceAccessQuestion) -> None:
    """Check light, receptacle and disconnect."""
    lit = question.lighting == "switched-at-entry"
    judged.require("light", "switched-at-entry", question.lighting, "meets" if lit else "fails")
    judged.check("light", "meets" if lit else "fails", rules.LIGHT, _LIGHT[question.lighting])
    _check_receptacle(judged, question)
    _check_disconnect(judged, question)


def _check_receptacle(judged: Judged, question: ServiceAccessQuestion) -> None:
    distance = question.receptacle_distance
    if distance is None:
        judged.require("receptacle distance", RECEPTACLE_WITHIN, "none", "fails")
        judged.check("receptacle", "fails", rules.RECEPTACLE, _NO_RECEPTACLE, limit=RECEPTACLE_WITHIN)
        return
    judged.most("receptacle distance", distance, RECEPTACLE_WITHIN)
    judged.at_most(
        "receptacle", distance, RECEPTACLE_WITHIN, rules.RECEPTACLE,
        meets="The receptacle is {} away, within {}.", breaks="The receptacle is {} away, further than {}: put one nearer, on the same level.",
    )  # fmt: skip
    if question.receptacle_on_load_side:
        says = Phrase("The disconnect also switches off the receptacle: feed it from ahead of the disconnect or from another circuit.")
        judged.check("receptacle feed", "fails", rules.RECEPTACLE, says)
        judged.require("receptacle on the load side", False, True, "fails")


def _check_disconnect(judged: Judged, question: ServiceAccessQuestion) -> None:
    distance, seen = question.disconnect_distance, question.disconnect_in_sight
    near = distance is None or distance <= IN_SIGHT_WITHIN * (1.0 + EQUAL_WITHIN)
    judged.require("disconnect in sight", True, seen, "meets" if seen else "fails")
    if distance is not None:
        judged.most("disconnect distance", distance, IN_SIGHT_WITHIN)
    if seen and distance is not None and not near:
        says = Phrase("The disconnect is {} away; beyond {} it does not count as in sight. Put one nearer.", distance, IN_SIGHT_WITHIN)
    else:
        says = _IN_SIGHT if seen else _OUT_OF_SIGHT
    judged.check(
        "disconnect",
        "meets" if seen and near else "fails",
        rules.DISCONNECT,
        says,
        actual=distance,
        limit=None if distance is None else IN_SIGHT_WITHIN,
    )
