"""One question, one answer: the way of every `POST /v1/{calculation}`."""

import logging
from collections.abc import Callable
from typing import Any
from urllib.parse import parse_qsl

from litestar.types import Scope

from kneewall.http.media import HTML, JSON, MSGPACK, SVG, body_media, wanted_media
from kneewall.http.packing import on_the_way
from kneewall.http.problem import refused
from kneewall.http.reply import Reply
from kneewall.kernel.answer import Answer
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Fault, Refusal, fault, refuse
from kneewall.kernel.wire import write_json, write_msgpack

log = logging.getLogger("kneewall")

CHOICES = {"units": ("ip", "si"), "working": ("false", "true")}
NO_STORE = ((b"cache-control", b"no-store"),)
SheetWriter = Callable[[AnyCalculation, Any, Answer[Any], UnitSystem], bytes]
"""Writes the printable sheet of a question and its answer, as HTML."""
BEYOND_ARITHMETIC = "these figures together lead outside what can be computed; give figures of a real installation"


def ask(calculation: AnyCalculation, scope: Scope, body: bytes, sheet: SheetWriter) -> Reply:
    """Read the question, answer it, write the answer as the reader wants it. Raises: Malformed, UnsupportedMedia, NotAcceptable."""
    system: UnitSystem = "ip"
    try:
        system, working = read_choices(scope["query_string"])
        media = wanted_media(scope, offered(calculation))
        reader = calculation.reader
        question = reader.json(body) if body_media(scope) == JSON else reader.msgpack(body)
        answer = calculation.answer(question, working=working or media == HTML)
        if media == JSON:
            return Reply(write_json[system](answer), JSON, headers=NO_STORE)
        if media == SVG and calculation.drawing is not None:
            body, headers = on_the_way(scope, calculation.drawing(question, answer, system).encode())
            return Reply(body, SVG, headers=(*NO_STORE, *headers))
        if media == HTML:
            body, headers = on_the_way(scope, sheet(calculation, question, answer, system))
            return Reply(body, f"{HTML}; charset=utf-8", headers=(*NO_STORE, *headers))
        return Reply(write_msgpack[system](answer), MSGPACK, headers=NO_STORE)
    except Refusal as refusal:
        return refused(scope, refusal, system)
    except ArithmeticError as error:
        log.warning("%s left the range of arithmetic: %s", calculation.name, error)
        return refused(scope, refuse("", BEYOND_ARITHMETIC), system)


def offered(calculation: AnyCalculation) -> tuple[str, ...]:
    """The media types in which a calculation answers, its favourite first."""
    return (JSON, MSGPACK, HTML) if calculation.drawing is None else (JSON, MSGPACK, HTML, SVG)


def read_choices(query: bytes) -> tuple[UnitSystem, bool]:
    """`?units=ip|si` and `?working=true|false`. Raises: Refusal naming every parameter at fault."""
    if not query:
        return "ip", False
    faults: list[Fault] = []
    chosen: dict[str, str] = {}
    for name, value in parse_qsl(query.decode("latin-1"), keep_blank_values=True):
        if name not in CHOICES:
            faults.append(fault("", "the query parameter {} is not known; the known ones are {}", repr(name), ", ".join(CHOICES)))
        elif value not in CHOICES[name] or chosen.get(name, value) != value:
            faults.append(fault("", "the query parameter {} is {}", name, " or ".join(CHOICES[name])))
        chosen[name] = value
    if faults:
        raise Refusal(faults, "invalid-question")
    return ("si" if chosen.get("units") == "si" else "ip"), chosen.get("working") == "true"
