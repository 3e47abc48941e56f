"""The string on depth, and the string hung off."""

from dataclasses import replace

import pytest

from tally.job.depths import shoe_depth
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.setup import Rule
from tally.units import read
from tests.tally.job.invented import LEAD, Telling, landed, running, setup

LOAD = read("170 klbf", "force")


def full(**plan):
    """Return a job with everything in the string."""
    return Telling().starts(setup(**plan)).runs()


def test_the_count_agrees_and_the_final_depths_are_known():
    job = full().says(OnDepth, stick_up=400, counted=0, typed="4.00")
    assert (job.landing.stick_up, job.landing.counted, job.landing.by) == (400, 0, LEAD)
    assert shoe_depth(job) == 48893 - 400
    assert job.exceptions == ()


def test_a_rack_that_does_not_agree_blocks_it_until_somebody_gives_a_reason():
    told = full()
    assert told.asks(OnDepth, stick_up=322, counted=1) == (
        "1 joint counted on the rack, 0 by the book: +1."
    )
    job = told.says(OnDepth, stick_up=322, counted=1, despite="one of another rig")
    assert job.landing.reason == "one of another rig"
    assert [each.what for each in job.open_exceptions()] == [
        "On depth: 1 joint counted on the rack, 0 by the book: +1. Accepted: one of another rig."
    ]


def test_what_is_not_installed_is_named_too():
    programme = (Rule(what="bow centralizer", joints=(1, 2)), Rule(what="scratcher", joints=(2,)))
    asked = full(programme=programme).asks(OnDepth, stick_up=322, counted=0)
    assert asked == (
        "Not installed as programmed: bow centralizer mid-joint on 1, "
        "bow centralizer mid-joint on 2, scratcher mid-joint on 2."
    )


def test_a_long_list_of_what_is_missing_is_cut_and_counted():
    programme = (Rule(what="bow", joints=tuple(range(1, 11))),)
    asked = full(programme=programme).asks(OnDepth, stick_up=322, counted=0)
    assert asked.endswith("bow mid-joint on 3, bow mid-joint on 4 and 6 more.")


def test_a_balance_that_is_out_is_named():
    told = full()
    told.job = replace(told.job, received_length=told.job.received_length + 7)
    assert told.asks(OnDepth, stick_up=322, counted=0) == (
        "The balance is out by +0 joints and -0.07 ft."
    )


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (
            {"stick_up": -1, "counted": 0},
            "Stick-up -0.01 ft is not between nothing and the length of the string, 488.93 ft; "
            "type it again.",
        ),
        (
            {"stick_up": 48893, "counted": 0},
            "Stick-up 488.93 ft is not between nothing and the length of the string, 488.93 ft; "
            "type it again.",
        ),
        ({"stick_up": 322, "counted": -1}, "Type how many joints are left on the rack."),
    ],
)
def test_a_landing_that_cannot_be_is_refused(told, said):
    assert full().refuses(OnDepth, **told) == said


def test_a_shoe_below_the_hole_is_refused():
    shallow = replace(setup().hole, depth=read("480 ft", "length"))
    hung = running(plan=setup(hole=shallow)).runs(despite="entered late")
    said = hung.refuses(OnDepth, stick_up=322, counted=0)
    assert said == (
        "The shoe would be at 485.71 ft, below the hole at 480 ft; "
        "check the count of joints, the stick-up and the hole depth."
    )


def test_a_shoe_a_joint_off_the_casing_point_is_asked_about():
    told = running("S1", "1", "2", "C1", "3")
    assert told.asks(OnDepth, stick_up=322, counted=9).startswith("The shoe is at ")


def test_nothing_lands_before_something_is_run_or_twice():
    nothing = "Nothing is run yet; the string cannot be on depth."
    assert Telling().refuses(OnDepth, stick_up=0, counted=0) == nothing
    assert running().refuses(OnDepth, stick_up=0, counted=0) == nothing
    assert full().lands().refuses(OnDepth, stick_up=322, counted=0) == (
        "The string is on depth already, since entry 17."
    )


def test_hung_off_is_an_entry_of_its_own():
    job = landed().says(HungOffAt, load=LOAD, how="slips")
    assert (job.hung_off.load, job.hung_off.how) == (LOAD, "slips")


def test_nothing_is_hung_off_before_it_is_on_depth_or_twice():
    assert full().refuses(HungOffAt, load=LOAD) == (
        "The string is not on depth yet; enter that first."
    )
    told = landed()
    told.says(HungOffAt, load=LOAD)
    assert told.refuses(HungOffAt, load=LOAD) == ("The string is hung off already, since entry 26.")


def test_they_say_what_happened():
    told = Telling()
    assert told.makes(OnDepth, stick_up=322, counted=1, typed="3.22 ft").said() == (
        "on depth, stick-up 3.22 ft, 1 joint counted on the rack"
    )
    assert told.makes(OnDepth, stick_up=322, counted=3).said() == (
        "on depth, 3 joints counted on the rack"
    )
    assert told.makes(HungOffAt, load=LOAD).said() == "hung off with 170 klbf"
    assert told.makes(HungOffAt, load=LOAD, how="slips").said() == "hung off with 170 klbf, slips"
