"""The tables are filled by a process of their own; what becomes of them where it fails; what the service does not load."""

import json
import logging
import os
import subprocess
import sys
import threading

import msgspec
import pytest

from kneewall.physics.start_tables import Filling, StartTables
from tests.faults.service import ROOT, Service, request

BOTH_WAYS = """
import msgspec, sys
from kneewall.physics.start_tables import Filling
def no(): raise OSError("no process may be begun")
apart, here = Filling(), Filling()
here._begun = no
assert "CoolProp" not in sys.modules
apart.begin()
tables = apart.tables()
assert "CoolProp" not in sys.modules
same = tables == here.tables()
assert "CoolProp" in sys.modules
print("same" if same else "different")
"""
FAILING = {
    "it fails": ("-c", "raise SystemExit('the disk is on fire')"),
    "it is killed": ("-c", "import os; os.kill(os.getpid(), 9)"),
    "it writes nothing": ("-c", ""),
    "it writes something else": ("-c", "print('hello')"),
    "it writes half": ("-c", "import sys; sys.stdout.buffer.write(bytes([0x83, 0xa5]))"),
}


def python(script: str) -> "subprocess.CompletedProcess[str]":
    environment = {**os.environ, "PYTHONPATH": f"{ROOT / 'service'}{os.pathsep}{ROOT}"}
    return subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False, env=environment)


def test_both_ways_fill_the_same_tables() -> None:
    """In a fresh interpreter: to the last digit, one line in the log for the way that failed, and nothing on stdout from CoolProp."""
    done = python(BOTH_WAYS)
    assert done.stdout == "same\n", done.stderr
    assert done.stderr.splitlines() == ["the process that fills the tables failed, so this one fills them itself: no process may be begun"]


@pytest.fixture(scope="module")
def filled() -> StartTables:
    filling = Filling()
    filling.begin()
    return filling.tables()


@pytest.mark.parametrize("how", FAILING)
def test_where_the_process_fails_the_tables_are_filled_all_the_same(
    how: str, filled: StartTables, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("kneewall.physics.start_tables._filled_here", lambda: filled)
    filling = Filling(FAILING[how])
    filling.begin()
    with caplog.at_level(logging.WARNING, "kneewall"):
        assert filling.tables() is filled
    assert len(caplog.records) == 1 and "fills them itself" in caplog.text
    if how == "it fails":
        assert "the disk is on fire" in caplog.text
    assert filling.tables() is filled and len(caplog.records) == 1


def test_a_process_that_hangs_is_waited_for_no_longer_than_that(filled: StartTables, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kneewall.physics.start_tables._filled_here", lambda: filled)
    monkeypatch.setattr("kneewall.physics.start_tables.PATIENCE", 0.2)
    assert Filling(("-c", "import time; time.sleep(60)")).tables() is filled


def test_threads_that_come_together_get_the_same_tables() -> None:
    filling, found = Filling(), list[StartTables]()
    threads = [threading.Thread(target=lambda: found.append(filling.tables())) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len({id(one) for one in found}) == 1


def test_tables_come_through_messagepack_to_the_last_digit(filled: StartTables) -> None:
    assert msgspec.msgpack.decode(msgspec.msgpack.encode(filled), type=StartTables) == filled


def test_the_service_loads_neither_coolprop_nor_scipy() -> None:
    """In a fresh interpreter, after the application was made and every look-up done. pint loads scipy's outermost package where it is installed."""
    script = (
        "import sys; from kneewall.app import create_application; from kneewall.physics.refrigerant import refrigerants\n"
        "create_application()\n"
        "for r in refrigerants().values(): r.vapor(280.0, 5.0), r.bubble_temperature(1e6), r.liquid(300.0), r.dew_temperature(1e6)\n"
        "assert not {'CoolProp', 'scipy.interpolate', 'scipy.optimize', 'scipy.linalg'} & set(sys.modules)"
    )
    done = python(script)
    assert done.returncode == 0, done.stderr


def test_the_filling_process_loads_no_quantities() -> None:
    """pint takes as long as CoolProp, so the tables would come late."""
    done = python("import sys, kneewall.physics.by_coolprop.fill; assert not {'pint', 'kneewall.kernel', 'numpy', 'litestar'} & set(sys.modules)")
    assert done.returncode == 0, done.stderr


def test_the_first_answer_may_be_about_a_refrigerant() -> None:
    from kneewall.catalogue import all_calculations

    body = json.dumps(all_calculations()["refrigerant-line-sizing"].examples[0].question).encode()
    with Service(log="faults") as service:
        assert service.exchange(request(body, path="/v1/refrigerant-line-sizing")).startswith(b"HTTP/1.1 200 ")
        assert service.said() == ""
