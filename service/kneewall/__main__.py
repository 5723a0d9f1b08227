"""The command line: `kneewall serve | openapi | settings | new-key | bulk`."""

import os
import sys
from argparse import ArgumentParser, Namespace

import msgspec

from kneewall import VERSION
from kneewall.bulk import command as bulk
from kneewall.http.keys import new_key
from kneewall.http.reference import openapi_body
from kneewall.http.settings import SettingFault, settings_from, settings_table


def main(arguments: list[str] | None = None) -> int:
    """Read the command line and do what it says; the exit status."""
    parser = ArgumentParser(prog="kneewall", description="Sizing and checking for people who re-engineer a house's heating and cooling.")
    parser.add_argument("--version", action="version", version=VERSION)
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    serve = commands.add_parser("serve", help="run the service on this machine; the environment holds its settings")
    serve.add_argument("--host", help="address to listen on, before KNEEWALL_HOST")
    serve.add_argument("--port", type=int, help="port to listen on, before KNEEWALL_PORT")
    serve.add_argument("--sample", action="store_true", help="ask about the sample job once the service is ready")
    commands.add_parser("openapi", help="print the OpenAPI document")
    commands.add_parser("settings", help="print every setting with its default")
    key = commands.add_parser("new-key", help="make an API key; print it, and the line that admits it")
    key.add_argument("name", help="whose key it is")
    bulk.add_arguments(
        commands.add_parser("bulk", help="answer a file of questions", description="Answer a file of questions, on all cores, without a server.")
    )
    given = parser.parse_args(arguments)
    if given.command == "serve":
        return _serve(given)
    if given.command == "bulk":
        return bulk.run(given)
    if given.command == "new-key":
        print("\n".join(new_key(given.name)))
    elif given.command == "settings":
        print(settings_table())
    else:
        sys.stdout.buffer.write(openapi_body() + b"\n")
    return 0


def _serve(given: Namespace) -> int:
    from kneewall.serve import run

    try:
        chosen = {name: value for name in ("host", "port") if (value := getattr(given, name)) is not None}
        return run(msgspec.structs.replace(settings_from(os.environ), **chosen), sample=given.sample)
    except SettingFault as fault:
        print(f"Kneewall cannot start: {fault}", file=sys.stderr)
        return 2


if __name__ == "__main__":
    raise SystemExit(main())
