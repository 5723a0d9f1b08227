"""What the bulk tests share."""

import asyncio
import io
import os
import subprocess
import sys
from collections.abc import Awaitable, Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any

import httpx
import pytest

from kneewall.__main__ import main
from kneewall.app import create_application
from kneewall.bulk.endpoint import close_service_pool

SERVICE = Path(__file__).parents[2] / "service"

Post = Callable[..., httpx.Response]


@pytest.fixture(scope="session", autouse=True)
def workers_end() -> Iterator[None]:
    yield
    close_service_pool()


@pytest.fixture(scope="session")
def post() -> Post:
    """POST to the application in this process."""
    app: Any = create_application()

    async def send(path: str, **how: Any) -> httpx.Response:
        async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://service", timeout=120) as client:
            return await client.post(path, **how)

    def post(path: str, **how: Any) -> httpx.Response:
        work: Awaitable[httpx.Response] = send(path, **how)
        return asyncio.run(work)  # type: ignore[arg-type]

    return post


def environment() -> dict[str, str]:
    """The environment in which a process finds the package."""
    return {**os.environ, "PYTHONPATH": str(SERVICE)}


def command(*given: object) -> list[str]:
    """The command line of `kneewall`."""
    return [sys.executable, "-m", "kneewall", *map(str, given)]


def kneewall(*given: object) -> subprocess.CompletedProcess[str]:
    """Run the command `kneewall` to its end, in this process."""
    told, said = io.StringIO(), io.StringIO()
    with redirect_stdout(told), redirect_stderr(said):
        code = main([str(one) for one in given])
    return subprocess.CompletedProcess([], code, told.getvalue(), said.getvalue())
