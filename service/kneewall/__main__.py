"""The command line: `python -m kneewall serve | openapi`."""

import argparse
import sys

from kneewall.http.reference import openapi_body


def main(arguments: list[str] | None = None) -> int:
    """Run one command; the exit status."""
    parser = argparse.ArgumentParser(prog="kneewall", description="Sizing and checking for house heating and cooling")
    commands = parser.add_subparsers(dest="command", required=True)
    serve = commands.add_parser("serve", help="run the service on this machine")
    serve.add_argument("--host", default="127.0.0.1", help="address to listen on")
    serve.add_argument("--port", type=int, default=8017, help="port to listen on")
    serve.add_argument("--sample", action="store_true", help="ask about the sample job once the service is ready")
    commands.add_parser("openapi", help="print the OpenAPI document")
    given = parser.parse_args(arguments)
    if given.command == "openapi":
        sys.stdout.buffer.write(openapi_body() + b"\n")
        return 0
    from kneewall.serve import run

    return run(given.host, given.port, sample=given.sample)


if __name__ == "__main__":
    raise SystemExit(main())
