"""Pipe that comes on location and leaves it."""

import pytest

from tally.job.counts import Share, balance
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.running import Rejected
from tests.tally.job.invented import Telling, arrivals, length_of, running


def joint(number="31", length=4100, **told):
    """Return one joint as it was counted in."""
    return Arrival(number=number, length=length, typed="41.00", **told)


def test_joints_received_are_on_the_rack_and_on_location():
    job = Telling().starts(joints=3).job
    assert [job.items[n].state for n in ("1", "2", "3")] == ["on rack"] * 3
    assert {job.items[n].received for n in ("1", "2", "3")} == {2}
    total = length_of(1) + length_of(2) + length_of(3)
    assert (job.received, job.received_length) == (3, total)
    assert balance(job).on_location == balance(job).left == Share(3, total)


def test_other_pieces_are_received_without_being_counted_as_joints():
    told = Telling().starts(joints=2)
    job = told.says(Received, items=(joint("P1", 1008, kind="pup"), joint("9")))
    assert job.received == 3
    assert job.items["P1"].kind == "pup"


@pytest.mark.parametrize(
    ("items", "said"),
    [
        ((), "There is no item in the list; nothing was counted in."),
        ((joint("1"),), "Number 1 is in the book already; a number is used only once."),
        ((joint("C1"),), "Number C1 is in the book already; a number is used only once."),
        ((joint(), joint()), "Number 31 is in the book already; a number is used only once."),
        ((joint(length=0),), "Number 31 has no length; measure it before it is counted in."),
        ((joint(length=-4100),), "Number 31 has no length; measure it before it is counted in."),
        (
            (joint(length=10**9),),
            "Number 31 is longer than any well; look at its length and unit.",
        ),
        ((joint(" "),), "An item has no number; every item needs one of its own."),
        ((joint(pipe="7 29"),), "Number 31 is of the pipe '7 29'; the job has 9-5/8 47."),
        (
            (joint(kind="tubing"),),
            "Number 31 is of the kind 'tubing'; the kinds are joint, shoe, collar, pup, "
            "crossover, marker, hanger, landing joint.",
        ),
    ],
)
def test_a_list_that_does_not_fit_is_refused(items, said):
    assert Telling().starts(joints=2).refuses(Received, items=items) == said


def test_nothing_is_received_before_the_job_is_set_up():
    said = Telling().refuses(Received, items=(joint(),))
    assert said == "The job is not set up yet; set it up before pipe is counted in."


def test_a_joint_sent_away_leaves_the_count():
    told = running("S1", "1")
    job = told.says(SentAway, number="5", reason="bent in the slings")
    assert (job.items["5"].state, job.items["5"].reason) == ("sent away", "bent in the slings")
    assert job.received == 11
    assert balance(job).agrees
    assert balance(job).left.count == 10


def test_a_rejected_joint_may_be_sent_away_too():
    told = running()
    told.says(Rejected, number="5", reason="drift")
    job = told.says(SentAway, number="5", reason="back to the yard")
    assert balance(job).rejected.count == 0
    assert balance(job).agrees


def test_a_piece_sent_away_leaves_the_count_of_joints_alone():
    job = running().says(SentAway, number="C1", reason="wrong thread")
    assert job.received == 12
    assert balance(job).agrees


@pytest.mark.parametrize(
    ("number", "reason", "said"),
    [
        (
            "99",
            "bent",
            "There is no item 99 in the book; receive it first or check the number.",
        ),
        ("1", "bent", "Item 1 is in the string; it cannot be sent away."),
        ("5", "", "Say why item 5 is sent away."),
        ("5", "   ", "Say why item 5 is sent away."),
    ],
)
def test_what_cannot_be_sent_away_is_refused(number, reason, said):
    assert running("S1", "1").refuses(SentAway, number=number, reason=reason) == said


def test_nothing_is_sent_away_twice():
    told = running()
    told.says(SentAway, number="5", reason="bent")
    said = told.refuses(SentAway, number="5", reason="bent")
    assert said == "Item 5 was sent away already (bent)."


def test_they_say_what_happened():
    told = Telling()
    two = told.makes(Received, items=arrivals(1, 2), source="truck 4")
    assert two.said() == "2 items received (1 to 2) from truck 4"
    assert told.makes(Received, items=arrivals(7, 7)).said() == "1 item received (7)"
    assert told.makes(Received, items=()).said() == "0 items received"
    assert told.makes(SentAway, number="7", reason="bent").said() == "7 sent away (bent)"
