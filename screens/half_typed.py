"""What is typed and not entered yet, kept beside the book in case the program ends.

It is no entry and no record: one small file for each station, written while somebody types and
taken away when the line or the form is entered or left. Where the program ended in between, the
line is opened again with it, and a form that asks the same is filled with it. What a form was
entered with, and the book refused, is in the form again too.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Protocol, runtime_checkable

from screens.held_file import HeldFile
from tally.book.book import Book
from tally.errors import InputError
from tally.units import clean

ENDING = ".half-typed.json"
STATIONS = 9
ENDINGS = (ENDING, *(f".half-typed-{number}.json" for number in range(2, STATIONS + 1)))
"""Each station that types has a file of its own; the first one is that of a single station."""
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
        self._paths = [book.path.with_name(f"{book.path.name}{each}") for each in ENDINGS]
        self._kept = not book.look_only
        self._later = later
        self._waiting: dict[str, Any] | None = None
        self._held: HeldFile | None = None
        self._entered: dict[str, Mapping[str, str]] = {}
        self._again: dict[str, Mapping[str, str]] = {}
        self.left = self._found() if self._kept else Left()

    def keep(self, where: str, texts: Mapping[str, str]) -> None:
        """Keep what is typed so far, a moment later: no key waits for the disk."""
        begun = self._waiting is not None
        self._waiting = {"where": where, "texts": dict(texts)}
        if self._kept and not begun:
            self._later(SOON, self._write)

    def _write(self) -> None:
        """Write what waits; where the folder takes no file it is kept on the screen alone."""
        waiting, self._waiting = self._waiting, None
        if waiting is None or not self._kept:
            return
        with suppress(OSError):
            if self._held is None:
                self._held = self._free()
            if self._held is not None:
                self._held.write(json.dumps(waiting))

    def drop(self) -> None:
        """Forget it: it was entered, or left."""
        self._waiting = None
        if self._held is not None:
            self._held.let_go()
            self._held = None

    def end(self) -> None:
        """Write what waits and leave it for the next time; the program ends."""
        self._write()
        if self._held is not None:
            self._held.let_go(remove=False)
            self._held = None

    def begin(self) -> None:
        """Begin an act: what forms were entered before it is no part of it."""
        self._entered = {}

    def entered(self, where: str, texts: Mapping[str, str]) -> None:
        """Note what a form was entered with, until the book has answered."""
        if any(texts.values()):
            self._entered[where] = texts

    def saved(self) -> None:
        """Forget what the forms of the act were entered with: it is in the book."""
        self._entered, self._again = {}, {}

    def refused(self) -> bool:
        """Have what was entered, and refused, in its forms again; whether there is some."""
        self._again, self._entered = self._entered, {}
        return bool(self._again)

    def take(self, where: str) -> Mapping[str, str]:
        """Return what was left half typed there, or refused there, once; nothing elsewhere."""
        if not where or where != self.left.where:
            return self._again.pop(where, {})
        texts, self.left = self.left.texts, Left()
        return texts

    def _free(self) -> HeldFile | None:
        """Return a file that no other station types into."""
        return next((held for path in self._paths if (held := HeldFile.take(path))), None)

    def _found(self) -> Left:
        """Return what a station that lives no more has left, and go on in its file."""
        for path in self._paths:
            with suppress(OSError):
                held = HeldFile.take(path) if path.is_file() else None
                if held is None:
                    continue
                left = _read(path)
                if left.where:
                    self._held = held
                    return left
                held.let_go(remove=False)
        return Left()


def _read(path: Path) -> Left:
    """Return what a file holds; a file that holds nothing of the kind is passed over."""
    try:
        if path.stat().st_size > MOST_BYTES:
            return Left()
        kept = json.loads(path.read_text("utf-8"))
        texts = {clean(str(key)): clean(str(text)) for key, text in kept["texts"].items()}
        return Left(clean(str(kept["where"])), texts)
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError,
            InputError):  # fmt: skip
        return Left()


@runtime_checkable
class KeepsTyping(Protocol):
    """An app that keeps what is half typed; a widget in another app keeps nothing."""

    half_typed: HalfTyped
