"""How the pages are laid out in a real browser: long answers folded, paper wide enough, names of strangers, keyboard alone."""

import json
from pathlib import Path
from typing import Any
from urllib.parse import quote

import httpx
import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.web.conftest import CALCULATIONS, Visit

pytestmark = pytest.mark.browser

HOSTILE = [
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "]]>&lt;b&gt;",
    "</svg><svg onload=alert(1)>",
    "\u202eright to left\u200f",
    "W" * 110,
]
LETTER = 816 - 114
"""CSS pixels between the margins of a Letter page."""


def opened(visit: Visit, name: str, question: Any) -> Any:
    """A calculation's page with a question opened in it, every fold open."""
    page = visit.go(f"/sheets/{name}#question={quote(json.dumps(question))}")
    page.wait_for_selector(".answer, .summary")
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    return page


@pytest.mark.parametrize("name", ["plan-drawn-by-eye", "plan-mended-and-measured"])
def test_the_whole_job_is_folded_and_can_be_opened(visit: Visit, width: int, name: str) -> None:
    page = visit.go(f"/sheets/retrofit-check?example={name}")
    assert page.evaluate("document.querySelector('.answer').offsetHeight") < 25 * 844
    assert page.evaluate("document.querySelector('#question').offsetHeight") < 10 * 844
    part = page.locator(".answer dl.inner details", has_text="meets").first
    part.locator("summary").first.click()
    assert part.locator("td, dd").first.is_visible()
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    if name == "plan-mended-and-measured":  # the larger one stands for both: looking through a page of this size takes a quarter of a minute
        assert Axe().run(page).violations_count == 0


def test_words_of_a_table_are_not_broken_into_letters(visit: Visit) -> None:
    """A column of words is as wide as `verdict`, whatever long sentences stand beside it."""
    page = opened(visit, "retrofit-check", CALCULATIONS["retrofit-check"].examples[0].question)
    for cell in page.locator("table.prose:not(.many) td", has_text="fails").all()[:5]:
        assert cell.bounding_box()["width"] > 40


def test_figures_in_blocks_keep_their_units(visit: Visit, width: int) -> None:
    page = visit.go("/sheets/refrigerant-line-sizing?example=heat-pump-under-the-roof")
    cell = page.locator("table.many td[data-name='Velocity']").first
    assert cell.evaluate("(one) => getComputedStyle(one, '::after').content") == '" fpm"'
    assert page.locator("table.many td[data-name='']").count() == 0


@pytest.mark.parametrize("calculation", CALCULATIONS.values(), ids=list(CALCULATIONS))
def test_no_sheet_is_wider_than_its_paper(visit: Visit, service: str, calculation: Any) -> None:
    """Browsers shrink the whole print where anything sticks out; then the small type is too small to read."""
    page = visit.go("/")
    page.set_viewport_size({"width": LETTER, "height": 1000})
    page.emulate_media(media="print")
    for example in calculation.examples:
        sheet = httpx.post(f"{service}/v1/{calculation.name}?working=true", json=example.question, headers={"accept": "text/html"}).text
        page.set_content(sheet.replace('="/static', f'="{service}/static'))
        assert page.evaluate("document.documentElement.scrollWidth") <= LETTER, example.name


def test_the_pages_of_a_print_are_numbered(visit: Visit, tmp_path: Path) -> None:
    css = (Path(__file__).parents[2] / "service/kneewall/web/static/page.css").read_text()
    assert 'counter(page) " of " counter(pages)' in css.partition("@media print")[2]


@pytest.mark.parametrize("name", HOSTILE)
def test_names_of_strangers_run_nothing_and_push_nothing_out(visit: Visit, name: str) -> None:
    """On a phone: in a form, in an answer and its drawing, and in the text of a refusal."""
    dialogs: list[str] = []
    for calculation, question in (
        ("branch-tally", {"branches": [{"id": name, "length": "3 ft"}]}),
        ("support-spacing", {"runs": [{"id": name[:40], "kind": "pipe", "material": "copper-type-l", "nominal_size": "3/4 in", "length": "20 ft"}]}),
        ("water-loop-flow", {"units": [{"id": name}]}),
    ):
        visit.page.once("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
        visit.page.set_viewport_size({"width": 390, "height": 844})
        page = opened(visit, calculation, question)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, calculation
        assert page.locator("img[src='x'], svg[onload]").count() == 0
    assert dialogs == []


def test_an_entry_is_added_filled_in_and_removed_by_keyboard_alone(visit: Visit) -> None:
    page = visit.go("/sheets/branch-tally")
    until_focus(page, "one => one.name === '/branches/0/id'")
    page.keyboard.type("hall")
    until_focus(page, "one => one.name === '/branches/0/length'")
    page.keyboard.type("12")
    for _ in range(2):
        until_focus(page, "one => one.textContent === 'Add branch'")
        page.keyboard.press("Enter")
        page.wait_for_function("document.activeElement.tagName === 'INPUT'")
    page.keyboard.type("spare")
    until_focus(page, "one => one.textContent === 'Remove branch' || one.textContent === 'Remove branch 3'")
    page.keyboard.press("Space")
    page.wait_for_function("document.activeElement.textContent === 'Add branch'")
    page.keyboard.press("Shift+Tab")
    until_focus(page, "one => one.name === '/branches/1/id'", back=True)
    page.keyboard.type("den")
    until_focus(page, "one => one.name === '/branches/1/length'")
    page.keyboard.type("8")
    page.keyboard.press("Enter")
    page.wait_for_selector(".answer")
    assert "20 ft" in page.locator(".answer").inner_text()
    until_focus(page, "one => one.tagName === 'SUMMARY' && one.textContent.startsWith('Rules applied')")
    page.keyboard.press("Enter")
    assert page.get_by_text("Lengths add up.").is_visible()


def until_focus(page: Any, wanted: str, *, back: bool = False) -> None:
    """Press Tab until the wanted element has the focus."""
    for _ in range(80):
        if page.evaluate(f"({wanted})(document.activeElement)"):
            return
        page.keyboard.press("Shift+Tab" if back else "Tab")
    raise AssertionError(f"no way by keyboard to {wanted}")
