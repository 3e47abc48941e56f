"""Lines of text with their roles: the only way that figures and typed words reach a page.

Nothing here is markup: a typed "[/]" is three characters.
"""

from __future__ import annotations

from textual.content import Content

INK = ""
BOLD = "bold"
QUIET = "$quiet"
ATTENTION = "bold $attention"
STOP = "bold reverse $stop"
CURSOR = "bold reverse"

STATES = {
    "agrees": INK,
    "no limit set": ATTENTION,
    "": QUIET,
    "check": ATTENTION,
    "witness to confirm": ATTENTION,
    "missing": ATTENTION,
    "outside": STOP,
    "GAIN": STOP,
    "LOSS": STOP,
    "TOO FAST": STOP,
    "speed not measured": QUIET,
}
"""The word of a state and the role that goes with it; the word always comes first."""


class Line:
    """One line, with pieces put at columns; a later piece never overwrites an earlier one."""

    def __init__(self, width: int) -> None:
        self.width = width
        self._pieces: list[tuple[int, str, str, bool]] = []

    def put(self, column: int, text: str, style: str = INK) -> Line:
        """Put a piece so that it starts at a column."""
        self._pieces.append((column, text, style, False))
        return self

    def end(self, column: int, text: str, style: str = INK) -> Line:
        """Put a piece so that it ends before a column; it keeps a blank to what is before it."""
        self._pieces.append((column - len(text), text, style, True))
        return self

    def content(self, fill: str = " ", fill_style: str = INK) -> Content:
        """Return the line, its gaps filled, cut at the width."""
        parts: list[tuple[str, str]] = []
        here = 0
        for column, text, style, apart in sorted(self._pieces):
            if not text:
                continue
            runs_in = apart and column == here and not text.startswith(" ")
            start = here + 1 if here and (column < here or runs_in) else column
            gap = max(0, min(start, self.width) - here)
            parts.append((fill * gap, fill_style))
            here += gap
            shown = text[: self.width - here]
            parts.append((shown, style))
            here += len(shown)
        parts.append((fill * max(0, self.width - here) if fill != " " else "", fill_style))
        return Content.assemble(*(part for part in parts if part[0]))


def line(text: str, style: str = INK) -> Content:
    """Return a line of one role."""
    return Content.assemble((text, style)) if text else Content("")


def rule(width: int, *titles: tuple[int, str]) -> Content:
    """Return a ruled line with titles set into it, each ending before its column."""
    ruled = Line(width)
    for column, title in titles:
        ruled.end(column, f" {title} ", QUIET)
    return ruled.content("-", QUIET)


def page(lines: list[Content]) -> Content:
    """Return lines one below the other."""
    return Content("\n").join(lines)


def wrap(text: str, width: int, style: str = INK) -> list[Content]:
    """Return text broken at spaces."""
    from textwrap import wrap as broken

    return [line(each, style) for each in broken(text, max(10, width))]


def cut(text: str, room: int) -> str:
    """Return text as it fits, broken off after a word where it does not.

    >>> cut("Weigh the mud going in", 16)
    'Weigh the mud ..'
    """
    if len(text) <= room:
        return text
    words = text[: max(0, room - 2)].rpartition(" ")[0].rstrip(",;:")
    return f"{words} .."
