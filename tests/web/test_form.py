"""The form without a browser: what it shows of a question is what it sends, and what it is sent is answered, whatever it is."""

import json
from typing import Any

import httpx
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kneewall.kernel.calculation import AnyCalculation
from kneewall.web.asked import Asked
from kneewall.web.fields import form_of
from kneewall.web.form import Form, added, removed, split_unit
from tests.web.conftest import CALCULATIONS
from tests.web.nested import CALCULATION
from tests.web.reading import FormReader

EXAMPLES = [(one, example) for one in CALCULATIONS.values() for example in one.examples]
HOSTILE = "</script><img src=x onerror=alert(1)>'\"&{{7*7}}\x07"


@pytest.mark.parametrize(("calculation", "example"), EXAMPLES, ids=[f"{one.name} {example.name}" for one, example in EXAMPLES])
def test_an_example_shown_and_sent_again_is_the_same_question(client: httpx.Client, calculation: AnyCalculation, example: Any) -> None:
    shown = client.get(f"/sheets/{calculation.name}", params={"example": example.name})
    assert shown.status_code == 200
    sent = FormReader(shown.text).sent
    asked = Form(sent).question(form_of(calculation.question))
    assert calculation.reader.plain(asked) == calculation.reader.plain(example.question)


@pytest.mark.parametrize(("calculation", "example"), EXAMPLES, ids=[f"{one.name} {example.name}" for one, example in EXAMPLES])
def test_a_page_stays_light_and_well_formed(client: httpx.Client, calculation: AnyCalculation, example: Any) -> None:
    """Under 150 kB on the way with its style and script, no id twice, nothing that a strict content security policy would stop."""
    shown = client.get(f"/sheets/{calculation.name}", params={"example": example.name})
    read = FormReader(shown.text)
    beside = sum(len(client.get(f"/static/{name}").content) for name in ("page.css", "form.js", "mark.svg"))
    assert shown.num_bytes_downloaded + beside < 150_000
    assert len(read.ids) == len(set(read.ids))
    assert not [name for _, name, _ in read.attributes if name.startswith("on") or name == "style"]
    assert "style" not in read.tags
    assert [value for tag, name, value in read.attributes if tag == "script" and name == "src"] == ["/static/form.js"]


def test_every_fault_stands_at_its_field(client: httpx.Client) -> None:
    sent = {
        "/airflow": "a lot",
        "/airflow.unit": "cfm",
        "/duct/material": "flexible",
        "/duct/stretch": "2",
        "/size.there": "1",
        "/size/diameter": "8 furlong",
    }
    page = client.post("/sheets/duct-sizing", data=sent)
    assert page.status_code == 422
    read = FormReader(page.text)
    for pointer in ("/airflow", "/duct/stretch", "/size/shape", "/size/diameter"):
        assert f"{pointer}.fault" in read.ids
        assert ("a", "href", f"#{pointer}") in read.attributes
    assert read.sent["/airflow"] == "a lot"


def test_a_contradiction_is_told_at_its_field(client: httpx.Client) -> None:
    sent = {
        "/airflow": "110 cfm",
        "/friction_rate": "0.08",
        "/friction_rate.unit": "inH2O/100ft",
        "/duct/material": "flexible",
        "/duct/shape": "rectangular",
    }
    page = client.post("/sheets/duct-sizing", data=sent)
    assert page.status_code == 422
    assert "/duct/shape.fault" in FormReader(page.text).ids


