"""Optional API keys, and other origins' pages. RFC 9110 section 15.5.2 for 401; the Fetch standard's CORS protocol for the headers."""

import hmac
import json
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
import pytest

from kneewall.__main__ import main
from kneewall.app import create_application
from kneewall.catalogue import all_calculations
from kneewall.http import keys
from kneewall.http.keys import known_keys, new_key
from kneewall.http.settings import SettingFault, Settings, settings_from, settings_table
from tests.http.calling import call
from tests.http.document import served_document

BODY = json.dumps(all_calculations()["duct-sizing"].examples[0].question).encode()
ASK: dict[str, Any] = {"method": "POST", "path": "/v1/duct-sizing", "body": BODY, "content_type": "application/json"}
KEY, LINE = new_key("shop")


def test_without_keys_nobody_is_asked() -> None:
    app = create_application(settings=Settings(log="faults"))
    assert call(app, **ASK).status == 200
    assert call(app, **ASK, x_api_key="whatever").status == 200


def test_with_keys_only_a_known_one_passes() -> None:
    app = create_application(settings=Settings(log="faults", api_keys=(LINE, new_key("other")[1])))
    assert call(app, **ASK, x_api_key=KEY).status == 200
    for wrong in ({}, {"x_api_key": KEY[:-1]}, {"x_api_key": LINE}, {"x_api_key": ""}, {"x_api_key": f"{KEY},{KEY}"}, {"x_api_key": "\xe9"}):
        refused = call(app, **ASK, **wrong)
        assert refused.status == 401
        assert refused.headers["www-authenticate"] == "ApiKey"
        assert refused.headers["x-content-type-options"] == "nosniff"
        assert json.loads(refused.body)["type"] == "/problems/unauthorized"
        assert KEY.encode() not in refused.body


def test_with_keys_only_health_metrics_and_the_document_are_open() -> None:
    app = create_application(settings=Settings(log="faults", api_keys=(LINE,)))
    for path in ("/health/live", "/health/ready", "/metrics", "/openapi.json"):
        assert call(app, "GET", path).status == 200
    for path in ("/v1/calculations", "//v1/duct-sizing", "/V1/duct-sizing", "/", "/docs", "/health/live/", "/nothing"):
        assert call(app, "GET", path).status == 401
        assert call(app, "POST", path).status == 401


def test_every_key_is_compared_and_in_constant_time(monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[tuple[str, str]] = []

    def watched(one: str, other: str) -> bool:
        compared.append((one, other))
        return hmac.compare_digest(one, other)

    monkeypatch.setattr(keys, "compare_digest", watched)
    lines = (LINE, *(new_key(f"other-{number}")[1] for number in range(4)))
    call(create_application(settings=Settings(log="faults", api_keys=lines)), **ASK, x_api_key=KEY)
    assert len(compared) == 5


def test_keys_come_from_a_file_and_the_environment_hashed_only(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new-key", "estimator"]) == 0
    key, line = capsys.readouterr().out.split()
    assert line == f"estimator:sha256:{sha256(key.encode()).hexdigest()}" and key not in line
    file = tmp_path / "keys"
    file.write_text(f"# who may ask\n\n{line}\n")
    settings = settings_from({"KNEEWALL_API_KEYS_FILE": str(file), "KNEEWALL_API_KEYS": LINE, "KNEEWALL_LOG": "faults"})
    assert known_keys(settings).keys() == {"estimator", "shop"}
    for given in (key, KEY):
        assert call(create_application(settings=settings), **ASK, x_api_key=given).status == 200


@pytest.mark.parametrize(
    "environment",
    [
        {"KNEEWALL_API_KEYS": "secret"},
        {"KNEEWALL_API_KEYS": f"{LINE},{LINE}"},
        {"KNEEWALL_API_KEYS_FILE": "/nonexistent/keys"},
        {"KNEEWALL_API_KEYS_FILE": "/dev/null"},
        {"KNEEWALL_PORT": "many"},
        {"KNEEWALL_PORT": "70000"},
        {"KNEEWALL_PATIENCE": "0"},
        {"KNEEWALL_LOG": "everything"},
    ],
)
def test_a_setting_that_cannot_be_used_stops_the_start(environment: dict[str, str]) -> None:
    with pytest.raises(SettingFault) as fault:
        create_application(settings=settings_from(environment))
    assert "secret" not in str(fault.value)


def test_all_faulty_settings_are_named_at_once() -> None:
    with pytest.raises(SettingFault, match=r"KNEEWALL_PORT.*KNEEWALL_DRAIN"):
        settings_from({"KNEEWALL_PORT": "x", "KNEEWALL_DRAIN": "y"})


def test_every_setting_is_in_the_table_of_the_developers() -> None:
    text = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text("utf-8")
    assert settings_table() in text
    assert len(settings_table().splitlines()) == 2 + len(msgspec.structs.fields(Settings))


def test_the_key_is_optional_in_the_document() -> None:
    document = served_document()
    assert document["security"] == [{}, {"ApiKey": []}]
    assert document["components"]["securitySchemes"]["ApiKey"] | {"description": ""} == {
        "type": "apiKey",
        "in": "header",
        "name": "X-API-Key",
        "description": "",
    }


def test_other_origins_are_told_nothing_unless_set() -> None:
    app = create_application(settings=Settings(log="faults"))
    answer = call(app, **ASK, origin="https://shop.example")
    preflight = call(app, "OPTIONS", "/v1/duct-sizing", origin="https://shop.example", access_control_request_method="POST")
    assert not [name for name in answer.headers | preflight.headers if name.startswith("access-control")]


def test_a_named_origin_may_ask_and_another_may_not() -> None:
    app = create_application(settings=Settings(log="faults", allowed_origins=("https://shop.example",), api_keys=(LINE,)))
    allowed = call(app, "OPTIONS", "/v1/duct-sizing", origin="https://shop.example", access_control_request_method="POST")
    assert allowed.status == 204
    assert allowed.headers["access-control-allow-origin"] == "https://shop.example"
    assert "x-api-key" in allowed.headers["access-control-allow-headers"]
    assert "access-control-allow-credentials" not in allowed.headers
    other = call(app, "OPTIONS", "/v1/duct-sizing", origin="https://shop.example.evil", access_control_request_method="POST")
    assert "access-control-allow-origin" not in other.headers
    for asked in (call(app, **ASK, origin="https://shop.example"), call(app, **ASK, origin="https://shop.example", x_api_key=KEY)):
        assert asked.headers["access-control-allow-origin"] == "https://shop.example"
        assert asked.headers["vary"] == "origin"
    assert call(app, **ASK).headers["vary"] == "origin"
    assert "access-control-allow-origin" not in call(app, **ASK, origin="null").headers


def test_any_origin_may_be_allowed() -> None:
    app = create_application(settings=Settings(log="faults", allowed_origins=("*",)))
    assert call(app, **ASK, origin="https://anybody.example").headers["access-control-allow-origin"] == "*"
