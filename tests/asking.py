"""Asking the service inside the test process, as a client would."""

from typing import Any

import msgspec

from kneewall.catalogue import all_calculations
from kneewall.kernel.wire import write_json


def answer(calculation: str, question: dict[str, Any], *, units: str = "ip", working: bool = False) -> dict[str, Any]:
    """The answer as a client reads it. Raises: Refusal."""
    found = all_calculations()[calculation]
    reply = found.answer(found.reader.plain(question), working=working)
    return msgspec.json.decode(write_json["si" if units == "si" else "ip"](reply))  # type: ignore[no-any-return]


def result(calculation: str, question: dict[str, Any], **how: Any) -> dict[str, Any]:
    """Only the result of the answer."""
    return answer(calculation, question, **how)["result"]  # type: ignore[no-any-return]


def value(quantity: dict[str, Any], unit: str) -> float:
    """The number of an answered quantity, which must be in the expected unit."""
    assert quantity["unit"] == unit, quantity
    return float(quantity["value"])


def verdicts(calculation: str, question: dict[str, Any]) -> dict[str, str]:
    """Verdict by check."""
    return {check["check"]: check["verdict"] for check in answer(calculation, question)["checks"]}
