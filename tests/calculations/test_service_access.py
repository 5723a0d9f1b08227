"""Service access against the codes as they are quoted, at its limits, and where it must refuse."""

from copy import deepcopy
from itertools import permutations
from math import cos, radians, sin
from typing import Any

import pytest

from kneewall.calculations.service_access import CALCULATION
from kneewall.calculations.service_access.fit import Way, goes_turned
from kneewall.kernel.refusal import Refusal
from tests.asking import answer, result, value, verdicts

NAME = "service-access"
CODES = ["IRC-2009", "IRC-2012", "IRC-2018", "IMC-2009", "IMC-2018"]
PLAIN: dict[str, Any] = {
    "opening": {"length": "30 in", "width": "22 in"},
    "largest_component": {"length": "28 in", "width": "20 in", "height": "18 in"},
    "passage": {"length": "15 ft", "width": "26 in", "height": "32 in", "floor_width": "24 in", "solid_floor": True},
    "service_space": {"length": "30 in", "width": "30 in", "sides": "all-sides"},
    "lighting": "switched-at-entry",
    "receptacle_distance": "10 ft",
    "disconnect_in_sight": True,
    "floor_panel": {"thickness": "23/32 in", "support_spacing": "24 in", "edges": "tongue-and-groove"},
}


def question(**changes: Any) -> dict[str, Any]:
    """The plain question with `part__field=value`, or `part=whole` put in; None takes a part away."""
    asked = deepcopy(PLAIN)
    for name, given in changes.items():
        part, _, field = name.partition("__")
        if field:
            asked.setdefault(part, {})[field] = given
        elif given is None:
            asked.pop(part, None)
        else:
            asked[part] = given
    return asked


def verdict(check: str, **changes: Any) -> str:
    return verdicts(NAME, question(**changes))[check]


def requirement(item: str, **changes: Any) -> dict[str, Any]:
    found = result(NAME, question(**changes))["requirements"]
    return next(one for one in found if one["item"] == item)  # type: ignore[no-any-return]


def test_the_plain_question_meets_everything() -> None:
    assert set(verdicts(NAME, question()).values()) == {"meets"}


# The codes' figures: IRC M1305.1.3 as quoted in full on two inspectors' sites; IMC 306.3 as quoted on a code forum (published) -----------------


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize(
    ("check", "field", "below", "at", "above", "low"),
    [
        ("opening", "opening__length", "29.99 in", "30 in", "30.01 in", "fails"),
        ("opening", "opening__width", "19.99 in", "20 in", "20.01 in", "fails"),
        ("passage", "passage__height", "29.99 in", "30 in", "30.01 in", "fails"),
        ("floor", "passage__floor_width", "23.99 in", "24 in", "24.01 in", "fails"),
        ("service space", "service_space__length", "29.99 in", "30 in", "30.01 in", "fails"),
        ("service space", "service_space__width", "29.99 in", "30 in", "30.01 in", "fails"),
        ("passage length", "passage__length", "19.99 ft", "20 ft", "20.01 ft", "meets"),
        ("receptacle", "receptacle_distance", "24.99 ft", "25 ft", "25.01 ft", "meets"),
        ("disconnect", "disconnect_distance", "49.99 ft", "50 ft", "50.01 ft", "meets"),
    ],
)
def test_limits_just_below_at_and_above(code: str, check: str, field: str, below: str, at: str, above: str, low: str) -> None:
    """Limits: the codes as quoted; receptacle: NEC 2017 210.63 as quoted on an electricians' forum; 50 ft for in sight: NEC Article 100, from memory."""
    found = [verdict(check, **{field: figure, "code": code}) for figure in (below, at, above)]
    assert found == (["fails", "meets", "meets"] if low == "fails" else ["meets", "meets", "fails"])


@pytest.mark.parametrize(("width", "expected"), [("21.99 in", "fails"), ("22 in", "meets"), ("22.01 in", "meets")])
def test_passage_width(width: str, expected: str) -> None:
    assert verdict("passage", passage__width=width, passage__floor_width="20 in") == expected


def test_sides_of_the_opening_may_be_named_either_way() -> None:
    assert verdict("opening", opening={"length": "20 in", "width": "30 in"}) == "meets"


