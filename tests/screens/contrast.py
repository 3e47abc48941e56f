"""The contrast of every pair of colours that a screen really shows, by WCAG 2.1.

Relative luminance and contrast ratio as defined in WCAG 2.1, W3C Recommendation of 5 June 2018,
https://www.w3.org/TR/WCAG21/#dfn-relative-luminance and #dfn-contrast-ratio. Success criterion
1.4.3 asks for 4.5:1 (level AA), 1.4.6 for 7:1 (level AAA) and 1.4.11 for 3:1 of graphics; the
ratio is compared unrounded ("Understanding Contrast (Minimum)").
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from textual.app import App

from tests.screens.cells import cells

DAY = 7.0
"""Least contrast of text in the day theme (WCAG 2.1, 1.4.6)."""

NIGHT = 4.5
"""Least contrast of text in the night theme (WCAG 2.1, 1.4.3)."""

_DRAWN = range(0x2500, 0x2600)
_SHOWN = 12


@dataclass(frozen=True, slots=True)
class Pair:
    """Two colours that meet on a screen, and where they were first seen."""

    foreground: str
    background: str
    graphic: bool
    """Whether only lines and blocks are drawn with it, no text."""
    column: int
    row: int
    sample: str
    ratio: float

    def __str__(self) -> str:
        return (
            f"{self.ratio:5.2f}:1  {self.foreground} on {self.background}  "
            f"column {self.column}, row {self.row}  {self.sample!r}"
        )


def luminance(color: str) -> float:
    """Return the relative luminance of "#rrggbb", from 0 (black) to 1 (white)."""
    if len(color) != 7 or color[0] != "#":
        raise ValueError(
            f"The colour {color!r} has no fixed value; give the palette that shows it."
        )
    red, green, blue = (_linear(int(color[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, from 1 to 21."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def pairs(app: App[Any], palette: Mapping[str, str] | None = None) -> list[Pair]:
    """Return every pair of colours with ink on the screen that `app` shows, worst first.

    `palette` gives "#rrggbb" for cells.INK, cells.GROUND and "ansi 0" to "ansi 255", the names in
    a theme that leaves its colours to the terminal.
    """
    found: dict[tuple[str, str, bool], Pair] = {}
    for row, line in enumerate(cells(app)):
        for column, cell in enumerate(line):
            if cell.blank:
                continue
            colors = (cell.look.foreground, cell.look.background)
            key = (*colors, _is_graphic(cell.text))
            if key not in found:
                sample = "".join(c.text for c in line[column : column + _SHOWN]).rstrip()
                measured = ratio(*((palette or {}).get(color, color) for color in colors))
                found[key] = Pair(*key, column, row, sample, measured)
    return sorted(found.values(), key=lambda pair: pair.ratio)


def assert_contrast(
    app: App[Any],
    text: float,
    graphics: float | None = None,
    palette: Mapping[str, str] | None = None,
) -> None:
    """Fail when a text, or if asked a line or block, has less contrast than its limit."""
    seen = pairs(app, palette)
    if not seen:
        raise AssertionError("The screen shows no text at all.")
    weak = [pair for pair in seen if pair.ratio < ((graphics or 0) if pair.graphic else text)]
    if weak:
        listed = "\n".join(str(pair) for pair in weak)
        raise AssertionError(f"Contrast under {text}:1 in theme {app.theme}:\n{listed}")


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.03928 else ((channel + 0.055) / 1.055) ** 2.4


def _is_graphic(text: str) -> bool:
    return ord(text[0]) in _DRAWN
