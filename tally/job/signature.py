"""A signature under a report: who, as what, when, what it means, and exactly what was signed."""

from __future__ import annotations

from dataclasses import dataclass

REPORTS = {
    "tally": "casing tally",
    "report": "casing and cementing report",
    "fields": "fields for the regulator's form",
}
"""The reports that are signed, by their key."""
PREPARED, WITNESSED, APPROVED = "prepared", "witnessed", "approved"
MEANINGS = (PREPARED, WITNESSED, APPROVED)


@dataclass(frozen=True, slots=True)
class Signature:
    """One name under one or more reports, bound to the entries that they were made of."""

    seq: int
    name: str
    role: str
    meaning: str
    at: str
    pin: bool
    """Whether a PIN confirmed it."""
    reports: tuple[str, ...]
    entries: int
    """How many entries the book had."""
    head: str
    """The hash of the last of them."""

    @property
    def how(self) -> str:
        """Whether a PIN confirmed it, in words."""
        return "with PIN" if self.pin else "without a PIN"


def reports_named(keys: tuple[str, ...]) -> str:
    """Return reports by their names.

    >>> reports_named(("tally", "report"))
    'casing tally, casing and cementing report'
    """
    return ", ".join(REPORTS.get(key, key) for key in keys)
