"""The letters of a page: which ones it can draw, what stands for the others, how wide they are."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from tally.units.text import unprintable

REGULAR, BOLD = "Shoedown", "Shoedown-Bold"
_FILES = {REGULAR: "DejaVuSansCondensed.ttf", BOLD: "DejaVuSansCondensed-Bold.ttf"}
_FOLDER = Path(__file__).parent / "fonts"
ESCAPE = "\\"
"""What a letter that cannot be drawn is written with; a page that has one explains it."""
_LETTER = re.compile(r"\\u[0-9a-f]{4}|\\U[0-9a-f]{8}|.")
"""A letter, or the number that stands for one; the numbers are not parted."""


@cache
def widths(font: str) -> Mapping[str, float]:
    """Return the width of every letter of a font, as a share of its size; load it if need be."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    made: Any = TTFont(font, str(_FOLDER / _FILES[font]))
    pdfmetrics.registerFont(made)
    face = made.face
    letters = (chr(code) for code in face.charToGlyph)
    return {char: face.getCharWidth(ord(char)) / 1000 for char in letters if not unprintable(char)}


def width(text: str, font: str, size: float) -> float:
    """Return how wide a text is drawn; every letter of it can be."""
    return size * sum(map(widths(font).__getitem__, text))


def drawable(text: str) -> str:
    r"""Return text in letters that can be drawn; the number of any other one stands for it.

    >>> drawable("\u00c5se, \u03a9mega, \u0416uk")
    'Åse, Ωmega, Жuk'
    >>> drawable("\u4e95" + chr(27) + "[31m" + chr(0x1F600))
    '\\u4e95\\u001b[31m\\U0001f600'
    """
    if text.isascii() and text.isprintable():
        return text
    known = widths(REGULAR)
    return "".join(
        char if char in known else _escaped(char) for char in unicodedata.normalize("NFC", text)
    )


def _escaped(char: str) -> str:
    code = ord(char)
    return f"{ESCAPE}u{code:04x}" if code <= 0xFFFF else f"{ESCAPE}U{code:08x}"


def wrapped(text: str, room: float, font: str = REGULAR, size: float = 8.0) -> tuple[str, ...]:
    """Return text in lines no wider than the room; a word that is wider is parted.

    >>> wrapped("thread damaged when stabbed", 70)
    ('thread damaged', 'when stabbed')
    """
    text = drawable(text)
    if width(text, font, size) <= room:
        return (text,)
    lines, line = [], ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if width(longer, font, size) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        *whole, line = _parted(word, room, font, size)
        lines += whole
    return (*lines, line)


def _parted(word: str, room: float, font: str, size: float) -> list[str]:
    """Return a word in pieces that fit; at least one letter, or a whole number, stands in each."""
    pieces, begun, used = [], "", 0.0
    for letter in _LETTER.findall(word):
        wide = width(letter, font, size)
        if begun and used + wide > room:
            pieces.append(begun)
            begun, used = "", 0.0
        begun, used = begun + letter, used + wide
    return [*pieces, begun]


def shortened(text: str, room: float, font: str = REGULAR, size: float = 8.0) -> str:
    """Return text in one line; one that is cut ends in three dots.

    >>> shortened("thread damaged when stabbed", 60)
    'thread damag...'
    """
    text = drawable(text)
    if width(text, font, size) <= room:
        return text
    dots = "..."
    pieces = _parted(text, room - width(dots, font, size), font, size)
    return pieces[0].rstrip() + dots
