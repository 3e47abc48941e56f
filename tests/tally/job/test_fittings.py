"""What the programme wants on each joint, and what is missing."""

from dataclasses import replace

import pytest

from tally.job.centralizing import is_centralizer
from tally.job.entries.running import ItemRun
from tally.job.fittings import due_next, due_on, installed, missing, missing_on, usual, wanted
from tally.job.job import Fitting
from tally.job.setup import Rule
from tests.tally.job.centred import BOW as BOW_DATA
from tests.tally.job.invented import running, setup

PROGRAMME = (
    Rule(what="bow", joints=(1, 2, 4), position="mid-joint"),
    Rule(what="stop collar", joints=(1,), position="10 ft above the pin", count=2),
)
BOW = Fitting("bow", "mid-joint")
TWO = Fitting("stop collar", "10 ft above the pin", 2)


def told(*numbers):
    """Return a job with this programme."""
    return running(*numbers, plan=setup(programme=PROGRAMME))


def test_joints_are_counted_from_the_shoe_and_pieces_are_none():
    assert due_on(told().job, 1) == (BOW, TWO)
    assert due_on(told().job, 3) == ()
    assert due_next(told().job) == (), "the shoe is next"
    assert due_next(told("S1").job) == (BOW, TWO)
    assert due_next(told("S1", "1", "2").job) == (), "the collar is next"


def test_what_is_installed_is_counted_piece_by_piece():
    one = told("S1")
    one.says(ItemRun, number="1", fittings=(BOW, TWO))
    one.says(ItemRun, number="2", fittings=(BOW,))
    assert installed(one.job) == {"bow": 2, "stop collar": 2}
    assert wanted(one.job) == {"bow": 2, "stop collar": 2}
    assert missing(one.job) == ""


def test_what_is_missing_is_named_with_its_joint():
    one = told("S1")
    one.says(ItemRun, number="1", fittings=(BOW, Fitting("stop collar")))
    one.says(ItemRun, number="2")
    assert missing_on(one.job) == (
        (1, "1", Fitting("stop collar", "10 ft above the pin", 1)),
        (2, "2", BOW),
    )
    assert missing(one.job) == (
        "Not installed as programmed: stop collar 10 ft above the pin on 1, bow mid-joint on 2."
    )


def test_more_than_wanted_is_not_missing():
    one = told("S1")
    one.says(ItemRun, number="1", fittings=(Fitting("bow", "low", 3), TWO))
    assert missing(one.job) == ""


def test_the_joint_counts_not_its_number():
    one = told("S1", "1")
    one.says(ItemRun, number="7", fittings=(), despite="joint 2 not ready")
    assert missing_on(one.job)[-1] == (2, "7", BOW)


def test_one_more_is_what_stands_among_the_centralizers_whatever_its_name():
    lines = (Rule(what="basket", joints=(1,)), Rule(what="bow", joints=(2,), centralizer=True))
    assert usual(running(plan=setup(programme=lines)).job) == Fitting("bow", "mid-joint")
    unmarked = (lines[0], Rule(what="bow", joints=(2,)))
    assert usual(running(plan=setup(programme=unmarked)).job) == Fitting("basket", "mid-joint")
    known = setup(programme=unmarked, centralizers=(replace(BOW_DATA, what="bow"),))
    assert usual(running(plan=known).job) == Fitting("bow", "mid-joint")


@pytest.mark.parametrize("name", ["Rigid Centralizer", "bow centraliser", "Solid  ring", "vane"])
def test_a_centralizer_is_known_by_name_programme_or_data(name):
    plan = setup(
        programme=(Rule(what="solid ring", joints=(1,), centralizer=True),),
        centralizers=(replace(BOW_DATA, what="vane"),),
    )
    assert is_centralizer(plan, name)
    assert not is_centralizer(plan, "scratcher")
    assert not is_centralizer(setup(), "vane")
