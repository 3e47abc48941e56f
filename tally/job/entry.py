"""What every entry has: who made it, when, and what it says of the job.

An entry is a validated statement of something that happened. One kind is one small class that
owns its fields and three questions: may it be (`check`), should a person be asked first (`ask`),
and what does it make of the job (`apply`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache
from importlib import import_module
from typing import TYPE_CHECKING, Any, ClassVar, TypeVar

from tally.errors import BookTooNew, InputError
from tally.job import entries, stored
from tally.job.origin import Origin, origins_told
from tally.units import shown

if TYPE_CHECKING:
    from tally.job.job import Job

KINDS: dict[str, type[Entry]] = {}
"""The kinds of the rooms that were read in so far; `catalogue` has them all."""
Kind = TypeVar("Kind", bound="type[Entry]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A statement of something that happened; the book gives it its number."""

    KIND: ClassVar[str] = ""

    by: str
    """The name of the person at the keys."""
    at: str
    """When, ISO 8601 with its offset."""
    seq: int = 0
    """Its number in the journal, from 1; 0 until the book has taken it."""
    despite: str = ""
    """The reason given when the tool stopped and asked."""
    signed: tuple[str, ...] = ()
    """Who confirmed it with a PIN."""
    origins: tuple[Origin, ...] = ()
    """Which of its values the rig's stream gave, and which were typed although it had one."""

    def check(self, job: Job) -> str:
        """Return why the job does not allow this, or nothing."""
        return ""

    def out_of_place(self, count: int, head: str) -> str:
        """Return why it does not belong after so many entries with this last hash, or nothing."""
        return ""

    def demand(self, job: Job) -> str:
        """Return what a new entry lacks that one in the book already may lack, or nothing."""
        return ""

    def ask(self, job: Job) -> str:
        """Return what a person should be asked first, or nothing; a reason answers it."""
        return ""

    def doubted(self, question: str) -> Entry | None:
        """Return it as it is stored in doubt, which answers the question; None: a reason does."""
        return None

    def apply(self, job: Job) -> Job:
        """Return the job as it stands after this."""
        raise NotImplementedError

    def said(self) -> str:
        """Return the entry in one line of words."""
        raise NotImplementedError

    def worded(self, job: Job) -> str:
        """Return the entry in the words of the job: a step as its list names it."""
        return self.said() + origins_told(self.origins)


def entry_kind(kind: Kind) -> Kind:
    """Enter a class in the table of kinds under its `KIND`."""
    KINDS[kind.KIND] = kind
    return kind


def kind_of(name: str) -> type[Entry] | None:
    """Return the class of a kind, its room read in now if it was not before."""
    for room in entries.ROOMS:
        if name in KINDS:
            break
        import_module(f"{entries.__name__}.{room}")
    return KINDS.get(name)


def catalogue() -> Mapping[str, type[Entry]]:
    """Return every kind of entry by its name."""
    for room in entries.ROOMS:
        import_module(f"{entries.__name__}.{room}")
    return KINDS


def to_fields(entry: Entry) -> dict[str, Any]:
    """Return the plain fields of an entry, its kind first."""
    return {"kind": entry.KIND, **stored.to_fields(entry)}


def from_fields(plain: Mapping[str, Any]) -> Entry:
    """Rebuild an entry from its plain fields.

    Raises
    ------
    BookTooNew
        If its kind or a field is not known.
    InputError
        If a field is missing or cannot be read.
    """
    rest = dict(plain)
    name = str(rest.pop("kind", ""))
    kind = kind_of(name)
    if kind is None:
        raise BookTooNew(
            f"The book holds an entry of the kind '{shown(name)}' that this release does not know; "
            "open it with the release that wrote it."
        )
    made: Entry = stored.from_fields(kind, rest)
    moment(made.at)
    return made


@lru_cache(maxsize=4096)
def moment(at: str) -> datetime:
    """Return an entry's time as a moment with its offset.

    Raises
    ------
    InputError
        If the text is no time, or names no offset.

    Examples
    --------
    >>> moment("2026-03-14T03:12:00+01:00").hour
    3
    """
    try:
        read = datetime.fromisoformat(at)
    except ValueError:
        raise InputError(f"'{shown(at)}' is no time of an entry.") from None
    if read.utcoffset() is None:
        raise InputError(f"The time '{shown(at)}' does not say its offset from UTC.")
    return read


def seconds_between(earlier: str, later: str) -> float:
    """Return the seconds from one entry's time to another's; negative if the clock went back."""
    return (moment(later) - moment(earlier)).total_seconds()


def several(number: int, what: str) -> str:
    """Return a count in words.

    >>> several(1, "joint"), several(3, "joint"), several(3, "entry")
    ('1 joint', '3 joints', '3 entries')
    """
    if number == 1:
        return f"{number} {what}"
    return f"{number} {what[:-1]}ies" if what.endswith("ry") else f"{number} {what}s"


def accepted(reason: str) -> str:
    """Return that a question was passed with a reason, or that nobody has answered it yet."""
    return f"Accepted: {ended(reason)}" if reason else "Nobody has accepted this."


def ended(text: str) -> str:
    """Return typed words with the full stop that ends a sentence.

    >>> ended("seen late"), ended("Seen late.")
    ('seen late.', 'Seen late.')
    """
    return text if text.endswith((".", "!", "?")) else f"{text}."


def later(at: str, seconds: float) -> str:
    """Return the time so many seconds after an entry's, with the same offset.

    >>> later("2026-03-12T23:50:00-06:00", 1200.0)
    '2026-03-13T00:10:00-06:00'
    """
    return (moment(at) + timedelta(seconds=seconds)).isoformat(timespec="seconds")


def clock(at: str) -> str:
    """Return the hour and minute of an entry's time, as its own clock showed it."""
    return moment(at).strftime("%H:%M")
