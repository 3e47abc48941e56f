"""The counts that must agree, and what comes next."""

from dataclasses import replace

from tally.job.counts import Share, balance, coming, missing_from_order, next_item
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.running import LaidDown, PulledOut, Rejected
from tests.tally.job.invented import Telling, length_of, running, setup


def test_each_joint_is_in_one_share_by_count_and_by_length():
    told = running("S1", "1", "2", "C1", "3")
    told.says(LaidDown, number="3", reason="thread")
    told.says(Rejected, number="4", reason="drift")
    sums = balance(told.job)
    assert sums.on_location == Share(12, sum(map(length_of, range(1, 13))))
    assert sums.run == Share(2, length_of(1) + length_of(2))
    assert sums.laid_down == Share(1, length_of(3))
    assert sums.rejected == Share(1, length_of(4))
    assert sums.left == Share(8, sum(map(length_of, range(5, 13))))
    assert sums.agrees
    assert sums.difference == Share(0, 0)


def test_a_slip_in_one_count_shows_as_a_difference():
    job = running("S1", "1").job
    lost = replace(job, string=job.string[:1])
    assert balance(lost).difference == Share(-1, -length_of(1))
    assert not balance(lost).agrees
    longer = replace(job, received_length=job.received_length - 1)
    assert balance(longer).difference == Share(0, 1)
    assert not balance(longer).agrees


def test_what_comes_next_is_in_the_running_order():
    told = running("S1", "1")
    assert [item.number for item in coming(told.job)][:4] == ["2", "C1", "3", "4"]
    told.says(Rejected, number="2", reason="drift")
    assert next_item(told.job).number == "C1"


def test_what_goes_back_on_the_rack_has_its_turn_again():
    told = running("S1", "1", "2", "C1", "3")
    assert next_item(told.job).number == "4"
    told.says(PulledOut, number="3", reason="thread")
    assert next_item(told.job).number == "3"
    told.runs("3", "4")
    turned = replace(told.job, order=("9", *told.job.order))
    assert next_item(turned).number == "9"


def test_joints_that_the_order_leaves_out_come_last_and_pieces_never():
    told = Telling().starts(setup(order=("S1", "2", "C1")), joints=3)
    told.says(Received, items=(Arrival(number="P1", length=900, typed="9", kind="pup"),))
    assert [item.number for item in coming(told.job)] == ["S1", "2", "C1", "1", "3"]


def test_with_nothing_left_nothing_is_next():
    assert next_item(running().runs().job) is None


def test_numbers_of_the_order_that_never_came():
    told = Telling().starts(joints=10)
    assert missing_from_order(told.job) == ("11", "12")
    assert [item.number for item in coming(told.job)][-1] == "10"
