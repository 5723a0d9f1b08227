"""Schemathesis, generated from the OpenAPI document, over every route."""

import os
from collections import Counter

import msgspec
import pytest
import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis.checks import CHECKS
from schemathesis.config import SchemathesisConfig

from kneewall.app import create_application
from tests.http.document import served_document


@schemathesis.serializer("application/msgpack")
def as_msgpack(ctx, value):  # type: ignore[no-untyped-def]
    return value if isinstance(value, bytes) else msgspec.msgpack.encode(packable(value))


def packable(value):  # type: ignore[no-untyped-def]
    """Whole numbers beyond 64 bits go as floating-point numbers: MessagePack has no larger ones."""
    if isinstance(value, dict):
        return {key: packable(item) for key, item in value.items()}
    if isinstance(value, list):
        return [packable(item) for item in value]
    return float(value) if isinstance(value, int) and not isinstance(value, bool) and not -(2**63) <= value < 2**64 else value


EXAMPLES = int(os.environ.get("KNEEWALL_EXAMPLES", "200"))
ANSWERED: Counter[str] = Counter()

# Every part of a whole job is tried through its own route; trying each of the job's thousands of fields again would take longer than all of these.
WHOLE_JOB = {"include-path": "/v1/retrofit-check", "phases": {"coverage": {"enabled": False}}}
schema = schemathesis.openapi.from_dict(served_document(), config=SchemathesisConfig.from_dict({"operations": [WHOLE_JOB]}))
schema.app = create_application()


@schemathesis.check
def schema_valid_questions_are_never_called_invalid(ctx, response, case) -> None:  # type: ignore[no-untyped-def]
    """A question that fits the schema is answered, or refused because no honest answer exists: never because of its form, and never by accident."""
    ANSWERED[f"{case.path} {response.status_code}"] += 1
    if case.meta is not None and case.meta.generation.mode.is_positive and response.status_code == 422:
        problem = response.json()
        assert problem["type"] == "/problems/cannot-answer", problem
        assert "outside what can be computed" not in problem["detail"], problem


@schema.parametrize()
@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_route_keeps_its_word(case) -> None:  # type: ignore[no-untyped-def]
    left_to_our_own_check = [check for check in CHECKS.get_all() if check.__name__ == "positive_data_acceptance"]
    case.call_and_validate(excluded_checks=left_to_our_own_check, timeout=120)  # the first bulk question starts the workers


@pytest.fixture(scope="module", autouse=True)
def some_questions_were_answered():  # type: ignore[no-untyped-def]
    yield
    assert any(key.endswith(" 200") for key in ANSWERED)
