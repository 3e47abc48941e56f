"""A schema step that is killed at each of its statements: the old book or the new, and a copy."""

import subprocess
import sys
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.schema import SCHEMA
from tally.book.verify import verify
from tests.tally.book.samples.make import FOLDER

ROOT = Path(__file__).parents[2]
SAMPLES = sorted(FOLDER.glob("schema_*.book"))
STEPPED = """
import os, shutil, signal, sqlite3, sys
from pathlib import Path
from tally.book import book as books, schema
from tally.book.book import Book
import sqlite_utils

sample, folder = Path(sys.argv[1]), Path(sys.argv[2])
schema.SCHEMA += 1
real, calls, last = books.stepped_up, 0, 0

def counted(how, name, wait):
    def told(_text):
        global calls
        calls += 1
        if calls == last:
            os.kill(os.getpid(), signal.SIGKILL)
    how.connection.set_trace_callback(told)
    return real(how, name, wait)

books.stepped_up = counted
for last in [*range(1, 7), *range(7, 140, 12), 0]:
    copy = Path(shutil.copy(sample, folder / f"{last:03}.book"))
    calls = 0
    child = os.fork()
    if not child:
        Book.open(copy).close()
        os._exit(0)
    _, status = os.waitpid(child, 0)
    print(last, os.WIFSIGNALED(status), flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills a child as POSIX does")
@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_a_step_that_is_killed_leaves_the_old_book_or_the_new(
    sample: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with Book.open(sample, look_only=True) as book:
        lines = book.document().lines
    done = subprocess.run(
        [sys.executable, "-c", STEPPED, str(sample), str(tmp_path)],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    tried = [line.split() for line in done.stdout.splitlines()]
    assert sum(killed == "True" for _, killed in tried) > 12, "hardly any step was killed"
    assert tried[-1] == ["0", "False"]
    states = set()
    for number, _ in tried:
        path = tmp_path / f"{int(number):03}.book"
        states.add(state(path, lines, monkeypatch))
        assert verify(path.with_name(f"{path.stem}-{sample.stem.replace('_', '-')}.book")).ok
    assert states == {"old", "new"}


def state(path: Path, lines: tuple[object, ...], monkeypatch: pytest.MonkeyPatch) -> str:
    """Return which book is there; it must be one of the two, whole, with every line."""
    with monkeypatch.context() as later:
        later.setattr("tally.book.schema.SCHEMA", SCHEMA + 1)
        report = verify(path)
        assert report.ok, f"{path.name}: {[str(each) for each in report.findings]}"
        with Book.open(path, look_only=True) as book:
            assert book.document().lines == lines
    return "old" if any("earlier release" in str(each) for each in report.findings) else "new"
