"""An item of the string in the words that the standard's lists have for it.

Our kinds of items say less than those lists do, so the description decides: a shoe is a float shoe
where somebody wrote so. What no word is for is named in our own, or as "other" where the list is
closed.
"""

from __future__ import annotations

import re

from tally.job.centralizing import is_centralizer
from tally.job.setup import Pipe, Setup
from tally.reports.tally_lines import Row
from tally.reports.witsml.layout import CUSTOM, NEWER, layout

OTHER = "other"
_PIPE = ("joint", "pup", "marker", "landing joint")
# Kind of item: word in its description, component of a tubular, equipment of a well.
_BY_WORD = {
    "shoe": (
        ("guide", "guide shoe", "float shoe/guide shoe"),
        ("float", "float shoe", "float shoe/guide shoe"),
    ),
    "collar": (
        ("stage", "stage cement collar", "cement stage tool"),
        ("landing", "landing float collar", "landing collar"),
        ("float", "float collar", "float collar"),
    ),
    "hanger": (
        ("liner", "hanger liner", "liner hanger"),
        ("mud line", "hanger mud line", "casing hanger"),
        ("subsea", "hanger casing subsea", "casing hanger"),
    ),
}
_PLAIN = {
    "crossover": ("casing crossover", "casing crossover"),
    "shoe": ("", "casing shoe"),
    "hanger": ("", "casing hanger"),
}
_GRADE = re.compile(r"([A-Z])[ -]?(\d{2,3})", re.ASCII)
_SCRATCHER = "scratch"


def component_of(row: Row, *, newer: bool) -> str:
    """Return what a component of a tubular is, in the words of one version."""
    word = "casing" if row.kind in _PIPE else _words(row)[0]
    return word or (f"{CUSTOM}{row.kind}" if newer else OTHER)


def equipment_of(row: Row) -> str:
    """Return what a piece of equipment of the well is, in the words of 2.1."""
    word = "casing/casing liner" if row.kind in _PIPE else _words(row)[1]
    return word or f"{CUSTOM}{row.kind}"


def _words(row: Row) -> tuple[str, str]:
    said = row.description.casefold()
    for word, component, equipment in _BY_WORD.get(row.kind, ()):
        if word in said:
            return component, equipment
    return _PLAIN.get(row.kind, ("", ""))


def said_of(row: Row) -> str:
    """Return an item as a person would name it."""
    return f"{row.kind}, {row.description}" if row.description else row.kind


def string_of(name: str) -> str:
    """Return the word of the list that a string's name has in it; nothing where it has none."""
    words = layout(NEWER).words("DownholeString", "SubStringType")
    return next((word for word in words if word in name.casefold()), "")


def grade_of(pipe: Pipe) -> str:
    """Return a grade as the list of 2.1 spells it; nothing where it is not on it.

    The list is closed. "L80" and "L-80" are one grade; "L80 13Cr" is another that is not on it.
    """
    found = _GRADE.fullmatch(pipe.grade.strip().upper())
    grade = f"{found[1]}-{found[2]}" if found else ""
    return grade if grade in layout(NEWER).words("Equipment", "Grade") else ""


def centralizers(setup: Setup, row: Row) -> bool | None:
    """Return whether a centralizer is on an item; nothing is said of one with no piece on it."""
    return any(is_centralizer(setup, one.what) for one in row.fittings) or None


def scratchers(row: Row) -> bool | None:
    """Return whether a scratcher is on an item."""
    return any(_SCRATCHER in one.what.casefold() for one in row.fittings) or None


def accessory_type(setup: Setup, what: str) -> str:
    """Return what a piece on a joint is: the list has a word for a basket alone."""
    said = what.casefold()
    if "basket" in said:
        return "cement basket"
    if is_centralizer(setup, what):
        return f"{CUSTOM}centralizer"
    for word, own in ((_SCRATCHER, "scratcher"), ("stop collar", "stop collar")):
        if word in said:
            return f"{CUSTOM}{own}"
    return f"{CUSTOM}other"
