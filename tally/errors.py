"""The tree of exceptions; every message is a sentence a person on the floor can act on.

ShoedownError
  InputError        typed text was refused
  DomainError       a number lies outside the range of a formula
  Missing           something that a figure wants is not in the job yet
  JobFileError      a job file, pipe list or checklist file was refused
  EntryRefused      the job does not allow the entry
  BookError         the book could not be opened, read or written
    BookMissing, BookDamaged, BookTooNew, BookBusy, NotSaved
"""

from __future__ import annotations


class ShoedownError(Exception):
    """Anything that the program says to a person in a sentence."""


class InputError(ShoedownError):
    """Typed text that cannot be read in one way only."""


class DomainError(ShoedownError, ValueError):
    """A number outside the range in which a formula holds."""


class Missing(ShoedownError):
    """An input that the job does not have yet; its sentence stands in the figure's place."""


class JobFileError(ShoedownError):
    """A file from outside that was refused; `faults` lists everything found in it."""

    def __init__(self, message: str, faults: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.faults = faults


class EntryRefused(ShoedownError):
    """An entry that the job does not allow; a `question` passes once a reason is given."""

    def __init__(self, message: str, *, question: bool = False) -> None:
        super().__init__(message)
        self.question = question


class BookError(ShoedownError):
    """The book could not be opened, read or written."""


class BookMissing(BookError):
    """There is no book at the path given."""


class BookDamaged(BookError):
    """The file is no book, or its contents do not hold together."""


class BookTooNew(BookError):
    """The book was written by a later release."""


class BookBusy(BookError):
    """Another program held the book for longer than the wait allowed."""


class NotSaved(BookError):
    """The disk did not confirm an entry; nothing may be shown as saved."""
