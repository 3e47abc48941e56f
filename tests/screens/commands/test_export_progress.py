"""A long export in a terminal tells how far it is; elsewhere nothing is written but the paths."""

import os
import pty
import subprocess
import sys
from pathlib import Path

from tally.book.book import Book

ROOT = Path(__file__).parents[3]


def command(book: Path, folder: Path) -> list[str]:
    """Return the command that writes the PDF files."""
    words = ["export", str(book), "--to", str(folder), "--only", "pdf", "--only", "csv"]
    return [sys.executable, "-m", "screens.cli", *words]


def long_book(folder: Path) -> Path:
    """Return a book with a long string."""
    from demo_db.play import entries

    with Book.create(folder / "job.db", entries("end")) as made:
        return made.path


def test_a_terminal_is_told_the_kind_and_the_page(tmp_path: Path) -> None:
    ours, theirs = pty.openpty()
    environment = {**os.environ, "TERM": "xterm", "COLUMNS": "100", "LINES": "24"}
    asked = command(long_book(tmp_path), tmp_path / "out")
    with subprocess.Popen(
        asked, cwd=ROOT, env=environment, stdout=subprocess.PIPE, stderr=theirs
    ) as running:
        os.close(theirs)
        seen = b""
        while True:
            try:
                part = os.read(ours, 4096)
            except OSError:
                break
            if not part:
                break
            seen += part
        assert running.stdout is not None
        written = running.stdout.read()
    os.close(ours)
    told = seen.decode()
    assert running.returncode == 0, told
    assert "pdf, 2 of 2: page " in told
    assert "[####" in told
    assert b"Written:" in written
    assert b"page" not in written.replace(str(tmp_path).encode(), b"")


def test_without_a_terminal_there_is_no_progress(tmp_path: Path) -> None:
    asked = command(long_book(tmp_path), tmp_path / "out")
    done = subprocess.run(asked, cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stderr == ""
    assert done.stdout.count("Written:") == 5
