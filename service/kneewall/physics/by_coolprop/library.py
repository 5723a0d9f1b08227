"""CoolProp, loaded the quick way.

Loading it takes seven times as long with its ready-made Chebyshev curves of saturation ("superancillaries") for all its fluids. They only make
flashes quicker: without them the same equations of state are solved, within 1e-9. CoolProp says on stdout that they were left out, and stdout
belongs to whoever started this process.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def _nothing_said() -> Iterator[None]:
    sys.stdout.flush()
    kept, nowhere = os.dup(1), os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    try:
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)


os.environ["COOLPROP_DISABLE_SUPERANCILLARIES_ENTIRELY"] = "1"
with _nothing_said():
    from CoolProp import CoolProp

__all__ = ["CoolProp"]
