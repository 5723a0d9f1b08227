"""Running the service on this machine, and asking it about the sample job once it is ready."""

import asyncio
import json
import urllib.request

import uvicorn

from kneewall.catalogue import all_calculations

SAMPLE = "duct-system"


def run(host: str, port: int, *, sample: bool) -> int:
    """Serve until stopped; the exit status."""
    server = uvicorn.Server(
        uvicorn.Config(
            "kneewall.app:create_application", factory=True, host=host, port=port, access_log=False, log_level="warning", timeout_graceful_shutdown=20
        )
    )
    return asyncio.run(_serve(server, f"http://{host}:{port}", sample))


async def _serve(server: uvicorn.Server, address: str, sample: bool) -> int:
    serving = asyncio.create_task(server.serve())
    while not server.started and not serving.done():
        await asyncio.sleep(0.02)
    if server.started:
        print(f"Kneewall answers at {address}/ (stop with Ctrl-C)", flush=True)
        if sample:
            print(await asyncio.to_thread(ask_sample, address), flush=True)
    await serving
    return 0 if server.started else 1


def ask_sample(address: str) -> str:
    """Send the sample job to the running service; its answer in short."""
    calculation = all_calculations()[SAMPLE]
    example = calculation.examples[0]
    request = urllib.request.Request(
        f"{address}/v1/{SAMPLE}", data=json.dumps(example.question).encode(), headers={"content-type": "application/json"}
    )
    with urllib.request.urlopen(request, timeout=30) as reply:
        answer = json.loads(reply.read())
    lines = [f"\nThe sample job, {example.says[0].lower()}{example.says[1:]}:"]
    lines += [f"  {check['verdict']:6} {check['check']}: {check['says']}" for check in answer["checks"]]
    return "\n".join([*lines, f"\nThe form: {address}/sheets/{SAMPLE}"])
