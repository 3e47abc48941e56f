"""The PDF files of an export: whole or not there, and read in only when they are written."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.errors import ShoedownError
from tally.reports.export import chosen, export
from tests.tally.reports.jobs import entries
from tests.tally.reports.pdf.reading import pages

ROOT = Path(__file__).parents[4]


def test_an_export_writes_them_for_the_paper_that_is_chosen(tmp_path: Path) -> None:
    with Book.create(tmp_path / "job.db", entries()) as book:
        written = export(book, tmp_path / "out", chosen(["pdf", "pdf-letter"]))
        head = book.head[1]
    assert [path.name for path in written] == [
        *("job-tally.pdf", "job-report.pdf", "job-regulator.pdf"),
        *("job-tally-letter.pdf", "job-report-letter.pdf", "job-regulator-letter.pdf"),
    ]
    for path in written:
        assert all(any(head in line for line in page) for page in pages(path.read_bytes()))
    assert "pdf" in [kind.key for kind in chosen([])]
    assert "pdf-letter" not in [kind.key for kind in chosen([])]


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with Book.create(tmp_path / "job.db", entries()) as book:
        old = {path: path.read_bytes() for path in export(book, tmp_path / "out", chosen(["pdf"]))}
        for path in old:
            path.write_bytes(b"%PDF-old")

        def full(*_: object) -> None:
            raise OSError(errno.ENOSPC, "No space left on device")

        monkeypatch.setattr(os, "fsync", full)
        with pytest.raises(ShoedownError, match=r"tally\.pdf cannot be written: no space left"):
            export(book, tmp_path / "out", chosen(["pdf"]))
    assert {path.read_bytes() for path in (tmp_path / "out").iterdir()} == {b"%PDF-old"}
    assert set((tmp_path / "out").iterdir()) == set(old)


IMPORTED = """
import sys
import screens.cli, screens.export_files, tally.reports.export
assert not [name for name in sys.modules if name.split(".")[0] in ("reportlab", "PIL")]
"""


def test_the_library_is_read_in_only_to_write(tmp_path: Path) -> None:
    subprocess.run([sys.executable, "-c", IMPORTED], cwd=ROOT, check=True)
