"""The command that gathers: what it prints, its exit codes, its bar on a terminal."""

from __future__ import annotations

import re
import shutil
import sqlite3
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from screens.cli import cli
from tally.book.book import Book
from tests.drive.terminal import Terminal
from tests.tally.book.invented import new_book, note


def run(*words: object) -> Result:
    """Run the command line in this process."""
    return CliRunner().invoke(cli, [str(word) for word in words], prog_name="shoedown")


@pytest.fixture
def books(tmp_path: Path) -> list[Path]:
    """Return the paths of three books."""
    paths = [tmp_path / f"{name}.book" for name in ("one", "two", "three")]
    for path in paths:
        new_book(path).close()
    return paths


def in_office(path: Path) -> list[tuple[str, int]]:
    """Return which books an office has, and how many entries of each."""
    with closing(sqlite3.connect(path)) as office:
        return office.execute("SELECT file, entries FROM gathered ORDER BY file").fetchall()


def test_books_are_added_once_and_what_is_new_later(tmp_path: Path, books: list[Path]) -> None:
    office = tmp_path / "office.db"
    done = run("gather", office, *books[:2])
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout == (
        "2 books added, 0 grown, 0 as the office has them, 0 older than that, 0 refused; "
        "6 new entries.\n"
    )
    with Book.open(books[0]) as book:
        book.record(note("more"))
    done = run("gather", "--full", office, *books)
    assert done.stdout == (
        "1 book added, 1 grown, 1 as the office has them, 0 older than that, 0 refused; "
        "4 new entries.\n"
    )
    assert in_office(office) == [("one.book", 4), ("three.book", 3), ("two.book", 3)]


def test_a_book_that_is_refused_is_named_and_the_others_go_on(
    tmp_path: Path, books: list[Path]
) -> None:
    office, twin = tmp_path / "office.db", tmp_path / "twin.book"
    shutil.copy(books[0], twin)
    for path in (books[0], twin):
        with Book.open(path) as book:
            book.record(note(f"written in {path.stem}"))
    (tmp_path / "words.book").write_text("no book\n" * 900)
    done = run(
        "gather", office, books[0], twin, tmp_path / "none.book", tmp_path / "words.book", books[1]
    )
    assert done.exit_code == 1
    refused = [line for line in done.stdout.splitlines() if line.startswith("REFUSED")]
    assert len(refused) == 3
    assert "twin.book" in refused[0]
    assert "another history than the office from entry 4 on" in refused[0]
    assert "There is no book at" in refused[1]
    assert "words.book" in refused[2]
    assert "2 books added" in done.stdout
    assert "3 refused" in done.stdout
    assert in_office(office) == [("one.book", 4), ("two.book", 3)]


@pytest.mark.parametrize("words", [("gather",), ("gather", "office.db")])
def test_what_is_left_out_is_asked_for(words: tuple[str, ...]) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert done.stderr.count("\n") == 1


def test_a_book_in_the_place_of_the_office_is_refused(books: list[Path]) -> None:
    done = run("gather", *books)
    assert done.exit_code == 2
    assert done.stderr == (
        "one.book is a book, no office's database; name another file for that.\n"
    )


def test_a_terminal_shows_how_far_it_is(
    start: Callable[..., Terminal], tmp_path: Path, books: list[Path]
) -> None:
    command = [sys.executable, "-m", "screens.cli", "gather"]
    terminal = start(*command, tmp_path / "office.db", *books, tmp_path / "none.book")
    terminal.wait_for("1 refused")
    assert "3 books added" in terminal.text()
    assert re.search(rb"[0-4]/4", terminal.raw)
