"""The routes of the pages: the list, the forms, the description for programs and the files that belong to them."""

from asyncio import to_thread
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from urllib.parse import parse_qsl, quote

import msgspec
from litestar import Request, get, post
from litestar.exceptions import NotFoundException
from litestar.types import ASGIApp, ControllerRouterHandler, Scope

from kneewall.catalogue import all_rules, all_tables
from kneewall.http.ask import NO_STORE
from kneewall.http.media import HTML, JSON, UnsupportedMedia, header
from kneewall.http.packing import on_the_way
from kneewall.http.reference import Document
from kneewall.http.reply import Reply
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.wire import Malformed
from kneewall.web.asked import Asked, Page
from kneewall.web.views import doc_page, docs_page, index_page, patterns_page, rule_page

PAGE = f"{HTML}; charset=utf-8"
FORM = "application/x-www-form-urlencoded"
MOST_TEXTS = 6000
STATIC = {"page.css": "text/css; charset=utf-8", "form.js": "text/javascript; charset=utf-8", "mark.svg": "image/svg+xml"}


def page_routes(calculations: Mapping[str, AnyCalculation], openapi: bytes) -> list[ControllerRouterHandler]:
    """Every route that people visit with a browser."""
    document = msgspec.json.decode(openapi)
    known = list(calculations.values())
    combining_first = sorted(known, key=lambda one: (one.question.__module__.startswith("kneewall.calculations"), one.title))
    frozen = [
        Document("/", "The calculations", index_page(combining_first), PAGE),
        Document("/docs", "For programs", docs_page(known, document), PAGE),
    ]
    frozen += [Document(f"/docs/{one.name}", one.title, doc_page(one, document), PAGE) for one in known]
    folder = Path(__file__).parent / "static"
    frozen += [Document(f"/static/{name}", name, (folder / name).read_bytes(), media) for name, media in STATIC.items()]
    return [*(_frozen(one) for one in frozen), *(route for one in known for route in _form_routes(one))]


def _frozen(document: Document) -> ControllerRouterHandler:
    @get(document.path, name=f"page {document.path}")
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return document.reply(request.scope)

    return show


def _form_routes(calculation: AnyCalculation) -> tuple[ControllerRouterHandler, ...]:
    path = f"/sheets/{calculation.name}"

    @cache
    def patterns_in(system: UnitSystem) -> Document:
        return Document(f"{path}/patterns", "The patterns of its items", patterns_page(calculation, system), PAGE)

    @get(path, name=f"form {calculation.name}")
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return await to_thread(_reply, request.scope, Asked(calculation, _texts(request.scope["query_string"])).opened)

    @post(path, name=f"filled {calculation.name}")
    async def answer(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        if (header(request.scope, b"content-type") or "").partition(";")[0].strip().lower() != FORM:
            raise UnsupportedMedia(f"a form is sent as {FORM}; programs send their questions to /v1/{calculation.name}", (FORM,))
        return await to_thread(_reply, request.scope, Asked(calculation, _texts(await request.body())).done)

    @get(f"{path}/patterns", name=f"patterns {calculation.name}")
    async def patterns(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return patterns_in("si" if request.query_params.get("units") == "si" else "ip").reply(request.scope)

    return show, answer, patterns


def _reply(scope: Scope, written: Callable[[], Page]) -> Reply:
    """A page that nobody keeps; a file to keep where it has a name. Compressed where the reader takes it: a long list repeats itself.

    It runs in a thread, since a long form takes some tens of milliseconds for which nobody else should wait.
    """
    status, body, name = written()
    body, way = on_the_way(scope, body)
    file = [(b"content-disposition", f'attachment; filename="{name}"'.encode())] if name else []
    return Reply(body, JSON if name else PAGE, status=status, headers=[*NO_STORE, *way, *file])


def _texts(sent: bytes) -> dict[str, str]:
    """The texts of a form or query by name, the last of each. Raises: Malformed."""
    try:
        return dict(parse_qsl(sent.decode("latin-1"), keep_blank_values=True, max_num_fields=MOST_TEXTS, errors="replace"))
    except ValueError:
        raise Malformed(f"a form has at most {MOST_TEXTS} fields") from None


def rule_as_page(identity: str) -> Document:
    """One rule for people. Raises: NotFoundException."""
    rule = all_rules().get(identity)
    if rule is None:
        raise NotFoundException
    return Document(f"/v1/rules/{quote(identity)}", rule.says, rule_page(rule, all_tables().get(identity)), PAGE)
