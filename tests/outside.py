"""Figures from outside the project, each with where it stands and how closely we may be held to it."""

from dataclasses import dataclass

import pytest


@dataclass(frozen=True)
class Outside:
    """One figure that somebody else printed or computed.

    `source` names the document or library and the place in it; `standing` how we know it (published, from-memory, common-practice, computed
    by a reference library or by the hand calculation shown); `within` is the relative tolerance and `because` the reason for it.
    """

    value: float
    source: str
    standing: str
    within: float
    because: str

    def agrees(self, got: float) -> bool:
        """Whether `got` lies within the tolerance."""
        return got == pytest.approx(self.value, rel=self.within, abs=0)

    def check(self, got: float) -> None:
        """Fail with the source in the message where `got` does not agree."""
        assert self.agrees(got), (
            f"got {got}, outside figure {self.value} ({self.source}; {self.standing}), tolerance {self.within} because {self.because}"
        )
