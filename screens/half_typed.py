"""What is typed and not entered yet, kept beside the book in case the program ends.

It is no entry and no record: one small file, written while somebody types and taken away when the
line or the form is entered or left. Where the program ended in between, the line is opened again
with it, and a form that asks the same is filled with it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any, Protocol, runtime_checkable

from tally.book.book import Book
from tally.errors import InputError
from tally.units import clean

ENDING = ".half-typed.json"
MOST_BYTES = 20_000
ENTRY_LINE = "entry line"
SOON = 0.2
"""After this what is typed is written, [s]."""

Later = Callable[[float, Callable[[], None]], object]
"""Does something after so many seconds."""


@dataclass(frozen=True, slots=True)
class Left:
    """What was typed when the program ended."""

    where: str = ""
    """The heading of a form, or the entry line."""
    texts: Mapping[str, str] = field(default_factory=dict)
    """By the key of the field."""

    @property
    def told(self) -> str:
        """The same in words, for a form."""
        return f"Half typed when the program ended: {self.where}. Open it, and it is there."


class HalfTyped:
    """The file of one book; a book that is only looked at has none."""

    def __init__(self, book: Book, later: Later) -> None:
        self.path = book.path.with_name(f"{book.path.name}{ENDING}")
        self._kept = not book.look_only
        self._later = later
        self._waiting: dict[str, Any] | None = None
        self.left = self._read() if self._kept else Left()

    def keep(self, where: str, texts: Mapping[str, str]) -> None:
        """Keep what is typed so far, a moment later: no key waits for the disk."""
        begun = self._waiting is not None
        self._waiting = {"where": where, "texts": dict(texts)}
        if self._kept and not begun:
            self._later(SOON, self._write)

    def _write(self) -> None:
        """Write what waits; where the folder takes no file it is kept on the screen alone."""
        waiting, self._waiting = self._waiting, None
        if waiting is not None:
            with suppress(OSError):
                self.path.write_text(json.dumps(waiting), "utf-8")

    def drop(self) -> None:
        """Forget it: it was entered, or left."""
        self._waiting = None
        if self._kept:
            with suppress(OSError):
                self.path.unlink(missing_ok=True)

    def take(self, where: str) -> Mapping[str, str]:
        """Return what was left half typed there, once; nothing elsewhere."""
        if not where or where != self.left.where:
            return {}
        texts, self.left = self.left.texts, Left()
        return texts

    def _read(self) -> Left:
        """Return what the file holds; a file that holds nothing of the kind is passed over."""
        try:
            if self.path.stat().st_size > MOST_BYTES:
                return Left()
            kept = json.loads(self.path.read_text("utf-8"))
            texts = {clean(str(key)): clean(str(text)) for key, text in kept["texts"].items()}
            return Left(clean(str(kept["where"])), texts)
        except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError,
                InputError):  # fmt: skip
            return Left()


@runtime_checkable
class KeepsTyping(Protocol):
    """An app that keeps what is half typed; a widget in another app keeps nothing."""

    half_typed: HalfTyped
