"""The ways in which chunks of a file are answered: by processes of this machine, by a running service, by a cluster. All give the same rows."""

from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any, Protocol

from kneewall import RULEBOOK, VERSION
from kneewall.bulk.against import run_chunk_against
from kneewall.bulk.chunk import Chunk, Job, run_chunk
from kneewall.bulk.pool import WorkerPool, usable_cores
from kneewall.bulk.tally import Outcome
from kneewall.kernel.calculation import AnyCalculation

CLUSTER_RETRIES = 5
PATIENCE = 30


class Unusable(Exception):
    """This way cannot be gone: something is not installed, not there, or of another version."""


class Way(Protocol):
    """Where chunks are answered."""

    says: str
    width: int
    """How many chunks are worth having under way."""

    def submit(self, job: Job, chunk: Chunk) -> "Future[Outcome]":
        """Begin a chunk."""

    def close(self) -> None:
        """Leave; what is under way is dropped."""


class Here:
    """The processor cores of this machine."""

    def __init__(self, workers: int | None, calculation: AnyCalculation | None = None) -> None:
        """`calculation`: the only one that will be asked; the workers do not load the others."""
        ready = ("kneewall.bulk.readied",) if calculation is None else ("kneewall.bulk.chunk", calculation.function.__module__)
        self._pool = WorkerPool(workers, ready=ready)
        self.width = 2 * self._pool.workers
        self.says = f"{self._pool.workers} processes here"

    def submit(self, job: Job, chunk: Chunk) -> "Future[Outcome]":
        return self._pool.submit(run_chunk, job, chunk)

    def close(self) -> None:
        self._pool.close()


class Service:
    """A running service, asked over HTTP."""

    def __init__(self, address: str, workers: int | None) -> None:
        self._address = address.rstrip("/")
        if not self._address.startswith(("http://", "https://")):
            raise Unusable(f"{address} is not the http address of a service")
        self.width = workers or 2 * usable_cores()
        self._threads = ThreadPoolExecutor(self.width)
        self.says = f"the service at {self._address}"

    def submit(self, job: Job, chunk: Chunk) -> "Future[Outcome]":
        return self._threads.submit(run_chunk_against, self._address, job, chunk)

    def close(self) -> None:
        self._threads.shutdown(wait=True, cancel_futures=True)


class Cluster:
    """The workers of a Dask cluster. A chunk whose worker dies is given to another; each chunk's answer is taken once."""

    def __init__(self, address: str) -> None:
        try:
            import distributed
        except ImportError:
            raise Unusable("a cluster needs the optional part of the installation: pip install 'kneewall[cluster]'") from None
        try:
            self._client: Any = vars(distributed)["Client"](address, timeout=PATIENCE, set_as_default=False)
            self._client.wait_for_workers(1, timeout=PATIENCE)
        except (OSError, TimeoutError, ValueError) as error:
            raise Unusable(f"no cluster answers at {address}: {error}") from None
        found = set(self._client.run(rulebook_here).values())
        if found != {rulebook_here()}:
            self.close()
            raise Unusable(f"this is {rulebook_here()}, but the cluster's workers have {', '.join(sorted(found))}: their answers could differ")
        cores = sum(self._client.nthreads().values())
        self.width = 3 * cores
        self.says = f"{cores} threads of the cluster at {address}"
        self._executor = self._client.get_executor(pure=False, retries=CLUSTER_RETRIES)

    def submit(self, job: Job, chunk: Chunk) -> "Future[Outcome]":
        return self._executor.submit(run_chunk, job, chunk)  # type: ignore[no-any-return]

    def close(self) -> None:
        self._client.close()


def rulebook_here() -> str:
    """What answers depend on, in one word."""
    return f"kneewall {VERSION}, rulebook {RULEBOOK}"
