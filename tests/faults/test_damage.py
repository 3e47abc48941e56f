"""A book that was damaged or changed: refused in a sentence, with where its good copy lies."""

import random
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from screens.cli import cli
from tally.book.backup import backup
from tally.book.book import Book
from tally.book.document import Document, document_text
from tally.book.second_place import SETTING, copied
from tally.errors import BookError, BookTooNew
from tests.faults.opening import opened_or_refused
from tests.tally.reports.jobs import entries


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, Document]:
    """Return the bytes of a book that was landed, and what it holds."""
    with Book.create(tmp_path_factory.mktemp("book") / "job.book", entries()) as book:
        return book.path.read_bytes(), book.document()


@pytest.fixture
def path(
    made: tuple[bytes, Document], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Path]:
    """Yield a copy of that book which has a second copy at the second place."""
    path, second = tmp_path / "job.book", tmp_path / "second"
    path.write_bytes(made[0])
    second.mkdir()
    monkeypatch.setenv(SETTING, str(second))
    copied(path, made[1].book, second)
    yield path
    (copy,) = second.iterdir()
    with Book.open(copy, look_only=True) as sound:
        assert sound.document().lines == made[1].lines


def run(*words: str | Path) -> Result:
    """Run a command."""
    return CliRunner().invoke(cli, [str(word) for word in words])


def test_flipped_bytes_are_refused_with_the_good_copy_named(
    made: tuple[bytes, Document], path: Path
) -> None:
    """Bytes at 90 places; a book that opens after that says what it said before."""
    content, known = made
    draw = random.Random(12)
    places = [place for place, byte in enumerate(content) if byte]
    refused = 0
    for place in [*range(0, 100, 10), *draw.sample(places, 80)]:
        flipped = bytearray(content)
        flipped[place] ^= draw.randrange(1, 256)
        path.write_bytes(flipped)
        found, why = opened_or_refused(path)
        if found is not None:
            assert found.lines == known.lines, place
            continue
        refused += 1
        if "later release" not in why:
            assert "The last good copy is " in why, (place, why)
            assert "47 entries" in why, place
    assert refused > 40, "hardly any flip was refused; the places are badly chosen"


def test_one_length_changed_is_found_named_and_never_copied(path: Path, tmp_path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("UPDATE journal SET line = replace(line, '3914', '3941') WHERE seq = 2")
        other.commit()
    told = run("verify", path)
    assert told.exit_code == 1
    assert "Entry 2 was changed after it was written" in told.stdout
    assert "The last good copy is " in told.stdout
    refused = run("export", path, "--to", tmp_path / "out")
    assert (refused.exit_code, "Entry 2 was changed" in refused.stderr) == (2, True)
    assert not (tmp_path / "out").exists()
    assert "Entry 2 was changed" in run("backup", path, tmp_path / "copy.book").stderr
    assert not (tmp_path / "copy.book").exists()


def test_a_tail_cut_off_is_found_against_a_report_and_said_not_to_be_found_without(
    made: tuple[bytes, Document], path: Path, tmp_path: Path
) -> None:
    report = tmp_path / "job.json"
    report.write_text(document_text(made[1]))
    count = len(made[1].lines)
    with Book.open(path) as book:
        shorter = Document(book.id, "", "x", made[1].lines[: count - 10])
    path.unlink()
    Book.rebuild(path, shorter).close()
    alone = run("verify", path)
    assert alone.exit_code == 0
    assert "What this cannot prove: a tail cut off" in alone.stdout
    for given in (str(report), f"{count} {made[1].head[:12]}"):
        told = run("verify", path, "--against", given)
        assert told.exit_code == 1
    assert f"made at entry {count}; the book ends at entry {count - 10}" in told.stdout
    refused = run("backup", path, next((tmp_path / "second").iterdir()))
    assert "is newer: it holds 47 entries, the book 37" in refused.stderr


def test_a_book_of_a_later_release_is_never_written(path: Path, tmp_path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("PRAGMA user_version = 9")
    content = path.read_bytes()
    for look_only in (False, True):
        with pytest.raises(BookTooNew, match="later release"):
            Book.open(path, look_only=look_only)
    with pytest.raises(BookError, match="later release"):
        backup(path, tmp_path / "copy.book")
    for words in (("verify", path), ("export", path, "--to", tmp_path / "out"), ("figures", path)):
        done = run(*words)
        assert done.exit_code in (1, 2)
        assert "later release" in done.output
    assert path.read_bytes() == content
    assert sorted(each.name for each in tmp_path.iterdir()) == ["job.book", "second"]


def test_a_later_book_is_not_copied_over(path: Path, tmp_path: Path) -> None:
    place = tmp_path / "copy.book"
    backup(path, place)
    with closing(sqlite3.connect(place)) as other:
        other.execute("PRAGMA user_version = 9")
    content = place.read_bytes()
    with pytest.raises(BookError, match="cannot be read as a book"):
        backup(path, place)
    assert place.read_bytes() == content
