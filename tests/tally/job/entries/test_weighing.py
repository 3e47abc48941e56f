"""The weight on the indicator as it was read."""

from tally.job.entries.weighing import WeightRead
from tally.job.weight_band import expected_then
from tally.units import read
from tests.tally.job.invented import Telling, limits, running, weighed


def force(text: str):
    return read(text, "force")


def test_a_reading_is_kept_with_the_shoe_depth_of_its_moment():
    told = running("S1", "1")
    told.says(WeightRead, slack_off=force("46 klbf"), pick_up=force("47 klbf"))
    told.runs("2")
    job = told.says(WeightRead, hanging=force("48 klbf"))
    assert [one.shoe for one in job.weighed] == [195 + 4007 - 322, 195 + 4007 + 4014 - 322]
    assert [bool(one.pick_up) for one in job.weighed] == [True, False]


def test_it_wants_pipe_and_a_weight_and_asks_where_down_is_above_up():
    assert Telling().refuses(WeightRead, hanging=force("48 klbf")).startswith("Nothing is run")
    told = running("S1", "1")
    assert told.refuses(WeightRead).startswith("Type at least one weight")
    assert told.asks(WeightRead, slack_off=force("48 klbf"), pick_up=force("47 klbf")) == (
        "Going down, 48 klbf, is more than coming up, 47 klbf; check which is which."
    )


def test_said_in_words():
    read_so = WeightRead(by="a", at="b", slack_off=force("46 klbf"), hanging=force("46.5 klbf"))
    assert read_so.said() == "weight on the indicator down 46 klbf, at rest 46.5 klbf"


def test_a_weight_going_down_beyond_its_limit_asks_and_stays_an_open_exception():
    told = running("S1", "1", "2", plan=weighed(limits=limits(weight_difference="10 klbf")))
    job = told.says(WeightRead, slack_off=force("47 klbf"))
    expected = expected_then(job, job.weighed[-1])
    assert abs(expected.slack_off - force("47 klbf").value) < force("10 klbf").value
    question = told.asks(WeightRead, slack_off=force("70 klbf"))
    assert question.startswith("Going down, 70 klbf was read and 46 klbf is expected; the limit")
    told.says(WeightRead, slack_off=force("70 klbf"), despite="gauge sticks")
    (only,) = told.job.open_exceptions()
    assert only.what == f"{question} Entered all the same: gauge sticks."
    assert len(told.job.weighed) == 2
