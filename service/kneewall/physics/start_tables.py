"""The tables of refrigerants and liquids: filled once, by CoolProp, in a process of its own that runs beside the rest of the start and then ends.

So CoolProp's second of work and its 60 MB are never this process's. Where no such process can be had, the same code fills the tables here, and the
log says so.
"""

import logging
import os
import sys
from contextlib import suppress
from subprocess import DEVNULL, PIPE, CalledProcessError, Popen, SubprocessError, TimeoutExpired
from threading import Lock

import msgspec

from kneewall.physics.liquid_tables import MixtureNodes, WaterNode
from kneewall.physics.refrigerant_tables import PropertyTables

FILLER = ("-P", "-m", "kneewall.physics.by_coolprop")
"""What Python is given to fill the tables and write them to stdout."""
PATIENCE = 45.0
"""Seconds that it may take."""

log = logging.getLogger("kneewall")


class StartTables(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """All tables. Nobody writes to the two mappings."""

    water: tuple[WaterNode, ...]
    mixtures: dict[str, MixtureNodes]
    refrigerants: dict[str, PropertyTables]


class Filling:
    """One filling of the tables: begun at most once, waited for by whoever needs them first."""

    def __init__(self, filler: tuple[str, ...] = FILLER) -> None:
        self._filler = filler
        self._lock = Lock()
        self._child: Popen[bytes] | None = None
        self._tables: StartTables | None = None

    def begin(self) -> None:
        """Have the tables filled while this process does other things."""
        with self._lock, suppress(OSError):
            if self._tables is None:
                self._child = self._child or self._begun()

    def tables(self) -> StartTables:
        """The tables, waited for where they are not there yet."""
        with self._lock:
            if self._tables is None:
                self._tables = self._handed_over() or _filled_here()
                self._child = None
            return self._tables

    def _begun(self) -> Popen[bytes]:
        environment = {**os.environ, "PYTHONPATH": os.pathsep.join(path or os.getcwd() for path in sys.path)}
        return Popen([sys.executable or "", *self._filler], stdin=DEVNULL, stdout=PIPE, stderr=PIPE, env=environment)

    def _handed_over(self) -> StartTables | None:
        try:
            child = self._child or self._begun()
            written = _written(child)
            return msgspec.msgpack.decode(written, type=StartTables)
        except (OSError, SubprocessError, msgspec.MsgspecError) as error:
            log.warning("the process that fills the tables failed, so this one fills them itself: %s", error)
            return None


def _written(child: Popen[bytes]) -> bytes:
    try:
        written, said = child.communicate(timeout=PATIENCE)
    except TimeoutExpired:
        child.kill()
        child.communicate()
        raise
    if child.returncode:
        raise CalledProcessError(child.returncode, (said.decode(errors="replace").strip().splitlines() or ["it"])[-1])
    return written


def _filled_here() -> StartTables:
    from kneewall.physics.by_coolprop.fill import filled_tables

    return filled_tables()


_filling = Filling()
begin_tables = _filling.begin
start_tables = _filling.tables
