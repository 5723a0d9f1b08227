"""The pages in a real browser: fill in, answer, faults, items, drawing, print, keyboard, accessibility, and no other host."""

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.web.conftest import CALCULATIONS, Visit

pytestmark = pytest.mark.browser

PAGES = [
    "/",
    "/docs",
    *(f"/docs/{name}" for name in CALCULATIONS),
    *(f"/sheets/{name}" for name in CALCULATIONS),
    *(f"/sheets/{one.name}?example={example.name}" for one in CALCULATIONS.values() for example in one.examples[:1]),
    "/v1/rules/duct-sizing.velocity-by-place",
]


def field(page: Any, pointer: str) -> Any:
    """The field at a JSON pointer."""
    return page.locator(f'[id="{pointer}"]')


def work_out(page: Any) -> None:
    """Press the main button and wait until the page has come back."""
    page.get_by_role("button", name="Work it out").click()
    page.wait_for_selector("#question:not([aria-busy])")


@pytest.mark.parametrize("path", PAGES)
def test_every_page_is_accessible_and_fits(visit: Visit, width: int, path: str) -> None:
    """axe-core finds nothing (rules of WCAG 2.2 A and AA and its best practices), and nothing sticks out to the side."""
    page = visit.go(path)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_filled_in_and_answered(visit: Visit, width: int) -> None:
    page = visit.go("/sheets/duct-sizing")
    field(page, "/airflow").fill("110")
    field(page, "/friction_rate").fill("0.08")
    field(page, "/place").select_option("supply-branch")
    page.get_by_role("button", name="Work it out").click()
    page.wait_for_selector(".answer")
    answer = page.locator(".answer")
    assert "7 in" in answer.inner_text()
    assert answer.locator("h3").all_inner_texts() == ["Checks", "Values", "Cautions", "Rules applied", "Working"]
    assert "within the 700 fpm" in answer.inner_text()
    drawing = answer.locator("figure svg")
    assert drawing.bounding_box()["width"] <= width
    assert "110 cfm of air" in str(drawing.get_attribute("aria-label"))
    assert page.evaluate("document.activeElement.textContent") == "The answer"
    again = page.context.new_page()
    again.goto(page.url)
    assert "7 in" in again.locator(".answer").inner_text()


def test_the_unit_chosen_at_a_field_counts(visit: Visit) -> None:
    page = visit.go("/sheets/duct-sizing")
    field(page, "/airflow").fill("51.91")
    page.get_by_label("Unit: Airflow").select_option("L/s")
    field(page, "/friction_rate").fill("0.08")
    page.locator("#units").select_option("si")
    page.get_by_role("button", name="Work it out").click()
    assert "177.8 mm" in page.locator(".answer").inner_text()


def test_faults_are_told_at_their_fields(visit: Visit, width: int) -> None:
    page = visit.go("/sheets/duct-sizing")
    field(page, "/friction_rate").fill("0.08x")
    page.get_by_role("button", name="Work it out").click()
    page.wait_for_selector(".summary")
    for pointer in ("/airflow", "/friction_rate"):
        assert field(page, pointer).get_attribute("aria-invalid") == "true"
        told = str(field(page, pointer).get_attribute("aria-describedby")).split()[0]
        assert field(page, told).is_visible()
    page.locator(".summary a", has_text="Friction rate").click()
    assert page.evaluate("document.activeElement.id") == "/friction_rate"
    assert Axe().run(page).violations_count == 0


def test_items_are_added_and_removed(visit: Visit) -> None:
    page = visit.go("/sheets/branch-tally?example=two-branches")
    page.get_by_role("button", name="Add branch", exact=True).click()
    assert page.evaluate("document.activeElement.name") == "/branches/2/id"
    page.keyboard.type("attic <b>&")
    field(page, "/branches/2/length").fill("7-1/2")
    field(page, "/branches/2").get_by_role("button", name="Add joint").click()
    field(page, "/branches/2/joints/0/joint").select_option("collar")
    field(page, "/branches/2").get_by_role("button", name="Add wrap").click()
    field(page, "/branches/2/wrap/thickness").fill("1-1/2")
    field(page, "/branches/2").get_by_role("button", name="Another line").click()
    field(page, "/branches/2/fittings/1").select_option("tee")
    page.locator('[name="/branches/2/fittings/1.count"]').fill("3")
    field(page, "/branches/0").get_by_role("button", name="Remove branch").click()
    assert page.locator("[id='/branches'] > .items > .item > summary span").all_inner_texts() == ["Branch 1", "Branch 2"]
    page.get_by_role("button", name="Add branch", exact=True).click()
    assert page.evaluate("document.activeElement.name") == "/branches/3/id"
    field(page, "/branches/3").get_by_role("button", name="Remove branch").click()
    assert page.get_by_text("The question has changed").is_visible()
    work_out(page)
    assert not page.get_by_text("The question has changed").is_visible()
    assert page.locator(".answer td").all_inner_texts()[:4] == ["branch-2", "12", "attic <b>&", "7.5"]
    assert page.locator(".answer th").all_inner_texts()[1] == "Length\nft"
    asked = json.loads(page.locator("#written").input_value())
    assert asked["branches"][1] == {
        "id": "attic <b>&",
        "side": "supply",
        "length": "7-1/2 ft",
        "joints": [{"joint": "collar"}],
        "fittings": {"tee": 3},
        "wrap": {"thickness": "1-1/2 in", "foil_faced": True},
    }