# The exceptions, which differ -----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("code", "length", "expected"),
    [
        ("IRC-2009", "49.99 ft", "meets"),
        ("IRC-2009", "50 ft", "meets"),
        ("IRC-2009", "50.01 ft", "refer"),
        ("IRC-2012", "400 ft", "refer"),
        ("IRC-2018", "60 ft", "refer"),
        ("IMC-2009", "49.99 ft", "meets"),
        ("IMC-2009", "50 ft", "meets"),
        ("IMC-2009", "50.01 ft", "fails"),
        ("IMC-2018", "50.01 ft", "fails"),
    ],
)
def test_a_passage_one_can_stand_in(code: str, length: str, expected: str) -> None:
    """6 ft high and 22 in wide: 50 ft by both codes; of the residential code an inspectors' forum quotes 50 ft (2006), a Texas copy no limit."""
    assert verdict("passage length", code=code, passage__length=length, passage__height="72 in") == expected


@pytest.mark.parametrize(("height", "expected"), [("71.99 in", "fails"), ("6 ft", "meets"), ("72.01 in", "meets")])
@pytest.mark.parametrize("code", CODES)
def test_six_feet_is_what_makes_a_passage_tall(code: str, height: str, expected: str) -> None:
    assert verdict("passage length", code=code, passage__length="30 ft", passage__height=height) == expected


def test_a_tall_but_narrow_passage_stays_short() -> None:
    narrow = {"passage__width": "21.9 in", "passage__floor_width": "20 in", "passage__height": "80 in", "passage__length": "21 ft"}
    assert verdict("passage length", **narrow) == "fails"


@pytest.mark.parametrize("code", CODES)
def test_the_limit_is_said(code: str) -> None:
    assert value(result(NAME, question(passage__height="80 in", code=code))["passage_length_limit"], "ft") == 50
    assert value(result(NAME, question(code=code))["passage_length_limit"], "ft") == 20


@pytest.mark.parametrize("code", CODES)
def test_equipment_at_the_opening(code: str) -> None:
    """Quotations: the mechanical code drops passage and space; of the residential code some copies do (2006), some keep the space."""
    found = verdicts(NAME, question(code=code, serviced_through_opening=True, passage=None, service_space=None))
    residential = code.startswith("IRC")
    assert found["service space"] == ("refer" if residential else "meets")
    assert found["passage"] == ("refer" if residential else "meets")
    with_space = verdicts(NAME, question(code=code, serviced_through_opening=True, passage=None))
    assert (with_space["passage"], with_space["service space"]) == ("meets", "meets")


@pytest.mark.parametrize("code", CODES)
def test_the_exception_needs_an_opening_that_the_piece_goes_through(code: str) -> None:
    bulky = {"length": "40 in", "width": "38 in", "height": "36 in"}
    found = verdicts(NAME, question(code=code, serviced_through_opening=True, passage=None, service_space=None, largest_component=bulky))
    assert (found["passage"], found["service space"], found["removal through the opening"]) == ("fails", "fails", "fails")


@pytest.mark.parametrize("code", CODES)
def test_no_passage_and_no_exception(code: str) -> None:
    assert verdict("passage", code=code, passage=None) == "fails"


def test_a_passage_is_not_judged_where_none_is_needed() -> None:
    poor = {"length": "12 ft", "width": "18 in", "height": "20 in", "floor_width": "0 in", "solid_floor": False}
    found = verdicts(NAME, question(code="IMC-2018", serviced_through_opening=True, passage=poor))
    assert found["passage"] == "meets" and "floor" not in found


@pytest.mark.parametrize(("length", "refused"), [("19.9 ft", False), ("20 ft", False), ("20.1 ft", True), ("60 ft", True)])
def test_who_stands_in_the_opening_has_no_long_way_to_go(length: str, refused: bool) -> None:
    asked = question(serviced_through_opening=True, passage__length=length, passage__height="73 in")
    if refused:
        with pytest.raises(Refusal) as found:
            result(NAME, asked)
        assert [fault.pointer for fault in found.value.faults] == ["/serviced_through_opening"]
    else:
        assert result(NAME, asked)


def test_the_codes_own_least_passage_is_accepted() -> None:
    """Both codes as quoted: a passage 22 in wide between what narrows it, on a floor 24 in wide, which runs on below that."""
    found = verdicts(NAME, question(passage__width="22 in", passage__floor_width="24 in"))
    assert (found["passage"], found["floor"]) == ("meets", "meets")


@pytest.mark.parametrize(("code", "expected"), [("IRC-2009", "fails"), ("IRC-2018", "fails"), ("IMC-2009", "meets"), ("IMC-2018", "meets")])
def test_where_the_service_space_must_be(code: str, expected: str) -> None:
    """Residential: along all sides where access is required; mechanical: at the front or service side (published quotations)."""
    assert requirement("service space at", code=code, service_space__sides="service-side")["verdict"] == expected


