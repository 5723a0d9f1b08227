"""What came of many questions: how many were answered with which verdict, and the commonest faults."""

import re
from typing import Any

import msgspec

from kneewall.http.problem import Problem

WORST_FIRST = ("fails", "refer", "watch", "meets")
UNCHECKED = "unchecked"
REFUSED = "refused"
MOST_GROUPS = 200
OTHERS = "others"
_RANK = {verdict: rank for rank, verdict in enumerate(WORST_FIRST)}
_index = re.compile(r"/[0-9]+(?=/|$)")


class FaultGroup(msgspec.Struct):
    """Refusals for the same field and of the same kind, with the first of them as an example."""

    pointer: str
    kind: str
    count: int
    example: str


class Tally(msgspec.Struct):
    """A running count. Its size is bounded: beyond `MOST_GROUPS` kinds of fault the rest is counted together."""

    items: int = 0
    verdicts: dict[str, int] = {}
    faults: dict[str, FaultGroup] = {}

    def count_answer(self, verdict: str, count: int = 1) -> None:
        """Count an answer, or several, by the worst verdict of its checks."""
        self.items += count
        self.verdicts[verdict] = self.verdicts.get(verdict, 0) + count

    def count_problem(self, problem: Problem) -> None:
        """Count a refusal and each field at fault."""
        self.items += 1
        self.verdicts[REFUSED] = self.verdicts.get(REFUSED, 0) + 1
        kind = problem.type.rpartition("/")[2]
        if not problem.errors:
            self._count_fault(FaultGroup("", kind, 1, problem.detail))
        for error in problem.errors:
            self._count_fault(FaultGroup(_index.sub("/*", error.pointer), kind, 1, error.detail))

    def add(self, other: "Tally") -> None:
        """Add what another count found after this one."""
        self.items += other.items
        for verdict, count in other.verdicts.items():
            self.verdicts[verdict] = self.verdicts.get(verdict, 0) + count
        for group in other.faults.values():
            self._count_fault(group)

    def _count_fault(self, group: FaultGroup) -> None:
        key = f"{group.kind} {group.pointer}"
        if key not in self.faults:
            if len(self.faults) >= MOST_GROUPS:
                key, group = OTHERS, FaultGroup("", OTHERS, group.count, group.example)
            if key not in self.faults:
                self.faults[key] = FaultGroup(group.pointer[:200], group.kind, 0, group.example[:300])
        self.faults[key].count += group.count

    @property
    def refused(self) -> int:
        """How many questions were refused."""
        return self.verdicts.get(REFUSED, 0)

    def commonest_faults(self, most: int = 10) -> list[FaultGroup]:
        """The commonest faults first."""
        return sorted(self.faults.values(), key=lambda group: -group.count)[:most]

    def summary(self) -> dict[str, object]:
        """The count as it leaves."""
        return {
            "items": self.items,
            "answered": self.items - self.refused,
            "refused": self.refused,
            "verdicts": {verdict: self.verdicts[verdict] for verdict in (*WORST_FIRST, UNCHECKED) if verdict in self.verdicts},
            "faults": self.commonest_faults(),
        }


class Outcome(msgspec.Struct):
    """What came of a chunk: the text to send or write, the count, and how long it took."""

    text: bytes
    tally: Tally
    seconds: float


def worst_verdict(answer: Any) -> str:
    """The worst verdict among an answer's checks; `unchecked` where it made none."""
    worst = len(WORST_FIRST)
    for check in answer.checks:
        worst = min(worst, _RANK[check.verdict])
    return UNCHECKED if worst == len(WORST_FIRST) else WORST_FIRST[worst]
