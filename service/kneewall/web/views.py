"""Every page as HTML: the templates, filled."""

import re
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import jinja2
import msgspec
from markupsafe import Markup, escape

from kneewall import RULEBOOK, VERSION
from kneewall.kernel.answer import Answer, WorkingLine
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.phrase import figure_shown
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.refusal import Fault
from kneewall.kernel.rule import COMMON_PRACTICE, Rule
from kneewall.kernel.schema import Schema
from kneewall.kernel.svg import in_pieces
from kneewall.kernel.table import Table
from kneewall.kernel.verdict_list import worst_first
from kneewall.kernel.words import in_words
from kneewall.web.fields import form_of
from kneewall.web.nodes import Nodes, by_pointer, patterns
from kneewall.web.shown import entries_of

_joined_name = re.compile("(?<=[a-z]{3})_(?=[a-z]{3})")
_unbroken = re.compile(r"[^\s-]{21,}")
_piece = re.compile("(.{8})(?=.)")
_choice_first = re.compile("(?:^|(?<=; ))[a-z]+(?:-[a-z]+)+(?=: )")
STANDINGS = {
    "published": "Read in the source or in a quotation of it.",
    "from-memory": "Recalled, not read again for this service.",
    "common-practice": "A habit of the trade, without a source.",
    "computed": "Follows from the formula named.",
}
BETWEENS = {
    "linear": "Between two rows it is read along a straight line.",
    "smaller": "Between two rows the smaller one holds.",
    "larger": "Between two rows the larger one holds.",
    "refuse": "It is read only at its rows.",
}


@cache
def _templates() -> jinja2.Environment:
    loader = jinja2.FileSystemLoader(Path(__file__).parent / "templates")
    found = jinja2.Environment(loader=loader, autoescape=True, trim_blocks=True, lstrip_blocks=True, undefined=jinja2.StrictUndefined)
    found.globals.update(version=VERSION, rulebook=RULEBOOK, standings=STANDINGS, betweens=BETWEENS, no_source=COMMON_PRACTICE.title)
    found.filters.update(read=_read, in_words=in_words, breaking=_breaking)
    return found


def _read(says: str) -> str:
    """Words of the interface as people read them: degrees by their sign, names of fields without their marks, the choice that a field belongs to in words."""
    says = _choice_first.sub(lambda found: in_words(found[0]), says)
    return _joined_name.sub(" ", says.replace("degF", "°F").replace("degC", "°C").replace("`", ""))


def _breaking(words: str) -> Markup:
    """Words of a table, in which a name without blanks may be broken, since a column is never narrower than its longest word."""
    found = _unbroken.sub(lambda name: _piece.sub("\\1\u200b", name[0]), words)
    return Markup(str(escape(found)).replace("\u200b", "<wbr>"))


def _page(template: str, **content: Any) -> bytes:
    return _templates().get_template(template).render(content).encode("utf-8", "replace")


def index_page(calculations: list[AnyCalculation]) -> bytes:
    """The list of calculations."""
    return _page("index.html", calculations=calculations)


def form_page(
    calculation: AnyCalculation,
    system: UnitSystem,
    *,
    question: dict[str, Any] | None = None,
    faults: list[Fault] | None = None,
    answered: dict[str, Any] | None = None,
    link: str = "",
    touched: str = "",
) -> bytes:
    """A calculation's form, with what was entered, what is wrong with it or the answer to it. Raises: Refusal where it is too large for a form."""
    nodes = Nodes(system, by_pointer(faults or [], system), touched)
    root = nodes.build(form_of(calculation.question), {} if question is None else question)
    written = msgspec.json.format(msgspec.json.encode(question or {}), indent=1).decode()
    return _page(
        "form.html",
        calculation=calculation,
        system=system,
        form=root,
        summary=nodes.summary(),
        answered=answered,
        link=link,
        written=written,
    )


def patterns_page(calculation: AnyCalculation, system: UnitSystem) -> bytes:
    """The patterns of a form's items, from which the script makes new ones. They never change, so they are fetched once, beside the page."""
    return _page("patterns.html", patterns=patterns(form_of(calculation.question), system))


def answered(calculation: AnyCalculation, question: Any, answer: Answer[Any], system: UnitSystem) -> dict[str, Any]:
    """An answer as the pages show it."""
    checks = worst_first(answer.checks)
    return {
        "tally": Counter([one.verdict for one in checks]),
        "checks": [{"check": in_words(one.check), "verdict": one.verdict, "says": one.says.shown(system), "rule": one.rule} for one in checks],
        "drawing": _drawing(calculation, question, answer, system),
        "result": entries_of(answer.result, system),
        "rules": answer.rules,
        "cautions": answer.cautions,
        "working": [_line(one, system) for one in answer.working or []],
    }


def _line(line: WorkingLine, system: UnitSystem) -> dict[str, str]:
    shown = {"substituted": line.substituted.shown(system), "value": figure_shown(line.value, system)}
    return {"step": line.step, "formula": line.formula, "rule": line.rule or "", **shown}


def _drawing(calculation: AnyCalculation, question: Any, answer: Answer[Any], system: UnitSystem) -> list[Markup]:
    """The drawing in pieces, ready for a page: the kit has escaped every text in it. Nothing where none can be drawn; the answer stands without it."""
    if calculation.drawing is None:
        return []
    try:
        return [Markup(piece) for piece in in_pieces(calculation.drawing(question, answer, system))]
    except ArithmeticError:
        return []


def sheet_page(calculation: AnyCalculation, question: Any, answer: Answer[Any], system: UnitSystem) -> bytes:
    """The sheet for the permit folder."""
    content = answered(calculation, question, answer, system)
    return _page("sheet.html", calculation=calculation, asked=entries_of(question, system), answered=content)


def rule_page(rule: Rule, table: Table | None) -> bytes:
    """One rule with its source and its table."""
    return _page("rule.html", rule=rule, table=table)


def docs_page(calculations: list[AnyCalculation], document: Schema) -> bytes:
    """What programs can ask, drawn from the OpenAPI document."""
    return _page("docs.html", calculations=calculations, document=document)


def doc_page(calculation: AnyCalculation, document: Schema) -> bytes:
    """One calculation as programs ask it."""
    examples = [{"says": one.says, "text": msgspec.json.encode(one.question).decode()} for one in calculation.examples]
    operation = document["paths"][f"/v1/{calculation.name}"]["post"]
    question, result = form_of(calculation.question), form_of(calculation.result)
    return _page("doc.html", calculation=calculation, examples=examples, operation=operation, question=question, result=result)