def test_every_edition_is_named_with_its_standing() -> None:
    for code in CODES:
        rules = {rule["id"]: rule for rule in answer(NAME, question(code=code))["rules"]}
        body, edition = code.lower().split("-")
        assert rules[f"service-access.{body}-{edition}"]["standing"] == (
            "from-memory" if edition == "2018" else "published" if body == "imc" else "common-practice"
        )


# Getting the largest piece out ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("sides", sorted(set(permutations(("40 in", "22 in", "19 in")))))
def test_which_side_is_called_length_does_not_matter(sides: tuple[str, str, str]) -> None:
    """A 40 x 22 x 19 in box goes through 30 x 22 in on its end, with nothing to spare on one side."""
    found = result(NAME, question(largest_component=dict(zip(("length", "width", "height"), sides, strict=True))))["removal"]
    assert found["through_opening"] == "straight"
    assert value(found["opening_clearance"], "in") == pytest.approx(3)


@pytest.mark.parametrize(("width", "expected"), [("21.99 in", "meets"), ("22 in", "meets"), ("22.01 in", "fails")])
def test_the_piece_at_the_limit_of_the_opening(width: str, expected: str) -> None:
    """A cube goes through 30 x 22 in only straight: turned it needs more room, so there is nothing between meets and fails."""
    cube = dict.fromkeys(("length", "width", "height"), width)
    assert verdict("removal through the opening", largest_component=cube) == expected


def test_a_flat_panel_goes_through_askew() -> None:
    """Hand calculation: a panel 36 x 60 x 1 in shows a face 36 x 1 to an opening of 30 x 22 in, whose diagonal is 37.2 in."""
    found = question(largest_component={"length": "36 in", "width": "60 in", "height": "1 in"})
    assert verdicts(NAME, found)["removal through the opening"] == "watch"
    wider = question(largest_component={"length": "38 in", "width": "60 in", "height": "1 in"})
    assert verdicts(NAME, wider)["removal through the opening"] == "fails"


@pytest.mark.parametrize("long", [30.0, 36.0, 54.0])
@pytest.mark.parametrize("short", [20.0, 22.5, 30.0])
def test_turned_rectangles_against_trying_every_angle(long: float, short: float) -> None:
    """Independent reference: turn the face by hundredths of a degree and measure how wide and high it stands."""
    for p in (18.0, 25.0, 31.0, 35.5, 38.0, 44.0, 55.0, 58.0, 61.0):
        for q in (0.5, 2.0, 5.0, 9.0, 14.0, 19.0, 22.0):
            if q > p:
                continue
            turns = (radians(step / 100) for step in range(9001))
            slack = max(min(long - p * cos(t) - q * sin(t), short - p * sin(t) - q * cos(t)) for t in turns)
            if abs(slack) > 0.01:  # nearer than that the steps of the angle decide
                assert goes_turned(Way(p, q, 0.0), long, short) == (slack > 0), (p, q, long, short)


def test_along_the_passage() -> None:
    """26 x 32 in passage: a 48 x 31 x 27 in box lies 27 x 31 at best and 27 > 26, so 1 in is missing; at 26 in it just goes."""
    box = {"length": "48 in", "width": "31 in", "height": "27 in"}
    opening = {"length": "40 in", "width": "40 in"}
    stuck = question(opening=opening, largest_component=box)
    assert verdicts(NAME, stuck)["removal along the passage"] == "fails"
    assert value(result(NAME, stuck)["removal"]["passage_clearance"], "in") == pytest.approx(-1)
    assert verdict("removal along the passage", opening=opening, largest_component={**box, "height": "26 in"}) == "meets"


def test_a_long_piece_must_be_tipped_under_a_low_roof() -> None:
    """On end a 40 x 21 x 20 in box stands 40 in high in a hatch of 30 x 22 in; under 32 in it has to be tipped, under 40 in it has not."""
    box = {"length": "40 in", "width": "21 in", "height": "20 in"}
    assert verdict("tipping", largest_component=box) == "watch"
    assert "tipping" not in verdicts(NAME, question(largest_component=box, passage__height="40 in"))


# Light, power, floor --------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("lighting", "expected"), [("switched-at-entry", "meets"), ("switched-elsewhere", "fails"), ("none", "fails")])
def test_light(lighting: str, expected: str) -> None:
    assert verdict("light", lighting=lighting) == expected


