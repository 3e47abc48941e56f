"""Putting a finished file in the place of an older one, so that one of the two is always whole."""

from __future__ import annotations

import os
import secrets
from contextlib import suppress
from pathlib import Path


def unfinished(path: Path) -> Path:
    """Return a name in the same folder, for a file that is not finished yet."""
    return path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")


def pushed(path: Path) -> None:
    """Push what was written to a file to the disk."""
    _synced(path, os.O_RDWR)


def settled(folder: Path) -> None:
    """Push a renaming in a folder to the disk, where the system can."""
    with suppress(OSError):
        _synced(folder, os.O_RDONLY)


def _synced(path: Path, how: int) -> None:
    handle = os.open(path, how)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
