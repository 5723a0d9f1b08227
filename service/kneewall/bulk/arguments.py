"""What may be said to the command `kneewall bulk FILE`. Apart from the command, so that reading a command line loads no calculation."""

from argparse import ArgumentParser
from pathlib import Path


def add_arguments(parser: ArgumentParser) -> None:
    """The arguments of the command."""
    parser.add_argument("file", type=Path, help="CSV, NDJSON or Parquet; columns are JSON pointers into the question, such as '/airflow [cfm]'")
    parser.add_argument("--calculation", help="what every row asks, such as duct-sizing; NDJSON can do without, each line then is an item")
    parser.add_argument("--out", type=Path, required=True, help="where the answers go: .csv, .ndjson or .parquet")
    parser.add_argument("--columns", default="", help="figures of the answer, parted by commas, such as '/result/velocity [m/s]'; all where left out")
    parser.add_argument("--units", choices=["ip", "si"], default="ip", help="units of the answers")
    parser.add_argument("--workers", type=int, help="processes, or requests at once; as many as there are cores where left out")
    parser.add_argument("--replace", action="store_true", help="write over an output that is there")
    elsewhere = parser.add_mutually_exclusive_group()
    elsewhere.add_argument("--against", metavar="URL", help="have a running service answer")
    elsewhere.add_argument("--cluster", metavar="ADDRESS", help="have a Dask cluster answer")
