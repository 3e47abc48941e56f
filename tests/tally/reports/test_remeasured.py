"""A length corrected in the list that it came in: both values with who and why, and a mark."""

from __future__ import annotations

import pytest

from tally.job.amending import changed_words
from tally.job.entries.correction import Correction
from tally.job.entries.people import SetUp
from tally.job.stored import to_fields
from tally.reports.final_tally import final_tally
from tally.reports.said import Said
from tally.reports.sheet_csv import sheet_csv
from tally.reports.smaller.kept import exceptions_sheet
from tally.reports.tally_csv import not_run_csv, string_csv
from tally.reports.tally_text import tally_text
from tally.units import read
from tests.tally.job.invented import CEMENTER, Telling, pumping, setup

LIST = 2
"""The entry that the pipe came with."""


def corrected(number: int, typed: str = "39.84", runs: bool = False) -> Telling:
    """Return a job with one length of its list put right, its joints run or still on the rack."""
    told = Telling().starts(setup())
    told = told.runs() if runs else told
    return again(told, number, typed)


def again(told: Telling, number: int, typed: str) -> Telling:
    items = [to_fields(each) for each in _standing(told).items]
    items[number - 1] |= {"length": round(float(typed) * 100), "typed": typed}
    instead = {"items": items, "source": "pipe list"}
    told.says(Correction, of=LIST, reason="measured again", instead=instead, by=CEMENTER)
    return told


def _standing(told: Telling):
    from tally.job.fold import effective

    return next(each for each in effective(told.entries) if each.seq == LIST)


def tally_of(told: Telling):
    return final_tally(told.job, told.entries, (len(told.entries), "c0ffee"))


def joined(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("runs", [False, True])
def test_every_report_tells_both_lengths_with_the_number_of_the_entry(runs: bool) -> None:
    told = corrected(3, runs=runs)
    before = told.entries[LIST - 1].items[2].typed
    seq = told.job.seq
    text = joined(tally_text(tally_of(told)))
    assert f"Joint 3 length: was {before} ft, now 39.84 ft." in text
    assert f"{CEMENTER}" in text
    assert "measured again" in text
    mark = f"length corrected by entry {seq}: {before} ft, now 39.84 ft"
    assert mark in text
    assert mark in (string_csv if runs else not_run_csv)(tally_of(told))
    tables = sheet_csv(exceptions_sheet(tally_of(told))).values()
    assert any(f"joint 3 length: was {before} ft, now 39.84 ft" in table for table in tables)


def test_a_second_correction_of_the_list_tells_only_what_it_changed() -> None:
    told = again(corrected(3), 5, "40.01")
    first, second = Said(told.entries, told.job).corrections()
    assert "joint 3" in first.unsaid
    assert second.unsaid.startswith("joint 5 length: was ")
    assert "joint 3" not in second.unsaid


def test_a_set_up_change_is_named() -> None:
    told = Telling().starts(setup())
    heavier = setup(pumping=pumping(mud_weight=read("10.4 lb/gal", "density")))
    told.says(SetUp, setup=heavier, despite="weighed again")
    assert changed_words(told.job, told.entries, told.job.seq) == (
        "pumping mud weight: was 10.2 lb/gal, now 10.4 lb/gal"
    )
