"""The service on a port of its own, with the calculations there are and the nested one of the tests, and a browser to look at it."""

import os
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from typing import Any

import httpx
import pytest
import uvicorn

from kneewall.app import create_application
from kneewall.catalogue import all_calculations
from tests.web.nested import CALCULATION

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
CALCULATIONS = {**all_calculations(), CALCULATION.name: CALCULATION}


@pytest.fixture(scope="session")
def service() -> Iterator[str]:
    """The address of the running service."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = uvicorn.Server(uvicorn.Config(create_application(CALCULATIONS), host="127.0.0.1", port=port, log_level="error", ws="none"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    for _ in range(200):
        if server.started:
            break
        time.sleep(0.05)
    assert server.started
    yield f"http://127.0.0.1:{port}"
    server.should_exit = True
    thread.join(10)


@pytest.fixture
def client(service: str) -> Iterator[httpx.Client]:
    """A client without a browser."""
    with httpx.Client(base_url=service, headers={"accept": "text/html"}) as client:
        yield client


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """Debian's Chromium. Skips where there is none, fails instead where KNEEWALL_REQUIRE_BROWSER=1.

    Playwright keeps an event loop running in this thread until it is left, so it is left with the module: tests that come after it begin their own.
    """
    found = shutil.which("chromium")
    if found is None:
        reason = "no Chromium here (apt-get install chromium); the pages were not looked at in a browser"
        pytest.fail(reason) if os.environ.get("KNEEWALL_REQUIRE_BROWSER") == "1" else pytest.skip(reason)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=ARGUMENTS)
        yield browser
        browser.close()


class Visit:
    """A page of the service in the browser, with what went wrong and where it asked."""

    def __init__(self, page: Any, service: str) -> None:
        self.page = page
        self.service = service
        self.asked: list[str] = []
        self.wrong: list[str] = []
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("pageerror", lambda error: self.wrong.append(str(error)))
        page.on("console", lambda message: self.wrong.append(message.text) if message.type == "error" and "status of 4" not in message.text else None)

    def go(self, path: str) -> Any:
        """Open a page of the service."""
        self.page.goto(self.service + path)
        return self.page


@pytest.fixture(params=[390, 1280], ids=["phone", "desk"])
def width(request: pytest.FixtureRequest) -> int:
    """A phone's width and a desk's."""
    return int(request.param)


@pytest.fixture
def visit(browser: Any, service: str, request: pytest.FixtureRequest) -> Iterator[Visit]:
    """A fresh page, desk wide unless the test asks for `width`; afterwards nothing may have gone wrong and no other host been asked."""
    wide = request.getfixturevalue("width") if "width" in request.fixturenames else 1280
    context = browser.new_context(viewport={"width": wide, "height": 844}, java_script_enabled="without_script" not in request.node.name)
    visit = Visit(context.new_page(), service)
    yield visit
    context.close()
    assert visit.wrong == []
    assert [url for url in visit.asked if not url.startswith((service, "data:", "blob:"))] == []
