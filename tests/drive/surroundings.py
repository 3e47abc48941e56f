"""The environment in which a driven program runs, the same on every machine."""

from __future__ import annotations

import os
from collections.abc import Mapping

_DROPPED = {
    *("NO_COLOR", "FORCE_COLOR", "CLICOLOR", "COLUMNS", "LINES", "ESCDELAY"),
    "PYTHONDONTWRITEBYTECODE",
}
_DROPPED_GROUPS = ("TEXTUAL", "LC_", "TERM")
_SET = {
    "TERM": "xterm-256color",
    "COLORTERM": "truecolor",
    "LANG": "C.UTF-8",
    "TZ": "UTC",
    "TEXTUAL_ANIMATIONS": "none",
}


def environment(own: Mapping[str, str] | None = None) -> dict[str, str]:
    """Return the environment of this process made the same everywhere, with `own` on top."""
    kept = {
        name: value
        for name, value in os.environ.items()
        if not (name in _DROPPED or name.startswith(_DROPPED_GROUPS))
    }
    return kept | _SET | dict(own or {})
