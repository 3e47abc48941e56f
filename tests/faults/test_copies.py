"""Copies made while entries are made, and the drill of going on from one."""

import signal
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from screens.export_files import export_files
from tally.book.backup import backup
from tally.book.book import Book
from tally.book.second_place import SETTING, copied, last_good_copy
from tally.book.verify import verify
from tally.errors import BookError
from tests.tally.book.invented import new_book, note
from tests.tally.reports.jobs import entries

ROOT = Path(__file__).parents[2]
NOTES = 250


def test_copies_while_entries_are_made_are_each_sound_and_of_one_moment(tmp_path: Path) -> None:
    with closing(new_book(tmp_path / "job.book")) as book:
        command = [sys.executable, "-m", "tests.tally.book.writer", "notes", str(book.path)]
        place = tmp_path / "copy.book"
        counts: list[int] = []
        with subprocess.Popen(
            [*command, "second", str(NOTES)], cwd=ROOT, stdout=subprocess.PIPE, text=True
        ) as writer:
            while writer.poll() is None and len(counts) < NOTES:
                counts.append(backup(book.path, place).count)
            said, _ = writer.communicate(timeout=60)
        assert writer.returncode == 0
        book.poll()
        assert book.head[0] == 3 + NOTES
        assert len(said.splitlines()) == NOTES, "every entry was confirmed"
        lines = book.document().lines
        assert backup(book.path, place).head == lines[-1].hash
    assert counts == sorted(counts)
    assert len({*counts}) > 2, "no copy was made between two entries; nothing was tried"
    assert verify(place).ok


KILLED = """
import os, signal, sys
from pathlib import Path
from tally.book import backup

def killed(*_):
    os.kill(os.getpid(), signal.SIGKILL)

setattr(*{"pushed": (backup, "pushed"), "replace": (Path, "replace")}[sys.argv[3]], killed)
backup.backup(sys.argv[1], sys.argv[2])
"""


@pytest.mark.parametrize("moment", ["pushed", "replace"])
def test_a_kill_while_copying_leaves_the_earlier_copy(tmp_path: Path, moment: str) -> None:
    place = tmp_path / "copy.book"
    with new_book(tmp_path / "job.book") as book:
        backup(book.path, place)
        kept = place.read_bytes()
        book.record(note("later"))
        command = [sys.executable, "-c", KILLED, str(book.path), str(place), moment]
        assert subprocess.run(command, cwd=ROOT, check=False).returncode == -signal.SIGKILL
        assert place.read_bytes() == kept
        book.record(note("goes on"))
        assert backup(book.path, place).count == book.head[0] == 5


@pytest.fixture
def second(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder that is set for copies."""
    (tmp_path / "second").mkdir()
    monkeypatch.setenv(SETTING, str(tmp_path / "second"))
    return tmp_path / "second"


def files(book: Book, folder: Path) -> dict[str, bytes]:
    """Return what an export of everything writes."""
    return {path.name: path.read_bytes() for path in export_files(book, folder)}


def test_the_drill_of_going_on_from_the_newest_copy(tmp_path: Path, second: Path) -> None:
    """As the README tells it: find the copy, put it in an empty folder, verify, go on."""
    with Book.create(tmp_path / "job.book", entries()) as book:
        copied(book.path, book.id, second)
        said, reports = book.entries, files(book, tmp_path / "before")
        path = book.path
    path.write_bytes(path.read_bytes()[:6000])
    with pytest.raises(BookError):
        Book.open(path)
    told = last_good_copy(path)
    (copy,) = second.iterdir()
    assert str(copy) in told

    (tmp_path / "empty").mkdir()
    again = backup(copy, tmp_path / "empty" / "job.book").path
    assert verify(again).ok
    with Book.open(again) as book:
        assert book.entries == said
        assert files(book, tmp_path / "after") == reports
        book.record(note("work goes on"))
        copied(book.path, book.id, second)
    assert "48 entries" in last_good_copy(path)


def test_the_drill_from_the_json_of_an_export(tmp_path: Path) -> None:
    from tally.book.rebuilding import rebuilt

    with Book.create(tmp_path / "job.book", entries()) as book:
        reports = files(book, tmp_path / "before")
    (tmp_path / "empty").mkdir()
    rebuilt(tmp_path / "empty" / "job.book", tmp_path / "before" / "job-book.json")
    with Book.open(tmp_path / "empty" / "job.book") as book:
        assert files(book, tmp_path / "after") == reports