def test_receptacle_missing_or_dead_when_the_unit_is_off() -> None:
    assert verdict("receptacle", receptacle_distance=None) == "fails"
    assert verdict("receptacle feed", receptacle_on_load_side=True) == "fails"


def test_disconnect_out_of_sight() -> None:
    assert verdict("disconnect", disconnect_in_sight=False) == "fails"


def test_floor_with_gaps_and_space_on_a_slope() -> None:
    assert verdict("floor", passage__solid_floor=False) == "fails"
    assert verdict("service space", service_space__level=False) == "fails"


@pytest.mark.parametrize(
    ("thickness", "spacing", "expected"),
    [
        ("23/32 in", "23.9 in", "meets"),
        ("23/32 in", "24 in", "meets"),
        ("23/32 in", "24.1 in", "fails"),
        ("0.718 in", "24 in", "fails"),
        ("0.718 in", "16 in", "meets"),
        ("19/32 in", "16.1 in", "fails"),
        ("0.593 in", "12 in", "fails"),
        ("1-1/8 in", "48 in", "meets"),
    ],
)
def test_floor_panel_over_its_supports(thickness: str, spacing: str, expected: str) -> None:
    """23/32 in over 24 in: quoted on an inspectors' forum from IRC Table R503.2.1.1(1); the other rows from memory."""
    assert verdict("floor panel", floor_panel={"thickness": thickness, "support_spacing": spacing, "edges": "blocked"}) == expected


@pytest.mark.parametrize(("spacing", "expected"), [("15.9 in", "meets"), ("16 in", "meets"), ("16.1 in", "fails")])
def test_the_mark_on_a_panel_goes_first(spacing: str, expected: str) -> None:
    """Published: the second number of 32/16 is the floor spacing."""
    panel = {"thickness": "15/32 in", "support_spacing": spacing, "rated_floor_spacing": "16 in"}
    assert verdict("floor panel", floor_panel=panel) == expected


@pytest.mark.parametrize(("width", "watched"), [("23.9 in", True), ("24 in", False), ("24.1 in", False)])
def test_narrow_pieces(width: str, watched: bool) -> None:
    """Published: the table's note, panels 24 in or wider."""
    assert ("floor panel pieces" in verdicts(NAME, question(floor_panel__width=width))) == watched


def test_edges_of_the_panel() -> None:
    bare = {"thickness": "23/32 in", "support_spacing": "24 in"}
    assert verdict("floor panel edges", floor_panel=bare) == "watch"
    assert verdict("floor panel edges", floor_panel={**bare, "edges": "unsupported"}) == "fails"


# Refusals and the rest ------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("pointer", "changes"),
    [
        ("/receptacle_distance", {"receptacle_distance": None, "receptacle_on_load_side": True}),
        ("/opening/width", {"opening__width": "0 in"}),
        ("/code", {"code": "IRC-1901"}),
        ("/passage/solid_floor", {"passage__solid_floor": "yes"}),
    ],
)
def test_refusals_name_their_field(pointer: str, changes: dict[str, Any]) -> None:
    with pytest.raises(Refusal) as refused:
        result(NAME, question(**changes))
    assert pointer in [fault.pointer for fault in refused.value.faults]


def test_the_same_question_in_other_units() -> None:
    metric = question(
        opening={"length": "762 mm", "width": "558.8 mm"},
        largest_component={"length": "711.2 mm", "width": "50.8 cm", "height": "0.4572 m"},
        passage={"length": "4.572 m", "width": "660.4 mm", "height": "812.8 mm", "floor_width": "609.6 mm", "solid_floor": True},
        service_space={"length": "762 mm", "width": "0.762 m", "sides": "all-sides"},
        receptacle_distance="3.048 m",
    )
    assert answer(NAME, metric)["result"] == answer(NAME, question())["result"]


@pytest.mark.parametrize("example", CALCULATION.examples, ids=lambda example: example.name)
def test_examples_are_answered_with_the_hazards_of_the_work(example: Any) -> None:
    found = answer(NAME, example.question, working=True)
    assert {"structural", "fall", "electrical", "water-damage"} <= {caution["hazard"] for caution in found["cautions"]}
    rules = {rule["id"] for rule in found["rules"]}
    assert {check["rule"] for check in found["checks"]} <= rules
    assert {line["rule"] for line in found["working"] if "rule" in line} <= rules
