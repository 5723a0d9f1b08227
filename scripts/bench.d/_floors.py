"""What the service is measured against: the same question read and the same answer written, by a bare Litestar route and by a bare ASGI callable."""

import json
from typing import Any

import msgspec
from litestar import Litestar, post
from litestar.types import Receive, Scope, Send

from kneewall.calculations.duct_sizing.messages import DuctSizingQuestion, DuctSizingResult
from kneewall.catalogue import all_calculations
from kneewall.kernel.answer import Answer
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Quantity
from kneewall.kernel.wire import custom_json_writer, read_custom, write_json

CALCULATION = all_calculations()["duct-sizing"]
QUESTION = CALCULATION.examples[0].question
BODY = json.dumps(QUESTION).encode()
ANSWER: Answer[DuctSizingResult] = CALCULATION.answer(CALCULATION.reader.plain(QUESTION))


def bare_litestar(*, work: bool = False) -> Litestar:
    """Litestar as its tutorial shows it: typed data in, a struct out, nothing worked out unless asked to."""

    @post("/v1/duct-sizing", status_code=200)
    async def answer(data: DuctSizingQuestion) -> Answer[DuctSizingResult]:
        found: Answer[DuctSizingResult] = CALCULATION.answer(data) if work else ANSWER
        return found

    def is_quantity(kind: Any) -> bool:
        return isinstance(kind, type) and issubclass(kind, Quantity)

    return Litestar(
        [answer],
        openapi_config=None,
        logging_config=None,
        type_decoders=[(is_quantity, read_custom)],
        type_encoders={Quantity: custom_json_writer("ip"), Phrase: lambda value: value.shown("ip")},
    )


def working_litestar() -> Litestar:
    """The same, with the answer worked out."""
    return bare_litestar(work=True)


def bare_asgi() -> Any:
    """No framework at all."""
    decoder = msgspec.json.Decoder(DuctSizingQuestion, dec_hook=read_custom)

    async def application(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        message = await receive()
        decoder.decode(message["body"])  # type: ignore[typeddict-item]
        body = write_json["ip"](ANSWER)
        headers = [(b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]
        await send({"type": "http.response.start", "status": 200, "headers": headers})  # type: ignore[typeddict-item]
        await send({"type": "http.response.body", "body": body})  # type: ignore[typeddict-item]

    return application
