"""One service for the tests that must not harm it."""

from collections.abc import Iterator

import pytest

from tests.faults.service import Service


@pytest.fixture(scope="module")
def service() -> Iterator[Service]:
    with Service() as running:
        yield running
