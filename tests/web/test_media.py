"""What a calculation answers by content negotiation beside JSON, and the files of the pages."""

from typing import Any
from xml.etree import ElementTree

import httpx
import pytest

from kneewall.kernel.calculation import AnyCalculation
from tests.http.document import served_document
from tests.web.conftest import CALCULATIONS

DRAWN = [(one, example) for one in CALCULATIONS.values() if one.drawing for example in one.examples]


@pytest.mark.parametrize(("calculation", "example"), DRAWN, ids=[f"{one.name} {example.name}" for one, example in DRAWN])
def test_the_drawing_is_plain_svg(client: httpx.Client, calculation: AnyCalculation, example: Any) -> None:
    """Well-formed XML with a title and a description, without script, style, links or anything from elsewhere."""
    for units in ("ip", "si"):
        drawn = client.post(f"/v1/{calculation.name}", params={"units": units}, json=example.question, headers={"accept": "image/svg+xml"})
        assert drawn.headers["content-type"] == "image/svg+xml"
        root = ElementTree.fromstring(drawn.content)
        svg = "{http://www.w3.org/2000/svg}"
        assert root.tag == f"{svg}svg"
        assert root.findtext(f"{svg}title")
        assert root.findtext(f"{svg}desc")
        allowed = {f"{svg}{name}" for name in ("svg", "title", "desc", "line", "polyline", "polygon", "rect", "circle", "path", "text")}
        assert {element.tag for element in root.iter()} <= allowed
        names = {name for element in root.iter() for name in element.attrib}
        assert not {name for name in names if name.startswith("on") or "href" in name or name in ("style", "class", "id")}


def test_names_in_a_drawing_are_escaped(client: httpx.Client) -> None:
    name = "</text><script>alert(1)</script>&\x00\"'"
    drawn = client.post("/v1/branch-tally", json={"branches": [{"id": name, "length": "3 ft"}]}, headers={"accept": "image/svg+xml"})
    root = ElementTree.fromstring(drawn.content)
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert any((element.text or "").startswith("</text><script>") for element in root.iter())


def test_media_types_are_chosen_by_accept(client: httpx.Client) -> None:
    question = {"airflow": "110 cfm", "friction_rate": "0.08 inH2O/100ft"}
    wanted = {
        "*/*": "application/json",
        "text/html": "text/html; charset=utf-8",
        "image/svg+xml": "image/svg+xml",
        "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8": "text/html; charset=utf-8",
        "application/msgpack": "application/msgpack",
    }
    for accept, media in wanted.items():
        answered = client.post("/v1/duct-sizing", json=question, headers={"accept": accept})
        assert (answered.status_code, answered.headers["content-type"]) == (200, media)
    refused = client.post("/v1/duct-sizing", json=question, headers={"accept": "image/png"})
    assert refused.status_code == 406
    assert refused.headers["content-type"] == "application/problem+json"
    faulty = client.post("/v1/duct-sizing", json={}, headers={"accept": "text/html"})
    assert (faulty.status_code, faulty.headers["content-type"]) == (422, "application/problem+json")


def test_the_interface_states_every_media_type() -> None:
    content = served_document()["paths"]["/v1/duct-sizing"]["post"]["responses"]["200"]["content"]
    assert list(content) == ["application/json", "application/msgpack", "text/html", "image/svg+xml"]


def test_a_rule_is_json_for_programs_and_a_page_for_people(client: httpx.Client) -> None:
    path = "/v1/rules/duct-sizing.velocity-by-place"
    assert client.get(path, headers={"accept": "*/*"}).json()["table"]["rows"]
    page = client.get(path)
    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert client.get("/v1/rules/<b>").status_code == 404


@pytest.mark.parametrize("path", ["/", "/docs", "/docs/duct-sizing", "/static/page.css", "/static/form.js", "/static/mark.svg"])
def test_what_never_changes_is_not_sent_twice(client: httpx.Client, path: str) -> None:
    first = client.get(path, headers={"accept": "*/*"})
    assert first.status_code == 200
    assert len(first.content) < 100_000
    assert client.get(path, headers={"accept": "*/*", "if-none-match": first.headers["etag"]}).status_code == 304
    assert "default-src 'none'" in first.headers["content-security-policy"]


def test_pages_of_calculations_that_are_not_there(client: httpx.Client) -> None:
    for path in ("/sheets/nothing", "/docs/nothing", "/static/../app.py", "/static/nothing"):
        assert client.get(path).status_code == 404