def test_without_script_items_are_added_and_taken_out(client: httpx.Client) -> None:
    """The buttons of the page do what the script does, with a page in between."""
    sent = FormReader(client.get("/sheets/branch-tally", params={"example": "two-branches"}).text).sent
    more = FormReader(client.post("/sheets/branch-tally", data={**sent, "add": "/branches/1/joints"}).text).sent
    assert "/branches/1/joints/2.there" in more
    wrapped = FormReader(client.post("/sheets/branch-tally", data={**more, "add": "/branches/0/wrap"}).text).sent
    assert "/branches/0/wrap/thickness" in wrapped
    spared = FormReader(client.post("/sheets/branch-tally", data={**wrapped, "add": "/spares"}).text).sent
    assert (spared["/spares/0"], spared["/spares/2"]) == ("2", "")
    less = FormReader(client.post("/sheets/branch-tally", data={**spared, "remove": "/branches/0"}).text).sent
    assert less["/branches/0/id"] == "branch-2"
    assert "/branches/1/id" not in less


def test_a_large_part_is_folded_unless_something_in_it_was_changed_or_is_wrong(client: httpx.Client) -> None:
    """Without script a page comes back after every button: what was just pressed must not vanish in a fold."""
    path, part = "/sheets/retrofit-check", '<details class="item"{}><summary><span>Duct system</span>'
    page = client.get(path, params={"example": "plan-mended"}).text
    assert part.format("") in page
    sent = FormReader(page).sent
    assert part.format(" open") in client.post(path, data={**sent, "add": "/duct_system/sections/0/fittings"}).text
    assert part.format("") in client.post(path, data={**sent, "add": "/delivered"}).text
    assert part.format(" open") in client.post(path, data={**sent, "/duct_system/sections/0/length": "x"}).text


def test_gaps_between_items_are_closed() -> None:
    """The script leaves gaps in the numbers; reading closes them, so that pointers and fields agree again."""
    sent = {
        "/branches/7.there": "1",
        "/branches/7/id": "b",
        "/branches/2/id": "a",
        "/branches/2.there": "1",
        "/branches/7/length": "3",
        "/branches/7/length.unit": "ft",
    }
    asked = Form(sent).question(form_of(CALCULATION.question))
    assert [(one["id"], one.get("length")) for one in asked["branches"]] == [("a", None), ("b", "3 ft")]


@pytest.mark.parametrize(
    ("text", "expected"),
    [("110 cfm", ("110", "cfm")), ("1 1/8", ("1 1/8", "")), ("110 CFM", ("110", "cfm")), ("3 furlong", ("3 furlong", "")), ("", ("", ""))],
)
def test_a_unit_typed_behind_the_number_is_taken(text: str, expected: tuple[str, str]) -> None:
    from kneewall.kernel.quantity import Airflow

    assert split_unit(Airflow, text) == expected


def test_a_question_is_kept_in_a_file_and_in_an_address(client: httpx.Client) -> None:
    sent = FormReader(client.get("/sheets/duct-sizing", params={"example": "branch-to-a-bedroom"}).text).sent
    kept = client.post("/sheets/duct-sizing", data={**sent, "do": "save"})
    assert kept.headers["content-disposition"] == 'attachment; filename="duct-sizing.json"'
    assert client.post("/v1/duct-sizing", json=kept.json()).status_code == 200
    answered = client.post("/sheets/duct-sizing", data=sent)
    link = next(str(value) for tag, name, value in FormReader(answered.text).attributes if name == "data-link")
    assert json.loads(httpx.URL(link).params["question"]) == kept.json()
    assert "The answer" in client.get(link).text


def test_names_written_by_strangers_are_escaped(client: httpx.Client) -> None:
    question = {"branches": [{"id": HOSTILE, "length": "3 ft"}]}
    harmless = FormReader(client.get("/sheets/branch-tally", params={"question": json.dumps({"branches": [{"id": "a", "length": "3 ft"}]})}).text)
    for page in (
        client.get("/sheets/branch-tally", params={"question": json.dumps(question)}),
        client.post("/sheets/branch-tally", data={"/branches/0/id": HOSTILE, "/branches/0/length": "3 ft", "/branches/0.there": "1"}),
    ):
        assert page.status_code == 200
        assert [tag for tag in FormReader(page.text).tags if tag != "wbr"] == harmless.tags
        assert "49" not in FormReader(page.text).sent["/branches/0/id"]
    sheet = client.post("/v1/branch-tally", json=question)
    assert sheet.headers["content-type"] == "text/html; charset=utf-8"
    assert "<img src=x" not in sheet.text
    named = client.post(
        "/sheets/branch-tally", data={f"/branches/0/{HOSTILE}": "x", "add": HOSTILE, "remove": f"/branches/{HOSTILE}", "example": HOSTILE}
    )
    assert "<img src=x" not in named.text


