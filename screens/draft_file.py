"""The draft of a set-up beside its book: what is typed is not lost when the program ends."""

from __future__ import annotations

import tomllib
from pathlib import Path

from tally.errors import JobFileError, ShoedownError
from tally.feeds.job_draft import Draft, document_of, draft_of
from tally.feeds.job_text import job_text
from tally.feeds.opening import read_text
from tally.reports.writing import write_anew

ENDING = ".draft.toml"
MOST_MEGABYTES = 1


class DraftFile:
    """A plain file that holds what is typed, as a job file would."""

    def __init__(self, book: Path) -> None:
        self.path = book.with_name(f"{book.name}{ENDING}")
        self._book = book.name
        self._written: Draft | None = None

    def read(self) -> tuple[Draft, str]:
        """Return the draft and what is to be said of it; a draft that cannot be read is put aside.

        What is read is what was typed, whole or half; nothing of it need be right.
        """
        if not self.path.is_file():
            return Draft(), ""
        try:
            text = read_text(self.path, "draft", MOST_MEGABYTES)
            return draft_of(tomllib.loads(text)), f"what was typed before goes on: {self.path.name}"
        except (JobFileError, ValueError, RecursionError):
            return Draft(), self._put_aside()

    def _put_aside(self) -> str:
        aside = self.path.with_name(f"{self.path.name}.unread")
        try:
            self.path.replace(aside)
        except OSError:
            return "the draft could not be read, nor put aside; move it away by hand"
        return "the draft could not be read; it was put aside as .unread"

    def write(self, draft: Draft) -> str:
        """Keep a draft, unless the file holds it already; return why it could not be kept."""
        if draft == self._written:
            return ""
        title = f"A draft of the set-up of {self._book}: typed, and not saved in the book yet."
        try:
            content = job_text(document_of(draft), title).encode("utf-8")
            write_anew({self.path: content})
        except ShoedownError as fault:
            return f"What is typed is kept here only, not beside the book: {fault}"
        self._written = draft
        return ""

    def remove(self) -> None:
        """Take the file away: what it held is saved, or thrown away."""
        self._written = None
        try:
            self.path.unlink(missing_ok=True)
        except OSError:
            self.write(Draft())
