"""An export replaces files only once the new ones are on the disk."""

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.errors import ShoedownError
from tally.reports.export import export
from tally.reports.writing import make_folder, write_anew
from tests.tally.reports.jobs import entries

ROOT = Path(__file__).parents[3]


def test_it_replaces_what_was_there(tmp_path: Path) -> None:
    path = tmp_path / "tally.txt"
    path.write_bytes(b"old")
    write_anew({path: b"new"})
    assert path.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("broken", ["fsync", "replace"])
def test_a_full_disk_leaves_the_old_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    one.write_bytes(b"old one")
    two.write_bytes(b"old two")

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(*{"fsync": (os, "fsync"), "replace": (Path, "replace")}[broken], full)
    with pytest.raises(ShoedownError, match="one cannot be written: no space left on device"):
        write_anew({one: b"new", two: b"new"})
    assert (one.read_bytes(), two.read_bytes()) == (b"old one", b"old two")
    assert sorted(tmp_path.iterdir()) == [one, two]


def test_a_failure_at_the_second_file_leaves_the_first_as_it_was(tmp_path: Path) -> None:
    one = tmp_path / "one"
    one.write_bytes(b"old")
    with pytest.raises(ShoedownError, match="cannot be written"):
        write_anew({one: b"new", tmp_path / "none" / "two": b"new"})
    assert one.read_bytes() == b"old"


KILLED = """
import os, signal, sys
from pathlib import Path
from tally.reports.writing import write_anew
real, calls = os.fsync, []
def fsync(handle):
    calls.append(handle)
    if len(calls) == 2:
        os.kill(os.getpid(), signal.SIGKILL)
    real(handle)
os.fsync = fsync
folder = Path(sys.argv[1])
write_anew({folder / "one": b"new" * 100_000, folder / "two": b"new" * 100_000})
"""


def test_a_kill_while_writing_leaves_the_old_files(tmp_path: Path) -> None:
    for name in ("one", "two"):
        (tmp_path / name).write_bytes(b"old")
    done = subprocess.run([sys.executable, "-c", KILLED, str(tmp_path)], cwd=ROOT, check=False)
    assert done.returncode == -signal.SIGKILL
    assert [(tmp_path / name).read_bytes() for name in ("one", "two")] == [b"old"] * 2


def test_a_file_in_the_place_of_a_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(ShoedownError, match="cannot be written"):
        make_folder(tmp_path / "file")
    with pytest.raises(ShoedownError, match="cannot be written"):
        make_folder(tmp_path / "file" / "below")


def test_an_export_makes_its_folder_and_says_where(tmp_path: Path) -> None:
    folder = tmp_path / "to" / "give away"
    with Book.create(tmp_path / "job.db", entries()) as book:
        paths = export(book, folder)
    names = [path.name for path in paths]
    assert names[:3] == ["job-tally.txt", "job-tally.csv", "job-not-in-string.csv"]
    assert {"job-pipe-list.csv", "job-running-list.txt", "job-book.json"} <= set(names)
    assert sorted(folder.iterdir()) == sorted(paths)
    assert book.head[1] in paths[0].read_text("ascii")


def test_an_unfinished_tally_never_takes_the_place_of_a_final_one(tmp_path: Path) -> None:
    with Book.create(tmp_path / "job.db", entries(landed=False)) as book:
        names = {path.name for path in export(book, tmp_path / "out")}
    assert {name for name in names if "not-final" not in name} == {
        "job-pipe-list.csv",
        *(f"job-running-list{ending}" for ending in (".txt", ".csv", ".pdf", "-letter.pdf")),
        "job-book.json",
    }
