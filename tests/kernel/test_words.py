"""Tokens, names of fields and faults in the words of people."""

from typing import Annotated, Any, Literal

import msgspec
import pytest

from kneewall.kernel.misread import in_plain_words
from kneewall.kernel.refusal import Refusal
from kneewall.kernel.wire import Reader
from kneewall.kernel.words import all_in_words, field_in_words, in_words, place_in_words, titled


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("galvanized-steel duct", "galvanized steel duct"),
        ("elbow-flexible", "bend of flexible duct"),
        ("pvc-schedule-40 pipe", "PVC schedule 40 pipe"),
        ("12ga-1-5/8x1-5/8", "12 gauge, 1-5/8 in wide, 1-5/8 in deep"),
        ("refrigerant R-410A", "refrigerant R-410A"),
        ("water-loop-flow: units", "water loop flow: units"),
        ("hanger, pipe", "hanger, pipe"),
        ("1-1/4 in", "1-1/4 in"),
    ],
)
def test_every_token_of_a_text_is_put_into_words(text: str, words: str) -> None:
    assert all_in_words(text) == words


def test_a_name_that_is_no_single_token_stays_as_it_was_written() -> None:
    assert in_words("airflow at east-bath") == "airflow at east-bath"


@pytest.mark.parametrize(
    ("pointer", "words"),
    [
        ("/pipes/2/rise", "pipes 3 › rise"),
        ("/unit/loop_unit", "unit › loop unit"),
        ("", "the question"),
        ("/fittings/a~1b", "fittings › a/b"),
        ("/0", "0"),
    ],
)
def test_a_place_in_words(pointer: str, words: str) -> None:
    assert place_in_words(pointer) == words


def test_fields_and_places_read_like_the_headings_of_the_form() -> None:
    assert field_in_words("nominal_r") == "nominal R"
    assert titled("id") == "Name"
    assert titled("cv") == "Cv"
    assert place_in_words("/water_side/pressure_drop") == "water side › pressure drop"


@pytest.mark.parametrize(
    ("kind", "given", "words"),
    [
        (float, "3", "must be a number, not a text"),
        (str, 3, "must be a text, not a whole number"),
        (Annotated[float, msgspec.Meta(le=0.5)], 2.0, "must be at most 0.5"),
        (Annotated[float, msgspec.Meta(gt=0)], -1.0, "must be more than 0"),
        (Annotated[str, msgspec.Meta(max_length=4)], "attic", "must have at most 4 letters"),
        (Annotated[str, msgspec.Meta(pattern="^[A-Za-z0-9][A-Za-z0-9 ._-]{0,39}$")], "<b>", "begins with a letter or digit and goes on with"),
    ],
)
def test_what_cannot_be_read_is_told_without_the_decoders_words(kind: Any, given: object, words: str) -> None:
    """The decoder itself is asked, so that a change of its sentences is noticed."""
    with pytest.raises(msgspec.ValidationError) as raised:
        msgspec.convert(given, kind)
    assert in_plain_words(str(raised.value)).startswith(words)


def test_an_unknown_choice_is_told_with_those_there_are() -> None:
    class Asked(msgspec.Struct):
        season: Literal["summer", "winter"]
        other: Literal["a", "b"] | None = None

    with pytest.raises(Refusal) as raised:
        Reader(Asked).json(b'{"season": "spring", "other": "c"}')
    assert [(one.pointer, one.detail.shown("ip")) for one in raised.value.faults] == [
        ("/season", "'spring' is not known here; it is one of summer, winter"),
        ("/other", "'c' is not known here; it is one of a, b"),
    ]
