"""Who is who in the documents: identifiers that follow from the book, the same every time."""

from __future__ import annotations

from uuid import UUID, uuid5

_OURS = UUID("6f0a7a1e-6a53-5b0e-9a57-3c1d8f2b4e90")
"""The space of names that ours are drawn from."""


def uuid_of(book: str, what: str) -> str:
    """Return the identifier of something of a book.

    >>> uuid_of("b", "well") == uuid_of("b", "well") != uuid_of("c", "well")
    True
    """
    return str(uuid5(_OURS, f"{book} {what}"))
