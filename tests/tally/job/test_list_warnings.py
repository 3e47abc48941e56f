"""What is doubtful in a running list."""

from dataclasses import replace

import pytest

from tally.job.entries.pipe import Received
from tally.job.entries.rack import Checked
from tally.job.entries.running import Rejected
from tally.job.list_warnings import differences, list_warnings
from tally.job.running_list import RunningList, drafted
from tally.job.setup import Planned
from tally.units import read
from tests.tally.job.invented import ORDER, Telling, arrivals, landed, pipe, running, setup

LIGHT = pipe("9-5/8 40", "8.835 in", "40 lb/ft")


def told_of(job, *order, aside=()):
    """Return what is told of an order."""
    return [warning.text for warning in list_warnings(drafted(job, RunningList(order, (), aside)))]


def test_nothing_is_told_of_a_good_list():
    assert list_warnings(running().job) == ()
    assert list_warnings(running("S1", "1").job) == ()


def test_a_number_twice_and_numbers_that_never_came_are_told():
    job = running().job
    assert told_of(job, *ORDER, "12") == ["12 stands 2 times in the list."]
    assert told_of(job, *ORDER, "77") == ["77 was never received."]
    assert told_of(job, *ORDER, "77", "78", "79") == ["77-79 were never received."]


def test_what_is_no_longer_on_the_rack_is_told():
    told = running()
    told.says(Rejected, number="4", reason="drift")
    assert "4 is no longer on the rack and is passed over." in told_of(told.job, *ORDER)


def test_shoe_first_and_a_collar_are_wanted():
    job = running().job
    assert told_of(job, "1", "S1", *ORDER[2:]) == [
        "The list starts with joint 1, not with a shoe.",
        "The shoe S1 is not at the start of the list.",
    ]
    without = tuple(number for number in ORDER if number != "C1")
    assert told_of(job, *without) == ["There is no collar in the list; the plugs land on one."]


def mixed(*pieces):
    plan = setup(pipes=(pipe(), LIGHT), items=(*setup().items, *pieces))
    told = Telling().starts(plan, 6)
    told.says(Received, items=arrivals(7, 12, pipe=LIGHT.name))
    return told


def test_a_change_of_weight_without_a_crossover_is_told_at_the_upper_joint():
    (warning,) = list_warnings(mixed().job)
    assert warning.number == "7"
    assert warning.text == (
        "Weight 47 lb/ft to 40 lb/ft changes between 6 and 7 without a crossover."
    )


def test_a_crossover_between_them_settles_it():
    crossover = Planned(number="X1", kind="crossover", length=300, typed="3.00")
    order = (*ORDER[:8], "X1", *ORDER[8:])
    assert told_of(mixed(crossover).job, *order) == []


def test_a_piece_whose_pipe_nobody_named_hides_no_change():
    marker = Planned(number="M1", kind="marker", length=300, typed="3.00")
    order = (*ORDER[:8], "M1", *ORDER[8:])
    assert len(told_of(mixed(marker).job, *order)) == 1


def test_a_change_that_is_in_the_string_already_is_not_told_again():
    told = mixed().runs(*ORDER[:9])
    assert list_warnings(told.job) == ()


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"weight": read("47.00 lb/ft", "mass per length")}, []),
        ({"grade": "P-110"}, ["grade L-80 to P-110"]),
        ({"grade": ""}, []),
        ({"grade": "l-80"}, []),
        ({"connection": "round thread"}, ["thread buttress to round thread"]),
        ({"outer_diameter": read("10-3/4 in", "diameter")}, ["size 9 5/8 in to 10 3/4 in"]),
    ],
)
def test_size_weight_grade_and_thread_are_held_against_each_other(changed, said):
    one = replace(pipe(), grade="L-80", connection="buttress")
    assert list(differences(one, replace(one, **changed))) == said


def test_a_joint_that_failed_a_check_is_told_while_it_is_to_be_run():
    told = running("S1")
    told.says(Checked, what="thread", passed=False, numbers=("1", "5"))
    told.runs("1", despite="chased")
    assert [one.text for one in list_warnings(told.job)] == ["5 is in the list and failed thread."]


def test_a_piece_above_the_casing_point_is_told():
    marker = Planned(number="M1", kind="marker", length=300, typed="3.00")
    hole = replace(setup().hole, casing_point=read("300 ft", "length"))
    told = running(plan=setup(hole=hole, items=(*setup().items, marker), order=(*ORDER, "M1")))
    assert [one.text for one in list_warnings(told.job)] == [
        "The list reaches the casing point before the marker M1 goes in."
    ]


def test_a_list_that_lacks_a_joint_or_more_is_told_and_less_is_not():
    job = running().job
    assert told_of(job, *ORDER[:-1], aside=("12",)) == [
        "The list ends 41.13 ft short of the casing point."
    ]
    near = replace(job.known.hole, casing_point=read("526 ft", "length"))
    assert told_of(replace(job, setup=replace(job.known, hole=near)), *ORDER) == []


def test_nothing_is_told_before_the_set_up_or_once_the_string_is_on_depth():
    assert list_warnings(Telling().job) == ()
    assert list_warnings(landed().job) == ()
