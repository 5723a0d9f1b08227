"""A pool of worker processes: started when first needed, renewed when a worker dies, gone when its parent is gone."""

import gc
import os
import signal
from collections.abc import Callable, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from multiprocessing import connection, get_context, parent_process
from threading import Lock, Thread
from typing import Any, TypeVar

T = TypeVar("T")

TRIES = 3
"""How often a piece of work is begun before it counts as the cause of its workers' deaths."""
COLLECT_AFTER = 50_000
"""New objects between two searches for cycles: neither answers nor what is loaded at the start have any, so searching often only costs time."""


def usable_cores() -> int:
    """The processor cores this process may use, or what `KNEEWALL_BULK_WORKERS` says."""
    return int(os.environ.get("KNEEWALL_BULK_WORKERS") or 0) or len(os.sched_getaffinity(0))


class WorkerPool:
    """Worker processes that outlive the work they do but never their parent. Nothing starts before the first `submit`."""

    def __init__(self, workers: int | None = None, *, niceness: int = 0, ready: Sequence[str] = ("kneewall.bulk.readied",)) -> None:
        """`ready`: the modules that workers have loaded from the start."""
        self.workers = workers or usable_cores()
        self._ready = list(ready)
        self._niceness = niceness
        self._executor: Executor | None = None
        self._lock = Lock()
        self._closed = False
        self._started = False

    def submit(self, function: Callable[..., T], *given: Any) -> "Future[T]":
        """Have a worker call `function`. Work whose worker died is begun again in a new pool, `TRIES` times in all.

        Blocks for about a second where the workers have to be started first.
        """
        outcome: Future[T] = Future()
        self._begin(outcome, TRIES, function, given)
        return outcome

    @property
    def started(self) -> bool:
        """Whether the workers are there, so that `submit` returns at once."""
        return self._started

    def close(self) -> None:
        """End the workers; work that has not begun is cancelled."""
        with self._lock:
            self._closed = True
            executor, self._executor = self._executor, None
        if executor is not None:
            executor.shutdown(wait=True, cancel_futures=True)

    def _begin(self, outcome: "Future[T]", tries: int, function: Callable[..., T], given: tuple[Any, ...]) -> None:
        executor = self._running()
        try:
            inner = executor.submit(function, *given)
        except BrokenExecutor:
            self._discard(executor)
            executor = self._running()
            inner = executor.submit(function, *given)
        self._started = True

        def finish(done: "Future[T]") -> None:
            if done.cancelled():
                outcome.cancel()
            elif isinstance(done.exception(), BrokenExecutor) and tries > 1 and not outcome.cancelled():
                self._discard(executor)
                try:
                    self._begin(outcome, tries - 1, function, given)
                except Exception as error:
                    _settle(outcome, error)
            else:
                _settle(outcome, done.exception(), done)

        outcome.add_done_callback(lambda wanted: inner.cancel() if wanted.cancelled() else None)
        inner.add_done_callback(finish)

    def _running(self) -> Executor:
        with self._lock:
            if self._closed:
                raise RuntimeError("the pool is closed")
            if self._executor is None:
                context = get_context("forkserver")
                context.set_forkserver_preload(self._ready)
                self._executor = ProcessPoolExecutor(self.workers, context, initializer=become_worker, initargs=(self._niceness,))
            return self._executor

    def _discard(self, broken: Executor) -> None:
        with self._lock:
            if self._executor is broken:
                self._executor, self._started = None, False


def _settle(outcome: "Future[T]", error: BaseException | None, done: "Future[T] | None" = None) -> None:
    if not outcome.set_running_or_notify_cancel():
        return
    if error is not None or done is None:
        outcome.set_exception(error or RuntimeError("nothing came of it"))
    else:
        outcome.set_result(done.result())


def become_worker(niceness: int) -> None:
    """What a process does to become a worker: leave Ctrl-C to its parent, end with it, and stand back behind more urgent processes."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    os.nice(niceness)
    gc.set_threshold(COLLECT_AFTER)
    gc.freeze()
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(1)
