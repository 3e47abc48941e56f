"""Large digits for the headline, where there is room: readable from two steps away.

Each glyph is three dots wide and five high; two dots stand one above the other in a half block,
which nearly every terminal font has; where there are none (`screens/glyphs.py`) plain characters
take their place.
"""

from __future__ import annotations

from textual.content import Content

from screens.glyphs import BLOCK, LOWER, UPPER, ascii_only
from screens.ink import BOLD, QUIET, Line

_DOTS = {
    "0": "### #.# #.# #.# ###",
    "1": ".#. ##. .#. .#. ###",
    "2": "### ..# ### #.. ###",
    "3": "### ..# ### ..# ###",
    "4": "#.# #.# ### ..# ..#",
    "5": "### #.. ### ..# ###",
    "6": "### #.. ### #.# ###",
    "7": "### ..# ..# .#. .#.",
    "8": "### #.# ### #.# ###",
    "9": "### #.# ### ..# ###",
    "-": "... ... ### ... ...",
    "+": "... .#. ### .#. ...",
    ".": ". . . . #",
}
_BLOCKS = {"..": " ", "#.": UPPER, ".#": LOWER, "##": BLOCK}


def large(width: int, *figures: tuple[int, str, str]) -> list[Content]:
    """Return figures in large digits at their columns, each under its label."""
    labels, plain = Line(width), ascii_only()
    rows = [Line(width) for _ in range(1 if plain else 3)]
    for column, label, text in figures:
        labels.put(column, label, QUIET)
        for drawn, glyphs in zip(rows, [text] if plain else _rows(text), strict=True):
            drawn.put(column, glyphs, BOLD)
    return [labels.content(), *(row.content() for row in rows)]


def huge(text: str, wide: int, high: int) -> list[str]:
    """Return figures in digits of five rows of dots, each dot so many columns wide and rows high.

    >>> [row.replace(BLOCK, "#") for row in huge("-1", 1, 1)]
    ['     # ', '    ## ', '###  # ', '     # ', '    ###']
    """
    rows = ((wide * " ").join(_row(each, row, wide) for each in _plain(text)) for row in range(5))
    return [row for row in rows for _ in range(high)]


def _row(letter: str, row: int, wide: int) -> str:
    dot = "#" if ascii_only() else BLOCK
    return "".join((dot if each == "#" else " ") * wide for each in _DOTS[letter].split()[row])


def _plain(text: str) -> str:
    """Return a number as it is drawn: a large comma is too like a decimal mark."""
    return text.replace(",", "")


def _rows(text: str) -> list[str]:
    return [" ".join(_glyph(letter, row) for letter in _plain(text)) for row in range(3)]


def _glyph(letter: str, row: int) -> str:
    dots = _DOTS[letter].split() if letter in _DOTS else ["..."] * 5
    upper = dots[2 * row]
    lower = dots[2 * row + 1] if 2 * row + 1 < len(dots) else "." * len(upper)
    return "".join(_BLOCKS[a + b] for a, b in zip(upper, lower, strict=True))
