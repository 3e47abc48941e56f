"""The text of the tally has the mixing log, the lists called and how the shoe stands."""

from __future__ import annotations

from dataclasses import replace

from tally.job.entries.calling import ListStarted
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.reports.final_tally import final_tally
from tally.reports.page import WIDTH
from tally.reports.tally_text import tally_text
from tests.screens.demo_books import at, played, up_to
from tests.tally.reports.jobs import HEAD


def text_of(said: tuple[Entry, ...]) -> str:
    return tally_text(final_tally(fold(said), said, (len(said), HEAD)))


def test_the_log_its_totals_samples_and_what_was_seen() -> None:
    text = text_of(played())
    told = " ".join(text.split())
    assert "MIXING LOG" in text
    assert "lead 12.9 lb/gal 12.8 lb/gal 108 bbl 296 sacks 81 bbl" in told
    assert "slurry mixed 302.0 bbl, programme 299.6 bbl" in told
    assert "sacks used 1010, programme 1001" in told
    assert "sample of tail, end Lena Brandvik" in told
    assert "spacer at surface seen, 11.4 lb/gal" in told
    assert "LISTS CALLED" not in text
    assert max(len(line) for line in text.splitlines()) <= WIDTH


def test_a_list_called_and_a_suspect_shoe_are_told() -> None:
    made = up_to(at("18:30:00"))
    call = ListStarted(list_id="floats-leak", why="flow", by="N. Haddad", at=at("18:31:00"))
    told = " ".join(text_of((*made, replace(call, seq=len(made) + 1))).split())
    assert "Floats leak flow, N. Haddad, 2026-03-12 18:31" in told
    assert "SHOE SUSPECT: floats leak, called at 18:31 by N. Haddad" in told


def test_a_job_without_a_log_has_no_such_section() -> None:
    text = text_of(up_to(at("14:00:00")))
    assert "MIXING LOG" not in text
