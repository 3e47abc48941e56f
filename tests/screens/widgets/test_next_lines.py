"""What the running page says is next, and what comes two ahead of it."""

from __future__ import annotations

from dataclasses import replace

from screens.widgets.running import next_lines
from tally.job.entries.flow import FlowChecked
from tally.job.entries.running import ItemRun
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


def hung(casing_point: str, hole: str, *numbers: str) -> Story:
    """Return a short string of joints of 40 ft with a hanger and a landing joint to go on it."""
    plan = setup(
        items=(
            Planned(number="H1", kind="hanger", length=150, typed="1.50"),
            Planned(number="L1", kind="landing joint", length=1500, typed="15.00"),
        ),
        order=("1", "2", "H1", "L1", "3"),
        limits={},
        programme=(),
    )
    at = {"casing_point": read(casing_point, "length"), "depth": read(hole, "length")}
    made = Story()
    made.starts(replace(plan, hole=replace(plan.hole, **at)), 4)
    for number in numbers:
        made.says(ItemRun, number=number, despite="entered late", second="Ivo Marek")
    return made


def test_above_a_landing_joint_nothing_is_next_but_on_depth():
    told = lines(hung("500 ft", "520 ft", "1", "2", "H1"))
    assert told[0].startswith("NEXT  landing joint L1")
    told = lines(hung("500 ft", "520 ft", "1", "2", "H1", "L1"))
    assert told[0] == "NEXT  the landing joint is on top: d on depth, or p pulls it out"
    assert told[1].startswith("      nothing is run above it; the shoe is ")
    assert told[1].endswith(" ft above the casing point")
    assert all(len(each) <= 80 for each in told)


def test_what_goes_past_the_casing_point_or_below_the_hole_is_told():
    one = hung("500 ft", "520 ft", "1")
    shoe = one.job.known.step.si(one.job.length - one.job.known.lengths.stick_up) / 0.3048
    second = one.job.known.step.si(one.job.items["2"].length) / 0.3048
    past = hung(f"{shoe + second - 5:.2f} ft", "520 ft", "1")
    assert lines(past)[1] == "      it puts the shoe 5.00 ft past the casing point"
    below = hung(f"{shoe + second - 5:.2f} ft", f"{shoe + second - 3:.2f} ft", "1")
    assert lines(below)[1] == "      it puts the shoe 3.00 ft BELOW THE HOLE"
    below.says(ItemRun, number="2", despite="as decided", second="Ivo Marek")
    assert lines(below)[0] == "NEXT  the shoe is 3.00 ft BELOW THE HOLE: p pulls it out"
    level = hung(f"{shoe + second + 5:.2f} ft", "520 ft", "1")
    assert "puts the shoe" not in lines(level)[1]
