"""What the service counts about itself. Counting is a few additions; the Prometheus text is made by its official client when it is asked for."""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator
from itertools import accumulate

from prometheus_client import CollectorRegistry, GCCollector, ProcessCollector, generate_latest
from prometheus_client.core import CounterMetricFamily, GaugeMetricFamily, HistogramMetricFamily, Metric
from prometheus_client.registry import Collector

from kneewall import RULEBOOK, VERSION

BOUNDS = (0.0001, 0.00025, 0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.1, 0.5, 2.5, 10.0)


class Tally(Collector):
    """Requests by route and status, and the seconds they took. Routes are a closed list, so the number of series is bounded."""

    def __init__(self) -> None:
        self.answered: defaultdict[tuple[str, int], int] = defaultdict(int)
        self.times: defaultdict[str, list[int]] = defaultdict(lambda: [0] * (len(BOUNDS) + 1))
        self.seconds: defaultdict[str, float] = defaultdict(float)
        self.registry = CollectorRegistry()
        self.registry.register(self)
        ProcessCollector(registry=self.registry)
        GCCollector(registry=self.registry)

    def count(self, route: str, status: int, seconds: float) -> None:
        """One request is done. Status 0: its sender left before an answer began."""
        self.answered[route, status] += 1
        self.times[route][bisect_left(BOUNDS, seconds)] += 1
        self.seconds[route] += seconds

    def text(self) -> bytes:
        """Everything counted, in the Prometheus text format."""
        return generate_latest(self.registry)

    def collect(self) -> Iterator[Metric]:
        """For the Prometheus client."""
        requests = CounterMetricFamily(
            "kneewall_requests", "Requests answered, by calculation (or other) and status", labels=["calculation", "status"]
        )
        for (route, status), count in sorted(self.answered.items()):
            requests.add_metric([route, str(status)], count)
        yield requests
        times = HistogramMetricFamily("kneewall_request_seconds", "Seconds from a request's head to the end of its answer", labels=["calculation"])
        edges = [*map(str, BOUNDS), "+Inf"]
        for route, counts in sorted(self.times.items()):
            times.add_metric([route], list(zip(edges, accumulate(counts), strict=True)), self.seconds[route])
        yield times
        build = GaugeMetricFamily("kneewall_build_info", "Always 1; the version and the rulebook are its labels", labels=["version", "rulebook"])
        build.add_metric([VERSION, RULEBOOK], 1)
        yield build
