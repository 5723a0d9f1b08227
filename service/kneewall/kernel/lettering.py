"""Words inside a drawing: escaped for XML, cut or broken to the room there is.

There is no font to measure, so widths are estimated a little too wide rather than too narrow.
"""

import re

_not_in_xml = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
_plain = re.compile("[ !#-%(-;=?-~\u00a0-\u2fff]*").fullmatch
_before_unit = re.compile(r"(?<=[0-9]) (?=\S{1,6}(?: |$))")
_marks = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;", "\t": " ", "\n": " ", "\r": " "})
_NARROW, _WIDE = frozenset(" .,:;'|!ijltfI()[]/-"), frozenset("mwMW@%&")
BOLDER = 1.12
"""How much wider bold letters are."""
SURE_TO_FIT = 0.84
"""Words fit, whatever their letters, where as many squares of the font size fill no more than this share of the room: 1/(1.05 x 1.12), letters and bold."""


def escaped(words: str) -> str:
    """Any text as XML text or attribute value; characters that XML cannot hold become a replacement mark."""
    return words if _plain(words) else _not_in_xml.sub("�", words).translate(_marks)


def width_of(words: str, size: float) -> float:
    """About how wide the words are at a font size, in units of the drawing."""
    try:
        return size * 0.01 * sum(words.encode("latin-1").translate(_WIDTHS))
    except UnicodeEncodeError:
        return size * sum(map(_width, words))


def _width(letter: str) -> float:
    if letter in _NARROW:
        return 0.34
    if letter in _WIDE:
        return 0.9
    if letter > "\u1100":
        return 1.05
    return 0.69 if letter.isupper() else 0.61


_WIDTHS = bytes(round(100 * _width(chr(code))) for code in range(256))
"""The width of every letter of Latin 1 in hundredths of the font size."""


def shortened(words: str, width: float, size: float) -> str:
    """The words, or as many of their letters as fit into `width` and an ellipsis."""
    if width_of(words, size) <= width:
        return words
    room, kept = width - size * _width("…"), 0
    for letter in words:
        room -= size * _width(letter)
        if room < 0:
            break
        kept += 1
    return words[:kept].rstrip() + "…"


def wrapped(words: str, width: float, size: float) -> list[str]:
    """The words broken into lines that fit into `width`, a figure kept with its unit; a single word that does not fit is cut."""
    lines: list[str] = []
    space, room = width_of(" ", size), -1.0
    found = _before_unit.sub("\u00a0", " ".join(words.split()))
    for word in found.split(" ") if found else ():
        wide = width_of(word, size)
        if wide + space <= room:
            lines[-1] = f"{lines[-1]} {word}"
            room -= wide + space
        else:
            lines.append(word if wide <= width else shortened(word, width, size))
            room = width - wide
    return [line.replace("\u00a0", " ") for line in lines]