def test_plain_items_are_added_and_removed(visit: Visit) -> None:
    page = visit.go("/sheets/branch-tally?example=two-branches")
    page.get_by_role("button", name="Remove spare 1").click()
    page.get_by_role("button", name="Add spare").click()
    page.keyboard.type("30")
    assert page.locator("[id='/spares'] label").all_inner_texts() == ["Spare 1", "Spare 2"]
    work_out(page)
    assert json.loads(page.locator("#written").input_value())["spares"] == ["18 in", "30 ft"]


def test_a_fault_in_a_nested_item_is_told_there(visit: Visit) -> None:
    page = visit.go("/sheets/branch-tally?example=twenty-branches")
    field(page, "/branches/18").locator("summary").first.click()
    field(page, "/branches/18/joints/1/allowance").fill("999")
    work_out(page)
    page.locator(".summary a").click()
    assert page.evaluate("document.activeElement.id") == "/branches/18/joints/1/allowance"
    assert "Branches › Branch 19 › Joints › Joint 2 › Allowance" in page.locator(".summary").inner_text()


def test_by_keyboard_alone(visit: Visit) -> None:
    page = visit.go("/sheets/duct-sizing")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    for _ in range(60):
        if page.evaluate("document.activeElement.id") == "/airflow":
            break
        page.keyboard.press("Tab")
    page.keyboard.type("110")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.type("0.08")
    page.keyboard.press("Enter")
    page.wait_for_selector(".answer")


def test_kept_in_a_file_and_opened_again(visit: Visit, tmp_path: Path) -> None:
    page = visit.go("/sheets/branch-tally?example=twenty-branches")
    page.locator(".keep summary").click()
    with page.expect_download() as download:
        page.get_by_role("button", name="Save as a file").click()
    kept = tmp_path / "kept.json"
    download.value.save_as(kept)
    assert len(json.loads(kept.read_text())["branches"]) == 20
    visit.go("/sheets/branch-tally")
    page.locator(".keep summary").click()
    page.locator("#file").set_input_files(kept)
    page.wait_for_selector(".answer")
    assert "390 ft" in page.locator(".answer").inner_text()


def test_a_question_too_long_for_an_address_stands_behind_the_hash(visit: Visit) -> None:
    page = visit.go("/sheets/branch-tally?example=twenty-branches")
    work_out(page)
    assert len(json.loads(unquote(page.url.partition("#question=")[2]))["branches"]) == 20
    again = page.context.new_page()
    again.goto(page.url)
    again.wait_for_selector(".answer")
    assert "390 ft" in again.locator(".answer").inner_text()


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_the_sheet_prints(visit: Visit, tmp_path: Path, paper: str) -> None:
    """A PDF of a few pages whose texts fit the paper's width; the screen's buttons are not on it."""
    page = visit.go("/sheets/duct-sizing?example=flexible-run-with-slack")
    with page.expect_popup() as opened:
        page.get_by_role("button", name="Sheet to print").click()
    sheet = opened.value
    sheet.wait_for_load_state()
    for words in ("Question", "Checks", "Values", "Rules applied", "Cautions", "Working", "Name", "Date", "Signature"):
        assert sheet.get_by_text(words, exact=True).count() >= 1, words
    assert sheet.locator("figure svg").is_visible()
    assert Axe().run(sheet).violations_count == 0
    printed = sheet.pdf(format=paper)
    assert printed.startswith(b"%PDF")
    assert 1 <= printed.count(b"/Type /Page\n") + printed.count(b"/Type /Page ") + printed.count(b"/Type/Page/") <= 4
    content = {"Letter": 816 - 114, "A4": 793 - 114}[paper]
    sheet.set_viewport_size({"width": content, "height": 1000})
    sheet.emulate_media(media="print")
    assert sheet.evaluate("document.documentElement.scrollWidth") <= content


def test_without_script_a_question_is_answered(visit: Visit) -> None:
    page = visit.go("/sheets/duct-sizing")
    field(page, "/airflow").fill("110")
    field(page, "/friction_rate").fill("0.08")
    page.get_by_role("button", name="Work it out").click()
    assert "7 in" in page.locator(".answer").inner_text()
    page.get_by_role("button", name="Add size").click()
    field(page, "/size/shape").select_option("round")
    field(page, "/size/diameter").fill("5")
    page.get_by_role("button", name="Work it out").click()
    assert "fails" in page.locator(".checks").inner_text()
    page.locator(".keep summary").click()
    link = page.get_by_role("link", name="Link to this question")
    link.click()
    assert "fails" in page.locator(".checks").inner_text()


def test_a_rule_opens_with_its_source_and_table(visit: Visit) -> None:
    page = visit.go("/sheets/duct-sizing?example=branch-to-a-bedroom")
    with page.expect_popup() as opened:
        page.locator(".checks").get_by_role("link", name="duct-sizing.velocity-by-place").click()
    rule = opened.value
    assert "A habit of the trade" in rule.inner_text("main")
    assert rule.locator("tbody tr").count() == 5


def test_a_lost_connection_is_told(visit: Visit) -> None:
    page = visit.go("/sheets/duct-sizing?example=branch-to-a-bedroom")
    page.route("**/sheets/*", lambda route: route.abort())
    page.get_by_role("button", name="Work it out").click()
    page.wait_for_selector(".summary")
    assert "Your figures are still in the form" in page.locator(".summary").inner_text()
    assert field(page, "/airflow").input_value() == "110"
    visit.wrong = [words for words in visit.wrong if "ERR_FAILED" not in words]
