"""SQLite's own journal beside a book, gone or another book's, after the program was killed."""

import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tally.book.backup import backup
from tally.book.book import Book
from tally.book.document import Document
from tally.book.second_place import SETTING, copied
from tally.book.verify import verify
from tally.errors import BookDamaged, BookError
from tests.faults.opening import opened_or_refused
from tests.tally.book.invented import new_book, note, run

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def torn(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Document]:
    """Return a folder with a book whose writer was killed in mid-commit, a copy of it, another."""
    folder = tmp_path_factory.mktemp("torn")
    for name in ("job.book", "other.book"):
        with new_book(folder / name) as book:
            book.record(run("SHOE"))
            for word in ("one", "two"):
                book.record(note(f"{name} {word}"))
            document = book.document()
            (folder / "second").mkdir(exist_ok=True)
            copied(book.path, book.id, folder / "second")
        if name == "job.book":
            known = document
        command = [sys.executable, "-m", "tests.tally.book.writer", "die", str(folder / name)]
        assert subprocess.run(command, cwd=ROOT, check=False).returncode == -signal.SIGKILL
        assert (folder / f"{name}-journal").stat().st_size > 4096
    return folder, known


@pytest.fixture
def path(torn: tuple[Path, Document], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of the torn book in a folder of its own, without its journal."""
    monkeypatch.setenv(SETTING, str(torn[0] / "second"))
    return Path(shutil.copy(torn[0] / "job.book", tmp_path))


def journal_of(path: Path) -> Path:
    """Return where SQLite looks for the journal of a book."""
    return path.with_name(f"{path.name}-journal")


@pytest.mark.parametrize("act", ["open", "look", "verify", "backup"])
def test_with_its_journal_all_is_there(torn: tuple[Path, Document], path: Path, act: str) -> None:
    shutil.copy(journal_of(torn[0] / "job.book"), journal_of(path))
    if act == "verify":
        assert verify(path).ok
    if act == "backup":
        assert backup(path, path.with_name("copy.book")).head == torn[1].head
    with Book.open(path, look_only=act == "look") as book:
        assert book.document() == torn[1]
    assert not journal_of(path).exists()


def refused(path: Path) -> str:
    """Return why a book is refused, open or closed; it must not be taken for a good one."""
    assert not verify(path).ok
    with pytest.raises(BookError):
        backup(path, path.with_name("copy.book"))
    with pytest.raises(BookDamaged) as fault:
        Book.open(path)
    return str(fault.value)


def test_without_its_journal_it_is_refused_and_the_copy_named(
    torn: tuple[Path, Document], path: Path
) -> None:
    told = refused(path)
    assert "The last good copy is " in told
    assert f"{len(torn[1].lines)} entries" in told


def test_with_the_journal_of_another_book_it_is_refused_or_all_is_there(
    torn: tuple[Path, Document], path: Path
) -> None:
    """The other book's journal may bring back all of the other book; that is told by its id."""
    shutil.copy(journal_of(torn[0] / "other.book"), journal_of(path))
    told, why = opened_or_refused(path, look_only=True)
    if told is None:
        assert "The last good copy is " in why
        return
    assert told.book != torn[1].book
    with Book.open(torn[0] / "second" / f"other-{told.book[:8]}.book", look_only=True) as other:
        assert told == other.document(), "neither the one book nor the other"


def test_a_journal_cut_short_is_never_taken_for_whole(
    torn: tuple[Path, Document], path: Path
) -> None:
    content = journal_of(torn[0] / "job.book").read_bytes()
    book = path.read_bytes()
    for share in (0.1, 0.35, 0.6, 0.85):
        path.write_bytes(book)
        journal_of(path).write_bytes(content[: int(len(content) * share)])
        told, why = opened_or_refused(path, look_only=True)
        assert told == torn[1] or "The last good copy is " in why, share
