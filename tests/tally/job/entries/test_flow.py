"""The flow check, when it is due, and what follows from what it shows."""

import pytest

from tally.job.entries.flow import FlowChecked
from tally.job.entries.running import ItemRun
from tally.job.entries.watching import TankRead
from tally.job.flow import flow_check_due
from tally.units import read
from tests.tally.job.invented import Telling, running

FIVE = read("5 min", "time")


def test_it_is_due_with_the_joint_that_leaves_the_old_shoe_until_it_is_made():
    told = running("S1", "1", "2")  # the shoe at 1.95 + 40.07 + 40.14 - 3.22, then C1 with 1.52
    assert flow_check_due(told.job) == ""
    told.runs("C1")  # joint 3 with 40.21 brings it to 120.67, past 120
    assert flow_check_due(told.job) == "at the old shoe: flow check, o"
    told.says(FlowChecked, state="no flow", time=FIVE)
    assert flow_check_due(told.job) == ""
    told.runs("3", "4", "5", "6")
    assert flow_check_due(told.job) == ""
    assert told.job.exceptions == ()


def test_one_made_high_above_the_old_shoe_does_not_count_for_it():
    told = running("S1")
    told.says(FlowChecked, state="no flow", time=FIVE)
    told.runs("1", "2", "C1")
    assert flow_check_due(told.job)


def test_a_gain_or_a_loss_calls_for_one():
    told = running("S1")
    told.says(TankRead, volume=read("10 bbl", "volume"))
    told.runs("1")
    told.says(TankRead, volume=read("16 bbl", "volume"), despite="seen")
    assert flow_check_due(told.job) == "GAIN of 2.4 bbl: flow check, o"
    told.says(FlowChecked, state="no flow", time=FIVE)
    assert flow_check_due(told.job) == ""
    told.runs("2")
    told.says(TankRead, volume=read("18 bbl", "volume"), despite="seen")
    assert flow_check_due(told.job) == "LOSS of 1.6 bbl: flow check, o"


@pytest.mark.parametrize("state", ["flows", "takes mud"])
def test_a_well_that_is_not_quiet_stays_in_sight_and_stops_the_pipe(state):
    told = running("S1", "1")
    told.says(FlowChecked, state=state, time=FIVE, note="slowly")
    (only,) = told.job.open_exceptions()
    assert only.what == f"Flow check with the shoe at 38.80 ft: the well {state} (slowly)."
    assert f"The well {state} by the flow check of 06:0" in told.asks(ItemRun, number="2")
    told.says(FlowChecked, state="no flow", time=FIVE)
    told.runs("2")
    assert told.job.open_exceptions() == (only,), "somebody has to answer for it"


def test_nothing_else_is_taken():
    told = running("S1")
    assert told.refuses(FlowChecked, state="fine", time=FIVE) == (
        "'fine' is nothing that a flow check shows; say no flow, flows, takes mud."
    )
    assert "no time of a flow check" in told.refuses(
        FlowChecked, state="no flow", time=read("0 min", "time")
    )
    assert "not set up yet" in Telling().refuses(FlowChecked, state="no flow", time=FIVE)
    made = told.makes(FlowChecked, state="no flow", time=FIVE, note="old shoe")
    assert made.said() == "flow check, 5 min: no flow (old shoe)"
