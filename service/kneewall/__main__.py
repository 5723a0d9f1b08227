"""The command line: `kneewall serve | openapi | bulk`."""

import sys
from argparse import ArgumentParser

from kneewall import VERSION
from kneewall.bulk import command as bulk
from kneewall.http.reference import openapi_body


def main(arguments: list[str] | None = None) -> int:
    """Read the command line and do what it says; the exit status."""
    parser = ArgumentParser(prog="kneewall", description="Sizing and checking for people who re-engineer a house's heating and cooling.")
    parser.add_argument("--version", action="version", version=VERSION)
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    serve = commands.add_parser("serve", help="run the service on this machine")
    serve.add_argument("--host", default="127.0.0.1", help="address to listen on")
    serve.add_argument("--port", type=int, default=8017, help="port to listen on")
    serve.add_argument("--sample", action="store_true", help="ask about the sample job once the service is ready")
    commands.add_parser("openapi", help="print the OpenAPI document")
    bulk.add_arguments(
        commands.add_parser("bulk", help="answer a file of questions", description="Answer a file of questions, on all cores, without a server.")
    )
    given = parser.parse_args(arguments)
    if given.command == "bulk":
        return bulk.run(given)
    if given.command == "openapi":
        sys.stdout.buffer.write(openapi_body() + b"\n")
        return 0
    from kneewall.serve import run

    return run(given.host, given.port, sample=given.sample)


if __name__ == "__main__":
    raise SystemExit(main())
