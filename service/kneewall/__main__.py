"""The command line: `python -m kneewall serve | openapi | settings | new-key`."""

import argparse
import os
import sys

import msgspec

from kneewall.http.keys import new_key
from kneewall.http.reference import openapi_body
from kneewall.http.settings import SettingFault, settings_from, settings_table


def main(arguments: list[str] | None = None) -> int:
    """Run one command; the exit status."""
    parser = argparse.ArgumentParser(prog="kneewall", description="Sizing and checking for house heating and cooling")
    commands = parser.add_subparsers(dest="command", required=True)
    serve = commands.add_parser("serve", help="run the service on this machine; the environment holds its settings")
    serve.add_argument("--host", help="address to listen on, before KNEEWALL_HOST")
    serve.add_argument("--port", type=int, help="port to listen on, before KNEEWALL_PORT")
    serve.add_argument("--sample", action="store_true", help="ask about the sample job once the service is ready")
    commands.add_parser("openapi", help="print the OpenAPI document")
    commands.add_parser("settings", help="print every setting with its default")
    key = commands.add_parser("new-key", help="make an API key; print it, and the line that admits it")
    key.add_argument("name", help="whose key it is")
    given = parser.parse_args(arguments)
    if given.command == "serve":
        return _serve(given)
    if given.command == "new-key":
        print("\n".join(new_key(given.name)))
    elif given.command == "settings":
        print(settings_table())
    else:
        sys.stdout.buffer.write(openapi_body() + b"\n")
    return 0


def _serve(given: argparse.Namespace) -> int:
    from kneewall.serve import run

    try:
        chosen = {name: value for name in ("host", "port") if (value := getattr(given, name)) is not None}
        return run(msgspec.structs.replace(settings_from(os.environ), **chosen), sample=given.sample)
    except SettingFault as fault:
        print(f"Kneewall cannot start: {fault}", file=sys.stderr)
        return 2


if __name__ == "__main__":
    raise SystemExit(main())
