"""What the command line prints: plain text, nothing in it that a terminal would obey."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from tally.reports.guard import plain, visible


def say(text: str) -> None:
    """Print a line in plain ASCII."""
    click.echo(plain(text))


def say_path(label: str, path: Path) -> None:
    """Print where a file lies, its letters as they are."""
    click.echo(f"{label} {visible(str(path))}")


def say_json(told: Mapping[str, Any]) -> None:
    """Print what another program is to read."""
    import json

    click.echo(json.dumps(told, indent=2, ensure_ascii=True, allow_nan=False))


def plural(count: int, noun: str, many: str = "") -> str:
    """Return a count with its noun.

    >>> plural(1, "joint"), plural(1205, "joint"), plural(2, "entry", "entries")
    ('1 joint', '1,205 joints', '2 entries')
    """
    return f"{count:,} {noun if count == 1 else many or f'{noun}s'}"
