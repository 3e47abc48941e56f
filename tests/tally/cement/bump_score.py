"""How many bumps of recorded files the finder finds, and how many it calls where there is none."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from random import SystemRandom

from tally.cement.bump import find_bump
from tests.tally.cement.bump_files import BARREL, PumpFile, files, marched

NEAR = BARREL


@dataclass(frozen=True, slots=True)
class Score:
    """One file and what came of it."""

    file: PumpFile
    called: float | None

    @property
    def false(self) -> bool:
        """A bump was called that is none."""
        return self.called is not None and self.file.bump is None

    @property
    def found(self) -> bool:
        """The bump was found within a barrel."""
        bump = self.file.bump
        return bump is not None and self.called is not None and abs(self.called - bump) <= NEAR


def fresh() -> int:
    """Return a seed drawn fresh."""
    return SystemRandom().randrange(10**9)


def scores(marches: Iterable[int], seeds: Iterable[int]) -> list[Score]:
    """Return what comes of the file of each seed, every second without a bump."""
    wells = [marched(seed) for seed in marches]
    return [_score(each) for each in files(wells, list(seeds))]


def _score(file: PumpFile) -> Score:
    proposal = find_bump(file.points, file.rule).proposal
    return Score(file, proposal.volume if proposal else None)
