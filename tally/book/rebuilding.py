"""Making a book again from the JSON file that holds all of it."""

from __future__ import annotations

from pathlib import Path

from tally.book.book import Book
from tally.book.document import Document, content_of, read_document
from tally.book.verify import Report, verify
from tally.errors import BookDamaged, ShoedownError


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
