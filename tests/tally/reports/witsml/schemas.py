"""Where published schemas are, if somebody has them: none is kept with the project.

The variable names a folder; the schema files may lie anywhere below it, each among the files that
it includes, as they are published.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

VARIABLE = "SHOEDOWN_WITSML_SCHEMAS"
NOTICE = (
    "NOT held against published schemas: the WITSML documents. Only our own structure check was "
    f"made. Set {VARIABLE} to a folder with the schema files to have lxml and xmlschema validate."
)
FILES = {
    "tubular": "Tubular.xsd",
    "downhole-component": "DownholeComponent.xsd",
    "cement-job": "CementJob.xsd",
    "tubulars": "obj_tubular.xsd",
    "cement-jobs": "obj_cementJob.xsd",
}
"""The schema file of each document."""
HERE = "tests/tally/reports/witsml/"


def folder(surroundings: Mapping[str, str] = os.environ) -> Path | None:
    """Return the folder of schemas, if one is given."""
    given = surroundings.get(VARIABLE, "")
    return Path(given) if given else None


def schema_of(end: str, among: Path) -> Path:
    """Return the schema file of a document: of 1.4.1.1 the one for what is sent to be stored."""
    found = sorted(among.rglob(FILES[end]), key=_preferred)
    if not found:
        raise AssertionError(f"{FILES[end]} is not below {among}, which {VARIABLE} names.")
    return found[0]


def _preferred(path: Path) -> tuple[bool, bool, str]:
    where = path.as_posix()
    return "1.4.1.1" not in where, "write" not in where, where


def notice(tests: list[str], surroundings: Mapping[str, str] = os.environ) -> str:
    """Return what must be said at the end of a run in which the documents were tested."""
    about = any(test.startswith(HERE) for test in tests)
    return NOTICE if about and folder(surroundings) is None else ""
