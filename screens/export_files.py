"""The kinds of an export: the reports, and the set-up as a job file that makes it again."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tally.book.book import Book
from tally.reports.export import KINDS, Files, Kind, Source, chosen, export


def _job_file(source: Source) -> Files:
    from tally.feeds.job_document import document_of_setup
    from tally.feeds.job_text import job_text

    book = source.book
    title = f"The set-up of {book.path.name} as it stands after entry {book.head[0]}"
    text = job_text(document_of_setup(book.job.known), title)
    return {f"{source.name}-job.toml": text.encode("utf-8")}


ALL_KINDS: tuple[Kind, ...] = (*KINDS, Kind("job", "the set-up as a job file", _job_file))


def export_files(book: Book, folder: Path, words: Sequence[str] = ()) -> tuple[Path, ...]:
    """Write files of a book to a folder and return where they are; no words mean the usual kinds.

    Raises
    ------
    ShoedownError
        If there is no kind of such a name, the folder cannot be made or a file cannot be written;
        files of an earlier export stay whole.
    """
    return export(book, folder, chosen(words, ALL_KINDS))
