"""Text in the cells of a spreadsheet file: the guard that it goes out with, taken off coming in.

A spreadsheet takes text that begins with a sign for a formula. A single quote before it keeps it
text. Where cells are divided at semicolons, the text behind one begins a cell of its own.
"""

from __future__ import annotations

import re

# A spreadsheet also reads the wide forms of these signs, and forgives blanks before them.
_SIGNS = "=+\\-@\uff1d\uff0b\uff0d\uff20"
_FORMULA = re.compile(rf"'*\s*[{_SIGNS}\t\r\n]")
_NEXT_CELL = re.compile(rf"(;'*)(?=\s*[{_SIGNS}])")
_GUARDED_NEXT_CELL = re.compile(rf";'(?='*\s*[{_SIGNS}])")


def begins_a_formula(text: str) -> bool:
    """Return whether a spreadsheet may take text for a formula, or did before it was guarded."""
    return _FORMULA.match(text) is not None


def guarded_within(text: str) -> str:
    """Return text with a quote behind each semicolon that a formula could follow."""
    return _NEXT_CELL.sub(r"\1'", text)


def unguarded(text: str) -> str:
    """Return text as it was before it was guarded; nothing else is taken off.

    >>> unguarded("'=1+2"), unguarded("'quoted'")
    ('=1+2', "'quoted'")
    """
    bare = text[1:] if text.startswith("'") and begins_a_formula(text[1:]) else text
    return _GUARDED_NEXT_CELL.sub(";", bare)
