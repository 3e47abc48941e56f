"""What the lines of a book add up to, and what the next line makes of it; no file is touched."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tally.book.journal import Line, entry_of, genesis, line_of, misfit
from tally.errors import BookDamaged, BookError, EntryRefused
from tally.job.entries.correction import Correction
from tally.job.entry import Entry
from tally.job.fold import carry_on, checked_correction, effective, fold, fold_on
from tally.job.job import EMPTY, Job


@dataclass(frozen=True, slots=True)
class Standing:
    """A book as far as it is known: its entries, the hash of the last one, and the job."""

    book: str
    head: str
    entries: tuple[Entry, ...] = ()
    job: Job = EMPTY

    @property
    def count(self) -> int:
        """How many entries there are."""
        return len(self.entries)

    def carried_on(self, lines: Iterable[Line]) -> Standing:
        """Return the standing with lines that the book holds already."""
        head = self.head
        new: list[Entry] = []
        for line in lines:
            fault = misfit(line, self.count + len(new), head)
            if fault:
                raise BookDamaged(f"{fault} Verify the book.")
            entry = entry_of(line, self.book)
            strange = entry.out_of_place(line.seq - 1, head)
            if strange:
                raise BookDamaged(f"Entry {line.seq}: {strange} Verify the book.")
            new.append(entry)
            head = line.hash
        if not new:
            return self
        entries = (*self.entries, *new)
        corrects = any(isinstance(entry, Correction) for entry in new)
        job = fold(entries) if corrects else carry_on(self.job, new)
        return Standing(self.book, head, entries, job)

    def next(self, entry: Entry) -> tuple[Line, Standing]:
        """Return the line that an entry makes here, and the standing with it.

        What is folded is what the line holds, so that the job is the same when the book is
        opened again.

        Raises
        ------
        EntryRefused
            If the job does not allow the entry, or asks first and no reason is given.
        """
        line = line_of(entry, self.book, self.count + 1, self.head)
        try:
            written = entry_of(line, self.book)
        except BookError as fault:
            raise EntryRefused(f"The entry cannot be written: {fault}") from fault
        strange = written.out_of_place(self.count, self.head)
        if strange:
            raise EntryRefused(f"{strange} Look at the report again and sign that.")
        entries = (*self.entries, written)
        job = fold_on(self.job, written)
        if isinstance(written, Correction):
            job = corrected(self.entries, written)
        return line, Standing(self.book, line.hash, entries, job)

    def still_answered(self, entry: Entry, now: Standing) -> None:
        """Refuse a reason that was given for another question than the book asks by now.

        Raises
        ------
        EntryRefused
            If others have added entries and the question is a new one.
        """
        if now is self or not entry.despite or entry.check(now.job):
            return
        question = entry.ask(now.job)
        if question and (entry.check(self.job) or entry.ask(self.job) != question):
            raise EntryRefused(question, question=True)


def begun(book: str) -> Standing:
    """Return a book without entries."""
    return Standing(book, genesis(book))


def corrected(entries: tuple[Entry, ...], correction: Correction) -> Job:
    """Return the job with a correction put in place, everything after it folded anew.

    Raises
    ------
    EntryRefused
        If its target cannot be corrected, or what stands instead does not fit its own place.
        A later entry that no longer fits is an open exception, not an error.
    """
    checked_correction(entries, correction)
    said = (*entries, correction)
    standing = effective(said)
    instead = next((entry for entry in standing if entry.seq == correction.of), None)
    try:
        before = carry_on(EMPTY, (entry for entry in standing if entry.seq < correction.of))
        refused = instead.check(before) if instead else ""
        if refused:
            raise EntryRefused(f"Entry {correction.of} cannot be corrected so: {refused}")
        return fold(said)
    except (TypeError, ValueError, LookupError, AttributeError) as fault:
        raise EntryRefused(f"Entry {correction.of} cannot be corrected so: {fault}.") from fault
