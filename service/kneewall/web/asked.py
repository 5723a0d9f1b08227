"""What is done with a form that was opened or sent: fill it in, work it out, keep it, print it."""

from typing import Any
from urllib.parse import quote

import msgspec

from kneewall.http.ask import BEYOND_ARITHMETIC
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Fault, Refusal, fault, refuse
from kneewall.kernel.wire import Malformed
from kneewall.web.fields import form_of
from kneewall.web.form import Form, added, removed
from kneewall.web.views import answered, form_page, sheet_page

LONGEST_LINK = 4000
Page = tuple[int, bytes, str]
"""Status, body, and a file's name where the body is a file to keep."""


class Asked:
    """One form as it was sent: its texts by name."""

    def __init__(self, calculation: AnyCalculation, texts: dict[str, str]) -> None:
        self.calculation = calculation
        self.texts = texts
        self.system: UnitSystem = "si" if texts.get("units") == "si" else "ip"

    def opened(self) -> Page:
        """The form empty, from an example (`?example=`) or with a whole question in the address (`?question=`)."""
        if "question" in self.texts:
            return self._read(self.texts["question"])
        example = next((one for one in self.calculation.examples if one.name == self.texts.get("example")), None)
        if example is not None:
            return self._worked_out(dict(example.question), [])
        return 200, form_page(self.calculation, self.system), ""

    def done(self) -> Page:
        """The form after one of its buttons was pressed."""
        described, do = form_of(self.calculation.question), self.texts.get("do")
        if do == "open":
            return self._read(self.texts.get("written", ""))
        changed = "add" in self.texts or "remove" in self.texts
        form = Form(self.texts, with_blanks=changed)
        question = form.question(described)
        if changed:
            added(described, question, self.texts.get("add", ""))
            removed(described, question, self.texts.get("remove", ""))
            touched = self.texts.get("add") or self.texts.get("remove", "")
            return 200, form_page(self.calculation, self.system, question=question, touched=touched), ""
        if do == "save":
            return 200, msgspec.json.format(msgspec.json.encode(question), indent=2), f"{self.calculation.name}.json"
        return self._worked_out(question, form.faults, sheet=do == "sheet")

    def _read(self, text: str) -> Page:
        """The form filled in from a question written as JSON, and worked out."""
        try:
            return self._worked_out(_written(text), [])
        except (Malformed, RecursionError) as error:
            return 400, form_page(self.calculation, self.system, faults=[fault("", "the text could not be read: {}", str(error))]), ""

    def _worked_out(self, question: dict[str, Any], faults: list[Fault], *, sheet: bool = False) -> Page:
        """The form with the answer or the faults of its question; the sheet where it is wanted and there is an answer."""
        try:
            asked = self.calculation.reader.plain(question)
            if faults:
                raise Refusal([])
            answer = self.calculation.answer(asked, working=True)
            if sheet:
                return 200, sheet_page(self.calculation, asked, answer, self.system), ""
            shown = answered(self.calculation, asked, answer, self.system)
            return 200, form_page(self.calculation, self.system, question=question, answered=shown, link=self._link(question)), ""
        except Refusal as refusal:
            every = _together(faults, refusal.faults)
        except ArithmeticError:
            every = refuse("", BEYOND_ARITHMETIC).faults
        return 422, form_page(self.calculation, self.system, question=question, faults=every), ""

    def _link(self, question: dict[str, Any]) -> str:
        """The address that holds the whole question; none where it would be longer than programs on the way take."""
        units = "units=si&" if self.system == "si" else ""
        link = f"/sheets/{self.calculation.name}?{units}question={quote(msgspec.json.encode(question), safe='')}"
        return link if len(link) <= LONGEST_LINK else ""


def _together(of_the_form: list[Fault], of_the_question: list[Fault]) -> list[Fault]:
    """Every fault once; where the form and the question find fault with the same field, the form speaks."""
    said = {one.pointer for one in of_the_form}
    return [*of_the_form, *(one for one in of_the_question if one.pointer not in said)]


def _written(text: str) -> dict[str, Any]:
    """A question written as JSON. Raises: Malformed."""
    try:
        found = msgspec.json.decode(text.encode("utf-8", "replace"))
    except (msgspec.DecodeError, RecursionError) as error:
        raise Malformed(f"it is not JSON ({error})") from None
    if not isinstance(found, dict):
        raise Malformed("a question is a JSON object, from { to }")
    return found
