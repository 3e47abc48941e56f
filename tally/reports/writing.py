"""Writing files so that the old ones stay whole until the new ones are on the disk."""

from __future__ import annotations

import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from tally.book.beside import settled, unfinished
from tally.errors import ShoedownError
from tally.reports.guard import visible


def write_anew(contents: Mapping[Path, bytes]) -> None:
    """Write files beside their places, push them to the disk, then rename them over the old ones.

    No old file is touched before every new one is on the disk.

    Raises
    ------
    ShoedownError
        If the disk refuses; a file that stood at its path before still stands there, whole.
    """
    beside: dict[Path, Path] = {}
    place = Path()
    try:
        for place, content in contents.items():
            beside[place] = unfinished(place)
            _write(beside[place], content)
        for place, written in beside.items():
            written.replace(place)
        for folder in {place.parent for place in contents}:
            settled(folder)
    except OSError as error:
        raise ShoedownError(_refusal(place, error)) from error
    finally:
        for left in beside.values():
            with suppress(OSError):
                left.unlink(missing_ok=True)


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it, unless it is there already."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise ShoedownError(_refusal(folder, error)) from error


def _write(path: Path, content: bytes) -> None:
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _refusal(path: Path, error: OSError) -> str:
    why = (error.strerror or "the system refuses").lower()
    return f"{visible(str(path))} cannot be written: {why}; choose another folder or make room."
