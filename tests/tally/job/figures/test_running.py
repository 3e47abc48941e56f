"""Figures of the string as it is run."""

from dataclasses import replace

import pytest

from tally.errors import InputError
from tally.job.entries.people import SetUp
from tally.job.entries.running import ItemRun
from tally.job.figures import catalogue, figure, show
from tally.job.figures.model import CALCULATED, READ, TYPED
from tally.job.fold import EMPTY
from tally.job.job import Fitting
from tally.job.setup import Rule
from tally.units import read
from tests.tally.job.invented import Telling, landed, length_of, running, setup


def text(job, key):
    """Return a figure as it is shown."""
    made = figure(job, key)
    return show(job, made.value, made.quantity)


def test_depths_and_counts_as_they_are_shown():
    job = running("S1", "1", "2", "C1", "3").job
    assert text(job, "string_length") == "123.89 ft"
    assert text(job, "shoe_depth") == "120.67 ft"
    assert text(job, "to_go") == "365.33 ft"
    assert text(job, "collar_depth") == "36.99 ft"
    assert (text(job, "joints_run"), text(job, "joints_left")) == ("3", "9")
    assert (text(job, "joints_to_go"), text(job, "joints_spare")) == ("9", "-1")
    assert text(job, "balance_difference") == "0"
    assert figure(job, "mean_joint").value == round(sum(map(length_of, (1, 2, 3))) / 3)


def test_the_stick_up_says_where_it_comes_from():
    before = figure(running("S1").job, "shoe_depth").inputs[1]
    assert (before.origin, before.where) == (TYPED, "job set-up, usual stick-up")
    after = figure(landed().job, "shoe_depth").inputs[1]
    assert (after.value, after.where) == (322, "entry 17")


def test_the_pace_is_the_middle_one_of_the_last_ten():
    told = running()
    for minute, number in enumerate(told.job.order):
        told.says(ItemRun, number=number, at=f"2026-05-02T07:{2 * minute:02}:00+02:00")
    assert figure(told.job, "pace").value == 120
    assert figure(told.job, "pace").inputs[0].value == 10


def test_one_long_stop_is_no_pace():
    told = running()
    for place, number in enumerate(told.job.order[:6]):
        hour = 7 if place < 5 else 15
        told.says(ItemRun, number=number, at=f"2026-05-02T{hour:02}:{2 * place:02}:00+02:00")
    assert figure(told.job, "pace").value == 120


def test_the_time_to_depth_is_the_pace_times_the_joints_still_needed():
    hole = replace(setup().hole, casing_point=read("300 ft", "length"))
    told = running(plan=setup(hole=hole))
    for minute, number in enumerate(told.job.order[:4]):
        told.says(ItemRun, number=number, at=f"2026-05-02T07:{3 * minute:02}:00+02:00")
    still, needed, left = 30000 - (told.job.length - 322), 0, iter(told.job.order[4:])
    while still > 0:
        number = next(left)
        still -= told.job.items[number].length
        needed += number.isdigit()
    assert figure(told.job, "time_to_depth").value == 180 * needed
    assert figure(landed().job, "time_to_depth").missing == "The string is on depth."


def test_without_enough_pipe_no_time_to_depth_is_told():
    told = running()
    for minute, number in enumerate(told.job.order[:4]):
        told.says(ItemRun, number=number, at=f"2026-05-02T07:{3 * minute:02}:00+02:00")
    missing = "The pipe listed does not reach the casing point."
    assert figure(told.job, "time_to_depth").missing == missing


def test_what_is_installed_stands_beside_what_is_wanted():
    plan = setup(programme=(Rule(what="bow", joints=(1, 2)),))
    told = running("S1", plan=plan)
    told.says(ItemRun, number="1", fittings=(Fitting("bow"), Fitting("scratcher")))
    made = figure(told.job, "fittings_installed")
    assert made.value == 2
    assert [(one.name, one.value, one.origin) for one in made.inputs] == [
        ("items run", 2, READ),
        ("bow, installed", 1, READ),
        ("scratcher, installed", 1, READ),
        ("bow, wanted so far", 1, CALCULATED),
    ]


@pytest.mark.parametrize(
    ("key", "missing"),
    [
        ("shoe_depth", "Nothing is run yet."),
        ("collar_depth", "No collar is in the string yet."),
        ("mean_joint", "No joint is run yet."),
        ("pace", "Two items with their times are wanted for a pace."),
        ("item_capacity", "Nothing is run yet."),
        ("shoe_track_volume", "No collar is in the string yet."),
        ("annulus_volume", "Nothing is run yet."),
        ("displacement_to_collar", "No pipe is run above the collar yet."),
    ],
)
def test_what_is_missing_is_said_before_anything_is_run(key, missing):
    assert figure(running().job, key).missing == missing


def test_with_no_joint_counted_in_nobody_says_how_many_to_go():
    told = Telling()
    told.says(SetUp, setup=setup())
    assert figure(told.job, "joints_to_go").missing == "No joint is counted in yet."


@pytest.mark.parametrize("key", sorted(catalogue()))
def test_without_a_set_up_every_figure_says_so(key):
    assert figure(EMPTY, key).missing == "The job is not set up yet."


def test_a_figure_that_is_not_there():
    with pytest.raises(InputError, match="There is no figure 'luck'; `shoedown figures` lists"):
        figure(EMPTY, "luck")
