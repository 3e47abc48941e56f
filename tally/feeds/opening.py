"""Opening a file that came from outside: too large, absent or unreadable is one sentence."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tally.errors import JobFileError
from tally.units import shown

MEGABYTE = 1024 * 1024


def refused(what_has: str, faults: Sequence[str]) -> JobFileError:
    """Return the error that holds every fault and says the first."""
    if len(faults) == 1:
        return JobFileError(faults[0], tuple(faults))
    return JobFileError(f"{what_has} {len(faults)} faults. {faults[0]}", tuple(faults))


def unread(sentence: str) -> JobFileError:
    """Return the error for a file that could not be read at all."""
    return JobFileError(sentence, (sentence,))


def read_text(path: Path, what: str, megabytes: int) -> str:
    """Return the text of a file, its byte order mark left off, or say why it is not read.

    Raises
    ------
    JobFileError
        If there is no such file, it is larger than so many megabytes, or no UTF-8 text.
    """
    name = shown(path.name, 60)
    try:
        if not path.is_file():
            raise unread(f"There is no {what} '{name}'; look at its name and its folder.")
        if path.stat().st_size > megabytes * MEGABYTE:
            raise unread(f"The {what} '{name}' is larger than {megabytes} MB and is not read.")
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise unread(f"The {what} '{name}' is not UTF-8 text; save it as UTF-8.") from None
    except (OSError, ValueError) as error:
        why = shown(getattr(error, "strerror", None) or str(error), 120)
        raise unread(f"The {what} '{name}' could not be opened: {why}.") from None


def read_toml(path: Path, what: str) -> dict[str, Any]:
    """Return the tables of a TOML file, or say where it is no TOML."""
    text = read_text(path, what, megabytes=1)
    try:
        return tomllib.loads(text)
    except RecursionError:
        said = "too many lists inside one another"
    except ValueError as error:
        said = shown(str(error), 120)
    raise unread(f"The {what} '{shown(path.name, 60)}' is not TOML: {said}.")
