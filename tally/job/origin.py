"""Where the values of an entry came from: read from the rig's stream, or typed beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

TYPED = "typed"


@dataclass(frozen=True, slots=True)
class Origin:
    """Where one field of an entry has its value from."""

    field: str
    source: str
    """The stream and the item, or `TYPED` where a person typed it though the stream had one."""
    at: str = ""
    """When the stream said it; empty where it was typed."""


def origins_told(origins: Sequence[Origin]) -> str:
    """Return origins in words, to stand behind an entry.

    >>> origins_told([Origin("volume", "item 1129", "2026-03-12T03:11:57-06:00")])
    ' (volume read from the rig at 03:11:57)'
    >>> origins_told([Origin("slack_off", TYPED)])
    ' (slack off typed)'
    """
    told = "; ".join(_told(each) for each in origins)
    return f" ({told})" if told else ""


def _told(one: Origin) -> str:
    name = one.field.replace("_", " ")
    if one.source == TYPED:
        return f"{name} typed"
    return f"{name} read from the rig at {one.at[11:19]}"