def test_what_no_form_can_show_is_refused(client: httpx.Client) -> None:
    """4000 fields and more are a question for programs."""
    page = client.post("/sheets/branch-tally", data={"do": "open", "written": json.dumps({"branches": [{}] * 2000})})
    assert page.status_code == 422
    assert "send it to the service as JSON" in page.json()["detail"]


@pytest.mark.parametrize(
    "written", ["", "[1]", "{", '"a"', "[" * 5000, '{"branches": ' + "[" * 900 + "]" * 900 + "}", '{"branches": 1e999}', '{"a": "\\ud800"}']
)
def test_a_text_that_is_no_question_is_told_so(client: httpx.Client, written: str) -> None:
    page = client.post("/sheets/branch-tally", data={"do": "open", "written": written})
    assert page.status_code in (400, 422)
    assert "Branch tally" in page.text
    assert client.get("/sheets/branch-tally", params={"question": written[:3000]}).status_code in (400, 422)


def test_only_forms_are_read_as_forms(client: httpx.Client) -> None:
    assert client.post("/sheets/duct-sizing", json={"airflow": "110 cfm"}).status_code == 415
    assert client.post("/sheets/duct-sizing", data={str(number): "" for number in range(7000)}).status_code == 400


NAMES = st.sampled_from(
    [
        "/branches",
        "/branches/0",
        "/branches/0.there",
        "/branches/0/id",
        "/branches/0/length",
        "/branches/0/length.unit",
        "/branches/0/joints/0.there",
        "/branches/0/fittings/0.name",
        "/branches/0/fittings/0.count",
        "/branches/0/wrap.there",
        "/branches/0/wrap/foil_faced",
        "/spares/0",
        "/attic",
        "/branches/x",
        "/branches/0/joints/0/joint",
        "add",
        "remove",
        "do",
        "units",
        "written",
        "question",
        "example",
        "/",
        "",
        ".",
    ]
)
TEXTS = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["/branches", "/branches/0", "/branches/0/joints", "/branches/0/wrap", "/spares", "/spares/0", "/attic", "1e999", "nan", "3 ft", "1/0", "{}"]
    ),
)


@given(st.dictionaries(NAMES, TEXTS, max_size=12))
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_form_whatever_breaks_the_page(sent: dict[str, str]) -> None:
    status, body, _ = Asked(CALCULATION, sent).done()
    assert status in (200, 400, 422)
    assert body
    assert Asked(CALCULATION, sent).opened()[0] in (200, 400, 422)


@given(
    st.recursive(
        st.none() | st.booleans() | st.floats(allow_nan=False) | st.text(max_size=5),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(
                st.sampled_from(["branches", "id", "length", "joints", "fittings", "wrap", "spares", "value", "unit"]), inner, max_size=4
            )
        ),
        max_leaves=12,
    )
)
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_question_whatever_breaks_the_page(question: Any) -> None:
    assert Asked(CALCULATION, {"question": json.dumps(question)}).opened()[0] in (200, 400, 422)


def test_places_that_are_not_there_are_left_alone() -> None:
    form = form_of(CALCULATION.question)
    question: dict[str, Any] = {"branches": [{"id": "a"}]}
    for pointer in ("", "/", "/nothing", "/branches/9", "/branches/0/id", "/branches/0/joints/3/joint", "/branches/-1", "/attic/x"):
        added(form, question, pointer)
        removed(form, question, pointer if pointer != "/branches/0/id" else "")
    assert question == {"branches": [{"id": "a"}]}
