"""The words of what programs send as tokens: `pvc-schedule-40` is PVC schedule 40 to whoever reads a page, `/pipes/2/rise` is pipes 3 › rise."""

import re
from functools import cache

import msgspec

TOKENS = msgspec.Meta(extra={"tokens": True})
"""Stands at a field of an answer that holds tokens although its type is a plain text: pages write it in words. Programs see no trace of it."""
FOR_PROGRAMS = msgspec.Meta(extra={"for_programs": True})
"""Stands at a field of an answer that people have no use for: pages and sheets leave it out."""
_token = re.compile("[A-Za-z]+(?:-[A-Za-z0-9.]+)*").fullmatch
_joined = re.compile("[A-Za-z]+(?:-[A-Za-z0-9.]+)+")
SYMBOLS = {"r": "R", "cv": "Cv", "id": "name", "centre": "center"}
"""Symbols of the trade inside the names of fields, and what people call an id."""
CAPITALS = {one.lower(): one for one in ("PVC", "CPVC", "ABS", "PE", "PEX", "DR", "CTS")}
WORDS = {
    "12ga-1-5/8x1-3/8": "12 gauge, 1-5/8 in wide, 1-3/8 in deep",
    "12ga-1-5/8x1-5/8": "12 gauge, 1-5/8 in wide, 1-5/8 in deep",
    "analyse": "analyze the system that is there",
    "before-MSS-SP-58-2002": "before MSS SP-58-2002",
    "contraction-abrupt": "abrupt contraction",
    "converging-tee-branch": "tee, converging, by the branch",
    "converging-tee-run": "tee, converging, straight on",
    "copper-annealed": "annealed copper",
    "copper-drawn": "drawn copper",
    "copper-type-k": "copper type K",
    "copper-type-l": "copper type L",
    "copper-type-m": "copper type M",
    "coupling-insert": "insert coupling",
    "cpvc-cts": "CPVC, copper tube size",
    "damper-open": "open damper",
    "diverging-tee-branch": "tee, diverging, by the branch",
    "diverging-tee-run": "tee, diverging, straight on",
    "douglas-fir-larch": "Douglas fir-larch",
    "elbow-45": "45° elbow",
    "elbow-45-solder": "45° elbow, soldered",
    "elbow-90": "90° elbow",
    "elbow-90-insert": "90° elbow, insert",
    "elbow-90-long": "90° elbow, long radius",
    "elbow-90-solder": "90° elbow, soldered",
    "elbow-flexible": "bend of flexible duct",
    "elbow-mitred": "mitered elbow",
    "elbow-segmented": "segmented elbow",
    "elbow-smooth": "smooth elbow",
    "entrance-bellmouth": "bellmouth entrance",
    "entrance-sharp": "sharp entrance",
    "expansion-abrupt": "abrupt expansion",
    "hem-fir": "hem-fir",
    "MSS-SP-58": "MSS SP-58",
    "MSS-SP-58-2002": "MSS SP-58-2002",
    "pilot-operated": "pilot-operated",
    "direct-acting": "direct-acting",
    "size": "size the system",
    "spruce-pine-fir": "spruce-pine-fir",
    "spruce-pine-fir-south": "spruce-pine-fir (south)",
    "swing-check": "swing check valve",
    "swing-check-angled-seat": "swing check valve, angled seat",
    "tee-branch": "tee, by the branch",
    "tee-branch-insert": "tee, by the branch, insert",
    "tee-branch-solder": "tee, by the branch, soldered",
    "tee-run": "tee, straight on",
    "tee-run-insert": "tee, straight on, insert",
    "tee-run-solder": "tee, straight on, soldered",
    "ten-year": "ten years",
    "tongue-and-groove": "tongue and groove",
    "wind-or-earthquake": "wind or earthquake",
}
"""What is not simply its parts with spaces between them."""


@cache
def in_words(token: str) -> str:
    """A choice in words; where nothing better is known, its parts with spaces between them. Refrigerants keep their hyphen, and anything else that is
    no token stays as it is.
    """
    if token in WORDS:
        return WORDS[token]
    if token.startswith("R-") or not _token(token):
        return token
    return " ".join([CAPITALS.get(part, part) for part in token.split("-")])


def all_in_words(text: str) -> str:
    """A text whose parts are tokens, such as `galvanized-steel duct`, with each of them in words."""
    return in_words(text) if text in WORDS else _joined.sub(lambda found: in_words(found[0]), text)


@cache
def field_in_words(name: str) -> str:
    """A field's name as people read it: `nominal_r` is nominal R, `pressure_drop` pressure drop."""
    return " ".join([SYMBOLS.get(part, part) for part in name.replace("_", " ").replace("-", " ").split(" ")])


@cache
def titled(name: str) -> str:
    """A field's name as it stands over or before the field."""
    words = field_in_words(name)
    return words[:1].upper() + words[1:]


def place_in_words(pointer: str) -> str:
    """A field's place in a question, for people, as the headings of a form that lead to it, items counted from one: `/pipes/2/rise` is pipes 3 › rise."""
    words: list[str] = []
    for segment in pointer.split("/")[1:]:
        if segment.isdigit() and words:
            words[-1] += f" {int(segment) + 1}"
        else:
            words.append(field_in_words(segment.replace("~1", "/").replace("~0", "~")))
    return " › ".join(words) or "the question"
