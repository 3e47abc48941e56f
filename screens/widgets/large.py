"""Large digits for the headline, where there is room: three rows, readable from two steps away."""

from __future__ import annotations

from textual.content import Content

from screens.ink import BOLD, QUIET, Line

_GLYPHS = {
    "0": ("+-+", "| |", "+-+"),
    "1": ("  +", "  |", "  +"),
    "2": ("--+", "+-+", "+--"),
    "3": ("--+", " -+", "--+"),
    "4": ("+ +", "+-+", "  +"),
    "5": ("+--", "+-+", "--+"),
    "6": ("+--", "+-+", "+-+"),
    "7": ("--+", "  |", "  +"),
    "8": ("+-+", "+-+", "+-+"),
    "9": ("+-+", "+-+", "--+"),
    ".": (" ", " ", "."),
    ",": (" ", " ", ","),
    "-": ("   ", "---", "   "),
    " ": ("   ", "   ", "   "),
}


def large(width: int, *figures: tuple[int, str, str]) -> list[Content]:
    """Return figures in large digits at their columns, each under its label."""
    labels = Line(width)
    rows = [Line(width) for _ in range(3)]
    for column, label, text in figures:
        labels.put(column, label, QUIET)
        for row, drawn in enumerate(rows):
            glyphs = " ".join(_GLYPHS.get(letter, _GLYPHS[" "])[row] for letter in text)
            drawn.put(column, glyphs, BOLD)
    return [labels.content(), *(row.content() for row in rows)]
