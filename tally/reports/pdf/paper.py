"""The sizes of paper, and the room that a page leaves for what it says."""

from __future__ import annotations

from dataclasses import dataclass

MARGIN = 40.0
HEAD = 46.0
"""Room of the head of a page, below the margin."""
FOOT = 34.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, in points."""

    name: str
    across: float
    down: float

    @property
    def width(self) -> float:
        """Room from margin to margin."""
        return self.across - 2 * MARGIN

    @property
    def height(self) -> float:
        """Room between head and foot."""
        return self.down - 2 * MARGIN - HEAD - FOOT

    @property
    def top(self) -> float:
        """Where the body of a page begins."""
        return self.down - MARGIN - HEAD


A4 = Paper("A4", 595.276, 841.89)
LETTER = Paper("letter", 612.0, 792.0)
