"""The printed running list: plain, in tens, with depths, pieces and doubts that add up."""

import re
from dataclasses import replace
from decimal import Decimal

import pytest

from tally.errors import ShoedownError
from tally.job.entries.pipe import Received
from tally.job.entries.rack import OrderSet
from tally.job.fold import EMPTY, fold
from tally.job.running_list import RunningList, drafted
from tally.job.setup import Rule
from tally.reports.list_lines import listing
from tally.reports.page import LINES
from tally.reports.running_list_text import WIDTH, running_list_text
from tally.units import read
from tests.tally.job.invented import LEAD, ORDER, Telling, arrivals, pipe, running, setup
from tests.tally.reports.jobs import HEAD, HOSTILE, entries

ROW = re.compile(r"^([*=]{0,2}) +(\d*) +(\S+) +(joint|shoe|collar) +([\d.]+) +([\d,.]+) +([\d,.]+)")


def text_of(told, **draft):
    return running_list_text(listing(told.job, told.entries, (len(told.entries), HEAD), **draft))


def items(text):
    return [found.groups() for found in map(ROW.match, text.splitlines()) if found]


@pytest.mark.parametrize("text", ["", *HOSTILE])
@pytest.mark.parametrize("unit", ["ft", "mm"])
def test_plain_text_of_at_most_79_columns(text, unit):
    said = entries(text, unit, landed=False)
    made = running_list_text(listing(fold(said), said, (len(said), HEAD)))
    assert made.isascii()
    assert all(line.isprintable() for line in made.splitlines())
    assert max(map(len, made.splitlines())) <= WIDTH == 79
    assert made.count("\n") % LINES == 0


def test_every_page_has_its_number_and_the_chain():
    deep = read("8000 ft", "length")
    told = Telling().starts(setup(hole=replace(setup().hole, casing_point=deep)), 200)
    lines = text_of(told).splitlines()
    made = [lines[start : start + LINES] for start in range(0, len(lines), LINES)]
    assert len(made) > 2
    for number, page in enumerate(made, start=1):
        assert page[0].startswith("RUNNING LIST")
        assert page[0].endswith(f"page {number} of {len(made)}")
        assert page[-2].startswith("-- 2 entries, the chain ends with --")
        assert page[-1] == HEAD


def test_rows_are_counted_from_the_shoe_and_depths_go_up_by_each_length():
    rows = items(text_of(running("S1", "1")))
    assert [row[2] for row in rows] == list(ORDER)
    assert [row[1] for row in rows if row[3] == "joint"] == [str(n) for n in range(1, 13)]
    depth, to_here = Decimal("486.00"), Decimal(0)
    for *_, length, summed, bottom in rows:
        assert Decimal(bottom.replace(",", "")) == depth
        to_here += Decimal(length)
        assert Decimal(summed.replace(",", "")) == to_here
        depth -= Decimal(length)


def test_blocks_of_ten_have_their_subtotals():
    text = text_of(running())
    assert re.search(r"^joints 1-10 +0\.00 +brought forward$", text, re.MULTILINE)
    assert re.search(r"^subtotal +407\.32 +10 joints, 2 other$", text, re.MULTILINE)
    assert re.search(r"^joints 11-12 +407\.32 +brought forward$", text, re.MULTILINE) is None
    assert re.search(r"^joints 11-20 +407\.32 +brought forward$", text, re.MULTILINE)


def test_special_and_locked_items_are_marked_and_what_is_run_has_no_box():
    told = running("S1")
    told.says(OrderSet, order=ORDER, locked=("S1", "1", "2", "C1"), reason="shoe track")
    marks = {row[2]: row[0] for row in items(text_of(told))}
    assert (marks["S1"], marks["1"], marks["C1"], marks["3"]) == ("*=", "=", "*=", "")
    boxes = [line[-3:] for line in text_of(told).splitlines() if ROW.match(line)]
    assert boxes == ["run", *["[ ]"] * 13]


def test_what_goes_on_stands_beside_its_joint_and_is_summed_by_kind():
    bow = Rule(what="bow centralizer", joints=(1, 2, 3, 5), count=2)
    text = text_of(running(plan=setup(programme=(bow,))))
    assert text.count("2 x bow centralizer") == 4
    assert "8 bow centralizer mid-joint: 1-3, 5" in text


def test_it_says_who_set_it_and_a_draft_says_that_it_is_none():
    told = running()
    assert "as it came with the set-up" in text_of(told)
    told.says(OrderSet, order=ORDER, reason="checked with the rack")
    assert f"set by {LEAD}, 2026-05-02 06:02, entry 3" in text_of(told)
    draft = "*** A DRAFT: this list is not set; do not run by it. ***"
    assert draft in text_of(told, draft=True)
    assert draft not in text_of(told)


def test_spares_joints_set_aside_and_numbers_that_never_came_are_named():
    told = running()
    short = replace(told.job.known.hole, casing_point=told.job.known.previous.shoe)
    job = replace(told.job, setup=replace(told.job.known, hole=short))
    job = drafted(job, RunningList((*ORDER[:-1], "77"), (), ("12",)))
    text = running_list_text(listing(job, told.entries, (2, HEAD)))
    assert "Spare, above the casing point: 4-11." in text
    assert "Set aside: 12." in text
    assert "Never received: 77." in text
    assert "! 77 was never received." in text
    assert [row[2] for row in items(text)] == list(ORDER[:5])


def test_the_pipe_is_told_where_it_begins():
    light = pipe("9-5/8 40", "8.835 in", "40 lb/ft")
    told = Telling().starts(setup(pipes=(pipe(), light)), 6)
    told.says(Received, items=arrivals(7, 12, pipe=light.name))
    text = text_of(told)
    assert text.count("from here 9-5/8 47") == 1
    assert text.count("from here 9-5/8 40") == 1
    assert "to look at: 1" in text


def test_there_is_no_list_before_the_set_up():
    with pytest.raises(ShoedownError, match="not set up yet; there is no running list"):
        listing(EMPTY, (), (0, HEAD))


def test_an_empty_list_says_so():
    told = Telling().starts(setup(items=(), order=()), 1)
    job = drafted(told.job, RunningList((), (), ("1",)))
    assert "Nothing is in the list." in running_list_text(listing(job, (), (2, HEAD)))
