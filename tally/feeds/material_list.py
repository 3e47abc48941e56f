"""A user's own list of materials from a CSV file of the shape of ours."""

from __future__ import annotations

from pathlib import Path

from tally.errors import JobFileError
from tally.feeds.opening import read_text
from tally.fluids.material import Material
from tally.fluids.material_rows import parse_materials
from tally.units import shown

MOST_MEGABYTES = 2


def read_materials(path: Path) -> tuple[Material, ...]:
    """Return the materials of a file; `tally.fluids.material_rows` says which columns it has.

    Raises
    ------
    JobFileError
        If the file cannot be read or any row is doubtful; `faults` names every line and column.
    """
    text = read_text(path, "list of materials", MOST_MEGABYTES)
    try:
        return parse_materials(text)
    except JobFileError as error:
        name = shown(path.name, 60)
        raise JobFileError(
            f"{name}: {error}", tuple(f"{name}: {e}" for e in error.faults)
        ) from None
