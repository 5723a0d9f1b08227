"""START HERE. Builds the application: one POST per calculation, the reference documents, the form."""

import os
from collections.abc import Mapping

from litestar import Litestar, Request, get, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp, ControllerRouterHandler, Scope

from kneewall.bulk.endpoint import bulk_reply, close_service_pool
from kneewall.catalogue import all_calculations, get_ready
from kneewall.http.ask import ask
from kneewall.http.bulk_operation import LARGEST_BULK_BODY
from kneewall.http.edge import Edge
from kneewall.http.journal import Journal
from kneewall.http.keys import Keyed, known_keys
from kneewall.http.lane import Answerer, SpeedLane
from kneewall.http.media import HTML, JSON, METRICS, wanted_media
from kneewall.http.origins import Origins
from kneewall.http.problem import from_exception
from kneewall.http.reference import Document, reference_documents, rule_document
from kneewall.http.reply import Reply
from kneewall.http.settings import Settings, settings_from
from kneewall.http.tally import Tally
from kneewall.kernel.calculation import AnyCalculation
from kneewall.web.pages import page_routes, rule_as_page
from kneewall.web.views import sheet_page

LARGEST_BODY = 1_000_000


def create_application(calculations: Mapping[str, AnyCalculation] | None = None, *, settings: Settings | None = None) -> ASGIApp:
    """The whole service as one ASGI application, with every calculation there is or with those given. Raises: SettingFault."""
    settings = settings_from(os.environ) if settings is None else settings
    calculations = all_calculations() if calculations is None else calculations
    answerers = {f"/v1/{calculation.name}": answerer(calculation) for calculation in calculations.values()}
    documents = reference_documents(calculations)
    tally, journal = Tally(), Journal() if settings.log == "requests" else None
    handlers: list[ControllerRouterHandler] = [calculation_route(path, answer) for path, answer in answerers.items()]
    handlers += [document_route(document) for document in documents]
    handlers += [rule_route(), bulk_route(), metrics_route(tally)]
    handlers += page_routes(calculations, next(one.body for one in documents if one.path == "/openapi.json"))
    application: ASGIApp = Litestar(
        route_handlers=handlers,
        openapi_config=None,
        request_max_body_size=LARGEST_BODY,
        exception_handlers={Exception: problem_reply},  # type: ignore[dict-item]
        logging_config=None,
        on_shutdown=[close_service_pool, *([journal.write] if journal else [])],
    )
    get_ready()
    if settings.speed_lane:
        application = SpeedLane(application, answerers, LARGEST_BODY)
    if keys := known_keys(settings):
        application = Keyed(application, keys)
    if settings.allowed_origins:
        application = Origins(application, settings.allowed_origins)
    return Edge(application, {path: path.removeprefix("/v1/") for path in [*answerers, "/v1/bulk"]}, tally, journal)


def answerer(calculation: AnyCalculation) -> Answerer:
    """What answers one calculation's questions, by the router and by the speed lane."""

    def answer(scope: Scope, body: bytes) -> Reply:
        return ask(calculation, scope, body, sheet_page)

    return answer


def calculation_route(path: str, answer: Answerer) -> HTTPRouteHandler:
    """The route that answers one calculation's questions."""

    @post(path, name=path)
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return answer(request.scope, await request.body())

    return show


def document_route(document: Document) -> HTTPRouteHandler:
    """The route of one document that is worked out at start-up and never changes."""

    @get(document.path, name=document.path)
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return document.reply(request.scope)

    return show


def rule_route() -> HTTPRouteHandler:
    """The route of one rule with its table, for programs and for people."""

    @get("/v1/rules/{identity:str}", name="rule")
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        identity = request.path_params["identity"]
        page = wanted_media(request.scope, (JSON, HTML)) == HTML
        return (rule_as_page(identity) if page else rule_document(identity)).reply(request.scope)

    return show


def metrics_route(tally: Tally) -> HTTPRouteHandler:
    """The route of what the service counts about itself."""

    @get("/metrics", name="metrics")
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        wanted_media(request.scope, (METRICS.partition(";")[0],))
        return Reply(tally.text(), METRICS, headers=((b"cache-control", b"no-store"),))

    return show


def bulk_route() -> HTTPRouteHandler:
    """The route of many questions at once."""

    @post("/v1/bulk", name="bulk", request_max_body_size=LARGEST_BULK_BODY)
    async def answer(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return bulk_reply(request.scope, await request.body())

    return answer


def problem_reply(request: Request, error: Exception) -> Reply:  # type: ignore[type-arg]
    """Every exception leaves as a problem document."""
    return from_exception(request.scope, error)
