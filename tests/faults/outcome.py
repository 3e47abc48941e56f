"""What came of a fault that was tried many times."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Outcome:
    """A fault, how often it was tried, and what was wrong after the tries that were not survived.

    A try is survived if the book opens and verifies, holds every entry that was confirmed, and at
    most the one in flight besides.
    """

    fault: str
    tries: int
    wrong: tuple[str, ...] = ()

    @property
    def survived(self) -> int:
        """Tries that lost nothing."""
        return self.tries - len(self.wrong)


def table(outcomes: Iterable[Outcome]) -> str:
    """Return the outcomes as lines under a heading, and what was wrong first in each."""
    lines = [f"{'fault':<56}{'tries':>7}{'survived':>10}{'lost':>6}"]
    for one in outcomes:
        lines.append(f"{one.fault:<56}{one.tries:>7}{one.survived:>10}{len(one.wrong):>6}")
        lines += [f"  {wrong}" for wrong in one.wrong[:3]]
    return "\n".join(lines)
