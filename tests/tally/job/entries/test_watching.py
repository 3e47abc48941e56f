"""The trip tank as read, and what is put into the pipe."""

import pytest

from tally.job.entries.running import LaidDown, PulledOut
from tally.job.entries.watching import Filled, TankRead
from tally.job.volumes import capacity, filled
from tally.units import from_unit, read
from tests.tally.job.invented import Telling, closed_end, limits, running, setup
from tests.tally.job.second_opinion import BORE, bbl

ONE_BARREL = from_unit(1, "bbl")


def volume(text):
    """Return a volume."""
    return read(text, "volume")


def test_the_first_reading_is_the_mark_the_total_counts_from():
    told = running("S1")
    told.says(TankRead, volume=volume("10 bbl"))
    told.says(TankRead, volume=volume("10.9 bbl"))
    job = told.says(TankRead, volume=volume("4 bbl"), mark=True)
    assert [level.mark for level in job.tank] == [True, False, True]
    assert [level.items for level in job.tank] == [1, 1, 1]


def test_the_tank_is_not_read_before_the_job_is_set_up():
    assert Telling().refuses(TankRead, volume=volume("1 bbl")) == (
        "The job is not set up yet; the trip tank is read after that."
    )


def test_without_a_volume_the_pipe_is_filled_to_the_top():
    job = running("S1", "1").says(Filled, source="active pit")
    assert filled(job) == pytest.approx(capacity(job))
    assert job.fills[0].volume / ONE_BARREL == pytest.approx(float(bbl(BORE * (195 + 4007))))


def test_a_fill_is_added_to_what_stands_in_the_pipe():
    told = running("S1", "1")
    told.says(Filled, source="active pit", volume=volume("1 bbl"))
    job = told.says(Filled, source="trip tank", volume=volume("0.5 bbl"))
    assert filled(job) / ONE_BARREL == pytest.approx(1.5)


def test_more_than_the_pipe_takes_is_asked_about_and_what_is_over_ran_over():
    told = running("S1", "1")
    assert told.asks(Filled, source="active pit", volume=volume("9 bbl")) == (
        "9 bbl is more than the pipe still takes, 3.1 bbl; check the volume."
    )
    told.says(Filled, source="active pit", volume=volume("9 bbl"), despite="ran over")
    assert filled(told.job) == pytest.approx(capacity(told.job))
    assert told.job.fills[0].volume / ONE_BARREL == pytest.approx(9)
    before = filled(told.job)
    told.runs("2")
    assert filled(told.job) == pytest.approx(before), "what ran over is not in the next joint"


def test_a_measured_volume_hardly_above_the_calculated_room_is_not_asked_about():
    job = running("S1", "1").says(Filled, source="active pit", volume=volume("3.1 bbl"))
    assert filled(job) == pytest.approx(capacity(job))


@pytest.mark.parametrize("taken_off", [PulledOut, LaidDown])
def test_the_mud_in_an_item_taken_off_is_lost(taken_off):
    told = running("S1", "1", "2")
    told.says(Filled, source="active pit")
    told.says(taken_off, number="2", reason="thread")
    stands = capacity(told.job)
    assert filled(told.job) == pytest.approx(stands)
    told.runs("2" if taken_off is PulledOut else "3", despite="next")
    assert filled(told.job) == pytest.approx(stands)


def test_an_item_above_the_mud_takes_none_with_it():
    told = running("S1", "1", "2")
    told.says(Filled, source="active pit", volume=volume("2 bbl"))
    told.says(PulledOut, number="2")
    assert filled(told.job) / ONE_BARREL == pytest.approx(2)


def test_what_cannot_be_filled_is_refused():
    assert running().refuses(Filled, source="active pit") == (
        "Nothing is run yet; there is no pipe to fill."
    )
    assert running("S1").refuses(Filled, source="sea") == (
        "'sea' is no source of fill; say active pit or trip tank."
    )
    told = running("S1", plan=setup(filling=closed_end(False)))
    assert told.refuses(Filled, source="active pit") == (
        "The pipe runs in with an open end and fills itself; no fill is counted."
    )
    assert filled(told.job) == capacity(told.job)


def test_they_say_what_happened():
    told = Telling()
    assert told.makes(TankRead, volume=volume("9 bbl")).said() == "trip tank 9 bbl"
    assert told.makes(TankRead, volume=volume("9 bbl"), mark=True, since="the old shoe").said() == (
        "trip tank 9 bbl, a new mark, the total counts from the old shoe"
    )
    assert told.makes(Filled, source="trip tank").said() == "filled to the top from the trip tank"
    assert told.makes(Filled, source="active pit", volume=volume("3 bbl")).said() == (
        "filled 3 bbl from the active pit"
    )


def test_a_reading_outside_its_limit_asks_and_stays_an_open_exception():
    told = running("S1")
    told.says(TankRead, volume=volume("10 bbl"))
    told.runs("1")  # the pipe pushes out 3.6 bbl
    question = told.asks(TankRead, volume=volume("15.1 bbl"))
    assert question == (
        "The trip tank shows a gain of 1.5 bbl since the reading before; the limit is 1.0 bbl. "
        "Check the flow."
    )
    told.says(TankRead, volume=volume("15.1 bbl"), despite="line emptied late")
    (only,) = told.job.open_exceptions()
    assert only.what == f"{question} Entered all the same: line emptied late."
    told.runs("2")
    assert "a loss of 1.6 bbl" in told.asks(TankRead, volume=volume("17.1 bbl"))
    told.says(TankRead, volume=volume("18.7 bbl"))
    assert told.job.open_exceptions() == (only,)


def test_a_total_outside_its_limit_asks_once_and_a_reading_without_a_limit_never():
    plan = setup(limits=limits(tank_difference="", tank_total="2 bbl"))
    told = running("S1", plan=plan)
    told.says(TankRead, volume=volume("10 bbl"))
    asked = []
    for number in ("1", "2", "3"):
        told.runs("C1", despite="now") if number == "3" else None
        told.runs(number)
        level = volume(f"{10 + 5 * int(number)} bbl")
        entry = told.makes(TankRead, volume=level)
        asked.append(entry.ask(told.job))
        told.says(TankRead, volume=level, despite="seen" if asked[-1] else "")
    assert [bool(each) for each in asked] == [False, True, False]
    assert "since the first reading; the limit is 2.0 bbl" in asked[1]
    assert len(told.job.exceptions) == 1


def test_a_new_mark_asks_nothing_and_an_older_entry_without_a_reason_is_left_as_it_was():
    told = running("S1")
    told.says(TankRead, volume=volume("10 bbl"))
    told.runs("1")
    assert told.makes(TankRead, volume=volume("4 bbl"), mark=True).ask(told.job) == ""
    stored = told.makes(TankRead, volume=volume("4 bbl"))
    assert stored.apply(told.job).exceptions == ()
