"""Runs the measurements that were asked for, or all, and prints them as one table. Each part is a module here with a `measure()`."""

import importlib
import sys
from pathlib import Path

HERE = Path(__file__).parent


def main(wanted: list[str]) -> int:
    """Print what was measured; the exit status is 1 where a goal is missed."""
    sys.path.insert(0, str(HERE))
    parts = wanted or sorted(path.stem for path in HERE.glob("*.py") if not path.stem.startswith("_"))
    missed = 0
    for part in parts:
        print(f"\n{part}", flush=True)
        for what, figure, unit, remark in importlib.import_module(part).measure():
            print(f"  {what:<58} {figure:>12,.2f} {unit:<12} {remark}", flush=True)
            missed += remark.startswith("MISSED")
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
