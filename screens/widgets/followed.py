"""The pump file that is followed: its last row with its age, and what was wrong with it."""

from __future__ import annotations

from pathlib import Path

from textual.content import Content

from screens.followed_file import FileWatch
from screens.ink import ATTENTION, QUIET, cut, line, wrap
from screens.widgets.age import age
from tally.job.entry import clock, seconds_between
from tally.units import shown

STANDS_STILL = 30.0
"""[s]; after this without a row the file stands still."""


def followed_lines(watch: FileWatch, now: str, width: int) -> list[Content]:
    """Return what the file showed last and how long ago, and what was told of it."""
    told = wrap(watch.told, width, ATTENTION)[:2] if watch.told else []
    if watch.file is None:
        return told
    name = shown(Path(watch.file.path).name, 24)
    if watch.doubts:
        return [line(cut(f" FILE {name}: e answers what is in doubt", width), ATTENTION), *told]
    if watch.last is None:
        return [line(cut(f" FILE {name}: no row yet", width), QUIET), *told]
    old = seconds_between(watch.last.at, now)
    how = "stands still, " if old > STANDS_STILL else ""
    text = f" FILE {name} {clock(watch.last.at)}, {how}{age(old)} ago  {watch.last.words}"
    return [line(cut(text, width), ATTENTION if how else QUIET), *told]
