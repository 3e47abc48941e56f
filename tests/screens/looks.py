"""How a screen looks: its picture and its contrast, in every theme."""

from __future__ import annotations

from typing import Any

from textual.pilot import Pilot

from tests.screens.contrast import DAY, NIGHT, assert_contrast
from tests.screens.snapshots import Snapshots

LEAST = {"night": NIGHT, "day": DAY, "plain": DAY}
"""Least contrast of text, by theme."""


async def assert_looks(pilot: Pilot[Any], snapshot: Snapshots, name: str) -> None:
    """Check the picture of the screen that stands and its contrast, in each theme."""
    for theme, least in LEAST.items():
        await snapshot.check(pilot, name, theme)
        assert_contrast(pilot.app, text=least)
