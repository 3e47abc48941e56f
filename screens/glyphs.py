"""The few glyphs beyond ASCII, blocks of large digits and of scroll bars, and how to do without.

Old terminals, and fonts of some consoles, have no block glyphs. Where the terminal's encoding has
none, or `SHOEDOWN_ASCII` is set, everything is drawn in plain characters.
"""

from __future__ import annotations

import os
import sys

SETTING = "SHOEDOWN_ASCII"
BLOCK, UPPER, LOWER = "\u2588", "\u2580", "\u2584"


def ascii_only() -> bool:
    """Tell whether the terminal is to be sent plain characters only."""
    if os.environ.get(SETTING):
        return True
    try:
        BLOCK.encode(getattr(sys.__stdout__, "encoding", None) or "ascii")
    except (LookupError, UnicodeEncodeError):
        return True
    return False


def plain_scroll_bars() -> None:
    """Have scroll bars drawn by their colours alone, without partial blocks at their ends."""
    from textual.scrollbar import ScrollBar, ScrollBarRender

    class Plain(ScrollBarRender):
        VERTICAL_BARS = [" "]
        HORIZONTAL_BARS = [" "]

    ScrollBar.renderer = Plain
