"""Questions to every calculation, made from its examples by varying their quantities: a crowd of like and unlike ones, some of them refused."""

import random
import re
from typing import Any

from kneewall.catalogue import all_calculations

_quantity = re.compile(r"([0-9]+(?:\.[0-9]+)?) ([A-Za-z].*)")


def many_questions(count: int, seed: int = 1, calculations: list[str] | None = None) -> list[dict[str, Any]]:
    """`count` items in turn to each calculation and example; every hundredth is faulty."""
    source = random.Random(seed)
    found = [one for one in all_calculations().values() if calculations is None or one.name in calculations]
    pairs = [(one.name, example.question) for one in found for example in one.examples]
    items = []
    for number in range(count):
        name, question = pairs[number % len(pairs)]
        varied = _varied(question, source)
        if number % 100 == 99:
            varied["no_such_field"] = number
        items.append({"id": f"q{number}", "calculation": name, "question": varied})
    return items


def _varied(given: Any, source: random.Random) -> Any:
    if isinstance(given, dict):
        if given.keys() == {"value", "unit"}:
            return {**given, "value": given["value"] * source.uniform(0.9, 1.1)}
        return {key: _varied(value, source) for key, value in given.items()}
    if isinstance(given, list):
        return [_varied(value, source) for value in given]
    match = _quantity.fullmatch(given) if isinstance(given, str) else None
    return f"{float(match[1]) * source.uniform(0.9, 1.1):.4g} {match[2]}" if match and "deg" not in match[2] else given


def without_instance(reply: dict[str, Any]) -> dict[str, Any]:
    """A reply without the id of the request it belonged to, which differs from way to way."""
    if "problem" not in reply:
        return reply
    return {**reply, "problem": {key: value for key, value in reply["problem"].items() if key != "instance"}}
