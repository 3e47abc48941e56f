"""What a figure was measured on: commit, machine, disk, versions."""

from __future__ import annotations

import os
import platform
import sqlite3
import subprocess
import tempfile
from importlib.metadata import version
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent


def described() -> list[str]:
    """Return lines that say what the figures below them were measured on."""
    return [
        f"commit {commit()}",
        f"machine {processor()}, {os.cpu_count()} cores, {platform.system()} {platform.release()}",
        f"disk {file_system(Path(tempfile.gettempdir()))}",
        f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}, "
        f"Textual {version('textual')}",
    ]


def commit() -> str:
    """Return the commit that is checked out, and whether files were changed since."""
    try:
        named = _git("rev-parse", "--short=12", "HEAD")
        changed = _git("status", "--porcelain", "--untracked-files=no")
    except (OSError, subprocess.CalledProcessError):
        return "unknown (not a git checkout)"
    return f"{named} with changes" if changed else named


def processor() -> str:
    """Return the processor's name as Linux knows it."""
    listed = Path("/proc/cpuinfo")
    lines = listed.read_text().splitlines() if listed.exists() else []
    names = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
    return names[0] if names else platform.machine()


def file_system(folder: Path) -> str:
    """Return the kind of file system that holds a folder; in memory, a flush costs nothing."""
    mounted = Path("/proc/mounts")
    lines = mounted.read_text().splitlines() if mounted.exists() else []
    places = {Path(line.split()[1]): line.split()[2] for line in lines}
    for place in [folder.resolve(), *folder.resolve().parents]:
        if place in places:
            return f"{places[place]} at {place}"
    return "unknown"


def _git(*arguments: str) -> str:
    command = ["git", "-C", str(ROOT), *arguments]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout.strip()
