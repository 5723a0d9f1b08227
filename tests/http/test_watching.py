"""What an operator sees: metrics as the official parser reads them, one JSON line for each request, and faults told without their inside."""

import asyncio
import io
import json
import logging
from datetime import UTC, datetime
from typing import Any

import pytest
from prometheus_client.parser import text_string_to_metric_families

from kneewall import RULEBOOK, VERSION
from kneewall.app import create_application
from kneewall.catalogue import all_calculations
from kneewall.http import ask as asking
from kneewall.http.journal import Journal, JsonFormatter, RequestLine
from kneewall.http.settings import Settings
from tests.http.calling import call

BODY = json.dumps(all_calculations()["duct-sizing"].examples[0].question).encode()
ASK: dict[str, Any] = {"method": "POST", "path": "/v1/duct-sizing", "body": BODY, "content_type": "application/json"}


def metrics(app: Any) -> dict[str, list[Any]]:
    text = call(app, "GET", "/metrics")
    assert text.headers["content-type"] == "text/plain; version=0.0.4; charset=utf-8"
    return {family.name: family.samples for family in text_string_to_metric_families(text.body.decode())}


def test_requests_are_counted_by_calculation_and_status() -> None:
    app = create_application(settings=Settings(log="faults"))
    for _ in range(3):
        call(app, **ASK)
    call(app, **{**ASK, "body": b"{"})
    for number in range(50):
        call(app, "GET", f"/nothing-{number}")
    found = metrics(app)
    counted = {(one.labels["calculation"], one.labels["status"]): one.value for one in found["kneewall_requests"]}
    assert counted == {("duct-sizing", "200"): 3, ("duct-sizing", "400"): 1, ("other", "404"): 50}
    times = [one for one in found["kneewall_request_seconds"] if one.labels["calculation"] == "duct-sizing"]
    buckets = [one.value for one in times if one.name.endswith("_bucket")]
    assert buckets == sorted(buckets) and buckets[-1] == 4
    assert next(one.value for one in times if one.name.endswith("_count")) == 4
    assert 0 < next(one.value for one in times if one.name.endswith("_sum")) < 5
    assert found["kneewall_build_info"][0].labels == {"version": VERSION, "rulebook": RULEBOOK}
    assert found["process_resident_memory_bytes"][0].value > 1e6


def test_the_number_of_series_is_bounded_whatever_is_asked() -> None:
    app = create_application(settings=Settings(log="faults"))
    for number in range(300):
        call(app, "GET", f"/v1/rules/{number}", x_request_id=f"r-{number}")
        call(app, **{**ASK, "path": f"/v1/{number}"})
    assert len(metrics(app)["kneewall_requests"]) <= 3


def test_each_request_leaves_one_line() -> None:
    app: Any = create_application(settings=Settings())
    stream = io.BytesIO()
    app.journal.stream = stream
    call(app, **ASK, x_request_id="first")
    call(app, "GET", '/odd"\n\x1b[31m' + "a" * 500, x_request_id="second")
    call(app, "HEAD", "/health/live", x_request_id="third")
    app.journal.write()
    first, second, third = map(json.loads, stream.getvalue().splitlines())
    assert first["request"] == "first" and first["calculation"] == "duct-sizing" and first["status"] == 200
    assert 0 < first["milliseconds"] < 5000 and first["time"].endswith("Z")
    assert second["status"] == 404 and len(second["path"]) == 200 and second["calculation"] == "other"
    assert third["method"] == "HEAD"
    assert b"\x1b" not in stream.getvalue()


def test_lines_are_written_together_soon_and_a_broken_log_stops_nothing() -> None:
    stream = io.BytesIO()
    journal = Journal(stream)
    line = RequestLine(datetime.now(UTC), "r", "GET", "/", "other", 200, 1.0)

    async def note() -> None:
        journal.note(line)
        journal.note(line)
        assert stream.getvalue() == b""
        await asyncio.sleep(0.4)
        assert stream.getvalue().count(b"\n") == 2
        stream.close()
        journal.note(line)
        await asyncio.sleep(0.4)
        assert journal.lines == []

    asyncio.run(note())


def test_a_fault_of_ours_is_logged_whole_and_told_without_its_inside(monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture) -> None:
    def broken(scope: Any, offered: Any) -> str:
        raise RuntimeError("secret of the house in /srv/secret/place")

    monkeypatch.setattr(asking, "wanted_media", broken)
    for settings in (Settings(log="faults"), Settings(log="faults", speed_lane=False)):
        caplog.clear()
        answer = call(create_application(settings=settings), **ASK, x_request_id="broken")
        assert answer.status == 500
        assert json.loads(answer.body)["type"] == "/problems/fault-here"
        for inside in (b"secret", b"Traceback", b".py", b"RuntimeError"):
            assert inside not in answer.body
        (record,) = [one for one in caplog.records if one.levelno == logging.ERROR]
        line = json.loads(JsonFormatter().format(record))
        assert "broken" in line["says"] and "secret of the house" in line["trace"] and line["level"] == "error"
