"""The program killed, or its disk failing, at each call that recording makes of the disk."""

from __future__ import annotations

import pytest

from tests.drive.jobs import before, book_at, unhurried
from tests.drive.joints import run_so_far
from tests.faults.killed import SWEEPS, swept
from tests.faults.killed_on_screen import BEGUN, killed_while_saving, shown_with

FEW = 9
"""Calls from one try to the next in the short set."""
WEAK = {"killed at a write": "journal_mode=OFF", "the disk is full at a write": "journal_mode=OFF"}


@pytest.mark.parametrize("sweep", SWEEPS, ids=lambda sweep: sweep.name)
@pytest.mark.parametrize("every", [FEW, pytest.param(1, marks=pytest.mark.long)])
def test_what_was_confirmed_is_there(tmp_path, sweep, every):
    outcome = swept(tmp_path, sweep, every)
    assert outcome.tries > 0
    assert outcome.wrong == ()


@pytest.mark.parametrize(
    "sweep", [one for one in SWEEPS if one.name in WEAK], ids=lambda one: one.name
)
def test_without_a_journal_it_would_not_be(tmp_path, sweep):
    assert swept(tmp_path, sweep, without=WEAK[sweep.name], notes=6).wrong


@pytest.mark.parametrize("every", [FEW, pytest.param(1, marks=pytest.mark.long)])
def test_a_joint_on_the_screen_is_saved_or_was_not_shown_so(tmp_path, every):
    outcome = killed_while_saving(tmp_path, every)
    assert outcome.tries > 0
    assert outcome.wrong == ()


@pytest.mark.parametrize(
    ("inject", "said"),
    [
        ("fdatasync:error=EIO:when=1", "The disk did not do what it was told."),
        ("fdatasync:error=EIO:when=1+", "The disk did not do what it was told."),
        ("pwrite64:error=ENOSPC:when=2+", "The disk is full."),
    ],
)
def test_a_disk_that_fails_is_told_on_the_page_and_nothing_shown_as_saved(tmp_path, inject, said):
    book = book_at(tmp_path / "job.book", unhurried(before(BEGUN)))
    known = run_so_far(book)
    shown, screen = shown_with(book, inject)
    assert not shown
    told = " ".join(screen.split())
    assert f"{said} The entry is not saved; the book stands at entry" in told
    assert run_so_far(book) == known
