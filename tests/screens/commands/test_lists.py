"""shoedown import: printed and nothing changed, refused without a terminal, read back on one."""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from screens.cli import cli
from tally.book.book import Book
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Received
from tally.job.setup import Lengths
from tests.drive.terminal import Terminal
from tests.screens.books import HEAVY, Story, book_of, setup
from tests.tally.feeds.lists.make import FILES

ROOT = Path(__file__).parents[3]
PLAIN = FILES / "commas.csv"
DOUBTFUL = FILES / "numbers-twice.csv"
TAKE = ("--yes", "--lengths", "running", "--by", "Ama Osei")


def run(*words: object) -> Result:
    """Run the command line in this process, its output no terminal."""
    return CliRunner().invoke(cli, [str(word) for word in words], prog_name="shoedown")


def made(folder: Path, **changed: object) -> Path:
    """Return a book of a job that is set up and has no pipe yet."""
    story = Story()
    story.says(SetUp, setup=setup(**changed))
    book_of(folder, story.entries, "job.db").close()
    return folder / "job.db"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return the plainest of these books."""
    return made(tmp_path)


def entries(book: Path) -> list[object]:
    """Return the entries behind the set-up."""
    with Book.open(book, look_only=True) as opened:
        return list(opened.entries[1:])


def test_print_shows_the_preview_and_changes_nothing(book: Path) -> None:
    before = book.read_bytes()
    done = run("import", book, DOUBTFUL, "--print")
    assert done.exit_code == 1
    assert "12 rows read, 8 can be taken" in done.stdout
    assert "x row 5      number twice: number 2 stands on row 3 already" in done.stdout
    assert "total as measured 326.32 ft" in done.stdout
    assert book.read_bytes() == before
    assert run("import", book, PLAIN, "--print").exit_code == 0


def test_without_a_terminal_and_without_yes_nothing_is_entered(book: Path) -> None:
    before = book.read_bytes()
    done = run("import", book, PLAIN, "--lengths", "running")
    assert done.exit_code == 2
    assert "489.06 ft" in done.stdout
    assert done.stderr.startswith("Nothing was entered: there is no terminal")
    assert book.read_bytes() == before


def test_yes_makes_one_entry_with_the_file_and_its_fingerprint(book: Path) -> None:
    done = run("import", book, PLAIN, *TAKE)
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.endswith("Entered: 12 items, 489.06 ft.\n")
    (entry,) = entries(book)
    assert isinstance(entry, Received)
    assert (entry.by, entry.source) == ("Ama Osei", "commas.csv")
    assert entry.sha256 == hashlib.sha256(PLAIN.read_bytes()).hexdigest()
    assert entry.read_back == "taken without reading back"
    assert [(one.number, one.length) for one in entry.items][:2] == [("1", 3997), ("2", 4034)]
    assert run("verify", book).exit_code == 0


@pytest.mark.parametrize(
    ("name", "options", "told"),
    [
        ("commas.csv", ("--yes",), "Say it with --lengths running|overall."),
        ("metres-and-nothing-says-so.csv", TAKE, "Say it with --unit ft|m|mm."),
        ("numbers-twice.csv", TAKE, "4 rows cannot be taken and would be left out: rows 5, 8,"),
        ("commas.csv", (*TAKE[:2], "overall"), "the job has no make-up loss"),
        ("total-running-rows-overall.csv", ("--yes",), "the job has no make-up loss"),
        ("empty.csv", TAKE, "The list 'empty.csv' is empty; look at the file."),
        ("none.csv", TAKE, "There is no list 'none.csv'; look at its name and its folder."),
        ("commas.csv", (*TAKE, "--pipe", "7 in"), "There is no pipe 7 in in the job"),
    ],
)
def test_what_is_refused_is_refused_in_a_sentence(
    book: Path, name: str, options: tuple[str, ...], told: str
) -> None:
    before = book.read_bytes()
    done = run("import", book, FILES / name, *options)
    assert done.exit_code == 2
    assert told in done.stderr
    assert done.stderr.count("\n") == 1
    assert book.read_bytes() == before


def test_the_same_list_is_not_taken_twice(book: Path) -> None:
    assert run("import", book, PLAIN, *TAKE).exit_code == 0
    done = run("import", book, PLAIN, *TAKE)
    assert done.exit_code == 2
    assert "number 1 is in the book already (joint 1, on rack)" in done.stdout
    assert len(entries(book)) == 1


def test_the_options_say_unit_pipe_and_how_it_was_measured(tmp_path: Path) -> None:
    lengths = Lengths(unit="ft", measured_as="overall", make_up_loss="3.875 in")
    book = made(tmp_path, lengths=lengths, pipes=(*setup().pipes, HEAVY))
    source = FILES / "metres-and-nothing-says-so.csv"
    done = run("import", book, source, *TAKE[:2], "overall", "--unit", "m", "--pipe", HEAVY.name)
    assert done.exit_code == 0, done.stderr
    (entry,) = entries(book)
    assert isinstance(entry, Received)
    first = entry.items[0]  # 12.18 m is 39.9606 ft, less 3.875 in
    assert (first.length, first.typed, first.pipe) == (3964, "12.18 m", HEAVY.name)


def test_a_running_list_for_an_overall_job_keeps_its_lengths(tmp_path: Path) -> None:
    lengths = Lengths(unit="ft", measured_as="overall", make_up_loss="3.875 in")
    book = made(tmp_path, lengths=lengths)
    assert run("import", book, PLAIN, *TAKE).exit_code == 0
    (entry,) = entries(book)
    assert isinstance(entry, Received)
    assert (entry.items[0].length, entry.items[0].typed) == (3997, "39.97 running")


def test_doubts_taken_without_asking_are_in_the_entry(book: Path) -> None:
    assert run("import", book, FILES / "same-as-before.csv", *TAKE).exit_code == 0
    (entry,) = entries(book)
    assert isinstance(entry, Received)
    assert entry.despite == "doubts accepted with --yes"
    assert entry.read_back == "taken without reading back; 2 doubts seen"


def test_on_a_terminal_it_is_read_back(book: Path, start: Callable[..., Terminal]) -> None:
    command = (sys.executable, "-m", "screens.cli", "import", book, DOUBTFUL, "--by", "Ama Osei")
    terminal = start(*command, size=(120, 80), cwd=ROOT)
    for question, answer in (
        ("Are these running lengths?", "running"),
        ("would be left out: rows 5, 8, 10, 13. Why", "numbered again later"),
        ("Items as counted on the rack", "12"),
        ("Total as measured there, running, ft", "489"),
        ("The rack has 12 items, the list 8; the rack measures 489.00 ft, the list 326.32", "seen"),
        ("Enter 8 items, 326.32 ft?", "y"),
    ):
        terminal.wait_for(question)
        terminal.type(answer)
        terminal.press("enter")
    terminal.wait_for("Entered: 8 items, 326.32 ft.")
    (entry,) = entries(book)
    assert isinstance(entry, Received)
    assert entry.despite == "numbered again later; seen"
    assert entry.read_back.startswith("12 items, 489.00 ft running, read on the rack; 4 rows left")


def test_a_terminal_that_is_left_changes_nothing(
    book: Path, start: Callable[..., Terminal]
) -> None:
    before = book.read_bytes()
    command = (sys.executable, "-m", "screens.cli", "import", book, PLAIN, "--lengths", "running")
    terminal = start(*command, size=(120, 60), cwd=ROOT)
    terminal.wait_for("Items as counted on the rack")
    terminal.wait_still(0.3)  # until it waits for an answer: a signal just before would be kept
    terminal.press("ctrl+c")
    assert terminal.wait_exit() == 130
    assert book.read_bytes() == before
