"""What reads files from outside, each with sound files to begin from."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.tally.book.invented import BY, new_book, note, run
from tests.tally.feeds import job_files

ROOT = Path(__file__).parents[2]
LISTS = ROOT / "tests/tally/feeds/lists/files"
LARKSPUR = ROOT / "demo_db/larkspur"
Taken = Callable[[bytes, Path], object]


@dataclass(frozen=True, slots=True)
class Target:
    """A reader, and sound files; it is given bytes and a folder to write in."""

    seeds: Sequence[bytes]
    take: Taken


def targets() -> Mapping[str, Target]:
    """Return every reader by the name of what it reads."""
    return {
        "pipe list": Target(_files(LISTS, "*.csv", "*.xlsx"), _pipe_list),
        "job file": Target([*_files(LARKSPUR, "job.toml"), job_files.JOB.encode()], _job_file),
        "checklist": Target(_files(ROOT / "tally/steps", "*.toml"), _checklist),
        "survey": Target(SURVEYS, _survey),
        "pump file": Target(PUMP_FILES, _pump_file),
        "materials": Target(_files(ROOT / "tally/fluids", "materials.csv"), _materials),
        "book as JSON": Target([_book_as_json()], _book),
        "page of a report": Target(_pages(), _held),
    }


SURVEYS = (
    b"measured depth (ft),inclination (deg),azimuth (deg)\n0,0,0\n1000,5.5,120\n2000,12,121\n",
    b"MD m;Incl;Azim\n0;0;0\n350,5;4,25;33\n",
)
PUMP_FILES = (
    b"Time (s),Volume (bbl),Pressure (psi),Rate (bbl/min),Density (lb/gal)\n"
    b"0,0.0,350,5,12.1\n10,0.8,360,5,12.1\n20,1.7,372,5,12.0\n30,2.5,380,5.1,12.1\n",
    b"Date Time;Pump strokes;Press (kPa);Tank (m3)\n"
    b"2026-03-12 16:05:00;0;2400;12,5\n2026-03-12 16:05:10;12;2450;12,3\n",
)


def _files(folder: Path, *patterns: str) -> list[bytes]:
    return [path.read_bytes() for each in patterns for path in sorted(folder.glob(each))]


def _written(content: bytes, folder: Path, name: str) -> Path:
    path = folder / name
    path.write_bytes(content)
    return path


def _pipe_list(content: bytes, _folder: Path) -> object:
    from tally.feeds.rig_list.opening import opened
    from tally.feeds.rig_list.preview import preview_of
    from tests.tally.feeds.lists.against import JOBS

    return preview_of(opened(content, "list.csv"), JOBS["feet"])


def _job_file(content: bytes, folder: Path) -> object:
    from tally.feeds.job_file import job_entries

    if not (folder / "pipe.csv").exists():
        _written(job_files.PIPE.encode(), folder, "pipe.csv")
        for path in LARKSPUR.glob("*.csv"):
            _written(path.read_bytes(), folder, path.name)
    return job_entries(_written(content, folder, "job.toml"), BY, "2026-03-14T03:12:00+01:00")


def _checklist(content: bytes, folder: Path) -> object:
    from tally.steps.reading import checklists

    return checklists([_written(content, folder, "own.toml")])


def _survey(content: bytes, folder: Path) -> object:
    from tally.feeds.survey_list import read_survey

    return read_survey(_written(content, folder, "survey.csv"), "ft")


def _pump_file(content: bytes, folder: Path) -> object:
    from tally.feeds.pump_file import read_pump_file

    return read_pump_file(_written(content, folder, "pump.csv"))


def _materials(content: bytes, _folder: Path) -> object:
    from tally.fluids.material_rows import parse_materials

    return parse_materials(content.decode("utf-8", errors="replace"))


def _book(content: bytes, folder: Path) -> object:
    """Make a book of a document that was read; a refusal must leave no file."""
    from tally.book.book import Book
    from tally.book.document import read_document
    from tally.errors import ShoedownError

    path = folder / "again.book"
    path.unlink(missing_ok=True)
    try:
        with Book.rebuild(path, read_document(content, "book.json")) as book:
            return book.head
    except ShoedownError:
        assert not path.exists(), "A document was refused, and a book is there."
        raise


def _held(content: bytes, folder: Path) -> object:
    from tally.book.reported import read_reported

    return read_reported(str(_written(content, folder, "page.txt")))


@cache
def _book_as_json() -> bytes:
    from tally.book.document import document_text

    with tempfile.TemporaryDirectory() as folder, new_book(Path(folder) / "a.book") as book:
        book.record(run("SHOE"))
        book.record(note("the line was held up"))
        return document_text(book.document()).encode()


def _pages() -> list[bytes]:
    foot = f"{'-' * 60}\n44 entries, chain ends {'0123456789abcdef' * 4}\n"
    listed = f"{'-' * 9} 44 entries, the chain ends with {'-' * 9}\n{'0123456789abcdef' * 4}\n"
    return [_book_as_json(), f"FINAL TALLY\n1  40.10  40.10\n{foot}".encode(), listed.encode()]
