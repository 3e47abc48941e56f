"""Three themes, each mapping the same four roles of colour: ink, quiet, attention, stop."""

from __future__ import annotations

from textual.theme import Theme

ROLES = ("quiet", "attention", "stop")
"""The roles beside ink, which is the theme's foreground."""


def _theme(name: str, ink: str, paper: str, dark: bool, **roles: str) -> Theme:
    return Theme(
        name=name,
        primary=ink,
        secondary=ink,
        accent=roles["attention"],
        warning=roles["attention"],
        error=roles["stop"],
        success=ink,
        foreground=ink,
        background=paper,
        surface=paper,
        panel=paper,
        dark=dark,
        text_alpha=1.0,
        variables={
            **roles,
            "input-cursor-background": ink,
            "input-cursor-foreground": paper,
            "input-selection-background": roles["quiet"],
            "block-cursor-background": ink,
            "block-cursor-foreground": paper,
            "scrollbar": roles["quiet"],
            "scrollbar-background": paper,
        },
    )


NIGHT = _theme(
    "night", "#f2efe6", "#0b0f12", True, quiet="#a9b4b8", attention="#ffc857", stop="#ff9d8a"
)
DAY = _theme(
    "day", "#000000", "#ffffff", False, quiet="#444444", attention="#6b3a00", stop="#9b0000"
)
PLAIN = _theme(
    "plain", "#ffffff", "#000000", True, quiet="#c0c0c0", attention="#ffffff", stop="#ffffff"
)
THEMES = {theme.name: theme for theme in (NIGHT, DAY, PLAIN)}
