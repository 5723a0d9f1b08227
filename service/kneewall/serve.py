"""Running the service on this machine, and asking it about the sample job once it is ready."""

import asyncio
import gc
import json
import textwrap
import urllib.request

import uvicorn

from kneewall.app import create_application
from kneewall.catalogue import all_calculations
from kneewall.http.connection import Connection, close_slow_connections
from kneewall.http.journal import log_as_json
from kneewall.http.keys import known_keys
from kneewall.http.settings import Settings

SAMPLE = "retrofit-check"


def run(settings: Settings, *, sample: bool) -> int:
    """Serve until stopped; the exit status."""
    log_as_json()
    configuration = uvicorn.Config(
        create_application(settings=settings),
        host=settings.host,
        port=settings.port,
        http=Connection,
        ws="none",
        access_log=False,
        log_config=None,
        server_header=False,
        timeout_graceful_shutdown=settings.drain,
    )
    gc.freeze()
    with asyncio.Runner(loop_factory=configuration.get_loop_factory()) as runner:
        return runner.run(_serve(uvicorn.Server(configuration), settings, sample))


async def _serve(server: uvicorn.Server, settings: Settings, sample: bool) -> int:
    serving = asyncio.create_task(server.serve())
    while not server.started and not serving.done():
        await asyncio.sleep(0.02)
    if server.started:
        address = f"http://{settings.host}:{server.servers[0].sockets[0].getsockname()[1]}"
        print(f"Kneewall answers at {address}/ (stop with Ctrl-C)", flush=True)
        watching = asyncio.create_task(close_slow_connections(server, settings.patience))
        if sample and known_keys(settings):
            print("The sample job is not asked about: this service wants an API key.", flush=True)
        elif sample:
            print(await asyncio.to_thread(ask_sample, address), flush=True)
        await serving
        watching.cancel()
        return 0
    await serving
    return 1


def ask_sample(address: str) -> str:
    """Send the sample job to the running service; its answer in short."""
    example = all_calculations()[SAMPLE].examples[0]
    body = json.dumps(example.question).encode()
    request = urllib.request.Request(f"{address}/v1/{SAMPLE}", data=body, headers={"content-type": "application/json"})
    with urllib.request.urlopen(request, timeout=30) as reply:
        answer = json.loads(reply.read())
    lines = [
        f"\nThe sample job: {example.says[0].lower()}{example.says[1:]}.",
        f"Verdict: {answer['result']['verdict']}. What fails, in the order in which to settle it:",
    ]
    lines += [textwrap.fill(finding["says"], 110, initial_indent="  - ", subsequent_indent="    ") for finding in answer["result"]["first"]]
    lines += ["Part by part:", *(f"  {check['verdict']:6} {check['check']}" for check in answer["checks"])]
    return "\n".join([*lines, f"\nThe form: {address}/sheets/{SAMPLE}"])
