"""The materials that a job brings itself, read as a list of materials is."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import asdict
from functools import lru_cache
from io import StringIO

from tally.errors import JobFileError
from tally.fluids.material import Material
from tally.fluids.material_rows import COLUMNS, parse_materials
from tally.job.setup import OwnMaterial


@lru_cache(maxsize=8)
def own_materials(listed: tuple[OwnMaterial, ...]) -> tuple[Material, ...]:
    """Return the materials of a set-up; `tally.fluids.material_rows` says what its words mean.

    Raises
    ------
    JobFileError
        If one of them cannot be read.
    """
    return parse_materials(_as_list(listed)) if listed else ()


def material_fault(one: OwnMaterial) -> str:
    """Return why a material cannot be read, or nothing."""
    try:
        parse_materials(_as_list([one]))
    except JobFileError as fault:
        return str(fault)
    return ""


def _as_list(listed: Sequence[OwnMaterial]) -> str:
    text = StringIO(newline="")
    writer = csv.DictWriter(text, [name for name in COLUMNS if name in FIELDS])
    writer.writeheader()
    writer.writerows(asdict(each) for each in listed)
    return text.getvalue()


FIELDS = frozenset(OwnMaterial.__dataclass_fields__)
