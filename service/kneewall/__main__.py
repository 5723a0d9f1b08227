"""The command `kneewall`."""

import sys
from argparse import ArgumentParser

from kneewall import VERSION
from kneewall.bulk.command import add_arguments, run


def main(arguments: list[str] | None = None) -> int:
    """Read the command line and do what it says."""
    parser = ArgumentParser(prog="kneewall", description="Sizing and checking for people who re-engineer a house's heating and cooling.")
    parser.add_argument("--version", action="version", version=VERSION)
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    add_arguments(
        commands.add_parser("bulk", help="answer a file of questions", description="Answer a file of questions, on all cores, without a server.")
    )
    return run(parser.parse_args(arguments))


if __name__ == "__main__":
    sys.exit(main())
