"""The list of the rack and its balance: every item, its state and why."""

from dataclasses import replace

import pytest

from screens.widgets.balance import balance_lines
from screens.widgets.rack_list import rack_line, rack_rows, rack_title
from tally.job.entries.pipe import Arrival, Received
from tally.job.fold import fold
from tests.screens.books import Story, setup, third


@pytest.fixture(scope="module")
def job():
    return fold(third())


def row_of(job, number):
    return next(row for row in rack_rows(job) if row.number == number)


def test_every_item_is_there_once(job):
    numbers = [row.number for row in rack_rows(job)]
    assert sorted(numbers) == sorted(job.items)
    assert numbers[:4] == ["S1", "1", "2", "C1"]


@pytest.mark.parametrize(
    ("number", "kind", "length", "state", "what"),
    [
        ("S1", "shoe", "1.95", "run", "19:25"),
        ("2", "joint", "40.34", "run", "2nd joint  19:35"),
        ("37", "joint", "40.80", "run", "36th joint  22:35"),
        ("19", "joint", "41.63", "rejected", "failed drift at the pin end"),
        ("59", "joint", "41.43", "laid down", "thread"),
        ("205", "joint", "40.45", "sent away", "bent in the slings"),
        ("88", "joint", "39.66", "on rack", "NEXT"),
        ("89", "joint", "40.03", "on rack", "2nd to come"),
    ],
)
def test_a_row_says_what_became_of_the_item(job, number, kind, length, state, what):
    row = row_of(job, number)
    assert (row.kind, row.length, row.state, row.what) == (kind, length, state, what)


def test_an_item_that_never_came_stands_in_its_place_and_says_so():
    story = Story()
    story.starts(setup(order=("S1", "1", "77", "2")), 3)
    numbers = [row.number for row in rack_rows(story.job)]
    assert numbers == ["S1", "1", "77", "2", "C1", "3"]
    assert row_of(story.job, "77").state == "missing"
    assert row_of(story.job, "77").what == "never received"
    assert row_of(story.job, "3").what == "4th, not in order"
    assert row_of(story.job, "C1").what == "not in the order"


def test_what_is_left_once_the_string_is_on_depth_has_no_turn():
    story = Story()
    story.starts(setup(), 3)
    landed = replace(story.job, landing=object())
    assert {row.what for row in rack_rows(landed) if row.state == "on rack"} == {""}


def test_the_row_of_the_cursor_is_marked_and_reversed(job):
    plain, cursor = (rack_line(row_of(job, "88"), 72, cursor=each) for each in (False, True))
    assert plain.plain.startswith("   ")
    assert cursor.plain.startswith(">")
    assert {span.style for span in cursor.spans} == {"bold reverse"}


@pytest.mark.parametrize("width", [72, 108, 152])
def test_a_row_never_outgrows_the_page(job, width):
    long = replace(row_of(job, "19"), what="thread damaged " * 20, typed="41.63 ft " * 9)
    assert len(rack_line(long, width, cursor=False).plain) == width
    assert len(rack_title(job, width).plain) == width


def words_of(job):
    return [" ".join(line.plain.split()) for line in balance_lines(job, 80)]


def test_the_balance_agrees_by_count_and_by_length(job):
    assert words_of(job) == [
        "on location run left on rack rejected laid down",
        "joints 204 = 85 + 117 + 1 + 1 agrees",
        "ft 8,332.61 = 3,473.51 + 4,776.04 + 41.63 + 41.43 agrees",
        "sent away 1 joint, 40.45 ft: not counted",
    ]


def test_a_joint_too_many_and_a_length_too_long_are_told_apart(job):
    one_short = words_of(replace(job, received=job.received - 1))
    assert one_short[1].endswith("+1")
    assert one_short[2].endswith("agrees")
    longer = words_of(replace(job, received_length=job.received_length + 5))
    assert longer[1].endswith("agrees")
    assert longer[2].endswith("-0.05")


def test_nothing_is_told_of_joints_sent_away_where_none_were():
    story = Story()
    story.starts(setup(), 3)
    assert len(words_of(story.job)) == 3


def test_a_joint_received_later_counts():
    story = Story()
    story.starts(setup(), 3)
    story.says(Received, items=(Arrival(number="A12", length=4135, typed="41.35"),))
    assert words_of(story.job)[1] == "joints 4 = 0 + 4 + 0 + 0 agrees"
