"""The cells of a screen as Textual composed it: character, colours, weight."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from rich.cells import cell_len
from rich.color import Color, ColorType
from rich.style import Style
from textual.app import App

INK = "terminal ink"
GROUND = "terminal ground"
"""The colours of text and background that a theme leaves to the terminal."""

BLANK = frozenset(" \u00a0\u2800")


@dataclass(frozen=True, slots=True)
class Look:
    """How a cell looks; a colour is "#rrggbb", "ansi 0" to "ansi 255", INK or GROUND."""

    foreground: str
    background: str
    marks: tuple[str, ...] = ()
    """Any of bold, dim, italic, underline, strike, blink, in this order."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One character with its look; a wide character is followed by a cell with no text."""

    text: str
    look: Look

    @property
    def blank(self) -> bool:
        """Tell whether no ink shows."""
        lined = {"underline", "strike"} & set(self.look.marks)
        return (self.text in BLANK or not self.text) and not lined


def cells(app: App[Any]) -> list[list[Cell]]:
    """Return the rows of what `app` now shows, with the screens behind a dialog."""
    update = app.screen._compositor.render_update(
        full=True, screen_stack=app._background_screens, simplify=True
    )
    return [_row(chops) for chops in update.strips]


def _row(chops: Any) -> list[Cell]:
    row: list[Cell] = []
    for strip in chops:
        for text, style, control in strip:
            if not control:
                look = _look(style or Style.null())
                row += [Cell(part, look) for part in _parts(text)]
    return row


def _parts(text: str) -> list[str]:
    """Split into cells: a wide character fills two, a combining one joins the one before."""
    parts: list[str] = []
    for character in text:
        width = cell_len(character)
        if width == 0 and parts:
            parts[-1] += character
        else:
            parts += [character, ""][:width]
    return parts


def _look(style: Style) -> Look:
    foreground, background = _name(style.color, INK), _name(style.bgcolor, GROUND)
    if style.reverse:
        foreground, background = background, foreground
    names = ("bold", "dim", "italic", "underline", "strike", "blink")
    return Look(foreground, background, tuple(name for name in names if getattr(style, name)))


def _name(color: Color | None, default: str) -> str:
    if color is None or color.is_default:
        return default
    if color.type == ColorType.TRUECOLOR and color.triplet:
        return color.triplet.hex
    return f"ansi {color.number}"
