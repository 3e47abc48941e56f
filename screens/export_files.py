"""The files of an export: the reports, and the set-up as a job file that makes it again."""

from __future__ import annotations

from pathlib import Path

from tally.book.book import Book


def export_files(book: Book, folder: Path) -> tuple[Path, ...]:
    """Write the reports and the job file of a book to a folder and return where they are.

    Raises
    ------
    ShoedownError
        If the folder cannot be made or a file cannot be written; files of an earlier export
        stay whole.
    """
    from tally.feeds.job_document import document_of_setup
    from tally.feeds.job_text import job_text
    from tally.reports.export import export
    from tally.reports.writing import write_anew

    written = export(book, folder)
    name = book.path.stem
    title = f"The set-up of {book.path.name} as it stands after entry {book.head[0]}"
    text = job_text(document_of_setup(book.job.known), title)
    path = folder / f"{name}-job.toml"
    write_anew({path: text.encode("utf-8")})
    return (*written, path)
