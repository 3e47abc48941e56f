"""Several programs in one book, and programs that are killed."""

import random
import signal
import subprocess
import sys
import time
from contextlib import ExitStack
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.verify import verify
from tests.tally.book.invented import note

ROOT = Path(__file__).parents[3]


def writer(*words):
    """Start a program that writes into a book."""
    command = [sys.executable, "-m", "tests.tally.book.writer", *(str(word) for word in words)]
    return subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


def test_three_programs_write_at_once_into_one_chain(book):
    names = ("first", "second", "third")
    with ExitStack() as stack:
        writers = [stack.enter_context(writer("notes", book.path, name, 500)) for name in names]
        said = [each.communicate(timeout=120)[1] for each in writers]
    assert said == ["", "", ""]
    assert [each.returncode for each in writers] == [0, 0, 0]
    assert book.poll()
    assert book.head[0] == 3 + 1500
    for name in names:
        theirs = [entry.text for entry in book.entries[3:] if entry.by == name]
        assert theirs == [f"{name} {which}" for which in range(1, 501)]
    report = verify(book.path)
    assert report.ok, report.findings
    assert (report.count, report.head) == book.head
    changes = sum(a.by != b.by for a, b in zip(book.entries[3:], book.entries[4:], strict=False))
    assert changes > 2, "the programs wrote one after the other; nothing was tried"


def test_an_entry_of_another_program_appears_by_polling(book):
    assert not book.poll()
    with writer("notes", book.path, "second", 2) as other:
        other.communicate(timeout=60)
    assert book.poll()
    assert [text for _, text in book.job.notes] == ["second 1", "second 2"]
    assert not book.poll()


@pytest.mark.parametrize("seed", range(8))
def test_a_killed_program_loses_nothing_that_it_confirmed(book, seed):
    chance = random.Random(seed)
    with writer("notes", book.path, "second", 10_000) as other:
        assert other.stdout is not None
        confirmed = [other.stdout.readline() for _ in range(1 + chance.randrange(12))]
        time.sleep(chance.uniform(0, 0.008))
        other.kill()
        confirmed += other.stdout.read().splitlines(keepends=True)
    assert other.returncode == -signal.SIGKILL
    confirmed = [line.split(maxsplit=1) for line in confirmed if line.endswith("\n")]
    with Book.open(book.path) as again:
        shown = {entry.seq: entry.text for entry in again.entries[3:]}
        assert {int(seq): text.strip() for seq, text in confirmed}.items() <= shown.items()
        assert len(shown) - len(confirmed) in (0, 1)
        again.record(note("work goes on"))
    assert verify(book.path).ok
    assert book.poll()


@pytest.mark.parametrize("look_only", [False, True])
def test_a_book_whose_writer_died_in_mid_commit_is_recovered(book, look_only):
    before = (book.job, book.head)
    book.close()
    with writer("die", book.path) as other:
        other.communicate(timeout=60)
    assert other.returncode == -signal.SIGKILL
    journal = book.path.with_name(book.path.name + "-journal")
    assert journal.exists()
    assert b"lost" in book.path.read_bytes(), "no page reached the file; nothing was tried"
    with Book.open(book.path, look_only) as again:
        assert (again.job, again.head) == before
    assert verify(book.path).ok
    assert not journal.exists()


def test_verifying_recovers_a_book_whose_writer_died(book):
    book.close()
    with writer("die", book.path) as other:
        other.communicate(timeout=60)
    report = verify(book.path)
    assert report.ok, report.findings
    assert (report.count, report.head) == book.head
