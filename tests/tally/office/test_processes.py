"""Several programs that gather at once, and one that is killed half-way."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tally.book.book import Book
from tests.tally.book.invented import beginning, note
from tests.tally.office.look import ask, everything
from tests.tally.office.test_gathering import bring, of_books

ROOT = Path(__file__).parents[3]
BOOKS = 6


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    """Return the paths of six books."""
    folder = tmp_path_factory.mktemp("rigs")
    paths = [folder / f"rig {number}.book" for number in range(BOOKS)]
    for which, path in enumerate(paths):
        notes = [note(f"note {number}") for number in range(20 + which)]
        Book.create(path, [*beginning(), *notes]).close()
    return paths


def gatherer(where, paths, dying=0):
    """Start a program that gathers; it is killed in the midst of a book after so many."""
    command = [
        sys.executable,
        "-m",
        "tests.tally.office.gatherer",
        where,
        str(dying),
        *map(str, paths),
    ]
    return subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


def test_three_gather_at_once_and_nothing_is_doubled(office_at, books):
    orders = (books, books[::-1], books[3:] + books[:3])
    started = [gatherer(office_at, order) for order in orders]
    said = [each.communicate(timeout=120) for each in started]
    assert [err for _, err in said] == ["", "", ""]
    told = [line for out, _ in said for line in out.splitlines()]
    assert told.count("added") == BOOKS, "each book was added by one of the three"
    assert told.count("unchanged") == 2 * BOOKS
    assert everything(office_at) == of_books(*books)
    assert ask(office_at, "SELECT count(*) FROM gathered") == [(BOOKS,)]


@pytest.mark.parametrize("after", [1, pytest.param(4, marks=pytest.mark.long)])
def test_killed_half_way_and_run_again_nothing_is_missing_or_doubled(office_at, books, after):
    with gatherer(office_at, books, after) as other:
        said, _ = other.communicate(timeout=60)
    assert other.returncode == -signal.SIGKILL
    assert said == "added\n" * after
    assert bring(office_at, *books) == ["unchanged"] * after + ["added"] * (BOOKS - after)
    assert everything(office_at) == of_books(*books)


def test_an_empty_file_that_was_left_is_made_an_office(tmp_path, books):
    where = tmp_path / "office.db"
    where.touch()
    assert bring(str(where), *books[:2]) == ["added", "added"]
    assert everything(str(where)) == of_books(*books[:2])
