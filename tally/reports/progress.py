"""How far a long export is, told to whoever listens: a page of the screen, a bar in a terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace

BAR = 40
"""Letters of a bar."""


@dataclass(frozen=True, slots=True)
class Progress:
    """The kind of file at hand, which of how many it is, and the page of it that is drawn."""

    what: str
    place: int
    places: int
    page: int = 0
    pages: int = 0
    least: float = 0.0
    """How much was done already: a kind may hold several documents, each with pages from 1."""

    @property
    def share(self) -> float:
        """How much of all is done, from 0 to 1.

        >>> Progress("pdf", 2, 4, page=5, pages=10).share
        0.375
        """
        within = self.page / self.pages if self.pages else 0.0
        return max(self.least, (self.place - 1 + within) / self.places)

    @property
    def bar(self) -> str:
        """It as a bar.

        >>> Progress("pdf", 2, 4).bar
        '[##########..............................]  25 %'
        """
        full = round(BAR * self.share)
        return f"[{'#' * full}{'.' * (BAR - full)}] {100 * self.share:3.0f} %"

    @property
    def words(self) -> str:
        """It in words.

        >>> Progress("pdf", 2, 4, page=5, pages=10).words
        'pdf, 2 of 4: page 5 of 10'
        """
        paged = f": page {self.page} of {self.pages}" if self.pages else ""
        return f"{self.what}, {self.place} of {self.places}{paged}"


Listener = Callable[[Progress], None]
_LISTENER: ContextVar[Listener | None] = ContextVar("listener", default=None)
_AT: ContextVar[Progress] = ContextVar("at", default=Progress("", 1, 1))  # noqa: B039 - frozen


@contextmanager
def listening(listener: Listener) -> Iterator[None]:
    """Have a listener told until this is left."""
    token = _LISTENER.set(listener)
    try:
        yield
    finally:
        _LISTENER.reset(token)


def begun(what: str, place: int, places: int) -> None:
    """Tell that another kind is begun."""
    _tell(Progress(what, place, places))


def page_drawn(page: int, pages: int) -> None:
    """Tell that a page of the kind at hand is drawn."""
    if _LISTENER.get() is not None:
        before = _AT.get()
        _tell(replace(before, page=page, pages=pages, least=before.share))


def _tell(now: Progress) -> None:
    listener = _LISTENER.get()
    if listener is not None:
        _AT.set(now)
        listener(now)
