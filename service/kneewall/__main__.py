"""The command line: `kneewall serve | openapi | settings | new-key | bulk`. A command loads what it needs once it is known which one it is."""

import gc
import os
import sys
from argparse import ArgumentParser, Namespace

from kneewall import VERSION
from kneewall.bulk.arguments import add_arguments


def main(arguments: list[str] | None = None) -> int:
    """Read the command line and do what it says; the exit status."""
    parser = ArgumentParser(prog="kneewall", description="Sizing and checking for people who re-engineer a house's heating and cooling.")
    parser.add_argument("--version", action="version", version=VERSION)
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    serve = commands.add_parser("serve", help="run the service on this machine; the environment holds its settings")
    serve.add_argument("--host", help="address to listen on, before KNEEWALL_HOST")
    serve.add_argument("--port", type=int, help="port to listen on, before KNEEWALL_PORT")
    serve.add_argument("--sample", action="store_true", help="ask about the sample job once the service is ready")
    serve.set_defaults(command=_serve)
    commands.add_parser("openapi", help="print the OpenAPI document").set_defaults(command=_openapi)
    commands.add_parser("settings", help="print every setting with its default").set_defaults(command=_settings)
    key = commands.add_parser("new-key", help="make an API key; print it, and the line that admits it")
    key.add_argument("name", help="whose key it is")
    key.set_defaults(command=_new_key)
    bulk = commands.add_parser("bulk", help="answer a file of questions", description="Answer a file of questions, on all cores, without a server.")
    add_arguments(bulk)
    bulk.set_defaults(command=_bulk)
    given = parser.parse_args(arguments)
    status: int = given.command(given)
    return status


def _serve(given: Namespace) -> int:
    import msgspec

    from kneewall.http.settings import SettingFault, settings_from
    from kneewall.physics.start_tables import begin_tables

    try:
        chosen = {name: value for name in ("host", "port") if (value := getattr(given, name)) is not None}
        settings = msgspec.structs.replace(settings_from(os.environ), **chosen)
        begin_tables()  # before the rest is loaded, which takes as long as the tables do
        from kneewall.bulk.pool import COLLECT_AFTER

        gc.set_threshold(COLLECT_AFTER)
        from kneewall.serve import run

        return run(settings, sample=given.sample)
    except SettingFault as fault:
        print(f"Kneewall cannot start: {fault}", file=sys.stderr)
        return 2


def _openapi(_: Namespace) -> int:
    from kneewall.http.reference import openapi_body

    sys.stdout.buffer.write(openapi_body() + b"\n")
    return 0


def _settings(_: Namespace) -> int:
    from kneewall.http.settings import settings_table

    print(settings_table())
    return 0


def _new_key(given: Namespace) -> int:
    from kneewall.http.keys import new_key

    print("\n".join(new_key(given.name)))
    return 0


def _bulk(given: Namespace) -> int:
    from kneewall.bulk.command import run

    return run(given)


if __name__ == "__main__":
    raise SystemExit(main())
