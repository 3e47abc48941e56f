"""What the running page says is next, and what comes two ahead of it."""

from __future__ import annotations

from screens.widgets.running import next_lines
from tally.job.entries.flow import FlowChecked
from tally.job.entries.trouble import ShutIn
from tally.job.setup import Planned, Rule
from tally.units import read
from tests.screens.books import Story, setup


def lines(story: Story) -> list[str]:
    """Return the lines as text."""
    return [each.plain for each in next_lines(story.job)]


def with_a_crossover(run: int) -> Story:
    """Return a string with a crossover above its fourth joint; the sixth has a centralizer."""
    made = Story()
    plan = setup(
        items=(Planned(number="X1", kind="crossover", length=120, typed="1.2"),),
        order=("1", "2", "3", "4", "X1", "5", "6", "7"),
        programme=(Rule(what="bow centralizer", joints=(6,)),),
        limits={},
    )
    made.starts(plan, 7)
    made.runs(run)
    return made


def test_what_is_on_the_items_ahead_is_told_by_their_own_place():
    assert lines(with_a_crossover(3))[1].startswith("      then crossover X1, 5")
    assert lines(with_a_crossover(4))[1].startswith("      then 5, 6 (bow)")
    assert lines(with_a_crossover(5))[1].startswith("      then 6 (bow), 7")


def test_who_leads_with_the_well_shut_in_stands_within_80_columns():
    shut_in = with_a_crossover(3)
    shut_in.says(ShutIn, gain=read("4 bbl", "volume"))
    told = lines(shut_in)
    assert told[0].startswith("NEXT  no pipe is run, t or o: The well is shut in since ")
    assert told[1] == "      the shut-in plan and the people in charge lead, not this book."
    assert all(len(each) <= 80 for each in told)


def test_the_longest_reason_to_stop_stands_within_80_columns():
    loses = with_a_crossover(3)
    loses.says(FlowChecked, state="takes mud", time=read("5 min", "time"))
    assert all(len(each) <= 80 for each in lines(loses))
    assert lines(loses)[1].endswith("lead, not this book.")
