"""The guard on text that leaves: it can become neither a formula nor a terminal escape.

Numbers are written by us and need no guard. Text was typed by somebody, so it is shown with its
control characters as visible symbols and, in a spreadsheet file, kept from being a formula.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

from tally.units.spreadsheet import begins_a_formula, guarded_within, unguarded
from tally.units.text import unprintable

__all__ = ["Number", "guarded", "plain", "record", "unguarded", "visible"]

_LETTERS = str.maketrans(
    {
        "\u00c6": "AE", "\u00e6": "ae", "\u00d8": "O", "\u00f8": "o", "\u00df": "ss",
        "\u0110": "D", "\u0111": "d", "\u0141": "L", "\u0142": "l", "\u0131": "i",
        "\u0152": "OE", "\u0153": "oe", "\u00de": "Th", "\u00fe": "th", "\u00d0": "D",
        "\u00f0": "d", "\u2018": "'", "\u2019": "'", "\u201c": '"', "\u201d": '"',
        "\u2032": "'", "\u2033": '"', "\u2013": "-", "\u2014": "-", "\u2212": "-",
        "\u2026": "...", "\u00d7": "x", "\u00b0": " deg", "\u00b1": "+/-", "\u00a0": " ",
    }
)  # fmt: skip


def visible(text: str) -> str:
    """Return text with every character that cannot be shown as a visible symbol.

    >>> visible("thread" + chr(27) + "[31m")
    'thread<U+001B>[31m'
    """
    return "".join(f"<U+{ord(char):04X}>" if unprintable(char) else char for char in text)


def plain(text: str) -> str:
    """Return text in printable ASCII: accents fall off, other letters become visible symbols.

    >>> plain("\\u00c5se T\\u00f8nnesen, 9\\u20135/8"), plain("\\u4e95")
    ('Ase Tonnesen, 9-5/8', '<U+4E95>')
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(_plain(char) for char in unicodedata.normalize("NFC", text))


def _plain(char: str) -> str:
    if " " <= char <= "~":
        return char
    known = char.translate(_LETTERS)
    if known.isascii() and known.isprintable():
        return known
    base = unicodedata.normalize("NFD", char)[0]
    return base if " " <= base <= "~" else f"<U+{ord(char):04X}>"


def guarded(text: str) -> str:
    """Return text that a spreadsheet takes as text, whatever it begins with.

    Notes
    -----
    A single quote goes before text that begins with a sign a formula can begin with [1]_. Where
    a spreadsheet divides cells at semicolons, the text behind one begins a cell of its own, so a
    quote goes there as well. `unguarded` takes off what was put on, and nothing else.

    Examples
    --------
    >>> guarded("=1+2"), guarded("thread"), guarded("a;=1+2")
    ("'=1+2", 'thread', "a;'=1+2")

    References
    ----------
    .. [1] OWASP, "CSV Injection", owasp.org/www-community/attacks/CSV_Injection.
    """
    quote = "'" if begins_a_formula(text) else ""
    return quote + guarded_within(visible(text))


def record(cells: Iterable[str | int]) -> str:
    """Return one line of a CSV file: every field quoted, quotes doubled, text guarded.

    A number is given as an integer or as a `Number`.

    >>> record(["thread; 3 turns", 7, Number("-3.22")])
    '"thread; 3 turns","7","-3.22"\\r\\n'
    """
    fields = (str(cell) if isinstance(cell, int | Number) else guarded(cell) for cell in cells)
    return ",".join('"' + field.replace('"', '""') + '"' for field in fields) + "\r\n"


class Number(str):
    """A number in plain digits, which goes out as it is; the marks between thousands fall off.

    >>> Number("-8,240.00")
    '-8240.00'
    """

    __slots__ = ()

    def __new__(cls, shown: str) -> Number:
        """Return the digits of a number as it is shown on a page."""
        digits = shown.replace(",", "")
        if not _DIGITS.fullmatch(digits):
            raise ValueError(f"{shown!r} is no number")
        return super().__new__(cls, digits)


_DIGITS = re.compile(r"-?\d+(?:\.\d+)?", re.ASCII)
