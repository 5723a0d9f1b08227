"""START HERE. Builds the application: one POST per calculation, the reference documents, the form."""

from collections.abc import Mapping

from litestar import Litestar, Request, get, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp, ControllerRouterHandler

from kneewall.bulk.endpoint import bulk_reply, close_service_pool
from kneewall.catalogue import all_calculations
from kneewall.http.ask import ask
from kneewall.http.bulk_operation import LARGEST_BULK_BODY
from kneewall.http.edge import Edge
from kneewall.http.media import HTML, JSON, wanted_media
from kneewall.http.problem import from_exception
from kneewall.http.reference import Document, reference_documents, rule_document
from kneewall.http.reply import Reply
from kneewall.kernel.calculation import AnyCalculation
from kneewall.web.pages import page_routes, rule_as_page
from kneewall.web.views import sheet_page

LARGEST_BODY = 1_000_000


def create_application(calculations: Mapping[str, AnyCalculation] | None = None) -> ASGIApp:
    """The whole service as one ASGI application, with every calculation there is or with those given."""
    calculations = all_calculations() if calculations is None else calculations
    documents = reference_documents(calculations)
    handlers: list[ControllerRouterHandler] = [calculation_route(calculation) for calculation in calculations.values()]
    handlers += [document_route(document) for document in documents]
    handlers += [rule_route(), bulk_route()]
    handlers += page_routes(calculations, next(one.body for one in documents if one.path == "/openapi.json"))
    return Edge(
        Litestar(
            route_handlers=handlers,
            openapi_config=None,
            request_max_body_size=LARGEST_BODY,
            exception_handlers={Exception: problem_reply},  # type: ignore[dict-item]
            logging_config=None,
            on_shutdown=[close_service_pool],
        )
    )


def calculation_route(calculation: AnyCalculation) -> HTTPRouteHandler:
    """The route that answers one calculation's questions."""

    @post(f"/v1/{calculation.name}", name=calculation.name)
    async def answer(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return ask(calculation, request.scope, await request.body(), sheet_page)

    return answer


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


def bulk_route() -> HTTPRouteHandler:
    """The route of many questions at once."""

    @post("/v1/bulk", name="bulk", request_max_body_size=LARGEST_BULK_BODY)
    async def answer(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return bulk_reply(request.scope, await request.body())

    return answer


def problem_reply(request: Request, error: Exception) -> Reply:  # type: ignore[type-arg]
    """Every exception leaves as a problem document."""
    return from_exception(request.scope, error)
