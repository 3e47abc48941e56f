"""Making a book again from the JSON file that holds all of it."""

from __future__ import annotations

from pathlib import Path

from tally.book.book import Book
from tally.book.document import LARGEST_FILE, Document, read_document
from tally.book.verify import Report, verify
from tally.errors import BookDamaged, BookError, BookMissing, ShoedownError


def rebuilt(path: Path, file: Path) -> Report:
    """Make a book of a file of JSON, verify it, and return what was found; it is sound then.

    Raises
    ------
    BookError
        If the file is not whole, something lies at the path, or the book does not verify; no
        book is made.
    """
    document = read_document(content_of(file), file.name)
    _make(path, document, file.name)
    report = verify(path)
    if not report.ok:
        path.unlink()
        fault = next(finding for finding in report.findings if not finding.good)
        raise BookDamaged(f"{file.name} makes no sound book, and none was made: {fault}")
    return report


def _make(path: Path, document: Document, name: str) -> None:
    try:
        Book.rebuild(path, document).close()
    except ShoedownError:
        raise
    except (TypeError, ValueError, LookupError, AttributeError, ArithmeticError) as fault:
        # what an entry that this program never wrote brings up is told, not raised
        raise BookDamaged(f"The entries of {name} do not add up: {fault!r}.") from fault


def content_of(file: Path) -> bytes:
    """Return the content of a file, unless it is far too large to be a report of ours."""
    try:
        if file.stat().st_size > LARGEST_FILE:
            raise BookDamaged(f"{file.name} has more than {LARGEST_FILE // 2**20} MB.")
        return file.read_bytes()
    except FileNotFoundError as fault:
        raise BookMissing(f"There is no file {file}; check the name and the folder.") from fault
    except OSError as fault:
        raise BookError(f"{file} cannot be read: {fault.strerror}.") from fault
