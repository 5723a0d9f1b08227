"""START HERE. Builds the application: one POST per calculation, the reference documents, the form."""

from litestar import Litestar, Request, get, post
from litestar.handlers import HTTPRouteHandler
from litestar.types import ASGIApp, ControllerRouterHandler

from kneewall.bulk.endpoint import bulk_reply, close_service_pool
from kneewall.catalogue import all_calculations
from kneewall.http.ask import ask
from kneewall.http.bulk_operation import LARGEST_BULK_BODY
from kneewall.http.edge import Edge
from kneewall.http.problem import from_exception
from kneewall.http.reference import Document, reference_documents, rule_document
from kneewall.http.reply import Reply
from kneewall.kernel.calculation import AnyCalculation

LARGEST_BODY = 1_000_000


def create_application() -> ASGIApp:
    """The whole service as one ASGI application."""
    handlers: list[ControllerRouterHandler] = [calculation_route(calculation) for calculation in all_calculations().values()]
    handlers += [document_route(document) for document in reference_documents()]
    handlers += [rule_route(), bulk_route()]
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
        return ask(calculation, request.scope, await request.body())

    return answer


def document_route(document: Document) -> HTTPRouteHandler:
    """The route of one document that is worked out at start-up and never changes."""

    @get(document.path, name=document.path)
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return document.reply(request.scope)

    return show


def rule_route() -> HTTPRouteHandler:
    """The route of one rule with its table."""

    @get("/v1/rules/{identity:str}", name="rule")
    async def show(request: Request) -> ASGIApp:  # type: ignore[type-arg]
        return rule_document(request.path_params["identity"]).reply(request.scope)

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
