"""Why a single text or number could not be read, in words that people who fill in a form understand."""

import re

KINDS = {
    "str": "a text",
    "float": "a number",
    "int": "a whole number",
    "bool": "yes or no",
    "array": "a list",
    "object": "an object",
    "null": "nothing",
}
NAME = "^[A-Za-z0-9][A-Za-z0-9"
_kind = re.compile("Expected `([a-z]+)(?: \\| null)?`, got `([a-z]+)`")
_size = re.compile("Expected `(?:float|int)(?: \\| null)?` (<=|>=|<|>) ([-+.e0-9]+)")
_length = re.compile("Expected `str(?: \\| null)?` of length (<=|>=) ([0-9]+)")
_shape = re.compile("Expected `str(?: \\| null)?` matching regex '(.*)'")
COMPARED = {"<=": "at most", ">=": "at least", "<": "less than", ">": "more than"}


def in_plain_words(error: str) -> str:
    """What the decoder says of a leaf, as a sentence whose subject is the field; what is not known here stays as it is, without its marks."""
    if found := _kind.match(error):
        return f"must be {KINDS.get(found[1], found[1])}, not {KINDS.get(found[2], found[2])}"
    if found := _size.match(error):
        number = found[2].removesuffix(".0")
        return f"must be {COMPARED[found[1]]} {number}"
    if found := _length.match(error):
        return f"must have {COMPARED[found[1]]} {found[2]} letters"
    if found := _shape.match(error):
        return _named(found[1]) if found[1].startswith(NAME) else f"does not look like {found[1]}"
    return error.split(" - at `")[0].replace("`", "")


def _named(pattern: str) -> str:
    longest = int(pattern.rpartition(",")[2].removesuffix("}$")) + 1
    return f"begins with a letter or digit and goes on with letters, digits, blanks, points, dashes or underscores, at most {longest} in all"
