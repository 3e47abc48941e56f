"""Wrong PINs are counted: after three of them that name waits a while before the next try."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil
from time import monotonic

MOST = 3
PAUSE_SECONDS = 30.0


class PinTries:
    """How often each name was tried with another PIN, while the program runs."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._wrong: dict[str, int] = {}
        self._until: dict[str, float] = {}

    def wait(self, name: str) -> int:
        """Return the seconds that a name must wait before its next try; 0 where it need not."""
        return max(0, ceil(self._until.get(name, 0.0) - self._clock()))

    def wrong(self, name: str) -> int:
        """Count another PIN; return how many tries are left before a pause begins."""
        tried = self._wrong.get(name, 0) + 1
        self._wrong[name] = tried % MOST
        if tried == MOST:
            self._until[name] = self._clock() + PAUSE_SECONDS
        return MOST - tried

    def right(self, name: str) -> None:
        """Begin to count anew."""
        self._wrong.pop(name, None)
